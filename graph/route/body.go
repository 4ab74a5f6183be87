package route

import (
	"fmt"

	"dryfit/graph"
	"dryfit/graph/settle"
)

// ground is the body of everything that is there already and can't be moved.
const ground = "existing"

// bodyOf names the rigid body that the socket at a port belongs to. A port that opens has
// a tail of its own, joined to the part by its nut.
func bodyOf(p *settle.Part, port string) string {
	switch {
	case p.Existing:
		return ground
	case p.OpensAt(port):
		return tailOf(p.Part, port)
	}
	return partBody(p.Part)
}

func tailOf(p *graph.Part, port string) string { return "tail " + p.ID + "." + port }
func partBody(p *graph.Part) string            { return "part " + p.ID }

func fittingBody(run, fitting int) string { return fmt.Sprintf("fitting %d/%d", run, fitting) }
func pieceBody(piece int) string          { return fmt.Sprintf("piece %d", piece) }
