package plan_test

import (
	"slices"
	"testing"

	"dryfit/graph/plan"
	"dryfit/graph/route"
)

// A piece that waits for the unit is glued to nothing on the days of the bench: its joints are made when the
// unit stands, after all that can be made before and before the old line is opened, and the joints are
// numbered in that order. The second unit of the job has its outlet's place left open, and a piece of the
// string waits for it.
func TestWhatWaitsIsMadeWhenTheUnitStands(t *testing.T) {
	p := work(t, readFile(t, "testdata/jobs/second-unit.toml"), plan.Findings)
	phase, last := map[int]route.Phase{}, 0
	for _, s := range p.Assembly.Steps {
		for _, n := range s.Joints {
			if n != last+1 || p.After.Layout.Joints[n-1].Number != n {
				t.Errorf("joint %d is made after joint %d", n, last)
			}
			last, phase[n] = n, s.Phase
		}
	}
	if last != len(p.After.Layout.Joints) || !p.Assembly.OK || len(p.After.Blocked) > 0 {
		t.Errorf("%d of %d joints have a step; blocked: %v", last, len(p.After.Layout.Joints), p.After.Blocked)
	}
	waiting := 0
	for _, piece := range p.After.Layout.Pieces {
		for _, n := range []int{piece.From.Joint, piece.To.Joint} {
			switch {
			case piece.OnSite && phase[n] == route.Bench:
				t.Errorf("joint %d of piece %d, which waits, is made on the bench days before", n, piece.Number)
			case piece.OnSite && phase[n] == route.Waits:
				waiting++
			case !piece.OnSite && phase[n] == route.Waits && !slices.ContainsFunc(p.After.Layout.Pieces, func(o route.Piece) bool { return o.OnSite && (o.From.Joint == n || o.To.Joint == n) }):
				t.Errorf("joint %d of piece %d waits for nothing", n, piece.Number)
			}
		}
	}
	if waiting != 2 {
		t.Errorf("%d joints wait for the unit, want the two of one piece", waiting)
	}
	for i := 1; i < len(p.Assembly.Steps); i++ {
		if p.Assembly.Steps[i].Phase < p.Assembly.Steps[i-1].Phase {
			t.Errorf("step %d belongs before step %d", i+1, i)
		}
	}
}
