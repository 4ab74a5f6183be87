package pack

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/graph/practice"
	"dryfit/render/book"
	"dryfit/render/table/form"
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
	for _, c := range []book.Chapter{answer(p, style), electrician(p, j), performance(p, style)} {
		for _, it := range c.Items {
			text.WriteString(it.Text + "\n" + strings.Join(it.Lines, "\n") + "\n")
			if g := it.Block.Grid; g != nil {
				for _, row := range g.Rows {
					text.WriteString(strings.Join(row, " | ") + "\n")
				}
			}
		}
	}
	for _, r := range record(p, j) {
		text.WriteString(r.What + "\n")
	}
	for _, r := range valveSchedule(p, j).Rows {
		text.WriteString(strings.Join(r.Positions, " | ") + "\n")
	}
	for _, unit := range []string{"HP1", "HP2"} {
		flow := ""
		for _, u := range plan.Summarise(p)[0].Units() {
			if map[string]string{"unit-1": "HP1", "unit-2": "HP2"}[u.ID] == unit {
				flow = quantity.Format(u.Flow, quantity.Flow, quantity.MetricSystem)
			}
		}
		for _, want := range []string{"heat pump " + unit + " gets " + flow, unit + " shows " + flow, "Supply of " + unit, "Full load of " + unit,
			"Isolator of " + unit, "What stops " + unit, "water in / out of " + unit, "Flow switch of " + unit, "on, " + unit + " | " + flow} {
			if !strings.Contains(strings.ReplaceAll(text.String(), "Heat pump", "heat pump"), want) {
				t.Errorf("nothing of %q", want)
			}
		}
	}
	if !slices.ContainsFunc(j.Switches, func(s practice.Switch) bool { return s.Unit == "HP2" && !s.Shared }) {
		t.Errorf("HP2 has an isolator of its own: %+v", j.Switches)
	}
}
