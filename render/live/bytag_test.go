package live

import (
	"testing"

	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/graph/stream"
	"dryfit/render/tag"
)

// What is said of several units on the page calls units and what stands in their bypasses by their tags.
func TestSummaryByTag(t *testing.T) {
	c := &graph.Circuit{Parts: []*graph.Part{{ID: "first", Kind: graph.HeatPump}, {ID: "past", Kind: graph.BallValve}}}
	names := tag.Of(c, stream.NewNet(c))
	m := plan.ModeSummary{Beside: []plan.UnitSummary{{ID: "first", Past: "past"}}}
	if got := byTag(names, m, `"first" gets 4 m3/h; "past" takes 7 m3/h`); got != "HP1 gets 4 m3/h; V1 takes 7 m3/h" {
		t.Error(got)
	}
}
