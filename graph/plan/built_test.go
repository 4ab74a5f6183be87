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

// What a display says after the work is not asked for again as that which would settle the valve beside the
// unit: the valve is set by it anew, and what then is read counts. A reading elsewhere leaves the display the
// one to be read. Follows from what was read already.
func TestWhatWasReadOnTheDisplayIsNotAskedForAgain(t *testing.T) {
	p := work(t, readFile(t, "../../testdata/circulation.toml"), plan.Flows)
	built := string(description.Write(p.Built()))
	found := false
	for _, f := range []struct {
		reading string
		again   bool
	}{
		{"at = \"unit\"\nmode = \"MODE\"\nflow = \"FLOW\"\nplus-minus = \"3 %\"\n", true},
		{"at = \"circ-pump\"\nmode = \"MODE\"\nflow = \"PUMP\"\nplus-minus = \"3 %\"\n", false},
	} {
		mode := p.After.Solutions[0]
		text := strings.NewReplacer("MODE", mode.Mode.Name,
			"FLOW", quantity.Format(0.8*mode.Part("unit").Flow, quantity.Flow, quantity.MetricSystem),
			"PUMP", quantity.Format(0.95*mode.Part("circ-pump").Flow, quantity.Flow, quantity.MetricSystem)).Replace(f.reading)
		as := work(t, read(t, "built.toml", []byte(built+"\n[[reading]]\n"+text)), plan.Flows|plan.Ranges)
		for _, m := range as.Ranges.Moves {
			if m.What != "the Kv of \"bypass\"" && !strings.Contains(m.Said(), "the Kv of \"bypass\"") {
				continue
			}
			found = true
			if strings.Contains(m.Reading.String(), "once more") != f.again {
				t.Errorf("%s: to settle %s: %q", text, m.Said(), m.Reading)
			}
		}
	}
	if !found {
		t.Error("no valve beside the unit whose Kv moves anything")
	}
}
