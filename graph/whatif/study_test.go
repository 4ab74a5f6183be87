package whatif

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/lots"
	"dryfit/graph/plan"
)

func demo(t testing.TB, name string) *Study {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("../../testdata", name+".toml"))
	if err != nil {
		t.Fatal(err)
	}
	return studyOf(t, string(data))
}

func studyOf(t testing.TB, text string) *Study {
	t.Helper()
	j := Job{File: "job.toml", Text: []byte(text)}
	p, found := j.Plan(plan.Flows)
	if p == nil {
		t.Fatal(found)
	}
	return Of(j, p)
}

var demos = []string{"two-speed", "circulation", "large-circulation", "plunge-pool", "plug-in"}

func ask(t testing.TB, s *Study, v Values) []plan.ModeSummary {
	t.Helper()
	a, err := s.Ask(v, plan.Flows)
	if err != nil {
		t.Fatal(err)
	}
	if a.Plan == nil {
		t.Fatalf("%v: %v", v, a.Found)
	}
	return plan.Summarise(a.Plan)
}

// Every control of every demo can be turned to each end (each choice chosen), and what comes
// out still reads; turned to where it stands it changes nothing.
func TestEveryControlTurns(t *testing.T) {
	answered := map[string]string{}                                                                            // the demo by which the controls of a kind are answered: "speed" of "speed-pump-low"
	for _, name := range []string{"plug-in", "plunge-pool", "large-circulation", "circulation", "two-speed"} { // the quickest first
		s := demo(t, name)
		if len(s.Controls) < 5 {
			t.Errorf("%s: %d controls", name, len(s.Controls))
		}
		for i := range s.Controls {
			c := &s.Controls[i]
			values := []string{quantity.Trim(c.Low), quantity.Trim(c.High)}
			if c.ID == CutID {
				continue // TestCutIsMoved
			}
			if len(c.Choices) > 0 {
				values = []string{c.Choices[len(c.Choices)-1].Value, c.Choices[min(1, len(c.Choices)-1)].Value}
			} else if text, _, err := s.Text(Values{c.ID: quantity.Trim(c.Now)}); err != nil || !bytes.Equal(text, s.Job.Text) {
				t.Errorf("%s: %s turned to where it stands changes the file: %v", name, c.ID, err)
			}
			kind, _, _ := strings.Cut(c.ID, "-")
			if c.InFile && answered[kind] == "" {
				answered[kind] = name
			}
			for _, v := range values {
				a := &Answer{Job: s.Job}
				var err error
				if c.InFile && answered[kind] != name && !lots.All() { // their answers are planned as the others' are
					a.Job.Text, _, err = s.Text(Values{c.ID: v})
					if circuit, ds := description.Read(a.Job.File, a.Job.Text); err == nil && circuit == nil {
						err = fmt.Errorf("%v", ds)
					}
				} else if a, err = s.Ask(Values{c.ID: v}, plan.Flows); err == nil && a.Plan == nil {
					err = fmt.Errorf("%v", a.Found)
				}
				switch {
				case err != nil:
					t.Errorf("%s: %s = %q: %v", name, c.ID, v, err)
				case c.InFile && bytes.Equal(a.Job.Text, s.Job.Text) && v != quantity.Trim(c.Now) && v != AsItStands:
					t.Errorf("%s: %s = %q changes nothing", name, c.ID, v)
				}
			}
		}
		for _, bad := range []Values{{"nothing": "1"}, {"water": "x"}, {"water": "NaN"}, {"water": "1000"}, {"bypass": "magic"}} {
			if _, err := s.Ask(bad, plan.Flows); err == nil {
				t.Errorf("%s: %v is taken", name, bad)
			}
		}
	}
	if len(answered) != 10 {
		t.Errorf("kinds of control in the file: %v", answered)
	}
}

// The answer is that of the edited file, to the last digit: read anew and planned on its own.
// And the edit touches the lines it is about: comments and the rest stay.
func TestAnswerIsThatOfTheEditedFile(t *testing.T) {
	s := demo(t, "two-speed")
	v := Values{"jets-open": "60", "water": "30", "dirt-filter": "2.5", "drop-unit": "150", "speed-pump-high": "90", "branch-size": "2 in", "valve-v1": "40", "branch-length": "6"}
	a, err := s.Ask(v, plan.Flows)
	if err != nil || a.Plan == nil {
		t.Fatal(err, a)
	}
	other := Job{File: "other.toml", Text: a.Job.Text}
	p, found := other.Plan(plan.Flows)
	if p == nil {
		t.Fatal(found)
	}
	if len(p.After.Solutions) != 2 {
		t.Fatal("no flows")
	}
	for i, one := range a.Plan.After.Solutions {
		for k, f := range one.Parts {
			if g := p.After.Solutions[i].Parts[k]; g.Part.ID != f.Part.ID || g.Flow != f.Flow || g.Drop != f.Drop || g.State != f.State {
				t.Errorf("%s, %s: %v in the answer, %v of the file", one.Mode.Name, f.Part.ID, f.Flow, g.Flow)
			}
		}
	}
	text, only, err := s.Text(v)
	if err != nil || len(only) != 2 {
		t.Errorf("%v: no key of the file says %v", err, only)
	}
	was, now := strings.Split(string(s.Job.Text), "\n"), strings.Split(string(text), "\n")
	kept := 0
	for _, line := range was {
		if slices.Contains(now, line) {
			kept++
		}
	}
	if lost := len(was) - kept; lost > 6 {
		t.Errorf("%d lines of the file are others", lost)
	}
	for _, line := range was {
		if i := strings.Index(line, "#"); i >= 0 && !strings.Contains(string(text), line[i:]) {
			t.Errorf("a remark is gone: %s", line)
		}
	}
}

// Where several units stand each is turned by a control of its own, that of the job first; one that
// costs the water more gets less of it.
func TestEveryUnitIsTurned(t *testing.T) {
	data, err := os.ReadFile("../plan/testdata/jobs/second-unit.toml")
	if err != nil {
		t.Fatal(err)
	}
	s := studyOf(t, string(data))
	var units, turned []string
	for _, p := range s.Plan.After.Circuit.Parts {
		if p.Kind == graph.HeatPump {
			units = append(units, "drop-"+p.ID)
		}
	}
	for _, c := range s.Controls {
		if c.Group == groupUnit {
			turned = append(turned, c.ID)
		}
	}
	if len(units) != 2 || len(turned) != 2 || turned[0] != "drop-"+s.Plan.Asked.Retrofit.Unit {
		t.Fatalf("units %v, turned %v", units, turned)
	}
	for _, id := range turned {
		a, err := s.Ask(Values{id: "200"}, plan.Flows)
		if err != nil || a.Plan == nil {
			t.Fatal(err, a)
		}
		unit := strings.TrimPrefix(id, "drop-")
		if was, now := s.Plan.After.Solutions[0].Part(unit).Flow, a.Plan.After.Solutions[0].Part(unit).Flow; !(now < 0.99*was) {
			t.Errorf("%s costs twice as much and gets %g of %g", unit, now, was)
		}
	}
}

// In a job in inches a throttle is turned by its Cv, in gpm: a Kv of 22 m3/h is a Cv of 25.43 (22 over 0.865, IEC
// 60534-1), and one of 10 is written as a Kv of 8.65.
func TestThrottleIsTurnedInTheUnitsOfTheJob(t *testing.T) {
	data, err := os.ReadFile("../plan/testdata/jobs/second-unit.toml")
	if err != nil {
		t.Fatal(err)
	}
	for units, want := range map[string]struct {
		label, unit    string
		now, ten, kvOf float64
	}{"metric": {"bypass, Kv", "m3/h", 22, 10, 10}, "inch": {"bypass, Cv", "gpm", 25.43, 10, 8.65}} {
		s := studyOf(t, strings.Replace(string(data), "[job]\n", "[job]\nunits = \""+units+"\"\n", 1))
		i := slices.IndexFunc(s.Controls, func(c Control) bool { return c.ID == "valve-bypass" })
		if i < 0 {
			t.Fatalf("%s: the throttle is not turned", units)
		}
		if c := s.Controls[i]; c.Label != want.label || c.Unit != want.unit || !agree.Within(c.Now, want.now, 0.005) {
			t.Errorf("%s: %q stands at %g %s, want %+v", units, c.Label, c.Now, c.Unit, want)
		}
		a, err := s.Ask(Values{"valve-bypass": quantity.Trim(want.ten)}, plan.Flows)
		if err != nil || a.Plan == nil {
			t.Fatal(err, a)
		}
		if kv := a.Plan.After.Circuit.Part("bypass").Valve.Kv; !agree.Within(kv, want.kvOf, 0.001) {
			t.Errorf("%s: turned to %g %s its Kv is %g m3/h, want %g", units, want.ten, want.unit, kv, want.kvOf)
		}
	}
}

// What must follow whatever the numbers are: physics, by hand.
func TestTurnsTheRightWay(t *testing.T) {
	s := demo(t, "two-speed")
	// with the spring the tool took, for it would take another for another job
	s = studyOf(t, strings.Replace(string(s.Job.Text), `bypass = "auto"`, "bypass = \"spring\"\nspring = \""+s.Plan.Proposal.Choice.Spring+"\"", 1))
	base := ask(t, s, nil)
	low := func(v Values) plan.ModeSummary { return ask(t, s, v)[0] }
	if got := low(Values{"dirt-filter": "3"}); !(got.Pump < base[0].Pump) {
		t.Error("a dirty filter does not take flow")
	}
	if got := low(Values{"valve-v1": "20"}); !(got.Unit < base[0].Unit && got.Bypass > base[0].Bypass) {
		t.Error("a throttled unit does not send water through the bypass")
	}
	if got := low(Values{"valve-v1": "0"}); !(got.Unit < 1e-6) {
		t.Errorf("a shut valve lets %g pass", got.Unit)
	}
	if got := low(Values{"bypass": "none"}); !(got.Unit < base[0].Unit) {
		t.Error("plain pipe past the unit does not take its water")
	}
	if got := low(Values{"drop-unit": "200"}); !(got.Unit < base[0].Unit) {
		t.Error("a unit that costs more gets as much")
	}
	if got := low(Values{"branch-length": "10"}); !(got.Unit < base[0].Unit) {
		t.Error("longer pipes bring as much")
	}
	if got := low(Values{"branch-size": "2 in"}); !(got.Unit > base[0].Unit) {
		t.Error("wider pipes bring no more")
	}
	// water of 10 °C has 1.306 mPa s and 999.7 kg/m³, of 38 °C 0.678 and 993.0 (IAPWS): Reynolds
	// numbers over the flow are 0.522 of before
	cold, err := s.Ask(Values{"water": "10"}, plan.Flows)
	if err != nil || cold.Plan == nil {
		t.Fatal(err)
	}
	was, now := s.Plan.After.Solutions[0].Run("suction"), cold.Plan.After.Solutions[0].Run("suction")
	if share := (now.Reynolds / now.Flow) / (was.Reynolds / was.Flow); !agree.Within(share, 0.522, 0.003) {
		t.Errorf("Reynolds over flow is %.4f of before", share)
	}
	if got := ask(t, s, Values{"jets-open": "50"})[1]; !(got.Jets < base[1].Jets) {
		t.Error("half of the jets take as much")
	}
	if got := low(Values{"crack-bypass": "20"}); !(got.Unit > base[0].Unit) {
		t.Error("a stronger spring sends the unit no more")
	}
}

// A pump that turns at 0.8 of its speed against losses with the square of the flow moves 0.8
// of it (affinity laws); pipe friction departs from the square by a little. The tub has no
// spring, and parts nobody measured: they stay what they are.
func TestSpeedByAffinity(t *testing.T) {
	text := `
[pipe]
spec = "pvc-sch40"
size = "2 in"
[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b"]
[[part]]
id = "pump"
kind = "pump"
existing = true
type = "two-speed-pump"
[[part]]
id = "filter"
kind = "filter"
existing = true
[[part]]
id = "jets"
kind = "jet-group"
existing = true
count = 10
[[run]]
from = "tub.a"
to = "pump.in"
existing = true
length = "1 m"
[[run]]
from = "pump.out"
to = "filter.in"
existing = true
length = "1 m"
[[run]]
from = "filter.out"
to = "jets.in"
existing = true
length = "1 m"
[[run]]
from = "jets.out"
to = "tub.b"
existing = true
length = "0 mm"
`
	s := studyOf(t, text)
	base := ask(t, s, nil)
	got := ask(t, s, Values{"speed-pump-high": "80"})
	if share := got[1].Pump / base[1].Pump; !agree.Within(share, 0.8, 0.02) {
		t.Errorf("high moves %.3f of before, want 0.8", share)
	}
	if share := got[0].Pump / base[0].Pump; !agree.Within(share, 1, 1e-3) {
		t.Errorf("low moves %.4f of before, want 1", share)
	}
}

func BenchmarkAsk(b *testing.B) {
	for _, name := range demos {
		s := demo(b, name)
		b.Run(name, func(b *testing.B) {
			for i := range b.N {
				ask(b, s, Values{"water": quantity.Trim(float64(20 + i%20))})
			}
		})
	}
}

// A speed known by its ratio to another is a speed of its own: it stays where the one with the
// curve is turned, in the answer and in the file. Affinity: so does what the unit gets by it.
func TestRatioStaysWhereTheOtherSpeedIsTurned(t *testing.T) {
	text := string(demo(t, "two-speed").Job.Text)
	from := strings.Index(text, "speeds = [\n")
	to := from + strings.Index(text[from:], "\n]") + 2
	curve := `curve = [["0 m3/h", "15.8 m"], ["14 m3/h", "12.6 m"], ["22 m3/h", "8.6 m"], ["30 m3/h", "2.9 m"]]`
	for _, speeds := range []string{
		`speeds = [{ name = "low", power = "260 W", ratio = 0.5 }, { name = "high", power = "1.8 kW", ` + curve + ` }]`,
		`speeds = { low = { power = "260 W", ratio = 0.5 }, high = { power = "1.8 kW", ` + curve + ` } }`,
	} {
		s := studyOf(t, text[:from]+speeds+text[to:])
		was, now := ask(t, s, Values{}), ask(t, s, Values{"speed-pump-high": "80"})
		for i := range was {
			change := now[i].Unit/was[i].Unit - 1
			if was[i].Mode == "low" && !agree.Within(change, 0, 0.005) || was[i].Mode == "high" && change > -0.05 {
				t.Errorf("%s: mode %s changes by %.3f", speeds, was[i].Mode, change)
			}
		}
	}
}
