package job

import (
	"math"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/settle"
)

// loadOf is what the unit of a job draws where the description says so much of it.
func loadOf(t *testing.T, change func(*graph.Part), voltage float64) (runs, starts float64, fuse settle.Value) {
	t.Helper()
	in := testInput()
	c := *in.Stage.Circuit
	unit := *c.Part("unit")
	data := *unit.Unit
	unit.Unit = &data
	change(&unit)
	c.Parts = []*graph.Part{&unit}
	if voltage > 0 {
		c.Supplies = []graph.Supply{{VoltageV: graph.Given(voltage)}}
	}
	in.Stage = settle.Of(&c)
	in.Unit = in.Stage.Part("unit")
	for _, l := range answer(in).Supplies[0].Loads {
		if l.ID == "unit" {
			return l.RunningA, l.StartA, in.Unit.Fuse
		}
	}
	t.Fatal("the unit draws nothing")
	return 0, 0, fuse
}

// The plate comes first, then the row the description names, then what the ratings draw. Source
// of the row's figures: beside them in the catalogue.
func TestWhatTheUnitDraws(t *testing.T) {
	row, _ := catalog.Embedded().Row("heat-pump 12 kW")
	named := func(p *graph.Part) { p.Type, p.Unit = "heat-pump 12 kW", &graph.UnitData{} }
	if a, s, f := loadOf(t, named, 0); a != row.FullLoadA || s != row.StartingA || f.V != row.FuseA || !(a > 0) {
		t.Errorf("type alone: %.1f A, %.1f A at a start, fuse %.0f A; its row says %.1f, %.1f, %.0f", a, s, f.V, row.FullLoadA, row.StartingA, row.FuseA)
	}
	// the same watts at half the voltage are twice the current
	if a, s, _ := loadOf(t, named, 115); math.Abs(a-2*row.FullLoadA) > 1e-9 || math.Abs(s-2*row.StartingA) > 1e-9 {
		t.Errorf("at 115 V: %.1f A, %.1f A at a start", a, s)
	}
	plate := func(p *graph.Part) {
		named(p)
		p.Unit.FullLoadA, p.Unit.FuseA, p.Unit.Electric.StartingA = 13, 20, graph.Given(25)
	}
	if a, s, f := loadOf(t, plate, 115); a != 13 || s != 25 || f.V != 20 {
		t.Errorf("by its plate: %.1f A, %.1f A at a start, fuse %.0f A", a, s, f.V)
	}
	// ratings and no type: 9 kW at a COP of 3.6 are 2.5 kW, at 230 V and a factor of 0.95 11.44 A
	if a, s, f := loadOf(t, func(*graph.Part) {}, 0); math.Abs(a-11.44) > 0.01 || math.Abs(s-5*11.44) > 0.05 || f.Known {
		t.Errorf("by its ratings: %.2f A, %.1f A at a start, a fuse %v", a, s, f.Known)
	}
}
