package match

import (
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/heat/job"
	"dryfit/graph/plan"
)

func read(t *testing.T, edit func(string) string) *graph.Circuit {
	t.Helper()
	text, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	c, ds := description.Read("two-speed.toml", []byte(edit(string(text))))
	if c == nil || graph.HasErrors(ds) {
		t.Fatal(ds)
	}
	return c
}

func of(t *testing.T, c *graph.Circuit) *Tub {
	t.Helper()
	p, err := plan.Make(c, plan.Flows)
	if err != nil {
		t.Fatal(err)
	}
	tub, _, ok := Of(p)
	if !ok {
		t.Fatal("no unit")
	}
	return tub
}

func as(t *testing.T, tub *Tub, name string) *Unit {
	t.Helper()
	for i := range tub.Units {
		if tub.Units[i].Name == name {
			return &tub.Units[i]
		}
	}
	t.Fatalf("no %s", name)
	return nil
}

func same(s string) string { return s }

// A row held in the unit's place is what a description says that names the row: the same flow at
// each speed, the same air, hours, currents and year.
func TestARowIsWhatItsDescriptionSays(t *testing.T) {
	tub := of(t, read(t, same))
	row := as(t, tub, "heat-pump 12 kW")
	c := read(t, same)
	part := c.Part("unit")
	part.Type, part.Loss, part.Unit, part.Known = "heat-pump 12 kW", nil, &graph.UnitData{VoltageV: part.Unit.VoltageV}, graph.Assumed
	p, err := plan.Make(c, plan.Flows|plan.Lists)
	if err != nil {
		t.Fatal(err)
	}
	if len(row.Flows) != 2 {
		t.Fatalf("flows %v", row.Flows)
	}
	for _, f := range row.Flows {
		if want := math.Abs(p.After.Solution(f.Mode).Part("unit").Flow); !agree.Within(f.M3s, want, 1e-9) {
			t.Errorf("%s: %g m3/s, its own description says %g", f.Mode, f.M3s, want)
		}
	}
	r := plan.HeatOf(p, job.Ask{})
	holds := r.UnitHolds()
	if row.HoldsC != holds.HoldsC || row.Hours != holds.Hours || row.HeldW != holds.HeldW {
		t.Errorf("%+v, its own description says %+v", row.Sized, holds)
	}
	if !agree.Within(row.Year.KWh, r.Year.PlannedKWh.Likely, 1e-6) || !agree.Within(row.Year.Cost, r.Year.Planned.Cost, 1e-6) {
		t.Errorf("%.2f kWh, %.2f a year, its own description says %.2f, %.2f", row.Year.KWh, row.Year.Cost, r.Year.PlannedKWh.Likely, r.Year.Planned.Cost)
	}
	for _, s := range r.Supplies {
		for _, l := range s.Loads {
			if l.ID == "unit" && (l.RunningA != row.FullLoadA || l.StartA != row.StartingA) {
				t.Errorf("%.1f A, %.1f A, its own description says %+v", row.FullLoadA, row.StartingA, l)
			}
		}
	}
}

// A new spring that nobody asked for is chosen for each unit, as its own description would choose it:
// every row of the catalogue gets in the unit's place what it gets where the description names it. One
// that was asked for stays, whatever the unit.
func TestTheSpringIsChosenForEach(t *testing.T) {
	springs := map[string]bool{}
	for _, edit := range []func(string) string{same, func(s string) string {
		return strings.Replace(s, "bypass = \"auto\"", "bypass = \"spring\"\nspring = \"14 kPa\"", 1)
	}} {
		tub := of(t, read(t, edit))
		for _, u := range tub.Units {
			if u.This {
				continue
			}
			c := read(t, edit)
			part := c.Part("unit")
			part.Type, part.Loss, part.Unit, part.Known = u.Name, nil, &graph.UnitData{VoltageV: part.Unit.VoltageV}, graph.Assumed
			p, err := plan.Make(c, plan.Flows)
			if err != nil || p.Proposal == nil {
				t.Fatal(u.Name, err)
			}
			springs[p.Proposal.Choice.Spring] = true
			for _, f := range u.Flows {
				if want := math.Abs(p.After.Solution(f.Mode).Part("unit").Flow); !agree.Within(f.M3s, want, 0.02*want) {
					t.Errorf("%s, %s: %.2f m3/h, by its own description %.2f with %s", u.Name, f.Mode, 3600*f.M3s, 3600*want, p.Proposal.Choice.Spring)
				}
			}
		}
	}
	if len(springs) < 2 {
		t.Errorf("all have one spring, %v: nothing is tested", springs)
	}
}

// Those that suit stand first, the dearer year after the cheaper; the job's own is one of them, and
// each that does not suit says why.
func TestTheBestStandsFirst(t *testing.T) {
	tub := of(t, read(t, same))
	own := 0
	for i := range tub.Units {
		u := &tub.Units[i]
		if u.This {
			own++
		}
		if i == 0 {
			continue
		}
		was := &tub.Units[i-1]
		if !was.Suits() && u.Suits() || was.Suits() == u.Suits() && was.Year.Cost > u.Year.Cost {
			t.Errorf("%s stands after %s", u.Name, was.Name)
		}
	}
	if own != 1 {
		t.Errorf("the job's own stands there %d times", own)
	}
	why := as(t, tub, "heat-pump 5 kW").Reasons
	if len(why) != 1 || !strings.Contains(why[0].String(), "to heat it up, 12.0 h are asked for") {
		t.Errorf("the smallest: %v", why)
	}
}

// A row of the user's is held against the tub too, by what it says: hotter water than it makes, more
// water than it gets, air in which it stands.
func TestOwnRowsAreMatched(t *testing.T) {
	tub := of(t, read(t, func(s string) string {
		return s + `
[[catalog.heat-pump]]
name = "mine"
size = "1-1/2 in"
ratings = [["2 °C", "38 °C", "6 kW", "2 kW"], ["15 °C", "38 °C", "9 kW", "2.3 kW"]]
least = "9 m3/h"
rated = "10 m3/h"
most = "12 m3/h"
least-air = "0 °C"
most-water = "35 °C"
full-load = "30 A"
rating = "3 bar"
loss = { flow = "10 m3/h", drop = "8 kPa" }
source = "invented"
`
	}))
	u := as(t, tub, "mine")
	text := ""
	for _, r := range u.Reasons {
		text += r.String() + "; "
	}
	for _, want := range []string{"does not hold the tub in air of -6 °C", "never heats the tub up", "makes no water of 38 °C", "too little water (low)", "10.0 A more than its circuit bears"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not said: %s", want, text)
		}
	}
	if !u.Own || u.FullLoadA != 30 {
		t.Errorf("%+v", u)
	}
}

// A row of the user's with the figures of the job's own unit is as good as that: defrosts are in
// both or in neither.
func TestOwnRowIsReadAsASheet(t *testing.T) {
	tub := of(t, read(t, func(s string) string {
		return s + `
[[catalog.heat-pump]]
name = "twin"
size = "1-1/2 in"
ratings = [["15 °C", "38 °C", "12.1 kW", "3 kW"], ["2 °C", "38 °C", "8.3 kW", "2.8 kW"]]
least = "2.8 m3/h"
rated = "4.2 m3/h"
most = "8.4 m3/h"
least-air = "-10 °C"
most-water = "40 °C"
full-load = "14.8 A"
rating = "3.5 bar"
loss = { flow = "4.2 m3/h", drop = "6 kPa" }
source = "invented"
`
	}))
	twin, unit := as(t, tub, "twin"), as(t, tub, "unit")
	if !agree.Within(twin.HeldW, unit.HeldW, 1e-6*unit.HeldW) || !agree.Within(twin.Hours, unit.Hours, 1e-3) || !agree.Within(twin.HoldsC, unit.HoldsC, 1e-9) {
		t.Errorf("twin %.1f W, %.3f h, %.1f °C; unit %.1f W, %.3f h, %.1f °C", twin.HeldW, twin.Hours, twin.HoldsC, unit.HeldW, unit.Hours, unit.HoldsC)
	}
}

// The row that the job's unit names is the job's unit: it stands there once, also where a key of the
// unit's own lies over it. Follows from what is compared.
func TestARowOfTheJobsOwnStandsOnce(t *testing.T) {
	for _, row := range []string{"heat-pump 12 kW", "mine"} {
		tub := of(t, read(t, func(s string) string {
			return strings.Replace(s, "kind = \"heat-pump\"\n", "kind = \"heat-pump\"\ntype = \""+row+"\"\n", 1) + `
[[catalog.heat-pump]]
name = "mine"
ratings = [{ air = "7 °C", water = "38 °C", output = "9.1 kW", input = "2.4 kW" }]
rating = "3.5 bar"
size = "1 1/2 in"
least = "2.8 m3/h"
rated = "4.2 m3/h"
most = "8.4 m3/h"
loss = { flow = "4.2 m3/h", drop = "6 kPa" }
source = "invented"
`
		}))
		named, this := 0, 0
		for i := range tub.Units {
			if u := &tub.Units[i]; u.Name == row {
				named++
			} else if u.This {
				this++
			}
		}
		if named != 0 || this != 1 {
			t.Errorf("%s: the row stands %d times beside the job's unit, which stands %d times", row, named, this)
		}
	}
}

// Without a unit there is nothing in whose place another could stand.
func TestNoUnitNoMatch(t *testing.T) {
	p, err := plan.Make(&graph.Circuit{}, plan.Flows)
	if err != nil {
		t.Fatal(err)
	}
	if _, _, ok := Of(p); ok {
		t.Error("matched without a unit")
	}
}

// Of water that is kept cold no heat pump suits by what it heats.
func TestNoneSuitsColdWater(t *testing.T) {
	tub := of(t, read(t, func(s string) string { return strings.Replace(s, `temperature = "38 °C"`, `temperature = "9 °C"`, 1) }))
	if len(tub.Units) < 3 {
		t.Fatalf("%d units", len(tub.Units))
	}
	for i := range tub.Units {
		if u := &tub.Units[i]; u.Suits() || u.HoldsKnown || u.Year != nil {
			t.Errorf("%s: suits %v, holds known %v, a year %v", u.Name, u.Suits(), u.HoldsKnown, u.Year != nil)
		}
	}
}

// A valve in the bypass is set by what the unit reads: a row in the place of the job's unit gets what a
// description says that names the row, whose valve is worked out for it, and not what the job's own
// setting leaves it. With a dirty filter what the rules ask for is asked here too.
func TestTheValveIsSetForTheRow(t *testing.T) {
	made := func(row string) *plan.Plan {
		text, err := os.ReadFile("../plan/testdata/jobs/one-speed.toml")
		if err != nil {
			t.Fatal(err)
		}
		c, ds := description.Read("one-speed.toml", text)
		if c == nil {
			t.Fatal(ds)
		}
		if part := c.Part("unit"); row != "" {
			part.Type, part.Loss, part.Unit, part.Known = row, nil, &graph.UnitData{VoltageV: part.Unit.VoltageV}, graph.Assumed
		}
		p, err := plan.Make(c, plan.Flows|plan.Findings)
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	tub, _, _ := Of(made(""))
	for _, name := range []string{"heat-pump 5 kW", "heat-pump 9 kW"} {
		row, p := as(t, tub, name), made(name)
		if len(row.Flows) == 0 {
			t.Fatalf("%s: %v", name, row.Reasons)
		}
		for _, f := range row.Flows {
			if want := math.Abs(p.After.Solution(f.Mode).Part("unit").Flow); !agree.Within(f.M3s, want, 0.005*want) { // the Kv is worked out to a hundredth
				t.Errorf("%s, %s: %g m3/s, its own description says %g", name, f.Mode, f.M3s, want)
			}
		}
		if dirty := slices.ContainsFunc(p.Findings, func(d graph.Diagnostic) bool { return d.Rule == "least-flow-when-dirty" }); dirty != (row.dirty != nil) {
			t.Errorf("%s: too dirty in %v, its own description: %t", name, row.dirty, dirty)
		}
	}
}
