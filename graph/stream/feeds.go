package stream

import (
	"maps"

	"dryfit/graph"
)

// Feeding returns, by the id of each run, the pumps whose water comes to it, through others in its line that stand
// or not, in the order of the circuit: of several each feeds it by itself where the rest are off. It is worked out once.
func (n *Net) Feeding() map[string][]*graph.Part { return n.feeding() }

// Feeds returns the pumps that feed a part, see Feeding: by the run its water comes by.
func (n *Net) Feeds(p *graph.Part) []*graph.Part {
	if _, in := n.Inlet(p); in != nil {
		return n.feeding()[in.ID]
	}
	return nil
}

func (n *Net) findFeeding() map[string][]*graph.Part {
	out := map[string][]*graph.Part{}
	for _, q := range n.Circuit.Pumps() {
		for _, r := range n.Downstream(q).Runs {
			out[r.ID] = append(out[r.ID], q)
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
