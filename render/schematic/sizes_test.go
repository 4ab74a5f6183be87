package schematic

import (
	"testing"

	"dryfit/graph"
)

// A size holds through what is fitted in a line and straight through a tee; out of its branch, and behind a
// machine, it is said again: there the sheet's "unless marked" would be read.
func TestSizesHoldThroughFittingsOnly(t *testing.T) {
	for _, c := range []struct {
		kind    graph.Kind
		in, out string
		holds   bool
	}{
		{graph.Union, graph.In, graph.Out, true},
		{graph.BallValve, graph.In, graph.Out, true},
		{graph.Tee, graph.RunIn, graph.RunOut, true},
		{graph.Tee, graph.RunIn, graph.Branch, false},
		{graph.Tee, graph.Branch, graph.RunOut, false},
		{graph.HeatPump, graph.In, graph.Out, false},
		{graph.Filter, graph.In, graph.Out, false},
		{graph.Pump, graph.In, graph.Out, false},
	} {
		if got := runsOn(&graph.Part{Kind: c.kind}, c.in, c.out); got != c.holds {
			t.Errorf("%s from %s to %s: the size holds %v, wanted %v", c.kind, c.in, c.out, got, c.holds)
		}
	}
}
