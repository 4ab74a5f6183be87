package drawing

import (
	"os"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/description"
	"dryfit/graph/plan"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// twoUnits is two-new-units with a change and more tables, planned.
func twoUnits(t *testing.T, old, made, more string, what plan.Want) *plan.Plan {
	t.Helper()
	data, err := os.ReadFile("../pack/testdata/two-new-units.toml")
	if err != nil {
		t.Fatal(err)
	}
	c, ds := description.Read("two.toml", []byte(strings.Replace(string(data), old, made, 1)+more))
	if c == nil {
		t.Fatal(ds)
	}
	p, err := plan.Make(c, what)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// What a throttle past two units is set by is one number in every paper, that of the case as described by
// which the ranges take it to be set, also where a reading contradicts that case: the note said the middle of
// what fits the reading, beside the gauges' drop of the aim and other numbers on the label.
func TestAimOfAThrottleIsOneNumber(t *testing.T) {
	const spring, valve = "kind = \"check-valve\"\nstyle = \"spring\"\ncracking = \"2 psi\"", "kind = \"ball-valve\"\nposition = \"30 %\""
	p := twoUnits(t, spring, valve, "\n[[reading]]\nat = \"pump\"\nmode = \"low\"\nflow = \"4 m3/h\"\nplus-minus = \"5 %\"\n", plan.Flows|plan.Ranges)
	if !p.Ranges.Contradicted() {
		t.Fatal("the reading contradicts nothing: ", p.Ranges.Read)
	}
	aim, ok := p.AimOf("bypass")
	words := AimWords(p, p.After.Circuit.Part("bypass"), quantity.MetricSystem)
	if want := quantity.Format(aim.Flow, quantity.Flow, quantity.MetricSystem); !ok || !strings.Contains(words, "HP1 shows "+want) {
		t.Errorf("%q, want the aim of %s", words, want)
	}
}

// The sentences on the sheet of the year call parts as every paper does.
func TestYearCallsPartsByTheirTags(t *testing.T) {
	p := twoUnits(t, "", "", "\n[climate]\nair = [\"2 °C\", \"3 °C\", \"6 °C\", \"9 °C\", \"13 °C\", \"17 °C\", \"19 °C\", \"18 °C\", \"15 °C\", \"10 °C\", \"6 °C\", \"3 °C\"]\n", plan.Flows|plan.Lists|plan.Heat)
	pages, err := Pages(p, "year", sheet.Page{}, quantity.MetricSystem)
	if err != nil || len(pages) == 0 {
		t.Fatal(len(pages), err)
	}
	tagged := false
	for _, it := range pages[0].Items {
		if x, ok := it.(scene.Text); ok {
			tagged = tagged || strings.Contains(x.Text, "HP")
			if strings.Contains(x.Text, `"`) {
				t.Errorf("%q", x.Text)
			}
		}
	}
	if !tagged {
		t.Error("no unit is named")
	}
}
