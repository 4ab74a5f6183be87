package plan_test

import (
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	heatjob "dryfit/graph/heat/job"
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

// Today's year is the old unit's where one heats, by its own sheet; of one of which nothing is known there is none to
// save from. One that stays and stands shut off heats nothing, and the element's year is today's. A second unit
// beside one that stays halves what it carries, and takes no more but for its stand-by and another start's loss;
// one in its place carries all.
func TestSavingOverAnOldUnit(t *testing.T) {
	first := work(t, readFile(t, "../../testdata/two-speed.toml"), plan.Findings|plan.Flows)
	for _, c := range []struct {
		shut, out, known bool
		today            string // of what
		beside           int
	}{
		{false, false, true, "unit", 1},
		{true, false, true, "element", 0},
		{false, true, true, "unit", 0},
		{true, true, true, "unit", 0},
		{false, true, false, "", 0},
		{false, false, false, "", 1},
	} {
		r := secondOf(t, first, c.shut, c.out, c.known)
		today := ""
		if a := r.Year.Today; a != nil && len(a.Units) > 0 {
			today = "unit"
		} else if a != nil {
			today = "element"
		}
		if today != c.today || len(r.Beside) != c.beside || len(r.Year.Planned.Units) != c.beside+1 {
			t.Errorf("%+v: today's year is of %q, %d units as planned", c, today, len(r.Year.Planned.Units))
		}
		if c.today == "unit" && c.beside == 0 && !agree.Within(r.Year.Today.KWh, r.Year.Planned.KWh, 0.05*r.Year.Planned.KWh) {
			t.Errorf("the same unit in its place takes %.0f kWh instead of %.0f", r.Year.Planned.KWh, r.Year.Today.KWh)
		}
		if c.beside == 1 && c.known && !agree.Within(r.Unit.Each[0].Share, 0.5, 0.02) {
			t.Errorf("of two alike one carries %.3f", r.Unit.Each[0].Share)
		}
	}
}

// secondOf plans the job of a second unit whose first stands shut off or not, is taken out or not, and is known by
// its sheet or not at all.
func secondOf(t *testing.T, first *plan.Plan, shut, out, known bool) *heatjob.Report {
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
	if !known {
		data := *unit.Unit
		data.Ratings = nil
		unit.Unit = &data
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
	r := likelyHeat(work(t, c, plan.Findings|plan.Flows))
	if r.Year == nil || r.Year.Planned == nil {
		t.Fatal("no year")
	}
	return r
}
