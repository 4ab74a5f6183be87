package spread

import (
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/hydraulic"
	"dryfit/graph/route/laying"
)

// ageText is a line of hose of which 2 m were cut: 500 mm of the old are left.
const ageText = `
[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b"]
loss = "none"
[[part]]
id = "pump"
kind = "pump"
existing = true
below-water = "0 mm"
curve = [["0 m3/h", "10 m"], ["10 m3/h", "2 m"]]
[[part]]
id = "valve"
kind = "ball-valve"
size = "1 in"
spec = "pvc-sch40"
below-water = "3 m"
highest-pressure = "2 bar"
[[run]]
id = "in"
from = "tub.a"
to = "pump.in"
spec = "hose"
size = "1 in"
existing = true
length = "1 m"
[[run]]
id = "whole"
from = "pump.out"
to = "tub.b"
spec = "hose"
size = "1 in"
existing = true
removed = true
length = "2 m"
[[run]]
id = "rest"
from = "pump.out"
to = "valve.in"
spec = "hose"
size = "1 in"
existing = true
remains-of = "whole"
length = "500 mm"
[[run]]
id = "new"
from = "valve.out"
to = "tub.b"
spec = "hose"
size = "1 in"
length = "1 m"
`

// What is old and what is new is off by itself: barbs, bores and the wall of the hose; an elbow
// nobody listed lies in what is left of a cut run by the share of its length, 500 of 2000 mm;
// the valve 3 m below the water stands so much less of its pump.
func TestOldAndNewAreOffByThemselves(t *testing.T) {
	c, ds := description.Read("age.toml", []byte(ageText))
	if c == nil {
		t.Fatal(ds)
	}
	after := c.At(graph.After)
	lay := laying.Of(after)
	m, err := hydraulic.Build(lay, after.AllModes()[0], graph.After)
	if err != nil {
		t.Fatal(err)
	}
	at := map[string]int{}
	for i := range m.Runs {
		at[m.Runs[i].Run.ID] = i
	}
	old, fresh := at["rest"], at["new"]
	check := func(what string, v float64, of func(*hydraulic.Perturb) []float64, wantOld, wantNew float64) {
		t.Helper()
		for _, u := range unknowns([]*hydraulic.Model{m}) {
			if u.what != what {
				continue
			}
			p := &hydraulic.Perturb{}
			u.set(m, p, v)
			if list := of(p); !agree.Within(list[old], wantOld, 1e-12) || !agree.Within(list[fresh], wantNew, 1e-12) {
				t.Errorf("%s: %g on old pipe, %g on new; want %g, %g", what, list[old], list[fresh], wantOld, wantNew)
			}
			return
		}
		t.Errorf("no unknown %q", what)
	}
	check("K of old barbs", 1.5, func(p *hydraulic.Perturb) []float64 { return p.Barbs }, 1.5, 1)
	check("K of new barbs", 1.5, func(p *hydraulic.Perturb) []float64 { return p.Barbs }, 1, 1.5)
	check("the bore of old hose", 1.02, func(p *hydraulic.Perturb) []float64 { return p.Bore }, 1.02, 1)
	check("the bore of new hose", 1.02, func(p *hydraulic.Perturb) []float64 { return p.Bore }, 1, 1.02)
	check("the ribs of old hose", 2, func(p *hydraulic.Perturb) []float64 { return p.Roughness }, 2, 1)
	check("the ribs of new hose", 2, func(p *hydraulic.Perturb) []float64 { return p.Roughness }, 1, 2)
	check("elbows nobody listed in whole", 0.8, func(p *hydraulic.Perturb) []float64 { return p.Joints }, 0.2, 0)
	for _, f := range m.Runs[old].Fittings { // K 0.3 on the barb's own bore, 25.4 mm less a wall of 2 mm on either side
		if f.Barb && !(agree.Within(f.BoreM, 0.0214, 1e-9) && agree.Within(f.K, 0.3, 1e-9)) {
			t.Errorf("a barb of %g m, K %g", f.BoreM, f.K)
		}
	}
	pump := m.PartAt["pump"]
	derated := lay.Stage.Part("valve").Derated.V
	likely, err := m.Solve(nil)
	if err != nil {
		t.Fatal(err)
	}
	s := standsOf(m, likely, lay, -1)
	if want := derated - 3*lay.Stage.Water.Metre(); s.weakest != "valve" || !agree.Within(s.pipe[pump].known, want, 1e-6) {
		t.Errorf("%q stands %g Pa, want the valve's %g", s.weakest, s.pipe[pump].known, want)
	}
}
