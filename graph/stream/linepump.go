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
	out := n.nearestPumps(false)
	for i, after := range n.nearestPumps(true) {
		if out[i] < 0 {
			out[i] = after
		}
	}
	return out
}

// nearestPumps finds the pump nearest to each part down the water, or up it; -1 where there
// is none. Where only one run leads on, the nearest pump is that of the part it leads to, so
// that a line takes time in proportion to its parts; elsewhere each part is searched from.
func (n *Net) nearestPumps(down bool) []int {
	next := n.in
	if down {
		next = n.out
	}
	const unknown, none = -2, -1
	pump := make([]int, len(n.Circuit.Parts))
	for i := range pump {
		pump[i] = unknown
	}
	for i := range pump {
		var way []int // parts with one run on, from i
		at, found := i, none
	follow:
		for len(way) <= len(pump) { // else it goes round without a pump
			switch {
			case pump[at] != unknown:
				found = pump[at]
				break follow
			case len(next[at]) != 1:
				found = n.searchPump(next[at], down)
				pump[at] = found
				break follow
			}
			way = append(way, at)
			end := n.endOf(next[at][0], down)
			switch {
			case end < 0 || n.Circuit.Parts[end].Kind == graph.Tub:
				break follow
			case n.Circuit.Parts[end].Kind == graph.Pump:
				found = end
				break follow
			}
			at = end
		}
		for _, k := range way {
			pump[k] = found
		}
	}
	return pump
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
