package plan

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/hydraulic"
	"dryfit/graph/lots"
)

// at returns the head of a curve at a flow, between its points in a straight line.
func at(points []hydraulic.SystemPoint, flow float64) float64 {
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		if flow >= a.Flow && flow <= b.Flow {
			return a.Head + (b.Head-a.Head)*(flow-a.Flow)/(b.Flow-a.Flow)
		}
	}
	return math.NaN()
}

// A duty point is where the pump's curve meets the circuit's: it lies on both, in every demo,
// mode and stage; and the range holds the likely flow, in the demo of two speeds and with -wide in all.
func TestDutyPointsLieOnBothCurves(t *testing.T) {
	files, _ := filepath.Glob("../../testdata/*.toml")
	if len(files) == 0 {
		t.Fatal("no demos")
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		c, _ := description.Read(file, data)
		if c == nil {
			t.Fatalf("%s: no circuit", file)
		}
		want := Flows
		if lots.Named(strings.TrimSuffix(filepath.Base(file), ".toml"), "two-speed") {
			want |= Ranges
		}
		p, err := Make(c, want)
		if err != nil {
			t.Fatal(err)
		}
		sets := Curves(p)
		if len(sets) == 0 {
			t.Errorf("%s: no curves", file)
		}
		for _, s := range sets {
			for _, d := range s.Duties {
				if want&Ranges != 0 && !(d.Range.Low <= d.Flow && d.Flow <= d.Range.High) {
					t.Errorf("%s %s %s: flow %g outside its range %v", file, d.Mode, d.Stage, d.Flow, d.Range)
				}
				pump, system := math.NaN(), math.NaN()
				for _, v := range s.Speeds {
					if v.Speed == d.Speed {
						pump = at(v.Points, d.Flow)
					}
				}
				for _, v := range s.Systems {
					for _, m := range v.Modes {
						if m == d.Mode && v.Stage == d.Stage {
							system = at(v.Points, d.Flow)
						}
					}
				}
				for what, h := range map[string]float64{"pump's": pump, "circuit's": system} {
					if !agree.Within(h, d.Head, 0.02*d.Head) {
						t.Errorf("%s %s %s: the duty's head is %.3f m, the %s curve gives %.3f there", file, d.Mode, d.Stage, d.Head, what, h)
					}
				}
			}
		}
	}
}

func TestCurvesOfNothing(t *testing.T) {
	if Curves(nil) != nil || Curves(&Plan{Circuit: &graph.Circuit{}}) != nil {
		t.Error("curves of nothing")
	}
}

// Where no place for the cut is found the work changes no way of the water: the circuit has one curve, as it stands,
// and no duty that is told twice as one before and one after.
func TestNothingFittedHasOneCurve(t *testing.T) {
	for file, befores := range map[string]bool{"testdata/jobs/no-place.toml": false, "../../testdata/two-speed.toml": true} {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		c, _ := description.Read(file, data)
		p, err := Make(c, Findings|Flows)
		if err != nil {
			t.Fatal(err)
		}
		sets := Curves(p)
		if len(sets) == 0 {
			t.Fatalf("%s: no curves", file)
		}
		for _, s := range sets {
			stages := map[graph.Stage]bool{}
			for _, d := range s.Duties {
				stages[d.Stage] = true
			}
			for _, y := range s.Systems {
				stages[y.Stage] = true
			}
			if stages[graph.Before] != befores || !stages[graph.After] {
				t.Errorf("%s: curves of %v", file, stages)
			}
		}
	}
}
