package isometric

import (
	"math"

	"dryfit/graph"
)

// wantDimensions asks for places for the lengths: of every new leg from centre to centre, of
// old pipe from the new tee to the next bend or part; legs in one line share a row.
func (p *picture) wantDimensions() {
	for _, c := range p.chains(func(m *member) bool { return m.run == nil || p.measured(m) }, false) {
		var row []dimension
		for _, s := range c.links {
			if m := &p.ms[s.i]; m.run != nil {
				row = append(row, dimension{a: p.mark(s.from(m)), b: p.mark(s.to(m)), text: p.d.legText(m)})
			}
		}
		if len(row) > 0 {
			p.wantRow(row, false)
		}
	}
	p.wantStrings()
}

// measured reports whether a leg along an axis carries its length.
func (p *picture) measured(m *member) bool {
	return (m.isNew || p.d.oldAll || p.d.reachesNew(m)) && len(axesOf(m.way())) == 1
}

// legText is a leg's length in words; of one cut by a match line that of the whole.
func (d *drawing) legText(m *member) string {
	if m.cutA == "" && m.cutB == "" {
		return d.lengthText(m.way().Len())
	}
	pts := d.lay.Paths[m.path].Points
	return "whole " + d.lengthText(pts[m.leg+1].Sub(pts[m.leg]).Len())
}

// reachesNew reports whether an old leg ends at a new part.
func (d *drawing) reachesNew(m *member) bool {
	n := len(d.lay.Paths[m.path].Points)
	from, to := d.parts[m.run.From.Part], d.parts[m.run.To.Part]
	return (m.leg == 0 && from != nil && from.New()) || (m.leg == n-2 && to != nil && to.New())
}

// wantStrings asks for places for the lengths over lines that parts in line break up: from
// the first centre to the last. They repeat what the single lengths say, so one that finds no
// room is left out.
func (p *picture) wantStrings() {
	whole := func(m *member) bool { return m.isNew && m.cutA == "" && m.cutB == "" }
	for _, c := range p.chains(whole, true) {
		legs, bodies := 0, 0
		for _, s := range c.links {
			if p.ms[s.i].run != nil {
				legs++
			} else {
				bodies++
			}
		}
		if bodies > 0 && legs > 1 {
			first, last := c.links[0], c.links[len(c.links)-1]
			a, b := first.from(&p.ms[first.i]), last.to(&p.ms[last.i])
			p.wantRow([]dimension{{a: p.mark(a), b: p.mark(b), text: p.d.lengthText(b.Sub(a).Len())}}, true)
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

func (l chainLink) from(m *member) graph.Vec {
	if l.back {
		return m.b
	}
	return m.a
}

func (l chainLink) to(m *member) graph.Vec {
	if l.back {
		return m.a
	}
	return m.b
}

// chains gathers the members that pass into straight lines; with untilTee no line goes on
// through a place where more than two members meet.
func (p *picture) chains(pass func(*member) bool, untilTee bool) []chain {
	used := make([]bool, len(p.ms))
	var out []chain
	for i := range p.ms {
		m := &p.ms[i]
		if used[i] || m.run == nil || !pass(m) || len(axesOf(m.way())) != 1 {
			continue
		}
		used[i] = true
		c := chain{[]chainLink{{i, false}}}
		c.links = append(p.walk(m.a, m.way().Scale(-1), used, pass, untilTee), c.links...)
		forward := p.walk(m.b, m.way(), used, pass, untilTee)
		for k := len(forward) - 1; k >= 0; k-- { // walk lists the farthest first, as seen from behind
			c.links = append(c.links, chainLink{forward[k].i, !forward[k].back})
		}
		out = append(out, c)
	}
	return out
}

// walk follows the straight line from a place and lists what it meets, the farthest first and
// each as walked back to the place.
func (p *picture) walk(at, way graph.Vec, used []bool, pass func(*member) bool, untilTee bool) []chainLink {
	var out []chainLink
	for {
		if untilTee && p.meeting(at) > 2 {
			break
		}
		next := -1
		for k := range p.ms {
			n := &p.ms[k]
			if used[k] || !pass(n) || math.Abs(n.way().Unit().Dot(way.Unit())) < 0.999 {
				continue
			}
			if n.a.Sub(at).Len() < 2*sameLevel || n.b.Sub(at).Len() < 2*sameLevel {
				next = k
				break
			}
		}
		if next < 0 {
			break
		}
		used[next] = true
		n := &p.ms[next]
		l := chainLink{next, n.a.Sub(at).Len() < 2*sameLevel} // walked back to the place: from b to a
		out = append([]chainLink{l}, out...)
		at = l.from(n)
	}
	return out
}

// meeting counts the members that end at a place.
func (p *picture) meeting(at graph.Vec) int {
	n := 0
	for i := range p.ms {
		for _, e := range []graph.Vec{p.ms[i].a, p.ms[i].b} {
			if e.Sub(at).Len() < 2*sameLevel {
				n++
			}
		}
	}
	return n
}
