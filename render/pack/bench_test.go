package pack

import (
	"fmt"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/route"
	"dryfit/render/table/form"
)

// Of the joints of the bench those that wait for the unit to stand are none that is made days before.
func TestWaitingJointsAreNotMadeBefore(t *testing.T) {
	a := &route.Assembly{Steps: []route.Step{
		{Phase: route.Bench, Joints: []int{1, 2}}, {Phase: route.Bench, Joints: []int{3}}, {Phase: route.Waits, Joints: []int{4}}, {Phase: route.InLine, Joints: []int{5}}}}
	if got := daysBefore(a); got != 3 {
		t.Errorf("%d joints days before, want 3", got)
	}
	if got := daysBefore(nil); got != 0 {
		t.Errorf("%d joints without an order", got)
	}
}

// The order of work glues a piece that waits for the unit once the unit stands, and tells first how it is measured;
// what is made on the bench before has nothing of it.
func TestOrderOfWorkWaitsForTheUnit(t *testing.T) {
	p := jobPlan(t, "second-unit")
	stages := method(p, factsOf(p, quantity.MetricSystem))
	at := map[string]int{}
	for i, s := range stages {
		at[s.Title] = i + 1
	}
	bench, unit, rest, line := at["On the bench"], at["The unit"], at["The rest of the bench work"], at["Into the old line"]
	if !(0 < bench && bench < unit && unit < rest && rest < line) {
		t.Fatalf("out of order: %v", at)
	}
	var waits []string
	for _, piece := range p.After.Layout.Pieces {
		if words := fmt.Sprintf("piece %d", piece.Number); piece.OnSite && strings.Contains(stages[rest-1].Steps[0], words+",") {
			waits = append(waits, words)
		}
	}
	if len(waits) != 1 {
		t.Fatalf("%v wait, want one piece", waits)
	}
	if text := strings.Join(stages[bench-1].Steps, " "); strings.Contains(text, "– "+waits[0]+" ") {
		t.Errorf("%s is glued before the unit stands: %s", waits[0], text)
	}
	if steps := stages[rest-1].Steps; len(steps) != 2 || !strings.Contains(steps[0], "Measure how far the outlet of HP2 is from its inlet, put on "+waits[0]+",") || !strings.Contains(steps[1], waits[0]+" (") {
		t.Errorf("the rest of the bench work: %q", steps)
	}
}

// Where nothing may be built nothing is commissioned, and no joint is ticked off.
func TestNothingToCommission(t *testing.T) {
	for job, want := range map[string]bool{"no-place": false, "second-unit": true, "unit-out": true} {
		p := jobPlan(t, job)
		got := map[string]bool{}
		for _, c := range bookOf(p, form.Style{}, Options{}, nil).Chapters {
			got[c.ID] = true
		}
		if got["record"] != want || got["joints"] != want || !got["answer"] {
			t.Errorf("%s: a record %v, joints %v; want %v", job, got["record"], got["joints"], want)
		}
	}
}
