package pack

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/graph/practice"
	"dryfit/graph/takeoff"
	"dryfit/render/book"
	"dryfit/render/pack/planfile"
	"dryfit/render/table/form"
	"dryfit/render/tag"
)

// In a job with two units each goes by its name with its own figures: in the answer, in what the
// valve past them is set by, on the electrician's sheet, in the record and in what to expect.
func TestTwoUnitsOnPaper(t *testing.T) {
	file := filepath.Join("..", "..", "graph", "plan", "testdata", "jobs", "second-unit.toml")
	source, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	p := wanted(t, file, source, plan.Findings|plan.Flows|plan.Lists)
	j := factsOf(p, quantity.MetricSystem)
	style := form.Style{}
	var text strings.Builder
	for _, c := range []book.Chapter{answer(p, factsOf(p, style.Units), style), electrician(p, j), performance(p, style)} {
		text.WriteString(wordsOf(c))
	}
	for _, r := range record(p, j) {
		text.WriteString(r.What + "\n")
	}
	for _, r := range valveSchedule(p, j).Rows {
		text.WriteString(strings.Join(r.Positions, " | ") + "\n")
	}
	if got := strings.Join(valveSchedule(p, j).Valves, " ") + "; " + strings.Join(j.Isolators(), " "); got != "V1 V2 V4 V5 V3 AB1; V1 V2 V4 V5" {
		t.Errorf("valves stand in the order %s", got)
	}
	for _, n := range p.OnSite { // what stands in the line both units share waits for neither
		if run := p.After.Layout.Pieces[n-1].Run; run.To.Part == "union-b" || run.From.Part == "union-b" {
			t.Errorf("piece %d, in the old line, is cut on site", n)
		}
	}
	if steps := wordsOf(work(p, j, style)); !strings.Contains(steps, "The rest of the bench work") || !strings.Contains(steps, "put on piece 12, marked +, what differs from the drawing") {
		t.Errorf("a piece that is cut on site is glued on the bench before the unit stands:\n%s", steps)
	}
	said := wordsOf(owner(p, j, style))
	for _, want := range []string{ // which of the two is new, and past which the one valve leads
		"What is done: two new pipes join heat pump HP2 to the pipe between ball valve V1 and union U1, and to the pipe between union U2 and ball valve V4.",
		"V3 (past HP1 and HP2)", "the maker or dealer of each heat pump"} {
		if !strings.Contains(said, want) {
			t.Errorf("the owner is not told %q:\n%s", want, said)
		}
	}
	// the one rule about the valve past both is the same for the owner and in the schedule
	const rule = "V3 %swhile V1, V2, V4 or V5 is shut and the pump can start"
	if never := strings.Join(valveSchedule(p, j).Never, "; "); !strings.Contains(never, fmt.Sprintf(rule, "shut ")) || !strings.Contains(said, "Never shut "+fmt.Sprintf(rule, "")) {
		t.Errorf("never in the schedule: %s; for the owner:\n%s", never, said)
	}
	states := ""
	for _, r := range valveSchedule(p, j).Rows {
		states += r.State + "\n"
	}
	if !strings.Contains(states, "Units shut off for service") || strings.Contains(states, "unit laid up") {
		t.Errorf("the schedule of two units has the states\n%s", states)
	}
	if steps := wordsOf(work(p, j, style)); !strings.Contains(steps, "old pipe, end towards heat pump HP1") {
		t.Errorf("the old pipe's end isn't told by which unit it goes to:\n%s", steps)
	}
	if len(p.OnSite) != 3 {
		t.Errorf("cut on site: %v; want the last to the inlet and one along each of the two ways the outlet's pipe goes", p.OnSite)
	}
	for _, unit := range []string{"HP1", "HP2"} {
		flow := ""
		for _, u := range plan.Summarise(p)[0].Units() {
			if map[string]string{"unit-1": "HP1", "unit-2": "HP2"}[u.ID] == unit {
				flow = quantity.Format(u.Flow, quantity.Flow, quantity.MetricSystem)
			}
		}
		for _, want := range []string{"heat pump " + unit + " gets " + flow, unit + " shows " + flow, "Supply of " + unit, "Full load of " + unit,
			"water in / out of " + unit, "Flow switch of " + unit, "With the pump running, " + unit + " | " + flow} {
			if !strings.Contains(strings.ReplaceAll(text.String(), "Heat pump", "heat pump"), want) {
				t.Errorf("nothing of %q", want)
			}
		}
	}
	for _, want := range []string{"Isolators of HP1, HP2: where", "What stops HP1, HP2 when"} {
		if !strings.Contains(text.String(), want) {
			t.Errorf("nothing of %q", want)
		}
	}
	if !slices.ContainsFunc(j.Switches, func(s practice.Switch) bool { return s.Unit == "HP2" && !s.Shared }) {
		t.Errorf("HP2 has an isolator of its own: %+v", j.Switches)
	}
}

// For programs too: plan.json has what each of two units gets in every mode beside what their line does,
// and every flow that a value moves is that of a unit by its id.
func TestTwoUnitsInThePlanFile(t *testing.T) {
	p := jobPlan(t, "second-unit")
	data, err := planfile.JSON(p, form.Style{})
	if err != nil {
		t.Fatal(err)
	}
	modes := len(p.After.Solutions)
	if past := bytes.Count(data, []byte(`"past_the_unit_m3_h": `)); modes == 0 || past != 2*modes {
		t.Errorf("what passes them is told %d times in %d modes, for their line and the unit it is said at", past, modes)
	}
	if shared := bytes.Count(data, []byte(`"shares_bypass_with": "unit-1"`)); shared != 2*modes {
		t.Errorf("the other is said to share it %d times in %d modes, in short and among the flows", shared, modes)
	}
	if units := bytes.Count(data, []byte(`"units": [`)); units < modes {
		t.Errorf("each unit is told of in %d of %d modes", units, modes)
	}
	for _, id := range []string{"unit-1", "unit-2"} {
		if !bytes.Contains(data, []byte(`the flow of \"`+id+`\"`)) {
			t.Errorf("no value moves the flow of %s", id)
		}
	}
	if alone := regexp.MustCompile(`the unit.{1,6}s flow`).Find(data); alone != nil {
		t.Errorf("of two units one is called %q", alone)
	}
}

// A valve is set by one number on its label and in the schedule, its aim, also where what was read says that the
// units get less until it is set.
func TestAValveHasOneAim(t *testing.T) {
	file := filepath.Join("..", "..", "graph", "plan", "testdata", "jobs", "second-unit.toml")
	source, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	source = append(source, "\n[[reading]]\nat = \"pump\"\nflow = \"12 m3/h\"\nplus-minus = \"5 %\"\n"...)
	p := wanted(t, file, source, plan.Findings|plan.Flows|plan.Lists|plan.Ranges)
	if !p.Ranges.Contradicted() {
		t.Fatal("what was read is as described: the test shows nothing")
	}
	aim, ok := p.AimOf("bypass")
	want := "HP1 shows " + quantity.Format(aim.Flow, quantity.Flow, quantity.MetricSystem)
	if at := strings.Join(valveSchedule(p, factsOf(p, quantity.MetricSystem)).Rows[0].Positions, "; "); !ok || !strings.Contains(at, want) {
		t.Errorf("the label says %q, the schedule %q", want, at)
	}
}

// A unit that stands in the branch of another has a way past it of its own: a valve is called by the
// unit it stands at, and what shuts either unit off is shut wherever both are, and never by the owner.
// What shuts which follows from the circuit: the second unit's branch lies between v1 and union-1.
func TestUnitInTheBranchOfAnother(t *testing.T) {
	file := filepath.Join("..", "..", "graph", "plan", "testdata", "jobs", "second-unit.toml")
	source, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	nested := strings.Replace(string(source), "[retrofit]", "[retrofit]\nbypass = \"valve\"\ncut = \"to-first\"", 1)
	p := wanted(t, file, []byte(nested), plan.Findings|plan.Flows|plan.Lists)
	j := factsOf(p, quantity.MetricSystem)
	names := tag.Of(p.Circuit, p.Net())
	for id, want := range map[string]string{"v1": "on the pipe to HP1", "v2": "on the pipe from HP1", "bypass": "past HP1",
		"v1-2": "on the pipe to HP2", "v2-2": "on the pipe from HP2", "bypass-2": "past HP2"} {
		if got := names.Role(id); got != want {
			t.Errorf("%s stands %q, not %q", id, got, want)
		}
	}
	said := wordsOf(owner(p, j, form.Style{}))
	for _, want := range []string{
		"Never shut V1, V2, V5 or V6 while a heat pump is switched on",
		"Never shut V4 while V5 or V6 is shut", "Never shut V3 while V1 or V2 is shut",
		"V5 (on the pipe to HP1) open", "shut V1, V2, V5 and V6, then",
	} {
		if !strings.Contains(said, want) {
			t.Errorf("the owner does not read %q:\n%s", want, said)
		}
	}
	for i, v := range valveSchedule(p, j).Valves { // a valve is set by the unit it leads past, not by the other
		at := valveSchedule(p, j).Rows[0].Positions[i]
		if one, other := map[string]string{"V3": "HP2", "V4": "HP1"}[v], map[string]string{"V3": "HP1", "V4": "HP2"}[v]; one != "" && (!strings.Contains(at, one+" shows") || strings.Contains(at, other)) {
			t.Errorf("%s is %s", v, at)
		}
	}
	for i, v := range valveSchedule(p, j).Valves {
		if at := valveSchedule(p, j).Rows[1].Positions[i]; (v == "V3" || v == "V4") && at != "OPEN" {
			t.Errorf("%s, past a unit, stands %s while the units are shut off", v, at)
		}
	}
}

// A unit that is taken out is parted from its supply by the electrician, keeps its refrigerant,
// is emptied and carried off; the bands it is cut by are there, and its pipe is in the list of
// what is taken out.
func TestUnitLeaves(t *testing.T) {
	file := filepath.Join("..", "..", "graph", "plan", "testdata", "jobs", "unit-out.toml")
	source, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	p := wanted(t, file, source, plan.Findings|plan.Flows|plan.Lists)
	j := factsOf(p, quantity.MetricSystem)
	var text strings.Builder
	for _, s := range method(p, j) {
		text.WriteString(strings.Join(s.Steps, "\n") + "\n")
	}
	at := -1
	for _, want := range []string{"section on marking out says", "The electrician isolates HP1", "What heats the tub from then on", "refrigerant sealed in", "Empty HP1", "carry it off upright", "Cut the old pipe once", "Take out"} {
		i := strings.Index(text.String(), want)
		if i <= at {
			t.Errorf("%q stands at %d, after %d", want, i, at)
		}
		at = i
	}
	for _, never := range []string{"labels on the valves", "union nut that drips"} {
		if strings.Contains(text.String(), never) {
			t.Errorf("the job has nothing of %q", never)
		}
	}
	if !slices.ContainsFunc(p.Bill.Items, func(i takeoff.Item) bool { return i.Removed && i.Kind == "pipe" && i.Quantity > 0 }) {
		t.Error("no pipe is taken out")
	}
}
