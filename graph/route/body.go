package route

import (
	"fmt"

	"dryfit/graph"
	"dryfit/graph/settle"
)

// Existing names, as Joint.BodyA and BodyB do, the body of everything that is there already
// and can't be moved.
const Existing = "existing"

// BodyAt names the rigid body that the socket at a port belongs to, as Joint.BodyA and
// BodyB do: Existing for what is there already.
func (lay *Layout) BodyAt(p *graph.Part, port string) string {
	return BodyOf(lay.Stage.Part(p.ID), port, lay.Stage.RunAt(p.ID, port))
}

// BodyOf names the rigid body that the socket at a port of a part belongs to, where a run meets it; nil:
// none does. A port that opens has a tail of its own, joined to the part by its nut: of an old part too,
// where the run is new, for the old nut can be undone.
func BodyOf(p *settle.Part, port string, run *settle.Run) string {
	switch {
	case p.OpensAt(port) && (!p.Existing || run != nil && run.New() && !run.Keeps(graph.PortRef{Part: p.ID, Port: port})):
		return TailBody(p.Part, port)
	case p.Existing:
		return Existing
	}
	return PartBody(p.Part)
}

// TailBody names the tail of a port that opens.
func TailBody(p *graph.Part, port string) string { return "tail " + p.ID + "." + port }

// PartBody names a part, of one that opens what lies between its tails.
func PartBody(p *graph.Part) string { return "part " + p.ID }

// FittingBody names a fitting, by the indexes of its path and in that path's Fittings.
func FittingBody(run, fitting int) string { return fmt.Sprintf("fitting %d/%d", run, fitting) }

// PieceBody names a piece, by its index in Layout.Pieces.
func PieceBody(piece int) string { return fmt.Sprintf("piece %d", piece) }

// TiedPort returns the first water port of some parts, "part.port", that legs tie to what a group of the layout ties
// together; false where none is.
func (lay *Layout) TiedPort(group int, of func(*graph.Part) bool) (string, bool) {
	for _, p := range lay.Circuit.Parts {
		for _, q := range p.Ports {
			ref := graph.PortRef{Part: p.ID, Port: q.Name}.String()
			if g, tied := lay.Groups[ref]; tied && g == group && !q.Air && of(p) {
				return ref, true
			}
		}
	}
	return "", false
}
