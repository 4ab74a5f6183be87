package plan_test

import (
	"bytes"
	"os"
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/plan"
)

// Two pumps of one speed feed one line, each behind its own check: the unit has water in the modes of
// either, and is judged in each. The line has two flows, as that of a pump with two speeds: a throttle that
// suits the one starves the unit at the other, so a spring is looked for. Follows from square-law losses.
func TestPumpsSideBySide(t *testing.T) {
	data, err := os.ReadFile("testdata/jobs/pumps-side-by-side.toml")
	if err != nil {
		t.Fatal(err)
	}
	auto := bytes.Replace(data, []byte("bypass = \"valve\"\n"), nil, 1)
	alone := bytes.Replace(auto, []byte("[[mode]]\nname = \"both\"\nspeeds = { pa = \"on\", pb = \"on\" }\n[[mode]]\nname = \"circ only\""), []byte("[[mode]]\nname = \"circ only\""), 1)
	for _, c := range []struct {
		name   string
		data   []byte
		bypass graph.Kind
		fits   bool // the bypass what the pumps ask for
	}{{"as the pumps ask for", auto, graph.CheckValve, true}, {"a throttle", data, graph.BallValve, false},
		{"one mode alone", alone, graph.BallValve, true}} {
		p := work(t, read(t, "spa.toml", c.data), plan.Findings|plan.Flows)
		b, _ := p.After.Layout.Stage.Branch()
		if b == nil || len(b.Beside) != 1 || b.Element() == nil || b.Element().Kind != c.bypass {
			t.Fatalf("%s: want a bypass with a %s on a line of two pumps, got %+v", c.name, c.bypass, b)
		}
		short, fit := map[string]bool{}, true
		for _, d := range p.Findings {
			switch d.Rule {
			case "heater-line-flows":
				t.Errorf("%s: water passes the unit in every mode: %s", c.name, d.Message)
			case "flow":
				if strings.Contains(string(d.Message), "no water passes it") && !strings.HasPrefix(string(d.Hint), `"pa" makes more head`) {
					t.Errorf("%s: a pump that another holds shut: %s", c.name, d.Hint)
				}
			case "unit-least-flow":
				short[d.Mode] = true
			case "bypass-fits-pump":
				fit = false
				if !strings.Contains(string(d.Message), `pumps "pa" and "pb" feed the line, in 2 ways`) {
					t.Errorf("%s: %s", c.name, d.Message)
				}
			}
		}
		if fit != c.fits {
			t.Errorf("%s: fits %v, want %v", c.name, fit, c.fits)
		}
		for _, m := range plan.Summarise(p) {
			u := m.Own()
			if u.Flow <= 0 || short[m.Mode] != (u.Flow < u.Least) {
				t.Errorf("%s, mode %q: %.3g m3/s of its least %.3g, told %v", c.name, m.Mode, u.Flow, u.Least, short[m.Mode])
			}
		}
	}
}

// Two pumps side by side, the element on the way of one alone, before they meet: the unit behind is on the
// line that heats, whichever of the two comes to it the shorter way.
func TestElementBeforeThePumpsMeet(t *testing.T) {
	data, err := os.ReadFile("testdata/jobs/pumps-side-by-side.toml")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range [][2]string{
		{"bypass = \"valve\"\n", ""},
		{"from = \"cb.out\"\nto = \"t3.branch\"", "from = \"cb.out\"\nto = \"el.in\""},
		{"from = \"t3.run-out\"\nto = \"el.in\"", "from = \"el.out\"\nto = \"t3.branch\""},
		{"from = \"el.out\"\nto = \"jets.in\"", "from = \"t3.run-out\"\nto = \"jets.in\""},
	} {
		if !bytes.Contains(data, []byte(c[0])) {
			t.Fatalf("no %q in the job", c[0])
		}
		data = bytes.Replace(data, []byte(c[0]), []byte(c[1]), 1)
	}
	p := work(t, read(t, "spa.toml", data), plan.Findings|plan.Flows)
	b, _ := p.After.Layout.Stage.Branch()
	if heater := p.After.Layout.Stage.Net().HeaterPump(); b == nil || b.Pump == nil || b.Pump.ID != "pa" || heater.ID != "pb" {
		t.Fatalf("want pa the nearer and pb the one that heats, got %+v", b)
	}
	for _, d := range p.Findings {
		if d.Rule == "unit-on-heater-line" {
			t.Errorf("the unit is on that line: %s", d.Message)
		}
	}
}

// Of two checks alike, each behind its own pump, that of the stronger has less left: it is named as what stands
// least, whichever of them, or of the pumps, is written first.
func TestWeakestBehindTheStrongerPump(t *testing.T) {
	data, err := os.ReadFile("testdata/jobs/pumps-side-by-side.toml")
	if err != nil {
		t.Fatal(err)
	}
	tables := strings.SplitAfter(string(data), "\n[")
	slices.Reverse(tables[1 : len(tables)-1])
	for name, job := range map[string]string{"as written": string(data), "backwards": strings.Join(tables, "")} {
		p := work(t, read(t, "spa.toml", []byte(job)), plan.Flows)
		told := false
		for _, o := range coarsely(p).Promises {
			told = told || o.Mode == "both" && o.Part == "ca" && o.Pump == "pa" && strings.Contains(string(o.Text), `"ca" is the weakest`)
		}
		if !told {
			t.Errorf("%s: not said of ca", name)
		}
	}
}

// A third pump, in a line of its own behind a valve that stands shut: that one of the two side by side holds
// the other's check shut is nothing to it.
func TestPumpShutInHasNoCheckHeldShut(t *testing.T) {
	data, err := os.ReadFile("testdata/jobs/pumps-side-by-side.toml")
	if err != nil {
		t.Fatal(err)
	}
	data = bytes.Replace(data, []byte(`ports = ["a", "b", "ret"]`), []byte(`ports = ["a", "b", "ret", "c", "home"]`), 1)
	data = bytes.Replace(data, []byte(`speeds = { pa = "on", pb = "on" }`), []byte(`speeds = { pa = "on", pc = "on" }`), 1)
	data = append(data, `
[[part]]
id = "pc"
kind = "pump"
existing = true
type = "circulation-pump-24h"
[[part]]
id = "vc"
kind = "ball-valve"
existing = true
position = "shut"
[[run]]
from = "tub.c"
to = "pc.in"
existing = true
length = "3 ft"
[[run]]
from = "pc.out"
to = "vc.in"
existing = true
length = "3 ft"
[[run]]
from = "vc.out"
to = "tub.home"
existing = true
length = "3 ft"
`...)
	p := work(t, read(t, "spa.toml", data), plan.Findings|plan.Flows)
	told := false
	for _, d := range p.Findings {
		if strings.Contains(string(d.Message), `"pc" runs and no water passes it`) {
			if told = true; d.Hint != "open a way for its water" {
				t.Errorf("told to do: %s", d.Hint)
			}
		}
	}
	if !told {
		t.Error("nothing is said of the pump that is shut in")
	}
}

// The second pump meets the first behind the unit's place, before the jets: the unit's line has the one flow
// of its own pump, so a throttle is looked for, and nothing says against it that it should be a spring.
func TestPumpThatMeetsBehindTheUnit(t *testing.T) {
	data, err := os.ReadFile("testdata/jobs/pumps-side-by-side.toml")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range [][2]string{
		{"bypass = \"valve\"\n", ""},
		{"to = \"t3.run-in\"", "to = \"el.in\""},
		{"from = \"t3.run-out\"\nto = \"el.in\"", "from = \"t3.run-out\"\nto = \"jets.in\""},
		{"from = \"el.out\"\nto = \"jets.in\"", "from = \"el.out\"\nto = \"t3.run-in\""},
		{"speeds = { pb = \"on\" }", "speeds = { pa = \"on\" }"},
	} {
		if !bytes.Contains(data, []byte(c[0])) {
			t.Fatalf("no %q in the job", c[0])
		}
		data = bytes.Replace(data, []byte(c[0]), []byte(c[1]), 1)
	}
	p := work(t, read(t, "spa.toml", data), plan.Findings|plan.Flows)
	b, _ := p.After.Layout.Stage.Branch()
	if b == nil || b.Pump == nil || b.Pump.ID != "pa" || len(b.Beside) != 0 || b.Element() == nil || b.Element().Kind != graph.BallValve {
		t.Fatalf("want a throttle on the line of pump pa alone, got %+v", b)
	}
	for _, d := range p.Findings {
		if d.Rule == "bypass-fits-pump" {
			t.Errorf("what the work puts in is told against: %s", d.Message)
		}
	}
}

// A swim spa beside a spa: the unit's pump has one speed, that of the other water two. It runs in a mode of
// its own, in which the unit has its water; what the other water's pump does in its own is told of no unit, and
// nobody is to measure that pump first.
func TestHeatingPumpOfOneSpeedRuns(t *testing.T) {
	p := work(t, readFile(t, "testdata/jobs/swim-and-spa.toml"), plan.Findings|plan.Flows)
	fed := ""
	for _, m := range plan.Summarise(p) {
		if m.Own().Flow > 0 {
			fed += m.Mode + " "
		}
		if m.OtherWater != (m.Mode != "p1") {
			t.Errorf("mode %q: of the other water alone: %v", m.Mode, m.OtherWater)
		}
	}
	if fed != "p1 " {
		t.Errorf("the unit has water in %q, want p1", fed)
	}
	for _, d := range p.Findings {
		if d.Rule == "heater-line-flows" {
			t.Errorf("told of another water's mode: %s", d.Message)
		}
	}
	first := coarsely(p).MeasureFirst
	if len(first) == 0 {
		t.Error("nothing moves the unit's flow")
	}
	for _, f := range first {
		if f.Part == "p2" || f.Effect > 0 && f.Mode != "p1" {
			t.Errorf("of the other water: %s of %q in %q", f.What, f.Part, f.Mode)
		}
	}
}

// Both waters' pumps run at once: the pump that is told of is the unit's, though the other moves more.
func TestPumpToldIsOfTheUnitsWater(t *testing.T) {
	c := readFile(t, "testdata/jobs/swim-and-spa.toml")
	speeds := c.Part("p2").SpeedNames()
	c.Modes = []graph.Mode{{Name: "all", JetsOpen: 1, Speeds: map[string]string{"p1": c.Part("p1").SpeedNames()[0], "p2": speeds[len(speeds)-1]}}}
	p := work(t, c, plan.Findings|plan.Flows)
	sol, m := p.After.Solution("all"), plan.Summarise(p)
	if ours, other := sol.Part("p1").Flow, sol.Part("p2").Flow; ours <= 0 || other <= ours || len(m) != 1 || m[0].Pump != ours {
		t.Errorf("%g m3/s, of the other water %g: told %+v", ours, other, m)
	}
}
