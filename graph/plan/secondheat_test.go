package plan_test

import (
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/plan"
)

// withSecond is the job of a second unit in air of -5 °C, both units of one output and each on a circuit
// of its own, the first on one of a rating.
func withSecond(t *testing.T, output, input, amps, firstCircuit string) *plan.Plan {
	t.Helper()
	s := text(t, "testdata/jobs/second-unit.toml")
	const loss = "loss = { flow = \"4.1 m3/h\", drop = \"6 kPa\" }\n"
	s = strings.ReplaceAll(s, loss, loss+"least-air = \"-15 °C\"\nratings = [{ air = \"-5 °C\", water = \"34 °C\", output = \""+output+"\", input = \""+input+"\" }]\nelectric = { voltage = \"230 V\", full-load = \""+amps+"\" }\n")
	s = strings.Replace(s, "\n[pipe]\n", "\n[site]\nair = \"-5 °C\"\nearthing = \"tn-s\"\n\n[pipe]\n", 1)
	s += "\n[[supply]]\nfeeds = [\"unit-1\", \"pump\"]\nrating = \"" + firstCircuit + "\"\n\n[[supply]]\nfeeds = [\"unit-2\"]\nrating = \"20 A\"\n"
	return work(t, read(t, "second.toml", []byte(s)), plan.Findings|plan.Flows)
}

// What two units give in the coldest air is held against what the tub loses together: neither alone need
// hold it.
func TestTwoUnitsHoldTheTubTogether(t *testing.T) {
	for _, c := range []struct {
		output, input, want string
	}{{"400 W", "200 W", `"unit-2" and "unit-1" together give 800 W in air of -5 °C`}, {"600 W", "300 W", ""}} {
		p := withSecond(t, c.output, c.input, "5 A", "32 A")
		said := ""
		for _, d := range p.Findings {
			if d.Rule == "unit-holds-tub" {
				said = d.Message.String()
			}
		}
		if c.want == "" && said != "" || !strings.Contains(said, c.want) {
			t.Errorf("of two units of %s it is said %q", c.output, said)
		}
	}
}

// An old unit's circuit that is too small for it and its pump was so before a second unit on a circuit of
// its own came.
func TestAnOldUnitsCircuitWasThere(t *testing.T) {
	p := withSecond(t, "5 kW", "2 kW", "14 A", "10 A")
	found := false
	for _, d := range p.Findings {
		if d.Rule == "supply-fits" {
			found = true
			if d.Severity != graph.Note || !strings.HasPrefix(d.Message.String(), "was there before: ") {
				t.Errorf("%s: %s", d.Severity, d.Message)
			}
		}
	}
	if !found {
		t.Error("a circuit of 10 A bears a unit of 14 A and a pump")
	}
}

// What an old unit takes that heats today is not worked out: there is no year of the element alone to save
// from. One that stays and stands shut off heats nothing, and the element's
// year is today's.
func TestNoSavingOverAnOldUnit(t *testing.T) {
	first := work(t, readFile(t, "../../testdata/two-speed.toml"), plan.Findings|plan.Flows)
	for _, out := range []bool{false, true} {
		noSaving(t, first, false, out)
		noSaving(t, first, true, out)
	}
}

// noSaving looks for a year of today in the job of a second unit whose first stands shut off or not, and is
// taken out or not.
func noSaving(t *testing.T, first *plan.Plan, shut, out bool) {
	t.Helper()
	c := first.Circuit.Built()
	unit := c.Part(first.Asked.Retrofit.Unit)
	second := *unit
	second.ID, second.Existing, second.Ports = "unit-b", false, slices.Clone(unit.Ports)
	for i := range second.Ports {
		second.Ports[i].At, second.Ports[i].Faces = nil, nil
	}
	c.Parts = append(c.Parts, &second)
	c.Retrofit = &graph.Retrofit{Unit: "unit-b", Cut: &graph.Cut{Run: c.Runs[len(c.Runs)-1].ID}}
	for _, r := range c.Runs {
		if r.To.Part == "jets" {
			c.Retrofit.Cut.Run = r.ID
		}
	}
	if v := c.Part("v1"); shut {
		v.Valve = &graph.ValveData{PositionSet: true}
	}
	if out { // with its two pipes
		unit.Removed = true
		for _, r := range c.Runs {
			r.Removed = r.Removed || r.From.Part == unit.ID || r.To.Part == unit.ID
		}
	}
	p := work(t, c, plan.Findings|plan.Flows|plan.Heat)
	if p.Heat == nil || p.Heat.Year == nil || p.Heat.Year.Planned == nil {
		t.Fatal("no year")
	}
	if want := shut && !out; (p.Heat.Year.Today != nil) != want {
		t.Errorf("shut off %v, taken out %v: a year of today %v", shut, out, p.Heat.Year.Today != nil)
	}
}
