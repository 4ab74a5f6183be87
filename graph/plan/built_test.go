package plan_test

import (
	"testing"

	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/plan"
)

// What a throttle was set by stands in the file as built, besides its Kv: the flow of the unit in the mode it is
// set in, which the circuit read back comes to. A job without one has no reading from it.
func TestBuiltKeepsWhatAThrottleWasSetBy(t *testing.T) {
	throttles := 0
	for _, file := range []string{"../../testdata/plunge-pool.toml", "../../testdata/plug-in.toml", "../../testdata/two-speed.toml", "../../testdata/circulation.toml", "testdata/jobs/one-speed.toml"} {
		p := work(t, readFile(t, file), plan.Flows)
		unit := p.After.Circuit.TheUnit().ID
		var aims []plan.Aim
		for _, v := range p.After.Circuit.Parts {
			if a, ok := p.AimOf(v.ID); ok && v.New() && v.Valve != nil && v.Valve.Kv > 0 {
				aims = append(aims, a)
			}
		}
		built := read(t, "built.toml", description.Write(p.Built()))
		if len(built.Readings) != len(aims) {
			t.Fatalf("%s: %d readings of %d throttles", file, len(built.Readings), len(aims))
		}
		for i, a := range aims {
			throttles++
			r := built.Readings[i]
			if r.Part != unit || r.Mode != a.Mode || !agree.Within(r.Flow, a.Flow, 0.0051/3600) || built.Part(a.Valve).Valve.Kv != p.Circuit.Part(a.Valve).Valve.Kv {
				t.Errorf("%s: read %+v, set by %+v", file, r, a)
			}
			again := work(t, built, plan.Flows)
			if got := again.After.Solution(a.Mode).Part(unit).Flow; !agree.Within(got, r.Flow, 5e-3*r.Flow) {
				t.Errorf("%s: it reads %g where it was set to %g", file, got, r.Flow)
			}
		}
	}
	if throttles == 0 {
		t.Error("no job with a throttle")
	}
}
