package plan_test

import (
	"math"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/plan"
)

// A unit that is fitted and taken out again leaves the water as it was: the same flows within
// what two butted joints may differ, in every mode, and every joint can be made.
func TestFitAndRemove(t *testing.T) {
	for _, file := range []string{"two-speed", "large-circulation", "circulation", "plunge-pool"} {
		t.Run(file, func(t *testing.T) {
			fitted := work(t, readFile(t, "../../testdata/"+file+".toml"), plan.Findings|plan.Flows)
			if fitted.Proposal == nil || fitted.Before == nil {
				t.Fatalf("nothing was fitted: %v", fitted.Findings)
			}
			c := fitted.Circuit.Built()
			c.Retrofit = &graph.Retrofit{Unit: fitted.Asked.Retrofit.Unit, Remove: true}
			removed := work(t, c, plan.Findings|plan.Flows)
			if removed.Proposal == nil {
				t.Fatalf("nothing was taken out: %v", removed.Findings)
			}
			for _, d := range removed.Findings {
				if d.Severity == graph.Error {
					t.Errorf("%s: %s [%s]", d.Severity, d.Message, d.Rule)
				}
			}
			if c, ds := description.Read("left.toml", description.Write(removed.Circuit.Built())); c == nil || graph.HasErrors(ds) {
				t.Errorf("what is left is written and does not read: %v", graph.Errors(ds))
			}
			if !removed.Assembly.OK {
				t.Error("the line can't be closed: no order of assembly")
			}
			for _, closure := range removed.After.Layout.Closures {
				if miss := closure.ErrorMM.Len(); miss > 0.5 {
					t.Errorf("the loop of %v misses itself by %.2f mm", closure.Runs, miss)
				}
			}
			for _, p := range removed.After.Circuit.Parts {
				if p.Kind == graph.HeatPump {
					t.Errorf("%q is still there", p.ID)
				}
			}
			if got, want := len(removed.After.Solutions), len(fitted.Before.Solutions); got != want {
				t.Fatalf("%d modes, want %d", got, want)
			}
			for i := range removed.After.Solutions {
				now, was := &removed.After.Solutions[i], &fitted.Before.Solutions[i]
				for k := range was.Parts {
					p := &was.Parts[k]
					q := now.Part(p.Part.ID)
					if q == nil {
						t.Errorf("%q is gone", p.Part.ID)
						continue
					}
					if !agree.Within(q.Flow, p.Flow, 0.005*math.Abs(p.Flow)+1e-9) {
						t.Errorf("%s: %q passes %.4f m3/h, before any work %.4f", was.Mode.Name, p.Part.ID, q.Flow*3600, p.Flow*3600)
					}
				}
			}
		})
	}
}
