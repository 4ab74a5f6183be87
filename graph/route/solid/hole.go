package solid

import (
	"math"

	"dryfit/graph"
	"dryfit/graph/route"
)

// Hole is where a piece of new pipe goes square through a wall of the cabinet.
type Hole struct {
	Wall      string        // "front", "right side", "floor"
	Piece     int           // number of the piece
	Run       *graph.Run    // that it is of
	At        graph.Vec     // its middle on the inside of the wall, mm from the port the cabinet is counted from
	OutsideMM float64       // of the pipe
	From      graph.PortRef // that port
}

// Holes are the holes that new pipe wants in the walls of the cabinet, in the order of the pieces;
// none where nobody described it. What stands in a wall aslant, or is no pipe, is a clash instead.
func Holes(lay *route.Layout) []Hole {
	low, high, group, ok := room(lay)
	if !ok {
		return nil
	}
	from := lay.Circuit.Cabinet.From
	origin := lay.Positions[from.String()]
	var out []Hole
	for i := range lay.Pieces {
		p := &lay.Pieces[i]
		if g, tied := lay.Groups[p.Run.From.String()]; !tied || g != group {
			continue
		}
		course := lay.Course(p)
		for k := 1; k < len(course); k++ {
			for _, w := range walls {
				if at, through := passes(w, course[k-1], course[k], low, high); through {
					out = append(out, Hole{Wall: w.name, Piece: p.Number, Run: p.Run, At: at.Sub(origin), OutsideMM: lay.Stage.SizeOutside(p.Spec, p.Size), From: from})
				}
			}
		}
	}
	return out
}

// passes is where a straight pipe from a to b goes square through a wall of the room between two
// corners; false where it does not.
func passes(w wall, a, b, low, high graph.Vec) (at graph.Vec, through bool) {
	if math.Abs(b.Sub(a).Unit().Dot(w.way)) < 0.999 {
		return at, false
	}
	plane := max(w.way.Dot(low), w.way.Dot(high)) // the outer of two opposite walls, along its own way
	start, end := w.way.Dot(a), w.way.Dot(b)
	if min(start, end) >= plane-touchMM || max(start, end) <= plane+touchMM {
		return at, false
	}
	at = a.Add(b.Sub(a).Scale((plane - start) / (end - start)))
	return at, overlapsBeside(w.way, at, at, low, high)
}
