package picture

import (
	"math"

	"dryfit/graph"
	"dryfit/render/isometric/members"
	"dryfit/render/isometric/space"
)

// wantDimensions asks for places for the lengths: of every new leg from centre to centre, of
// old pipe from the new tee to the next bend or part; legs in one line share a row.
func (p *Picture) wantDimensions() {
	for _, c := range p.chains(func(m *members.Member) bool { return m.Run == nil || p.measured(m) }, false) {
		var row []dimension
		for _, s := range c.links {
			if m := &p.Ms[s.i]; m.Run != nil {
				row = append(row, dimension{a: p.mark(s.from(m)), b: p.mark(s.to(m)), text: p.D.LegText(m), of: p.legWords(m)})
			}
		}
		if len(row) > 0 {
			p.wantRow(row, false)
		}
	}
	p.wantStrings()
}

// legWords say of which pipe a leg's length is, and which way it runs, for where it stands in a note.
func (p *Picture) legWords(m *members.Member) string {
	return " " + graph.WayWord(m.Way()) + ", " + m.Run.Spec.Word() + " " + p.D.Names.Run(m.Run.ID)
}

// measured reports whether a leg along an axis carries its length.
func (p *Picture) measured(m *members.Member) bool {
	return (m.IsNew || p.D.OldAll || p.D.ReachesNew(m)) && len(space.AxesOf(m.Way())) == 1
}

// wantStrings asks for places for the lengths over lines that parts in line break up: from
// the first centre to the last. They repeat what the single lengths say, so one that finds no
// room is left out.
func (p *Picture) wantStrings() {
	whole := func(m *members.Member) bool { return m.IsNew && m.CutA == "" && m.CutB == "" }
	for _, c := range p.chains(whole, true) {
		legs, bodies := 0, 0
		for _, s := range c.links {
			if p.Ms[s.i].Run != nil {
				legs++
			} else {
				bodies++
			}
		}
		if bodies > 0 && legs > 1 {
			first, last := c.links[0], c.links[len(c.links)-1]
			a, b := first.from(&p.Ms[first.i]), last.to(&p.Ms[last.i])
			p.wantRow([]dimension{{a: p.mark(a), b: p.mark(b), text: p.D.LengthText(b.Sub(a).Len())}}, true)
		}
	}
}

// chain is members that follow each other on one straight line along an axis.
type chain struct{ links []chainLink }

// chainLink is a member of a chain, walked from b to a if back.
type chainLink struct {
	i    int
	back bool
}

func (l chainLink) from(m *members.Member) graph.Vec {
	if l.back {
		return m.B
	}
	return m.A
}

func (l chainLink) to(m *members.Member) graph.Vec {
	if l.back {
		return m.A
	}
	return m.B
}

// chains gathers the members that pass into straight lines; with untilTee no line goes on
// through a place where more than two members meet.
func (p *Picture) chains(pass func(*members.Member) bool, untilTee bool) []chain {
	used := make([]bool, len(p.Ms))
	var out []chain
	for i := range p.Ms {
		m := &p.Ms[i]
		if used[i] || m.Run == nil || !pass(m) || len(space.AxesOf(m.Way())) != 1 {
			continue
		}
		used[i] = true
		c := chain{[]chainLink{{i, false}}}
		c.links = append(p.walk(m.A, m.Way().Scale(-1), used, pass, untilTee), c.links...)
		forward := p.walk(m.B, m.Way(), used, pass, untilTee)
		for k := len(forward) - 1; k >= 0; k-- { // walk lists the farthest first, as seen from behind
			c.links = append(c.links, chainLink{forward[k].i, !forward[k].back})
		}
		out = append(out, c)
	}
	return out
}

// walk follows the straight line from a place and lists what it meets, the farthest first and
// each as walked back to the place.
func (p *Picture) walk(at, way graph.Vec, used []bool, pass func(*members.Member) bool, untilTee bool) []chainLink {
	var out []chainLink
	for {
		if untilTee && p.meeting(at) > 2 {
			break
		}
		next := -1
		for k := range p.Ms {
			n := &p.Ms[k]
			if used[k] || !pass(n) || math.Abs(n.Way().Unit().Dot(way.Unit())) < 0.999 {
				continue
			}
			if n.A.Sub(at).Len() < 2*space.SameLevel || n.B.Sub(at).Len() < 2*space.SameLevel {
				next = k
				break
			}
		}
		if next < 0 {
			break
		}
		used[next] = true
		n := &p.Ms[next]
		l := chainLink{next, n.A.Sub(at).Len() < 2*space.SameLevel} // walked back to the place: from b to a
		out = append([]chainLink{l}, out...)
		at = l.from(n)
	}
	return out
}

// meeting counts the members that end at a place.
func (p *Picture) meeting(at graph.Vec) int {
	n := 0
	for i := range p.Ms {
		for _, e := range []graph.Vec{p.Ms[i].A, p.Ms[i].B} {
			if e.Sub(at).Len() < 2*space.SameLevel {
				n++
			}
		}
	}
	return n
}
