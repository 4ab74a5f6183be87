package search

import (
	"slices"

	"dryfit/graph"
	"dryfit/graph/plan/advice"
	"dryfit/graph/plan/stage"
	"dryfit/graph/rule"
)

// compareUnits works out, of a place whose unit gets too much water, or too little with a dirty
// filter, what of another bypass, a shorter way and another unit would do, for next to say
// where nothing that can be written in [retrofit] does.
func (s *search) compareUnits(t *trial) {
	says := func(name string) bool {
		return slices.ContainsFunc(t.errors(), func(d graph.Diagnostic) bool { return d.Rule == name })
	}
	if !t.solved || !says(mostFlowRule) && !says(dirtyRule) {
		return
	}
	branch, _ := t.stage.Layout.Stage.Branch()
	if !branch.Whole() {
		return
	}
	a := advice.New(t.stage.Circuit, branch, s.before, t.stage.Layout.Stage)
	s.instead = "nothing does: decide with the owner on another unit, or on a pump and a line of its own for it"
	if says(mostFlowRule) {
		if way := a.LargerUnit(); way.Works {
			s.instead = graph.Say("%s, would do: %s", way.What, way.Effect)
		}
		return
	}
	for _, way := range a.Lighter() {
		if s.fed(way.Circuit) {
			s.instead = graph.Say("%s, would do, with a dirty filter too", way.What)
			return
		}
	}
}

// fed reports whether the unit gets enough water and not too much in every mode of a circuit,
// clean and dirty, and no other that is there loses by it, as the place is judged.
func (s *search) fed(c *graph.Circuit) bool {
	after := &stage.Stage{Circuit: c}
	after.Lay()
	if !after.Layout.Stage.Net().Pumped(c.Part(s.asked.Retrofit.Unit)) || len(graph.Errors(after.Solve(graph.After))) > 0 {
		return false
	}
	in := inWater(&rule.Input{Circuit: c, Before: s.before.Circuit, BeforeLayout: s.before.Layout, After: c, Layout: after.Layout}, after, s.before)
	return !slices.ContainsFunc(rule.Apply(in, rule.NeedsFlow), func(d graph.Diagnostic) bool {
		return d.Severity == graph.Error && slices.Contains([]string{leastFlowRule, dirtyRule, mostFlowRule}, d.Rule)
	})
}
