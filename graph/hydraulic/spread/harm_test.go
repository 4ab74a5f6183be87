package spread

import "testing"

// What a guess harms is the unit's flow or the jets', whichever it moves more; the pump's head
// is told beside it and is no harm.
func TestHarm(t *testing.T) {
	for _, c := range []struct{ unit, jets, head, want float64 }{{0.05, 0.2, 0.9, 0.2}, {0.3, 0.2, 0.1, 0.3}, {0, 0, 0.5, 0}} {
		f := Influence{Unit: c.unit, Jets: c.jets, Met: c.jets, Head: c.head}
		if got := f.Harm(); got != c.want {
			t.Errorf("%+v: %g", c, got)
		}
		if c.jets > 0 { // of jets whose water the work does not meet nothing is harmed
			if got := (&Influence{Unit: c.unit, Jets: c.jets}).Harm(); got != c.unit {
				t.Errorf("%+v with its jets apart: %g", c, got)
			}
		}
	}
}

// The mode beside a harm is that of the flow it is about: jets on a pump of their own move when
// that pump runs, not in the mode in which the unit's flow moves most.
func TestHarmsMode(t *testing.T) {
	f := Influence{Mode: "heating", Unit: 0.1, UnitMode: "heating", Jets: 0.2, Met: 0.2, MetMode: "jets"}
	if what, mode := f.Harmed(); what != JetsFlow || mode != "jets" {
		t.Errorf("%s in %q", what, mode)
	}
	f.Unit = 0.3
	if what, mode := f.Harmed(); what != UnitsFlow || mode != "heating" {
		t.Errorf("%s in %q", what, mode)
	}
}

// An id in a sentence stands in quotes; a class of numbers has none.
func TestInfluenceSaid(t *testing.T) {
	for want, f := range map[string]Influence{
		`the drop of "unit"`:                            {What: "the drop of unit", Part: "unit"},
		"the handbook's K of fittings":                  {What: "the handbook's K of fittings"},
		`the shape of the drop of "unit" over its flow`: {What: "the shape of the drop of unit over its flow", Part: "unit"},
		"the jets' drop":                                {What: "the jets' drop", Part: "jets"},
		`how much of its watts "pump" turns into flow`:  {What: "how much of its watts pump turns into flow", Part: "pump"},
		`the flow of "flow" at a head`:                  {What: "the flow of flow at a head", Part: "flow"},
		`where the handle of "v-1" stands`:              {What: "where the handle of v-1 stands", Part: "v-1"},
		`the share of the head taken by "jets"`:         {What: "the share of the head taken by jets", Part: "jets"},
	} {
		if got := f.Said(); got != want {
			t.Errorf("%q: said %q", want, got)
		}
	}
}
