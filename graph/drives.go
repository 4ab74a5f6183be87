package graph

// drives returns the parts that the water of a pump passes while all other pumps stand: those that lie on a way
// round from it over the tub. A line that is joined to that way at one end only, because another pump stands in
// it, is none of them.
func (c *Circuit) drives(pump *Part) map[string]bool {
	number := make(map[string]int, len(c.Parts)) // 0: the pump and the tub, where each way round closes
	ids := []string{pump.ID}
	for _, p := range c.Parts {
		switch {
		case p == pump || p.Kind == Tub:
			number[p.ID] = 0
		case p.Kind != Pump && !p.Kind.MovesAir():
			number[p.ID] = len(ids)
			ids = append(ids, p.ID)
		}
	}
	g := &ways{next: make([][]way, len(ids)), met: make([]int, len(ids)), back: make([]int, len(ids))}
	for i, r := range c.Runs {
		a, isA := number[r.From.Part]
		b, isB := number[r.To.Part]
		if isA && isB && a != b {
			g.next[a], g.next[b] = append(g.next[a], way{b, i}), append(g.next[b], way{a, i})
		}
	}
	out := map[string]bool{}
	g.round(func(n int) { out[ids[n]] = true })
	return out
}

// way leads to a node over a run.
type way struct{ to, run int }

// ways is a walk over a graph that finds its bridges, after Tarjan (1974).
type ways struct {
	next  [][]way
	met   []int // when a node was met, from 1
	back  []int // the earliest node that is met again from it or from what lies behind it
	count int
}

// round calls add for each node that no bridge parts from node 0.
func (g *ways) round(add func(n int)) {
	g.visit(0, -1)
	held, done := []int{0}, make([]bool, len(g.next))
	done[0] = true
	for len(held) > 0 {
		n := held[len(held)-1]
		held = held[:len(held)-1]
		add(n)
		for _, w := range g.next[n] {
			bridge := g.met[w.to] > g.met[n] && g.back[w.to] > g.met[n]
			if !done[w.to] && !bridge {
				done[w.to] = true
				held = append(held, w.to)
			}
		}
	}
}

// visit numbers a node that is entered by a run, and what lies behind it.
func (g *ways) visit(n, by int) {
	g.count++
	g.met[n], g.back[n] = g.count, g.count
	for _, w := range g.next[n] {
		switch {
		case w.run == by:
		case g.met[w.to] > 0:
			g.back[n] = min(g.back[n], g.met[w.to])
		default:
			g.visit(w.to, w.run)
			g.back[n] = min(g.back[n], g.back[w.to])
		}
	}
}
