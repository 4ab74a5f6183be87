package stream

import (
	"maps"

	"dryfit/graph"
)

// SideBySide returns a pump and those whose water meets its own on the way to the tub, neither passing the
// other: each of them moves that line by itself where the rest are off.
func (n *Net) SideBySide(pump *graph.Part) []*graph.Part {
	out := []*graph.Part{pump}
	isPump := func(p *graph.Part) bool { return p.Kind == graph.Pump }
	mine, before := n.Downstream(pump), n.Upstream(pump)
	for _, q := range n.Circuit.Pumps() {
		if q == pump || mine.HasPart(q.ID) || before.HasPart(q.ID) {
			continue
		}
		for _, p := range n.DownstreamUntil(q, isPump).Parts {
			if mine.HasPart(p.ID) {
				out = append(out, q)
				break
			}
		}
	}
	return out
}

// Rates is in how many ways some pumps run that feed one line: of one its speeds, of several the
// sets of speeds in the modes of the circuit in which one of them runs.
func (n *Net) Rates(feeds []*graph.Part) int {
	if len(feeds) == 1 {
		return len(feeds[0].SpeedNames())
	}
	var sets []map[string]string
	for _, m := range n.Circuit.AllModes() {
		set := map[string]string{}
		for _, p := range feeds {
			if s := m.Speeds[p.ID]; s != "" {
				set[p.ID] = s
			}
		}
		fresh := len(set) > 0
		for _, other := range sets {
			fresh = fresh && !maps.Equal(set, other)
		}
		if fresh {
			sets = append(sets, set)
		}
	}
	return len(sets)
}
