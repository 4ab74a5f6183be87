package search

import (
	"fmt"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan/stage"
	"dryfit/graph/retrofit"
)

// Of more modes than anybody reads one by one the first is told, those in which the unit gets least and
// most, that in which the jets lose most, and that in which another unit is left farthest below its least;
// of the rest, what each unit gets, and in how many of them the work takes another its least.
func TestRestOfManyModes(t *testing.T) {
	const h = 1. / 3600
	unit := func(id string) *graph.Part { return &graph.Part{ID: id, Kind: graph.HeatPump} }
	of := &trial{unit: "new", solved: true, stage: &stage.Stage{Circuit: &graph.Circuit{Parts: []*graph.Part{unit("new"), unit("old")}}}, proposal: &retrofit.Proposal{}}
	for i, flow := range []float64{4, 4.1, 3, 4.2, 6, 4.3, 4.4, 4.5, 4.6, 4.7} {
		mode := fmt.Sprintf("m%d", i)
		u := unitFlow{mode: mode, flow: flow * h, wanted: true}
		if i == 6 {
			u.jets = 0.2
		}
		of.unitFlows = append(of.unitFlows, u)
		now := 2.5
		switch i {
		case 5:
			now = 1
		case 7:
			now = 1.5
		case 8:
			now = 3 // as today
		}
		of.besides = append(of.besides, besideFlow{mode: mode, id: "old", now: now * h, was: 3 * h, least: 2 * h, rated: 3 * h, old: true})
	}
	s := &search{asked: &graph.Circuit{}}
	const old = `, "old" 2.5 m3/h instead of 3.0 m3/h today`
	want := `m0: "new" gets 4.0 m3/h` + old + `; m2: "new" gets 3.0 m3/h` + old + `; m4: "new" gets 6.0 m3/h` + old +
		`; m5: "new" gets 4.3 m3/h, "old" 1.0 m3/h instead of 3.0 m3/h today, less than its least 2.0 m3/h; m6: "new" gets 4.4 m3/h, the jets 20 % less than today` + old +
		`; 5 further modes: "new" gets 4.1 m3/h to 4.7 m3/h, "old" 1.5 m3/h to 3.0 m3/h, in 1 of them less than its least 2.0 m3/h`
	if got := s.summary(of).In(quantity.MetricSystem); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}
