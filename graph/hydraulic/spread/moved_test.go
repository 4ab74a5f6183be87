package spread

import (
	"slices"
	"testing"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
)

// Beside the unit the job is about every other is watched that gets water, but one that was there and
// gets what it gets today: the work does not meet its water.
func TestUnitsThatAreWatched(t *testing.T) {
	job, met, apart, fresh, idle := &graph.Part{ID: "job"}, &graph.Part{ID: "met", Existing: true}, &graph.Part{ID: "apart", Existing: true}, &graph.Part{ID: "new"}, &graph.Part{ID: "idle"}
	stage := func(flows map[*graph.Part]float64) *spreadStage {
		st := &spreadStage{model: &hydraulic.Model{PartAt: map[string]int{}}, likely: &hydraulic.Solution{}}
		for i, p := range []*graph.Part{job, met, apart, fresh, idle} {
			st.model.PartAt[p.ID] = i
			st.likely.Parts = append(st.likely.Parts, hydraulic.PartFlow{Part: p, Flow: flows[p]})
		}
		return st
	}
	s := &spreader{unitPart: job, others: []*graph.Part{met, apart, fresh, idle}}
	m := &spreadMode{unit: 0, after: stage(map[*graph.Part]float64{job: 1e-3, met: 1.5e-3, apart: 2e-3, fresh: 1e-3})}
	m.before = stage(map[*graph.Part]float64{met: 2e-3, apart: 2e-3, fresh: 1e-3})
	if got := s.watchedIn(m); !slices.Equal(got, []int{0, 1, 3}) {
		t.Errorf("watched are %v, want the job's, the one that loses water to it and the other new one", got)
	}
	m.unit = -1
	m.after = stage(map[*graph.Part]float64{apart: 2e-3})
	if got := s.watchedIn(m); !slices.Equal(got, []int{2}) {
		t.Errorf("where nothing else gets water watched are %v, want the one that stands", got)
	}
	m.unit, m.after = 0, stage(map[*graph.Part]float64{job: 1e-3, met: 1.5e-3, apart: 2e-3, fresh: 1e-3})
	m.before = nil // nothing to compare with
	if got := s.watchedIn(m); !slices.Equal(got, []int{0, 1, 2, 3}) {
		t.Errorf("with no circuit before the work watched are %v, want all that get water", got)
	}
}

// Setting a valve by what one of several units shows settles the flow of that unit alone.
func TestUntilSetOfAnotherUnit(t *testing.T) {
	r := &Ranges{Unit: "second", Set: &Set{Setting: Setting{Valve: "bypass-2"}}}
	if r.UntilSet(UnitsFlow, "second") == "" || r.UntilSet(UnitsFlow, "first") != "" || r.UntilSet(JetsFlow, "second") != "" {
		t.Error("until a valve is set by the second unit's flow only what moves that is said so")
	}
}
