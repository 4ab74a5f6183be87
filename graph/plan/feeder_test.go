package plan

import (
	"bytes"
	"os"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/hydraulic/formula"
)

// Of two pumps side by side the one that runs while the water is heated is the one whose power is counted, though
// the other is nearer to the unit; what keeps one of them running is enough, and that nothing runs one is
// told as of any pump that feeds the unit.
func TestFeederThatRunsIsCounted(t *testing.T) {
	text, err := os.ReadFile("testdata/jobs/pumps-side-by-side.toml")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ from, to string }{
		{"runs-for-heat = \"hours\"\n", ""},
		{"type = \"circulation-pump-1.5in\"\n", "type = \"circulation-pump-1.5in\"\nruns-for-heat = \"hours\"\n"},
	} {
		text = bytes.Replace(text, []byte(c.from), []byte(c.to), 1)
	}
	for _, c := range []struct{ runs, never string }{{"pb", "pa"}, {"pa", "pb"}} {
		job := bytes.Replace(text, []byte("name = \"both\"\nspeeds = { pa = \"on\", pb = \"on\" }\n[[mode]]\nname = \"circ only\"\nspeeds = { pb = \"on\" }"),
			[]byte("name = \"alone\"\nspeeds = { "+c.runs+" = \"on\" }"), 1)
		circuit, ds := description.Read("spa.toml", job)
		if circuit == nil || bytes.Equal(job, text) {
			t.Fatal(ds)
		}
		p, err := Make(circuit, Findings|Flows)
		if err != nil {
			t.Fatal(err)
		}
		h := p.heatInput().Heating
		sol := p.After.Solution("alone")
		f := sol.Part(c.runs)
		if want := formula.HydraulicPower(sol.Water.Density, f.Flow, f.HeadM); h.Pump == nil || h.Pump.ID != c.runs || want <= 0 || !agree.Within(h.WaterPlannedW, want, 1e-9) {
			t.Errorf("%s runs: heated by %+v, want %g W of water power", c.runs, h, want)
		}
		told := false
		for _, d := range p.Findings {
			switch d.Rule {
			case "pump-runs-for-heat":
				t.Errorf("%s runs: %s", c.runs, d.Message)
			case "every-speed-judged":
				told = told || d.Severity == graph.Warning && len(d.Related) > 0 && d.Related[0].Pos == circuit.Part(c.never).Pos
			}
		}
		if !told {
			t.Errorf("no warning that no mode runs %s", c.never)
		}
	}
}
