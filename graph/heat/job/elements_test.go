package job

import (
	"slices"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/settle"
)

// Two elements heat together: today by what both make, with the unit by what stays connected, beside it
// while it runs without what a changeover keeps apart, and up to the higher set point where each has its own. The first alone
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
		hasTop        bool
		topC          float64
	}{
		"the first is disconnected": {of(2000, true, "", 0), of(3000, false, "contact", 0), 3000, 3000, false, 0},
		"both stay":                 {of(2000, false, "changeover", 0), of(3000, false, "changeover", 0), 5000, 0, false, 0},
		"one is apart":              {of(2000, false, "changeover", 0), of(3000, false, "contact", 0), 5000, 3000, false, 0},
		"one is apart, the second":  {of(2000, false, "contact", 0), of(3000, false, "changeover", 0), 5000, 2000, false, 0},
		"a set point each":          {of(2000, false, "set-point", 35), of(3000, false, "set-point", 34), 5000, 5000, true, 35},
		"one set point":             {of(2000, false, "set-point", 35), of(3000, false, "contact", 0), 5000, 5000, false, 0},
		"neither":                   {of(2000, true, "", 0), of(3000, true, "", 0), 0, 0, false, 0},
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
		if p.Beside(0) != x.watts || p.Beside(1) != x.beside || p.HasTop != x.hasTop || p.HasTop && p.TopC != x.topC {
			t.Errorf("%s: %g W, beside the unit %g W, up to %g °C (%v)", what, p.Beside(0), p.Beside(1), p.TopC, p.HasTop)
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
