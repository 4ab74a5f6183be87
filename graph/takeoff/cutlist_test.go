package takeoff

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/route/laying"
	"dryfit/graph/takeoff/stock"
)

func pieces(lengths ...float64) []stock.Demand {
	var out []stock.Demand
	for i, l := range lengths {
		out = append(out, stock.Demand{Number: i + 1, LengthMM: l})
	}
	return out
}

func price(s string) decimal.NullDecimal {
	if s == "" {
		return decimal.NullDecimal{}
	}
	return decimal.NewNullDecimal(decimal.RequireFromString(s))
}

// What cannot be planned is a finding, and the rest is planned.
func TestPlainCutListFindings(t *testing.T) {
	list, ds := PlainCutList(pieces(5000, 100), []stock.Supply{{LengthMM: 3000, Price: price("9.6")}}, 1)
	if len(ds) != 1 || !strings.Contains(ds[0].Message.String(), "piece 1 of 5000 mm") || ds[0].Hint == "" {
		t.Errorf("findings %v", ds)
	}
	if p := list.Plans[0]; p.Cost != "9.60" || p.LowerBound != "9.60" || !p.ProvedOptimal || len(p.Bars) != 1 {
		t.Errorf("plan %+v", p)
	}
}

// Hose is cut with shears or a knife, which take nothing: two pieces of 500 mm come out of a coil of 1 m,
// where pipe that is sawn, flexible PVC too, wants a second bar for them.
func TestHoseLosesNoKerf(t *testing.T) {
	for spec, bars := range map[catalog.Spec]int{catalog.HosePipe: 1, catalog.RibbedHose: 1, catalog.FlexMetric: 2, catalog.PVCPN16: 2} {
		size := catalog.Size{Metric: true, Nominal: 50}
		c := &graph.Circuit{Catalog: catalog.Embedded(), Stock: []graph.Stock{{Spec: spec, Size: size, LengthMM: 1000, Price: "9.00"}}}
		lay := laying.Of(c)
		lay.Pieces = []route.Piece{{Number: 1, Spec: spec, Size: size, CutMM: 500}, {Number: 2, Spec: spec, Size: size, CutMM: 500}}
		list := NewCutList(c, lay)
		if len(list.Plans) != 1 || len(list.Plans[0].Bars) != bars || (list.Plans[0].KerfMM == 0) != (bars == 1) {
			t.Errorf("%s: %+v, want %d bars", spec, list.Plans, bars)
		}
	}
}

// Two pieces of 499.6 mm are printed, and sawn, as 500 mm: with the saw's 1 mm they are no bar of 1000 mm, though
// 999.2 mm and 0.8 mm of it would be. In inches they are printed as 19-11/16 in, 500.0625 mm.
func TestPlanOfWhatTheTapeReads(t *testing.T) {
	piece := route.Piece{Number: 1, Spec: "pvc-sch40", CutMM: 499.6}
	for units, want := range map[string]float64{"metric": 500, "inch": 500.0625} {
		groups := pipeGroups([]route.Piece{piece, piece}, units)
		if len(groups) != 1 || len(groups[0].demands) != 2 {
			t.Fatalf("%s: %+v", units, groups)
		}
		for _, d := range groups[0].demands {
			if !near(d.LengthMM, want, 1e-9) {
				t.Errorf("%s: %g mm, want %g", units, d.LengthMM, want)
			}
		}
	}
	metric := pipeGroups([]route.Piece{piece, piece}, "metric")[0]
	if r := stock.Plan(metric.demands, []stock.Supply{{LengthMM: 1000}}, 1); len(r.Bars) != 2 {
		t.Errorf("%d bars, want 2", len(r.Bars))
	}
}
