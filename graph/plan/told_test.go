package plan

import (
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// TestToldByRule holds that the hint of a drain without room goes to the rule's finding only where
// there is one of each: of two low points nothing says which of them had no room.
func TestToldByRule(t *testing.T) {
	low := graph.Diagnostic{Severity: graph.Warning, Rule: "drain-at-low-points", Hint: "draw a drain"}
	high := graph.Diagnostic{Severity: graph.Warning, Rule: "bleed-at-high-points", Hint: "draw a bleed"}
	roomless := graph.Diagnostic{Severity: graph.Note, Rule: "drain-at-low-points", Hint: "another 20 mm of leg 2"}
	for _, c := range []struct {
		name  string
		in    []graph.Diagnostic
		hints []quantity.Text
	}{
		{"one of each", []graph.Diagnostic{roomless, high, low}, []quantity.Text{high.Hint, roomless.Hint}},
		{"two low points", []graph.Diagnostic{roomless, low, low}, []quantity.Text{roomless.Hint, low.Hint, low.Hint}},
		{"none missed", []graph.Diagnostic{roomless, high}, []quantity.Text{roomless.Hint, high.Hint}},
	} {
		t.Run(c.name, func(t *testing.T) {
			out := toldByRule(c.in)
			if len(out) != len(c.hints) {
				t.Fatalf("%d findings, want %d", len(out), len(c.hints))
			}
			for i, d := range out {
				if d.Hint != c.hints[i] {
					t.Errorf("finding %d says %q, want %q", i, d.Hint, c.hints[i])
				}
			}
		})
	}
}
