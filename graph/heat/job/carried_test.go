package job

import (
	"testing"

	"dryfit/graph/agree"
	"dryfit/graph/sample"
)

// The years worked out at the few points, carried to all by what each value does alone, give the ends of
// nine in ten that years worked out at all of them give, to a fortieth; those of a demo's saving by the few alone were off by a sixteenth. Where all are worked out nothing is carried.
func TestFewStandForAll(t *testing.T) {
	in := testInput()
	in.Stage.Circuit.HeatLoss = nil  // walls and cover are guesses then, the widest there are
	in.Sample.All = sample.Some(250) // of all 1021 it takes seconds
	few := answer(in).Year
	in.Sample.Points = in.Sample.All
	all := answer(in).Year
	if few.Samples != len(sample.Few()) || all.Samples != 250 {
		t.Fatalf("%d and %d years worked out", few.Samples, all.Samples)
	}
	for _, c := range []struct {
		what     string
		got, out Range
	}{
		{"today", few.TodayKWh, all.TodayKWh},
		{"planned", few.PlannedKWh, all.PlannedKWh},
		{"saving", few.SavingKWh, all.SavingKWh},
		{"cost", few.SavingCost, all.SavingCost},
		{"share", few.SavingShare, all.SavingShare},
	} {
		if !agree.Within(c.got.Low, c.out.Low, c.out.Low/40) || !agree.Within(c.got.High, c.out.High, c.out.High/40) {
			t.Errorf("%s: %.3f to %.3f of the few, %.3f to %.3f of all", c.what, c.got.Low, c.got.High, c.out.Low, c.out.High)
		}
	}
}
