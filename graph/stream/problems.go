package stream

import (
	"slices"

	"dryfit/graph"
)

// ShortCircuit is a way from a pump's outlet back to its inlet that does not pass the tub.
type ShortCircuit struct {
	Pump *graph.Part
	Runs []*graph.Run // from the outlet to the inlet
}

// PumpJoin is two pumps in one line: no tub between them.
type PumpJoin struct {
	A, B *graph.Part
	How  string       // "series": A's outlet feeds B's inlet; "suction" or "discharge": teed together there
	Runs []*graph.Run // a way from A to B
}

// DeadEnd is a part of the circuit in which the water stands.
type DeadEnd struct {
	From   *graph.Part   // where it leaves the water that flows; nil: nothing that hangs together with it flows
	Runs   []*graph.Run  // nearest first
	Parts  []*graph.Part // parts in which the water stands, nearest first
	Closed bool          // every way ends at a drain, a bleed, a cap or a gauge: it is meant to stand
}

// ShortCircuits returns one short circuit for every pump that has one. Check valves are
// passed only along their arrow, other pumps and the tub not at all.
func (n *Net) ShortCircuits() []ShortCircuit {
	var out []ShortCircuit
	for _, p := range n.Circuit.Pumps() {
		if way := n.walk(p, graph.Out, true, nil, func(q *graph.Part, port string) bool { return q == p && port == graph.In }); way != nil {
			out = append(out, ShortCircuit{Pump: p, Runs: way})
		}
	}
	return out
}

// PumpJoins returns the pairs of pumps without the tub between them, for each pump the
// nearest other on each side, each pair once.
func (n *Net) PumpJoins() []PumpJoin {
	var out []PumpJoin
	seen := map[[3]string]bool{}
	sides := []struct{ how, from, to string }{
		{"series", graph.Out, graph.In}, {"suction", graph.In, graph.In}, {"discharge", graph.Out, graph.Out},
	}
	for _, a := range n.Circuit.Pumps() {
		for _, s := range sides {
			var b *graph.Part
			way := n.walk(a, s.from, s.how == "series", nil, func(q *graph.Part, port string) bool {
				if q.Kind == graph.Pump && q != a && port == s.to {
					b = q
					return true
				}
				return false
			})
			if way == nil {
				continue
			}
			key := [3]string{s.how, a.ID, b.ID}
			if s.how != "series" && a.ID > b.ID {
				key[1], key[2] = b.ID, a.ID
			}
			if !seen[key] {
				seen[key] = true
				out = append(out, PumpJoin{A: a, B: b, How: s.how, Runs: way})
			}
		}
	}
	return out
}

// walk searches from a pump's port for the nearest port of a part that is the goal, by
// water runs, whichever way the water goes in them, and returns the runs to it; nil where
// there is none. Pumps and tubs are not passed, nor parts that are shut; with arrows,
// checks only along theirs.
func (n *Net) walk(start *graph.Part, port string, arrows bool, shut func(*graph.Part) bool, goal func(p *graph.Part, port string) bool) []*graph.Run {
	v, ok := n.nodeAt[start.ID+"."+port]
	if !ok {
		return nil
	}
	by := map[int]int{} // node -> run it was reached by
	from := map[int]int{v: -1}
	queue := []int{v}
	for k := 0; k < len(queue); k++ {
		at := queue[k]
		p := n.Circuit.Parts[n.nodes[at].part]
		if k > 0 && (p.Kind == graph.Pump || p.Kind == graph.Tub || (shut != nil && shut(p))) {
			continue
		}
		for _, i := range n.nodes[at].runs {
			r := n.Circuit.Runs[i]
			a, b := n.nodeEnds(i)
			near, far := r.From, r.To
			if b == at {
				a, b = b, a
				near, far = far, near
			}
			if _, been := from[b]; been || a == b {
				continue
			}
			q := n.Circuit.Parts[n.nodes[b].part]
			if arrows && (p.Kind == graph.CheckValve && near.Port == graph.In || q.Kind == graph.CheckValve && far.Port == graph.Out) {
				continue
			}
			from[b], by[b] = at, i
			if goal(q, far.Port) {
				return n.walked(from, by, b)
			}
			queue = append(queue, b)
		}
	}
	return nil
}

// WayToTub returns the runs of a way from the pump's outlet to the tub that passes none of
// the parts that are shut, and checks only along their arrow; nil where there is none.
func (n *Net) WayToTub(pump *graph.Part, shut func(*graph.Part) bool) []*graph.Run {
	return n.walk(pump, graph.Out, true, shut, func(p *graph.Part, _ string) bool { return p.Kind == graph.Tub })
}

func (n *Net) walked(from, by map[int]int, end int) []*graph.Run {
	var back []*graph.Run
	for v := end; from[v] >= 0; v = from[v] {
		back = append(back, n.Circuit.Runs[by[v]])
	}
	slices.Reverse(back)
	return back
}

// DeadEnds returns every connected part of the circuit in which the water stands, in the
// order of the circuit.
func (n *Net) DeadEnds() []DeadEnd {
	var out []DeadEnd
	seen := make([]bool, len(n.Circuit.Runs))
	flowing := func(part int) bool { return len(n.in[part])+len(n.out[part]) > 0 }
	for start := range n.Circuit.Runs {
		if seen[start] || n.way[start] != 0 || n.air[start] {
			continue
		}
		seen[start] = true
		d := DeadEnd{Closed: true}
		met := map[int]bool{}
		group := []int{start}
		for k := 0; k < len(group); k++ {
			for _, e := range n.ends[group[k]] {
				if e < 0 || met[e] {
					continue
				}
				p := n.Circuit.Parts[e]
				met[e] = true
				if flowing(e) || p.Kind == graph.Tub {
					if d.From == nil {
						d.From = p
					}
					continue
				}
				d.Parts = append(d.Parts, p)
				if !meantToStand(p, len(n.atPart[e])) {
					d.Closed = false
				}
				for _, next := range n.atPart[e] {
					if !seen[next] && n.way[next] == 0 && !n.air[next] {
						seen[next] = true
						group = append(group, next)
					}
				}
			}
		}
		for _, i := range group {
			d.Runs = append(d.Runs, n.Circuit.Runs[i])
		}
		if d.From == nil {
			d.Closed = false
		}
		out = append(out, d)
	}
	return out
}

// meantToStand reports whether a part with so many runs may stand in a dead end: one that
// ends it on purpose, or mere pipework on the way to one.
func meantToStand(p *graph.Part, runs int) bool {
	switch {
	case p.Kind == graph.Cap || EndsThere(p.Kind):
		return true
	case p.Kind == graph.Tee:
		return runs == 3
	default:
		return p.Kind.Plumbing() && runs >= 2
	}
}

// EndsThere reports whether pipe leads to a part for its own sake, and so may end there: a drain, a bleed, what reads
// pressure or temperature.
func EndsThere(k graph.Kind) bool {
	switch k {
	case graph.DrainValve, graph.AirBleed, graph.PressureSwitch, graph.PressureGauge, graph.ThermometerPocket:
		return true
	}
	return false
}
