package spread

import (
	"strings"
	"testing"

	"dryfit/graph/description"
	"dryfit/graph/route/laying"

	"dryfit/graph"
)

// What would settle a promise hangs on what was promised: of a pressure the level nobody gave, or
// the plate and the pump's head at no flow, never a drop of the unit's; of a flow what moves it most
// in the mode it was promised in.
func TestReadingThatSettles(t *testing.T) {
	for level, want := range map[string]string{
		`below-water = "2 m"`: `the plate of "unit" for its highest pressure, and the data sheet of "pump" for its head at no flow`,
		"":                    `the height from the water line down to "unit"`,
	} {
		read, ds := description.Read("deep.toml", []byte(strings.Replace(deepText, "LEVEL", level, 1)))
		if graph.HasErrors(ds) {
			t.Fatal(ds)
		}
		lay := laying.Of(read.At(graph.After))
		r := Of(lay, lay, "unit", nil, nil)
		for i := range r.Promises {
			if p := &r.Promises[i]; p.Kind == UnitPressure {
				if got, _ := r.Settles(p); string(got) != want {
					t.Errorf("%q: %s, want %s", level, got, want)
				}
			}
		}
	}
	r := &Ranges{MeasureFirst: []Influence{
		{What: "the drop of unit", Reading: "its sheet", UnitIn: map[string]float64{"low": 0.05, "high": 0.3}},
		{What: "the low speed of pump", Reading: "its plate", UnitIn: map[string]float64{"low": 0.2, "high": 0}},
	}}
	for mode, want := range map[string]string{"low": "its plate", "high": "its sheet"} {
		if got, _ := r.Settles(&Promise{Mode: mode, Kind: LeastFlow}); string(got) != want {
			t.Errorf("%s: %s, want %s", mode, got, want)
		}
	}
	if got, _ := (&Ranges{}).Settles(&Promise{Kind: LeastFlow}); got != "" {
		t.Errorf("nothing to measure, and yet %q", got)
	}
}
