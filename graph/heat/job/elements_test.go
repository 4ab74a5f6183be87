package job

import (
	"testing"

	"dryfit/graph"
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
