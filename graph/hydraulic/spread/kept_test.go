package spread

import (
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/hydraulic"
)

// What is kept is counted by hand: of the flows 8, 9, 10, 10.5 and 11 m³/h four reach the least of
// 9, three the rated of 10, and as many stay below the most of 10; a tenth less for the jets is kept by
// a twentieth less, and broken by three twentieths. Of another unit the least of 8 is kept by 9 and 9.5, not by 7; one whose pump is off is
// promised nothing.
func TestKeptByHand(t *testing.T) {
	const h = 3600
	var flows []sampled
	for _, q := range []float64{8, 9, 10, 10.5, 11} {
		flows = append(flows, sampled{value: q / h})
	}
	unit := &graph.Part{ID: "unit", Kind: graph.HeatPump, Unit: &graph.UnitData{Least: 9. / h, Rated: 10. / h, Most: 10. / h}}
	other := &graph.Part{ID: "other", Kind: graph.HeatPump, Existing: true, Unit: &graph.UnitData{Least: 8. / h}}
	idle := &graph.Part{ID: "idle", Kind: graph.HeatPump, Unit: &graph.UnitData{Least: 8. / h}}
	m := &spreadMode{name: "on", jetsChange: []sampled{{value: -0.05}, {value: -0.15}, {value: 0.02}, {value: -0.3}},
		after: &spreadStage{model: &hydraulic.Model{PartAt: map[string]int{"unit": 0, "other": 1, "idle": 2}},
			likely: &hydraulic.Solution{Parts: []hydraulic.PartFlow{{Part: unit, Flow: 10. / h}, {Part: other, Flow: 9. / h}, {Part: idle}}},
			parts:  [][]sampled{flows, {{value: 7. / h}, {value: 9. / h}, {value: 9.5 / h}}, {{value: 0}}}}}
	got, others := map[PromiseKind]Promise{}, 0
	for _, p := range m.promises(unit, []*graph.Part{other, idle}) {
		if p.Part == "other" {
			if p.Kind != LeastFlow || p.Kept != 2 || p.Of != 3 || !p.Stands || !strings.Contains(p.Text.String(), `"other" gets at least`) {
				t.Errorf("of the other unit: %+v, want its least flow in 2 of 3", p)
			}
			others++
			continue
		}
		if p.Part == "idle" {
			t.Errorf("a unit whose pump is off is promised %s", p.Text)
		}
		got[p.Kind] = p
	}
	if others != 1 {
		t.Errorf("%d promises of the other unit, want that of its least flow", others)
	}
	for kind, want := range map[PromiseKind][2]int{LeastFlow: {4, 5}, RatedFlow: {3, 5}, MostFlow: {3, 5}, JetsTenth: {2, 4}} {
		if p := got[kind]; p.Kept != want[0] || p.Of != want[1] || !agree.Within(p.Share, float64(want[0])/float64(want[1]), 1e-12) {
			t.Errorf("%s: %d of %d, want %v", kind, p.Kept, p.Of, want)
		}
	}
	m.untouched = true
	for _, p := range m.promises(unit, nil) {
		if p.Kind == JetsTenth {
			t.Errorf("no place for the cut, and yet %s in %d of %d", p.Text, p.Kept, p.Of)
		}
	}
}

// Pipe above the water is never taken to stand more for it: the water that stands lower pulls on
// it only while it does not run.
func TestPipeAboveTheWater(t *testing.T) {
	const metre = 9740
	if l := noLimit.take(1e5, -2000, true, metre); !agree.Within(l.known, 1e5, 1e-9) {
		t.Errorf("2 m above the water: %g Pa are left of 1 bar", l.known)
	}
	if l := noLimit.take(1e5, 2000, true, metre); !agree.Within(l.known, 1e5-2*metre, 1e-9) {
		t.Errorf("2 m below the water: %g Pa are left of 1 bar", l.known)
	}
}
