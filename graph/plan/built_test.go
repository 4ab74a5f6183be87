package plan_test

import (
	"os"
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

// What was read before the work stands in the notes of what it was read at in the file as built, of a run in that
// of the part at its end, with what was planned by; it is no reading there.
func TestBuiltKeepsWhatWasRead(t *testing.T) {
	text, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range []string{"at = \"pump\"\nmode = \"low\"\nflow = \"6.5 m3/h\"\nplus-minus = \"5 %\"", "at = \"return-line\"\nmode = \"high\"\nflow = \"15 m3/h\"", "at = \"filter.out\"\nmode = \"high\"\npressure = \"0.8 bar\""} {
		text = append(text, []byte("\n[[reading]]\n"+r+"\n")...)
	}
	p := work(t, read(t, "read.toml", text), plan.Flows)
	built := read(t, "built.toml", description.Write(p.Built()))
	if len(built.Readings) != 0 || len(p.Asked.Fit.Read) != 3 || !p.Asked.Fit.Changes() {
		t.Fatalf("%d readings of what stood before; %+v", len(built.Readings), p.Asked.Fit)
	}
	for i, of := range []string{"pump", "element", "filter"} {
		q := &p.Asked.Fit.Read[i]
		for _, want := range []string{q.At, q.Mode, q.Amount(q.Value()).In(quantity.MetricSystem), q.Amount(q.Taken).In(quantity.MetricSystem), []string{"5 %", "12 %", "6.0 kPa"}[i]} {
			if note := built.Part(of).Note; !strings.Contains(note, want) {
				t.Errorf("the note of %s does not say %s: %q", of, want, note)
			}
		}
	}
}
