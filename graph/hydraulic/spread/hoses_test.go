package spread

import (
	"testing"

	"dryfit/graph/agree"
	"dryfit/graph/hydraulic"
)

// A jet on its own hose. Source: computed by Darcy and Borda on values of common practice: half a metre
// of smooth hose with a barb of K 0.6 at each end, a body of K 1 and its branch of the manifold of K 1
// make K 4 or so on the hose: 2.5 m³/h on 19 mm take 12 kPa, 1 m³/h on 9.5 mm 30, of some 80.
func TestJetsHangOnHoses(t *testing.T) {
	for what, want := range map[string]bool{
		`bore = "8 mm"`: true,
		`bore = "8 mm"` + "\nknown = \"measured\"":                                  true,  // a drill in a nozzle says nothing of its hose
		`bore = "8 mm"` + "\nk = 1.6\nknown = \"measured\"":                         false, // by a gauge before them
		`rated = { flow = "1.2 m3/h", drop = "80 kPa" }`:                            true,
		`rated = { flow = "1.2 m3/h", drop = "80 kPa" }` + "\nknown = \"measured\"": false, // as they stand, hose and all
		`loss = { flow = "18 m3/h", drop = "80 kPa" }`:                              false, // of the group, hose and all
		``: false, // a share of the pump's head, hose and all
		`bore = "20 mm"` + "\ntype = \"pool-inlet\"": false, // an eye sits on its pipe
	} {
		m := unknownModel(t, what, "high")
		var hoses *unknown
		for _, u := range unknowns([]*hydraulic.Model{m}) {
			if u.what == hosesClass {
				hoses = &u
			}
		}
		if (hoses != nil) != want {
			t.Errorf("%q: hoses are an unknown: %v, want %v", what, hoses != nil, want)
		}
		if hoses == nil {
			continue
		}
		if s := hoses.span; !(s.Low > 0 && s.Low < 2./80 && s.High > 12./80 && s.High <= 30./80) {
			t.Errorf("%q: hoses of %+v of the jets' drop, want 2 to 30 of 80 kPa", what, s)
		}
		drop := func(v float64) float64 {
			p := &hydraulic.Perturb{}
			hoses.set(m, p, v)
			return p.Loss[m.PartAt["jets"]]
		}
		if !agree.Within(drop(1.2), 1.2, 1e-12) {
			t.Errorf("%q: a fifth on the hoses makes %g of the jets' drop", what, drop(1.2))
		}
	}
}
