package graph

import (
	"maps"
	"slices"
	"strings"
)

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

// inSeries returns the pumps of each line in which one pump's outlet leads to another's inlet with no tub between,
// each line in the order of the circuit.
func (c *Circuit) inSeries() [][]*Part {
	pumps := c.Pumps()
	if len(pumps) < 2 {
		return nil
	}
	line := make([]int, len(pumps)) // of each pump: the first it hangs together with
	at := make(map[string]int, len(pumps))
	for i, p := range pumps {
		line[i], at[p.ID] = i, i
	}
	ways := c.joints()
	for i, p := range pumps {
		for _, id := range ways.led(p) {
			from, to := line[i], line[at[id]]
			for n := range line {
				if line[n] == max(from, to) {
					line[n] = min(from, to)
				}
			}
		}
	}
	var out [][]*Part
	for first := range pumps {
		var one []*Part
		for i, p := range pumps {
			if line[i] == first {
				one = append(one, p)
			}
		}
		if len(one) > 1 {
			out = append(out, one)
		}
	}
	return out
}

// joints is what pipes join: of each part the ports they lead to, and the kinds of the parts.
type joints struct {
	next map[string][][2]PortRef // own port, the other's
	kind map[string]Kind
}

func (c *Circuit) joints() joints {
	out := joints{next: make(map[string][][2]PortRef, len(c.Parts)), kind: make(map[string]Kind, len(c.Parts))}
	for _, p := range c.Parts {
		out.kind[p.ID] = p.Kind
	}
	for _, r := range c.Runs {
		out.next[r.From.Part] = append(out.next[r.From.Part], [2]PortRef{r.From, r.To})
		out.next[r.To.Part] = append(out.next[r.To.Part], [2]PortRef{r.To, r.From})
	}
	return out
}

// led returns the other pumps to whose inlet pipes lead from the outlet of one past no tub and no further pump, checks
// only along their arrow.
func (j joints) led(from *Part) (to []string) {
	met := map[string]bool{from.ID: true}
	for queue := []string{from.ID}; len(queue) > 0; queue = queue[1:] {
		for _, way := range j.next[queue[0]] {
			if own, at := way[0], way[1]; own.Part != from.ID || own.Port == Out {
				switch k := j.kind[at.Part]; {
				case k == CheckValve && at.Port == Out || j.kind[own.Part] == CheckValve && own.Port == In: // against its arrow
				case k == Pump:
					if at.Part != from.ID && at.Port == In && !slices.Contains(to, at.Part) {
						to = append(to, at.Part)
					}
				case k != Tub && k != "" && !k.MovesAir() && !met[at.Part]:
					met[at.Part] = true
					queue = append(queue, at.Part)
				}
			}
		}
	}
	return to
}

// boosted returns for each line with pumps in series the mode in which all of them run, each at its fastest speed, where none of the modes is that already.
func (c *Circuit) boosted(modes []Mode) (out []Mode) {
	for _, line := range c.inSeries() {
		speeds, names := map[string]string{}, make([]string, len(line))
		for i, p := range line {
			speeds[p.ID], names[i] = p.Fastest(), p.ID
		}
		m := c.Running(Mode{Name: strings.Join(names, " and "), JetsOpen: 1, Pos: line[0].Pos, Speeds: speeds})
		if !slices.ContainsFunc(modes, func(o Mode) bool { return maps.Equal(o.Speeds, m.Speeds) }) {
			out = append(out, m)
		}
	}
	return out
}

// Fastest is the speed of a pump that does most: by its greatest head where that of every speed follows from a curve,
// else by its watts where every speed has them, else the last that is written.
func (p *Part) Fastest() string {
	names := p.SpeedNames()
	best := len(names) - 1
	if p.Pump == nil || len(p.Pump.Speeds) == 0 {
		return names[best]
	}
	speeds := p.Pump.Speeds
	does := make([]float64, len(speeds))
	for i, s := range speeds {
		does[i] = p.Pump.greatestM(s)
	}
	if slices.Contains(does, 0) {
		for i, s := range speeds {
			does[i] = s.PowerW
		}
	}
	if slices.Contains(does, 0) {
		return names[best]
	}
	for i := range does {
		if does[i] > does[best] {
			best = i
		}
	}
	return names[best]
}

// greatestM is the greatest head of a speed by its curve, or by its ratio of the first that has one, m of cold water;
// 0 where none is given.
func (d *PumpData) greatestM(s Speed) float64 {
	const density = 1000 // of whatever water: speeds are compared
	if s.Ratio > 0 {
		i := slices.IndexFunc(d.Speeds, func(o Speed) bool { return o.Ratio == 0 && len(o.Curve) > 0 })
		if i < 0 {
			return 0
		}
		return s.Ratio * s.Ratio * d.greatestM(d.Speeds[i])
	}
	most := 0.0
	for _, at := range s.Curve {
		most = max(most, at.Head.Head(density))
	}
	return most
}
