package spread

import (
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/route/laying"
)

// What the solver leaves in a line whose pump is off is no flow: no guess moves a share of it, and it is
// promised nothing. A billionth of a litre a second is put where the unit has none.
func TestNoShareOfWaterThatStands(t *testing.T) {
	text := strings.Replace(deepText, "LEVEL", "flow = { least = \"1 m3/h\" }", 1)
	c, ds := description.Read("job.toml", []byte(text))
	if c == nil {
		t.Fatal(ds)
	}
	s := newSpread(nil, laying.Of(c.At(graph.After)), "unit")
	m, all := s.modes[0], []int{}
	for k := range s.all {
		all = append(all, k)
	}
	unit := m.after.likely.Parts[m.unit]
	if e := s.effects(m, all); len(e) == 0 || m.flowPromises(unit.Part, true) == nil {
		t.Fatal("nothing moves a unit that has water")
	}
	m.after.likely.Parts[m.unit].Flow, m.after.likely.Parts[m.unit].Moving = 1e-12, 0
	m.units = s.watchedIn(m)
	if _, what := m.watched(); what != PumpsFlow {
		t.Errorf("%v is watched", what)
	}
	for k, e := range s.effects(m, all) {
		if e.units != nil {
			t.Errorf("%s moves the flow of a unit whose water stands by %g", s.all[k].what, e.units)
		}
	}
	if ps := m.flowPromises(unit.Part, true); ps != nil {
		t.Errorf("promised %s", ps[0].Text)
	}
	m.after.likely.Parts[m.unit].Part.Kind, m.after.likely.Parts[m.unit].Fed = graph.JetGroup, 1e-12
	if q := jetsFlow(m.after.likely); q != 0 {
		t.Errorf("%g m3/s of jets", q)
	}
}
