package description

import (
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
)

// What can't be so of a machine is told with the same advice whether a part says it or a row of the
// user's: a label, a rise and a rating, each wrong by a unit.
func TestRowsAreAdvisedAsPartsAre(t *testing.T) {
	const part, row = "[[part]]\nid = \"x\"\n", "source = \"its sheet\"\nname = \"x\"\n"
	for _, c := range []struct{ about, part, row string }{
		{"on its label",
			part + "kind = \"pump\"\npower = \"250 W\"\ncurve = [[\"0 m3/h\", \"60 m\"], [\"60 m3/h\", \"10 m\"]]\n",
			"[[catalog.pump]]\n" + row + "power = \"250 W\"\ncurve = [[\"0 m3/h\", \"60 m\"], [\"60 m3/h\", \"10 m\"]]\n"},
		{"of output would warm",
			part + "kind = \"heat-pump\"\nflow = { least = \"0.02 m3/h\", rated = \"0.04 m3/h\", most = \"0.08 m3/h\" }\nratings = [{ air = \"7 °C\", water = \"38 °C\", output = \"8 kW\", input = \"2 kW\" }]\n",
			"[[catalog.heat-pump]]\n" + row + "size = \"1 1/2 in\"\nleast = \"0.02 m3/h\"\nrated = \"0.04 m3/h\"\nmost = \"0.08 m3/h\"\nloss-flow = \"0.04 m3/h\"\nloss-drop = \"9 kPa\"\nratings = [{ air = \"7 °C\", water = \"38 °C\", output = \"8 kW\", input = \"2 kW\" }]\n"},
		{"a rating gives",
			part + "kind = \"heat-pump\"\nratings = [{ air = \"7 °C\", water = \"38 °C\", output = \"2 kW\", input = \"8 kW\" }]\n",
			"[[catalog.heat-pump]]\n" + row + "size = \"1 1/2 in\"\nleast = \"2 m3/h\"\nrated = \"4 m3/h\"\nmost = \"8 m3/h\"\nloss-flow = \"4 m3/h\"\nloss-drop = \"9 kPa\"\nratings = [{ air = \"7 °C\", water = \"38 °C\", output = \"2 kW\", input = \"8 kW\" }]\n"},
	} {
		hint := func(text string) string {
			_, ds := Read("x.toml", []byte(text))
			i := slices.IndexFunc(ds, func(d graph.Diagnostic) bool { return strings.Contains(d.Message.In(0), c.about) })
			if i < 0 {
				t.Errorf("nothing is said %s: %v", c.about, ds)
				return ""
			}
			return ds[i].Hint.In(0)
		}
		if of, own := hint(c.part), hint(c.row); of == "" || of != own {
			t.Errorf("%s: of a part %q, of a row %q", c.about, of, own)
		}
	}
}
