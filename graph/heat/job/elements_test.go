package job

import (
	"slices"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/settle"
)

// Two elements heat together: today by what both make, with the unit by what stays connected, beside it
// while it runs without what a changeover keeps apart, and above its own set point without what has one: each
// element holds what its own thermostat is set to, whatever the other is on. The first alone
// was counted, and of one disconnected the other too was not; and one on a changeover
// was counted beside the running unit where the other was not on one. Sums by hand.
func TestTwoElements(t *testing.T) {
	of := func(watts float64, off bool, interlock string, setC float64) *graph.ElementData {
		return &graph.ElementData{PowerW: watts, Disconnected: off, Interlock: interlock, SetPointC: setC, SetPointSet: setC > 0}
	}
	for what, x := range map[string]struct {
		first, second *graph.ElementData
		watts         float64
		beside        float64 // while the unit runs
		above         float64 // in water of 36 °C while the unit stands
	}{
		"the first is disconnected": {of(2000, true, "", 0), of(3000, false, "contact", 0), 3000, 3000, 3000},
		"both stay":                 {of(2000, false, "changeover", 0), of(3000, false, "changeover", 0), 5000, 0, 5000},
		"one is apart":              {of(2000, false, "changeover", 0), of(3000, false, "contact", 0), 5000, 3000, 5000},
		"one is apart, the second":  {of(2000, false, "contact", 0), of(3000, false, "changeover", 0), 5000, 2000, 5000},
		"a set point each":          {of(2000, false, "set-point", 35), of(3000, false, "set-point", 34), 5000, 5000, 0},
		"one set point":             {of(2000, false, "set-point", 35), of(3000, false, "contact", 0), 5000, 5000, 3000},
		"one set point, one apart":  {of(2000, false, "set-point", 35), of(3000, false, "changeover", 0), 5000, 2000, 3000},
		"neither":                   {of(2000, true, "", 0), of(3000, true, "", 0), 0, 0, 0},
	} {
		in := testInput()
		c := in.Stage.Circuit
		c.Part("element").Element = x.first
		c.Parts = append(c.Parts, &graph.Part{ID: "element-2", Kind: graph.ElementHeater, Existing: true, Element: x.second})
		in.Stage = settle.Of(c)
		in.Unit, in.Heating.Pump = in.Stage.Part("unit"), in.Stage.Part("pump")
		s := NewAccount(in.Input).scene
		if s.today.ElementW != 5000 {
			t.Errorf("%s: today %g W", what, s.today.ElementW)
		}
		p := s.planned
		if p.Beside(0) != x.watts || p.Beside(1) != x.beside || p.BesideAt(0, 36) != x.above || p.BesideAt(0, 33) != x.watts {
			t.Errorf("%s: %g W, beside the unit %g W, in water of 36 °C %g W, of 33 °C %g W", what, p.Beside(0), p.Beside(1), p.BesideAt(0, 36), p.BesideAt(0, 33))
		}
	}
}

// Two elements on a changeover run together where the unit doesn't: 2 kW and 3 kW at 230 V are 21.74 A,
// and of two units beside them neither is an alternative of the other. Source: I = P/U by hand.
func TestElementsOfAChangeoverRunTogether(t *testing.T) {
	in := testInput()
	c := *in.Stage.Circuit
	first, second := *c.Part("element"), *c.Part("element")
	second.ID = "element-2"
	first.Element = &graph.ElementData{PowerW: 2000, Interlock: graph.InterlockChangeover}
	second.Element = &graph.ElementData{PowerW: 3000, Interlock: graph.InterlockChangeover}
	other := *c.Part("unit")
	other.ID = "unit-2"
	c.Parts = []*graph.Part{c.Part("unit"), &other, &first, &second}
	c.Supplies = []graph.Supply{{RatingA: graph.Given(16), VoltageV: graph.Given(230)}}
	in.Stage = settle.Of(&c)
	in.Unit = in.Stage.Part("unit")
	sets := still(in).Supplies[0].Together
	if len(sets) != 2 {
		t.Fatalf("%+v", sets)
	}
	for _, s := range sets {
		slices.Sort(s.IDs)
		switch {
		case slices.Equal(s.IDs, []string{"element", "element-2"}) && agree.Within(s.RunningA, 21.739, 0.001):
		case slices.Equal(s.IDs, []string{"unit", "unit-2"}) && s.RunningA > 0:
		default:
			t.Errorf("%+v", s)
		}
	}
}
