package plan_test

import (
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/plan"
	"dryfit/graph/route"
	"dryfit/graph/route/solid"
)

// What the pipes to a unit were led clear of is held by the plan that is written, at the same place: by the
// part it was counted from, or by the unit where that is a new tee. Pipe of the plan that is then led
// through it is an error, and so it is held against a later unit. Places by hand, from the layout.
func TestPlanHoldsWhatIsKeptClear(t *testing.T) {
	for _, job := range []string{"past-the-door", "one-speed", "sunk-in-deck"} {
		p := work(t, readFile(t, "testdata/jobs/"+job+".toml"), plan.Findings)
		stand := p.Asked.Retrofit.Stand
		again := work(t, read(t, "planned.toml", description.Write(p.Circuit)), plan.Findings)
		kept := route.KeptClear(again.After.Layout)
		if len(kept) != len(stand.KeepClear) {
			t.Fatalf("%s: %d boxes are held of %d", job, len(kept), len(stand.KeepClear))
		}
		origin, ok := again.After.Layout.Positions[stand.From.String()]
		if !ok {
			t.Fatalf("%s: %s has no place", job, stand.From)
		}
		for i, k := range kept {
			low, high := solid.Box(k.Low, k.High).Bounds()
			wantLow, wantHigh := solid.Box(origin.Add(stand.KeepClear[i].From), origin.Add(stand.KeepClear[i].To)).Bounds()
			if !agree.Within(low.Sub(wantLow).Len(), 0, 0.01) || !agree.Within(high.Sub(wantHigh).Len(), 0, 0.01) {
				t.Errorf("%s: box %d stands from %v to %v, asked for %v to %v", job, i+1, low, high, wantLow, wantHigh)
			}
		}
		passes := func(p *plan.Plan) bool {
			return slices.ContainsFunc(p.Findings, func(d graph.Diagnostic) bool {
				return d.Rule == "clash" && d.Severity == graph.Error && strings.Contains(d.Message.String(), "passes what is to be kept clear: ")
			})
		}
		if passes(again) {
			t.Errorf("%s: the plan as written passes it", job)
		}
		for _, part := range again.Asked.Parts { // the box is moved onto the unit's inlet, and its pipes with it pass it
			for i := range part.KeepClear {
				inlet := again.After.Layout.Positions[again.Asked.TheUnit().ID+".in"].Sub(kept[0].Low.Sub(kept[0].From))
				part.KeepClear[i].From, part.KeepClear[i].To = inlet.Add(graph.Vec{X: -200, Y: -200, Z: -200}), inlet.Add(graph.Vec{X: 200, Y: 200, Z: 200})
			}
		}
		if !passes(work(t, again.Asked, plan.Findings)) {
			t.Errorf("%s: pipe through what is to be kept clear is not told", job)
		}
	}
}

// Where it is counted from the first new tee the unit holds it, counted from its inlet.
func TestUnitHoldsWhatIsCountedFromATee(t *testing.T) {
	c := readFile(t, "testdata/jobs/past-the-door.toml")
	asked := *c.Retrofit
	stand := *asked.Stand
	stand.From = graph.PortRef{}
	asked.Stand = &stand
	box := stand.KeepClear[0]
	p := work(t, c, plan.Findings)
	if p.Proposal == nil {
		t.Fatal("no place")
	}
	c.Retrofit = &asked
	asked.Cut = &graph.Cut{Run: p.Proposal.Place.Run, Leg: p.Proposal.Place.Leg, AtMM: p.Proposal.Place.FromMM}
	unit := work(t, c, plan.Findings).Circuit.Part(asked.Unit)
	if len(unit.KeepClear) == 0 || !agree.Within(unit.KeepClear[0].From.Sub(box.From.Sub(stand.At)).Len(), 0, 1e-9) {
		t.Errorf("the unit holds %+v, want %+v less %v", unit.KeepClear, box, stand.At)
	}
}
