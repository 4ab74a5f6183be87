package plan_test

import (
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/description"
	"dryfit/graph/plan"
)

// What a throttle is to be set by stands in its note in the file as built, besides its Kv, and as no
// reading: nobody has read it, and ranges are not narrowed by a wish. A job without a throttle has no such note.
func TestBuiltKeepsWhatAThrottleWasSetBy(t *testing.T) {
	throttles := 0
	for _, file := range []string{"../../testdata/plunge-pool.toml", "../../testdata/plug-in.toml", "../../testdata/two-speed.toml", "../../testdata/circulation.toml", "testdata/jobs/one-speed.toml"} {
		p := work(t, readFile(t, file), plan.Flows)
		built := read(t, "built.toml", description.Write(p.Built()))
		if len(built.Readings) != 0 {
			t.Errorf("%s: %d readings that nobody took", file, len(built.Readings))
		}
		for _, v := range p.After.Circuit.Parts {
			a, ok := p.AimOf(v.ID)
			set := ok && v.New() && v.Valve != nil && v.Valve.Kv > 0
			note := built.Part(v.ID).Note
			if got := strings.Contains(note, "planned: "); got != set {
				t.Errorf("%s: %s is set by a reading: %v; its note: %q", file, v.ID, set, note)
			}
			if !set {
				continue
			}
			throttles++
			if flow := quantity.Format(a.Flow, quantity.Flow, quantity.SystemOf(built.Job.Units)); !strings.Contains(note, flow) || !strings.Contains(note, a.Unit) || !strings.Contains(note, a.Mode) {
				t.Errorf("%s: %q does not say %s through %s in mode %s", file, note, flow, a.Unit, a.Mode)
			}
			if built.Part(v.ID).Valve.Kv != p.Circuit.Part(v.ID).Valve.Kv {
				t.Errorf("%s: %s has lost its Kv", file, v.ID)
			}
		}
	}
	if throttles == 0 {
		t.Error("no job with a throttle")
	}
}
