package plan_test

import (
	"os"
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	heatjob "dryfit/graph/heat/job"
	"dryfit/graph/plan"
)

// Where a boiler's exchanger is left in the line, air in which the unit stops is no error any more, for the
// boiler may heat then; who sees to it is asked, and that nothing of its heat is counted is told.
func TestAnotherSourceMayHeat(t *testing.T) {
	data, err := os.ReadFile("testdata/jobs/shared-filter.toml")
	if err != nil {
		t.Fatal(err)
	}
	text := strings.NewReplacer(`least-air = "-15 °C"`, `least-air = "0 °C"`, "disconnected = false\ninterlock = \"changeover\"", "disconnected = true").Replace(string(data))
	boiler := strings.Replace(text, "to = \"ja.in\"\n", "to = \"boiler.in\"\n", 1) +
		"\n[[part]]\nid = \"boiler\"\nkind = \"heat-exchanger\"\nexisting = true\n[[run]]\nfrom = \"boiler.out\"\nto = \"ja.in\"\nexisting = true\nlength = \"300 mm\"\n"
	for _, c := range []struct {
		text     string
		severity graph.Severity
		told     bool
	}{{text, graph.Error, false}, {boiler, graph.Warning, true}} {
		p := work(t, read(t, "spa.toml", []byte(c.text)), plan.Findings|plan.Heat)
		at := slices.IndexFunc(p.Findings, func(d graph.Diagnostic) bool { return d.Rule == "heat-when-unit-stops" })
		if at < 0 || p.Findings[at].Severity != c.severity || strings.Contains(string(p.Findings[at].Hint), `behind "boiler"`) != c.told {
			t.Errorf("a boiler: %v, found %v", c.told, p.Findings)
		}
		if p.Heat == nil || slices.ContainsFunc(p.Heat.Assumed, func(a heatjob.Assumed) bool { return strings.HasPrefix(a.What.String(), "heat of another source by") }) != c.told {
			t.Errorf("a boiler: %v, and what is assumed of its heat is not so", c.told)
		}
	}
}
