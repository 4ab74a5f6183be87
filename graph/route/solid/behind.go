package solid

import (
	"dryfit/graph"
	"dryfit/graph/route"
)

// behind says of which doubts of the layout it is a matter that a body stands in something: where the
// finding of each is. Where something that a known miss moves stands in it however the loop is closed,
// that is none; by number is known what the other thing goes with, and still tells whether the body
// carried off so far stands in it too.
func (s *Bodies) behind(body int, other func(part func(id string) int, leg func(run string, leg int) int) int, still func(by graph.Vec) bool) []graph.Pos {
	var out []graph.Pos
	all, exact := route.Doubt{}, true // what is tied two ways round, each of them doubted
	for _, d := range s.lay.Doubts {
		part, leg := s.lay.Stands(d)
		all.Legs, exact = append(all.Legs, d.Legs...), exact && d.Miss.Len() > 0
		if s.goesWith(body, part, leg) == other(part, leg) {
			continue
		}
		if d.Miss.Len() > 0 && still(d.Miss) && still(d.Miss.Scale(-1)) {
			continue
		}
		out = append(out, d.Pos)
	}
	if part, leg := s.lay.Stands(all); len(out) == 0 && !exact && s.goesWith(body, part, leg) != other(part, leg) {
		for _, d := range s.lay.Doubts {
			out = append(out, d.Pos)
		}
	}
	return out
}

// goesWith is the number of what a body stands in a known place to.
func (s *Bodies) goesWith(body int, part func(id string) int, leg func(run string, leg int) int) int {
	if b := &s.All[body]; b.Part == "" {
		return leg(b.Run, b.Leg)
	}
	return part(s.All[body].Part)
}

// moved is a body carried along.
func (b *Body) moved(by graph.Vec) *Body {
	out := *b
	out.Core, out.Likely = movedAll(b.Core, by), movedAll(b.Likely, by)
	return &out
}

func movedAll(shapes []Shape, by graph.Vec) []Shape {
	var out []Shape
	for _, s := range shapes {
		out = append(out, s.Move(by))
	}
	return out
}

// clashBehind is behind of a clash of two bodies.
func (s *Bodies) clashBehind(c Clash) []graph.Pos {
	a, b := &s.All[c.A], &s.All[c.B]
	return s.behind(c.A, func(part func(id string) int, leg func(run string, leg int) int) int {
		return s.goesWith(c.B, part, leg)
	}, func(by graph.Vec) bool {
		m := a.moved(by)
		if c.Sure {
			_, mm := through(m.Core, b.Core)
			return mm > touchMM
		}
		_, mm := through(m.Likely, b.Likely)
		return mm > touchMM
	})
}

// besidePart is behind of what stands in a box or a wall that is counted from a part.
func (s *Bodies) besidePart(body int, id string, still func(b *Body) bool) []graph.Pos {
	return s.behind(body, func(part func(id string) int, _ func(run string, leg int) int) int {
		return part(id)
	}, func(by graph.Vec) bool { return still(s.All[body].moved(by)) })
}
