package route

import (
	"fmt"
	"strings"

	"dryfit/catalog"
	"dryfit/graph"
)

// ground is the body of everything that is there already and can't be moved.
const ground = "existing"

// opens reports whether a part can be taken apart at a port without cutting pipe: it is a
// union, or has unions of its own.
func opens(p *graph.Part, port string, row *catalog.Row) bool {
	if p.Kind == graph.Union {
		return true
	}
	return strings.Contains(portEnds(row, port), "union")
}

// bodyOf names the rigid body that the socket at a port belongs to. A port that opens has
// a tail of its own, joined to the part by its nut.
func bodyOf(p *graph.Part, port string, row *catalog.Row) string {
	switch {
	case p.Existing:
		return ground
	case opens(p, port, row):
		return tailOf(p, port)
	}
	return partBody(p)
}

func tailOf(p *graph.Part, port string) string { return "tail " + p.ID + "." + port }
func partBody(p *graph.Part) string            { return "part " + p.ID }

func fittingBody(run, fitting int) string { return fmt.Sprintf("fitting %d/%d", run, fitting) }
func pieceBody(piece int) string          { return fmt.Sprintf("piece %d", piece) }
