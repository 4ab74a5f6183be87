package stream

import (
	"cmp"
	"slices"

	"dryfit/graph"
)

// inOrder lists the runs of a circuit: those at branches of tees behind the others, for water goes on straight
// first; then by what they join and how long they are; those alike in all that by their ids. So where
// the water could go one way or the other, or two ways are as near, the order of the file decides nothing,
// nor which end of a run is written first.
func inOrder(c *graph.Circuit, ends [][2]int) []int {
	type end struct{ kind, port, part string }
	compare := func(a, b end) int {
		return cmp.Or(cmp.Compare(a.kind, b.kind), cmp.Compare(a.port, b.port))
	}
	both, out := make([][2]end, len(c.Runs)), make([]int, len(c.Runs))
	for i, r := range c.Runs {
		for k, ref := range []graph.PortRef{r.From, r.To} {
			both[i][k] = end{port: ref.Port, part: ref.Part}
			if p := ends[i][k]; p >= 0 {
				both[i][k].kind = string(c.Parts[p].Kind)
			}
		}
		if a, b := both[i][0], both[i][1]; cmp.Or(compare(a, b), cmp.Compare(a.part, b.part)) > 0 {
			both[i] = [2]end{b, a}
		}
		out[i] = i
	}
	branches := func(i int) (n int) {
		for _, e := range both[i] {
			if e.port == graph.Branch {
				n++
			}
		}
		return n
	}
	slices.SortStableFunc(out, func(i, j int) int {
		a, b := c.Runs[i], c.Runs[j]
		return cmp.Or(cmp.Compare(branches(i), branches(j)), compare(both[i][0], both[j][0]), compare(both[i][1], both[j][1]),
			cmp.Compare(a.LengthMM+graph.LegsMM(a.Legs), b.LengthMM+graph.LegsMM(b.Legs)),
			cmp.Compare(both[i][0].part, both[j][0].part), cmp.Compare(both[i][1].part, both[j][1].part), cmp.Compare(a.ID, b.ID))
	})
	return out
}

// Order numbers the runs, by their ids, as the water of the pump that heats comes to them: those behind it
// nearest first, then those before it, then all others. The order of the file decides nothing.
func (n *Net) Order() map[string]int {
	out := make(map[string]int, len(n.Circuit.Runs))
	add := func(r *graph.Run) {
		if _, met := out[r.ID]; !met {
			out[r.ID] = len(out)
		}
	}
	if pump := n.HeaterPump(); pump != nil {
		for _, reach := range []*Reach{n.Downstream(pump), n.Upstream(pump)} {
			for _, r := range reach.Runs {
				add(r)
			}
		}
	}
	for _, i := range n.order {
		add(n.Circuit.Runs[i])
	}
	return out
}
