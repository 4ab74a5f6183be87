package table

import (
	"strings"
	"testing"

	"dryfit/catalog/tables"
	"dryfit/graph/hydraulic/spread"
	"dryfit/render/table/form"
)

// In how many samples a throttle does not come to its reading is told with the way it then stands, of
// the unit whose flow it is.
func TestThrottleThatMissesItsReading(t *testing.T) {
	for want, set := range map[string]spread.Set{
		"": {Of: 9},
		"; in 2 it is shut and HP2 gets less, in 3 it is open and HP2 gets more":            {Of: 9, Shut: 2, Open: 3},
		"; in 1 no turn of it gives that, for the flow jumps past it, and HP2 is left less": {Of: 9, Jumps: 1},
	} {
		if got := missed(&set, "HP2"); got != want {
			t.Errorf("%+v: %q, want %q", set, got, want)
		}
		if got, missing := set.Reached(), set.Shut+set.Open+set.Jumps; got != set.Of-missing {
			t.Errorf("%+v: reached in %d", set, got)
		}
	}
}

// Where there are several units, what is said of one's flow names it, whoever asks: by its id where
// the file is spoken of; where there is only the one it is the unit.
func TestSureNamesOneOfSeveralUnits(t *testing.T) {
	for unit, name := range map[string]string{"unit-2": `"unit-2"`, "": "the unit"} {
		flow := spread.UnitsFlow.Of(strings.TrimPrefix(name, "the unit"))
		r := &spread.Ranges{Samples: 1021, Unit: unit,
			MeasureFirst: []spread.Influence{{What: "the drop of filter", Mode: "on", Effect: 0.2, Moves: spread.UnitsFlow, UnitID: unit}},
			Set: &spread.Set{Setting: spread.Setting{Valve: "bypass", Mode: "on", Flow: 1e-3}, Of: 9, Shut: 2, Reading: tables.Span{Low: -0.1, High: 0.1},
				Modes: []spread.SetMode{{Mode: "on"}}},
		}
		said := ""
		for _, b := range SureBlocks(r, nil, form.Style{}) {
			said += strings.Join(b.Lines, "\n")
		}
		for _, want := range []string{"moves " + flow + " by ±20 %", "    " + flow + " is moved so far only until", "through " + name + " (on)", "shut and " + name + " gets less", "on: " + name + " gets"} {
			if !strings.Contains(said, want) {
				t.Errorf("%q: no %q in\n%s", unit, want, said)
			}
		}
	}
}
