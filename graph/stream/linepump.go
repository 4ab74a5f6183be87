package stream

import "dryfit/graph"

// LinePump returns the pump in whose line a part stands: the nearest one before it in the way
// of the water, else the nearest after it; nil where there is none. All are found at once.
func (n *Net) LinePump(p *graph.Part) *graph.Part {
	i := n.index(p.ID)
	if i < 0 {
		return nil
	}
	if k := n.pumps()[i]; k >= 0 {
		return n.Circuit.Parts[k]
	}
	return nil
}

// linePumps finds the pump in whose line each part stands; -1 where there is none.
func (n *Net) linePumps() []int {
	const unknown = -2
	before, after := make([]int, len(n.Circuit.Parts)), make([]int, len(n.Circuit.Parts))
	for i := range before {
		before[i], after[i] = unknown, unknown
	}
	for i := range before {
		if before[i] == unknown {
			n.nearestPump(i, false, before, unknown)
		}
		if before[i] < 0 && after[i] == unknown {
			n.nearestPump(i, true, after, unknown)
		}
	}
	for i := range before {
		if before[i] < 0 {
			before[i] = after[i]
		}
	}
	return before
}

// nearestPump finds the pump nearest to a part down the water, or up it; -1 where there is
// none. Where only one run leads on, the nearest pump is that of the part it leads to, so
// that a line takes time in proportion to its parts; elsewhere each part is searched from.
func (n *Net) nearestPump(part int, down bool, pump []int, unknown int) {
	next := n.in
	if down {
		next = n.out
	}
	var way []int // parts with one run on
	at, found := part, -1
	for len(way) <= len(pump) { // else it goes round without a pump
		if pump[at] != unknown {
			found = pump[at]
			break
		}
		if len(next[at]) != 1 {
			found = n.searchPump(next[at], down)
			pump[at] = found
			break
		}
		way = append(way, at)
		end := n.endOf(next[at][0], down)
		if end < 0 || n.Circuit.Parts[end].Kind == graph.Tub {
			break
		}
		if n.Circuit.Parts[end].Kind == graph.Pump {
			found = end
			break
		}
		at = end
	}
	for _, k := range way {
		pump[k] = found
	}
}

// searchPump returns the pump nearest down the water, or up it, from some runs; -1.
func (n *Net) searchPump(start []int, down bool) int {
	found := -1
	n.reach(start, down, func(p *graph.Part) bool {
		if p.Kind == graph.Pump && found < 0 {
			found = n.index(p.ID)
		}
		return found >= 0
	})
	return found
}
