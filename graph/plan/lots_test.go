package plan_test

import "flag"

// wide has the properties held on all the circuits drawn by lot: CI does, after the suite.
var wide = flag.Bool("wide", false, "try all the circuits drawn by lot")

// lots are the seeds of circuits drawn by lot: with -wide all there are, else the few that between
// them have places of every verdict and take little.
func lots(all int, few ...int) []int {
	if !*wide {
		return few
	}
	out := make([]int, all)
	for i := range out {
		out[i] = i
	}
	return out
}
