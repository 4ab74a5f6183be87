package spread

import (
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/hydraulic"
)

// What is off of a written bore moves the runs that have one, all of one pipe together where a table has
// that pipe, and no other run.
func TestAWrittenBoreMovesItsRuns(t *testing.T) {
	m := unknownModel(t, "", "high")
	first := m.Runs[0].Run
	like := 0
	for i := range m.Runs {
		if r := m.Runs[i].Run; r.Spec == first.Spec && r.Size == first.Size && r.New() == first.New() && like < 2 {
			r.BoreMM = 50
			like++
		}
	}
	if like != 2 {
		t.Fatalf("%d runs of one pipe, want 2 at the least", like)
	}
	for listed, want := range map[bool]int{true: 2, false: 1} {
		p := &hydraulic.Perturb{}
		onWrittenBore(first, listed)(m, p, 1.01)
		moved := 0
		for i, f := range p.Bore {
			switch {
			case f == 1:
			case m.Runs[i].Run.BoreMM > 0 && agree.Within(f, 1.01, 1e-12):
				moved++
			default:
				t.Errorf("%s: %g", m.Runs[i].Run.ID, f)
			}
		}
		if moved != want {
			t.Errorf("%d runs moved, want %d", moved, want)
		}
	}
	p := &hydraulic.Perturb{}
	onBores(first.Spec, !first.New())(m, p, 1.01)
	for i, f := range p.Bore {
		if m.Runs[i].Run.BoreMM > 0 && f != 1 {
			t.Errorf("the walls of the standard move a bore that is written: %g", f)
		}
	}
}

// Hose on barbs has no cement in it: joints move pipe only. Source: common practice; its barbs have a K of
// their own.
func TestHoseHasNoCement(t *testing.T) {
	m := unknownModel(t, "", "high")
	var hose *graph.Run
	for i := range m.Runs {
		if m.Runs[i].LengthM > 0 {
			hose = m.Runs[i].Run
		}
	}
	hose.Spec = "hose"
	p := &hydraulic.Perturb{}
	onJoints(!hose.New())(m, p, 0.2)
	for i, k := range p.Joints {
		r := &m.Runs[i]
		if want := r.LengthM > 0 && r.Run.New() == hose.New() && r.Run.Spec != "hose"; (k > 0) != want {
			t.Errorf("%s of %s: K %g of joints", r.Run.ID, r.Run.Spec, k)
		}
	}
}
