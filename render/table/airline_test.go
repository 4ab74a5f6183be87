package table

import (
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/render/table/form"
)

// An air line is no pipe with water: it is not listed with a bore of nothing.
func TestAirLinesAreNotListedAsPipe(t *testing.T) {
	sol := &hydraulic.Solution{Runs: []hydraulic.RunFlow{
		{Run: &graph.Run{ID: "line"}, BoreMM: 40.9, Flow: 1e-3}, {Run: &graph.Run{ID: "air-line"}}, {Run: &graph.Run{ID: "joint"}, Bare: true}}}
	s := form.Style{Units: quantity.InchSystem}
	text := string(form.Text([]form.Block{{Grid: runsOfMode(sol, s)}}, s))
	if strings.Contains(text, "air-line") || !strings.Contains(text, "line") || !strings.Contains(text, "joint") {
		t.Errorf("%s", text)
	}
}
