package stream

import (
	"slices"

	"dryfit/graph"
)

// Pressed is what comes under a pump's pressure where a valve that is shut holds it: all that its outlet leads to
// with the tub shut off, whichever way the water goes there and be it a dead end, up to the checks that hold.
type Pressed struct {
	*Reach               // a check that holds is in it, and what lies behind is not; so are other pumps
	Into   []*graph.Part // pumps it comes to by their inlet: they put their own on top
}

// Pressed returns what comes under a pump's pressure. Through another pump that stands and has no check of its own
// the water goes back, and presses on what lies on its suction side where hand valves and checks shut that off
// from every tub and from the pump's own suction: else the tub takes the pressure away, or the pump itself.
func (n *Net) Pressed(pump *graph.Part) *Pressed {
	out := &Pressed{Reach: &Reach{net: n, parts: make([]bool, len(n.Circuit.Parts)), runs: make([]bool, len(n.Circuit.Runs))}}
	var back []*graph.Part
	start := n.nodeOf(pump, graph.Out)
	n.press(out.Reach, start, func(q *graph.Part, port string) (next int) {
		switch {
		case q == pump || q.Kind == graph.Pump && port != graph.In:
			if q != pump && passesBack(q) {
				back = append(back, q)
			}
			return -1
		case q.Kind == graph.Pump:
			out.Into = append(out.Into, q)
			return n.nodeOf(q, graph.Out)
		}
		return n.nodeOf(q, port)
	})
	for _, q := range back {
		if slices.Contains(out.Into, q) {
			continue // it is pressed on from its inlet
		}
		drawn := false
		behind := &Reach{net: n, parts: make([]bool, len(n.Circuit.Parts)), runs: make([]bool, len(n.Circuit.Runs))}
		n.press(behind, n.nodeOf(q, graph.In), func(p *graph.Part, port string) int {
			switch {
			case p.Kind == graph.Pump && port == graph.Out && passesBack(p):
				return n.nodeOf(p, graph.In)
			case p == pump && port == graph.In:
				drawn = true
				return -1
			case p.Kind == graph.Pump, p.Kind.IsHandValve():
				return -1
			}
			return n.nodeOf(p, port)
		})
		if !behind.tub && !drawn {
			out.add(behind)
		}
	}
	return out
}

// passesBack reports whether water goes back through a pump that stands.
func passesBack(pump *graph.Part) bool { return pump.Pump == nil || pump.Pump.Check == "" }

// press follows the pressure from a node, by water runs whichever way the water goes in them, checks only along
// their arrow; the part of that node is not in it. next tells where it goes on from a part that it comes to by a
// port; below 0: nowhere.
func (n *Net) press(into *Reach, start int, next func(q *graph.Part, port string) int) {
	been := make([]bool, len(n.nodes))
	var queue []int
	add := func(v int) {
		if v >= 0 && !been[v] {
			been[v] = true
			queue = append(queue, v)
		}
	}
	add(start)
	own := -1
	if start >= 0 {
		own = n.nodes[start].part
	}
	for k := 0; k < len(queue); k++ {
		at := queue[k]
		p := n.Circuit.Parts[n.nodes[at].part]
		for _, i := range n.nodes[at].runs {
			r := n.Circuit.Runs[i]
			far, near := r.To, r.From
			end := n.ends[i][1]
			if n.hangs[i][1] == at && n.hangs[i][0] != at {
				far, near, end = near, far, n.ends[i][0]
			}
			if p.Kind == graph.CheckValve && near.Port == graph.In {
				continue
			}
			into.take(i, -1)
			q := n.Circuit.Parts[end]
			if q.Kind == graph.Tub {
				into.tub = true
				continue
			}
			if end != own {
				into.take(-1, end)
			}
			if q.Kind == graph.CheckValve && far.Port == graph.Out {
				continue
			}
			add(next(q, far.Port))
		}
	}
}

// nodeOf is the node of a port that a water run ends at; -1 where none does.
func (n *Net) nodeOf(p *graph.Part, port string) int {
	key := p.ID
	if p.Kind == graph.Tub || p.Kind == graph.Pump {
		key += "." + port
	}
	if v, ok := n.nodeAt[key]; ok {
		return v
	}
	return -1
}

// take adds a run and a part by their indexes, each once; below 0: none.
func (r *Reach) take(run, part int) {
	if run >= 0 && !r.runs[r.net.named[run]] {
		run = r.net.named[run]
		r.runs[run] = true
		r.Runs = append(r.Runs, r.net.Circuit.Runs[run])
	}
	if part >= 0 && !r.parts[part] {
		r.parts[part] = true
		r.Parts = append(r.Parts, r.net.Circuit.Parts[part])
	}
}

// add adds what another reach of the same net holds.
func (r *Reach) add(more *Reach) {
	for _, x := range more.Runs {
		r.take(r.net.runs[x.ID], -1)
	}
	for _, p := range more.Parts {
		r.take(-1, r.net.parts[p.ID])
	}
}
