package settle

import (
	"testing"

	"dryfit/catalog"
	"dryfit/catalog/tables"
	"dryfit/graph"
)

// A row's own range of its cracking pressure widens its class on either side and never narrows it;
// a row of the user's own says what it says.
func TestCrackingNeverNarrows(t *testing.T) {
	class, _ := tables.Spread(tables.SpreadCracking, "assumed")
	of := func(low, high float64, own bool) tables.Span {
		out := &Part{Part: &graph.Part{Kind: graph.CheckValve}}
		out.LossRow.V = catalog.Row{CrackingPa: 100, CrackingLowPa: 100 * (1 + low), CrackingHighPa: 100 * (1 + high), Own: own}
		return crackingSpread(out, true).Span
	}
	near := func(a, b float64) bool { return a-b < 1e-9 && b-a < 1e-9 }
	if got := of(class.Low/4, class.High/4, false); !near(got.Low, class.Low) || !near(got.High, class.High) {
		t.Errorf("a narrow row: %+v, its class %+v", got, class)
	}
	if got := of(class.Low-0.1, class.High/4, false); !near(got.Low, class.Low-0.1) || !near(got.High, class.High) {
		t.Errorf("a row wide below: %+v, its class %+v", got, class)
	}
	if got := of(class.Low/4, class.High/4, true); !near(got.Low, class.Low/4) || !near(got.High, class.High/4) {
		t.Errorf("the user's own row: %+v", got)
	}
}
