package picture

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
// joint, a fitting, the next joint, ….
type stack struct {
	Joints   []*route.Joint
	fittings []*route.Fitting // bushes, reducers, transitions: one between each two joints
	base     float64          // from the end to the first joint, mm on display
}

// Stack returns what stands at the end of a leg: at b if far, else at a.
func (d *Drawing) Stack(m *Member, far bool) stack {
	end, point := m.A, m.Leg
	if far {
		end, point = m.B, m.Leg+1
	}
	if (far && m.CutB != "") || (!far && m.CutA != "") {
		return stack{}
	}
	var s stack
	p := &d.Lay.Paths[m.path]
	s.base = fromNode
	last := point == len(p.Points)-1
	if point == 0 || last {
		ref := p.Run.From
		if last {
			ref = p.Run.To
		}
		if part := d.parts[ref.Part]; part != nil && part.Kind != graph.Tee {
			s.base = 0
		}
	}
	for i := range d.Lay.Joints {
		j := &d.Lay.Joints[i]
		if j.Run == m.Run.ID && j.Located && d.legOf(m, j.At) && !middle(m, j.At) && nearer(m, j.At) == far {
			s.Joints = append(s.Joints, j)
		}
	}
	slices.SortStableFunc(s.Joints, func(a, b *route.Joint) int {
		return cmp.Compare(math.Round(a.At.Sub(end).Len()*10), math.Round(b.At.Sub(end).Len()*10))
	})
	for i := range p.Fittings {
		f := &p.Fittings[i]
		if f.Point == point && standsInLine(f.Kind) {
			s.fittings = append(s.fittings, f)
		}
	}
	return s
}

// standsInLine reports whether a fitting is drawn as a sign on the pipe.
func standsInLine(kind string) bool { return !strings.HasPrefix(kind, "elbow") && kind != "coupling" }

// legOf reports whether a place lies on a leg.
func (d *Drawing) legOf(m *Member, at graph.Vec) bool {
	way, to := m.Way(), at.Sub(m.A)
	t := to.Dot(way.Unit())
	return to.Sub(way.Unit().Scale(t)).Len() < space.SameLevel && t > -space.SameLevel && t < way.Len()+space.SameLevel
}

func share(m *Member, at graph.Vec) float64 {
	way := m.Way()
	return at.Sub(m.A).Dot(way) / way.Dot(way)
}

// nearer reports whether a place on a leg is nearer to b.
func nearer(m *Member, at graph.Vec) bool { return share(m, at) > 0.5 }

// middle reports whether a place on a leg is far from both ends, as a coupling's is.
func middle(m *Member, at graph.Vec) bool {
	t := share(m, at)
	return math.Min(t, 1-t)*m.Way().Len() > 250
}

// Between returns the joints of couplings along a leg, from a on.
func (d *Drawing) Between(m *Member) []*route.Joint {
	var out []*route.Joint
	for i := range d.Lay.Joints {
		if j := &d.Lay.Joints[i]; m.Run != nil && j.Run == m.Run.ID && j.Located && d.legOf(m, j.At) && middle(m, j.At) {
			out = append(out, j)
		}
	}
	slices.SortStableFunc(out, func(a, b *route.Joint) int { return cmp.Compare(share(m, a.At), share(m, b.At)) })
	return out
}
