package members

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/render/isometric/space"
)

// stack is what stands one behind the other at the end of a leg, from the end inwards: a
// joint, a fitting or a short piece, the next joint, ….
type stack struct {
	Joints   []*route.Joint
	Fittings []standing
	Base     float64 // from the end to the first joint, mm on display
}

// standing is a bush, reducer, transition, thread adaptor or barb in a stack.
type standing struct {
	*route.Fitting
	Spot float64 // where it stands, in joints from the first
}

// Stack returns what stands at the end of a leg: at b if far, else at a.
func (d *Drawing) Stack(m *Member, far bool) stack {
	end, point := m.A, m.Leg
	if far {
		end, point = m.B, m.Last+1
	}
	if (far && m.CutB != "") || (!far && m.CutA != "") {
		return stack{}
	}
	var s stack
	p := &d.Lay.Paths[m.Path]
	s.Base = fromNode
	last := point == len(p.Points)-1
	if point == 0 || last {
		ref := p.Run.From
		if last {
			ref = p.Run.To
		}
		if part := d.Parts[ref.Part]; part != nil && part.Kind != graph.Tee {
			s.Base = 0
		}
	}
	for _, j := range d.joints[m.Run.ID] {
		if d.sleeved[j] == "" && d.legOf(m, j.At) && nearer(m, j.At) == far {
			s.Joints = append(s.Joints, j)
		}
	}
	slices.SortStableFunc(s.Joints, func(a, b *route.Joint) int {
		return cmp.Compare(math.Round(a.At.Sub(end).Len()*10), math.Round(b.At.Sub(end).Len()*10))
	})
	for i := range p.Fittings {
		if f := &p.Fittings[i]; f.Point == point && standsInLine(f.Kind) {
			s.Fittings = append(s.Fittings, standing{f, s.spotOf(route.FittingBody(m.Path, i), len(s.Fittings))})
		}
	}
	return s
}

// spotOf is where a fitting stands: between the two joints it has, or beside the one that has a
// place; where neither has, behind as many joints as there are fittings before it.
func (s *stack) spotOf(body string, before int) float64 {
	var at []int
	for k, j := range s.Joints {
		if j.BodyA == body || j.BodyB == body {
			at = append(at, k)
		}
	}
	if len(at) == 0 {
		return float64(before) + 0.5
	}
	return float64(at[0]) + 0.5
}

// Holds returns the spots of a piece's two joints in a stack; false unless both are there.
func (s *stack) Holds(piece *route.Piece) (from, to int, ok bool) {
	at := func(joint int) int {
		return slices.IndexFunc(s.Joints, func(j *route.Joint) bool { return j.Number == joint })
	}
	from, to = at(piece.From.Joint), at(piece.To.Joint)
	return from, to, from >= 0 && to >= 0
}

// standsInLine reports whether a fitting is drawn as a sign on the pipe.
func standsInLine(kind string) bool { return !strings.HasPrefix(kind, "elbow") }

// legOf reports whether a place lies on a leg.
func (d *Drawing) legOf(m *Member, at graph.Vec) bool {
	way, to := m.Way(), at.Sub(m.A)
	t := to.Dot(way.Unit())
	return to.Sub(way.Unit().Scale(t)).Len() < space.SameLevel && t > -space.SameLevel && t < way.Len()+space.SameLevel
}

// Share is how far along a leg a place on it is: 0 at its start, 1 at its end.
func Share(m *Member, at graph.Vec) float64 {
	way := m.Way()
	return at.Sub(m.A).Dot(way) / way.Dot(way)
}

// nearer reports whether a place on a leg is nearer to b.
func nearer(m *Member, at graph.Vec) bool { return Share(m, at) > 0.5 }
