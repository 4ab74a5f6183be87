package practice

import (
	"strings"
	"testing"

	"dryfit/catalog/quantity"
)

// Of several units each is set as described, whichever of them the job is about; an element that helps
// stands 2 to 3 K below all of them and a controller that calls 1 K above all, as the rule set-points-agree
// holds them against each other. By hand: 36 °C less 2 and 3, 38 °C and 1.
func TestSetPointsOfSeveralUnits(t *testing.T) {
	at := func(id string, c float64) Unit { return Unit{ID: id, SetPoint: Temp{c, true}} }
	for _, units := range [][2]Unit{{at("HP1", 38), at("HP2", 36)}, {at("HP2", 36), at("HP1", 38)}} {
		j := &Job{Unit: &units[0], Fellows: units[1:], Water: 38}
		said := func() string { return strings.Join(Texts(Pick(j, SetPoints()), quantity.MetricSystem), "\n") }
		j.Elements = []Element{{ID: "E1", Interlock: "set-point"}}
		if got := said(); !strings.Contains(got, "HP1 38 °C, HP2 36 °C; the element's (the controller's own) 2 to 3 K below the lowest of them, 33 °C to 34 °C") {
			t.Errorf("the job about %s, the element kept: %s", units[0].ID, got)
		}
		j.Elements[0].Disconnected = true
		if got := said(); !strings.Contains(got, "HP1 38 °C, HP2 36 °C; the controller, whose element is disconnected, at least 1 K above the highest of them, 39 °C or more") {
			t.Errorf("the job about %s, the element off: %s", units[0].ID, got)
		}
	}
}

// The line wants what it wants: a litre less is too little, as much is enough, and where nobody knows nothing is
// judged.
func TestTooLittlePasses(t *testing.T) {
	const litre = 1e-3 / 3600 // an hour, m³/s
	for _, c := range []struct {
		flow, least float64
		want        bool
	}{{1000 * litre, 1000 * litre, false}, {999 * litre, 1000 * litre, true}, {0, 1000 * litre, true}, {0, 0, false}} {
		if got := (Passing{Flow: c.flow, Least: c.least}).TooLittle(); got != c.want {
			t.Errorf("%g of %g m³/s: too little %v", c.flow, c.least, got)
		}
	}
}

// What is set too high is told as what it may be at the most, and the element goes by that: 40 °C less 2 and 3.
func TestElementGoesByTheHottestThereMayBe(t *testing.T) {
	unit := Unit{ID: "HP1", SetPoint: Temp{42, true}}
	j := &Job{Unit: &unit, Water: 38, Elements: []Element{{ID: "E1", Interlock: "set-point"}}}
	if got := strings.Join(Texts(Pick(j, SetPoints()), quantity.MetricSystem), "\n"); !strings.Contains(got, "40 °C; the element's (the controller's own) 2 to 3 K below it, 37 °C to 38 °C") {
		t.Error(got)
	}
}
