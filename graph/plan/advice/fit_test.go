package advice

import (
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
)

// A pump or unit of the catalogue in the place of one that was read at has nothing of what was read.
func TestOthersWereNotRead(t *testing.T) {
	pump, unit := &graph.Part{ID: "pump", Kind: graph.Pump, Pump: &graph.PumpData{}}, &graph.Part{ID: "unit", Kind: graph.HeatPump}
	c := &graph.Circuit{Catalog: catalog.Embedded(), Parts: []*graph.Part{pump, unit},
		Fit: &graph.Fit{Values: []graph.Fitted{{What: "the head of pump", Part: "pump", Value: 0.9}, {What: "the drop of unit", Part: "unit", Value: 1.3}}}}
	of := func(c *graph.Circuit) (pump, unit bool) {
		_, pump = c.Fit.Value("the head of pump", "pump")
		_, unit = c.Fit.Value("the drop of unit", "unit")
		return pump, unit
	}
	if p, u := of(withPump(c, pump, nil)); p || !u {
		t.Errorf("another pump: its value %v, the unit's %v", p, u)
	}
	if p, u := of(withUnit(c, unit, catalog.Row{Name: "other"})); !p || u {
		t.Errorf("another unit: the pump's value %v, its own %v", p, u)
	}
	if p, u := of(c); !p || !u {
		t.Error("the circuit itself was changed")
	}
}
