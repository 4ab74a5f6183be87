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
	class := tables.Spread(tables.SpreadCracking, "assumed")
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

// A row's range of a filter is that of a clean one: its middle is what dirt adds to a sheet's, and that
// of a filter of which no row says a range is its class's. spreads.csv has both.
func TestFilterMiddleIsOfACleanOne(t *testing.T) {
	sheet := tables.Spread(tables.SpreadFilterLoss, "data-sheet")
	guess := tables.Spread(tables.SpreadFilterLoss, "assumed")
	if sheet.Middle == guess.Middle {
		t.Fatal("the two have one middle: nothing is told")
	}
	of := func(row catalog.Row) float64 {
		out := &Part{Part: &graph.Part{Kind: graph.Filter}}
		out.Loss.Row = row
		return lossSpread(out).Middle
	}
	near := func(a, b float64) bool { return a-b < 1e-9 && b-a < 1e-9 }
	if got := of(catalog.Row{LossDropPa: 100, LossLowPa: 60, LossHighPa: 200}); !near(got, sheet.Middle) {
		t.Errorf("by a row's range: middle %g, want the sheet's %g", got, sheet.Middle)
	}
	if got := of(catalog.Row{LossDropPa: 100}); !near(got, guess.Middle) {
		t.Errorf("without a range: middle %g, want the class's %g", got, guess.Middle)
	}
}
