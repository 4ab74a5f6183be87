package hydraulic_test

import (
	"math"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/hydraulic"
	"dryfit/graph/route/laying"
)

// With the check shut, all the water turns into the unit's branch and out of it: K 1.69 and
// 1.10 on the tee's own bore, for the branch's pipe goes into it through a bush (Crane
// TP-410, 2009, q = 1, equal bores).
func TestTeesOfABypass(t *testing.T) {
	text := strings.Replace(file(t, "bypass.toml"), `cracking = "2 psi"`, `cracking = "10 psi"`, 1)
	s := solve(t, text, "low")
	if s.Part("check").State != "shut" {
		t.Fatal("the check is not shut")
	}
	for _, c := range []struct {
		part string
		k    float64
	}{{"split", 1.69}, {"meet", 1.10}} {
		legs := s.Part(c.part).Legs
		if got := legs[2].K; !agree.Within(got, c.k, 1e-3) {
			t.Errorf("%s: K of the branch %.4f, want %.4f", c.part, got, c.k)
		}
	}
}

// The bush costs what a change of section costs: contraction on the way in, expansion on the
// way out, K on the small bore.
func TestBush(t *testing.T) {
	c := read(t, file(t, "bypass.toml"))
	m, err := hydraulic.Build(laying.Of(c), mode(t, c, "low"), graph.After)
	if err != nil {
		t.Fatal(err)
	}
	small, large := 0.0, 0.0
	for _, r := range m.Runs {
		switch r.Run.ID {
		case "unit-in":
			small = r.BoreM
		case "to-jets":
			large = r.BoreM
		}
	}
	ratio := small * small / (large * large)
	found := 0
	for _, r := range m.Runs {
		for _, f := range r.Fittings {
			if f.Kind != "reducing-bush" {
				continue
			}
			found++
			in, out := 0.42*(1-ratio), (1-ratio)*(1-ratio)
			if r.Run.ID == "unit-out" {
				in, out = out, in
			}
			approx(t, r.Run.ID+" ahead", f.K, in, 1e-9)
			approx(t, r.Run.ID+" back", f.KBack, out, 1e-9)
		}
	}
	if found != 2 {
		t.Errorf("%d bushes, want one on each of the unit's runs", found)
	}
}

const twoPumps = `
[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b", "c"]
[[part]]
id = "one"
kind = "pump"
curve = [["0 m3/h", "10 m"], ["20 m3/h", "0 m"]]
[[part]]
id = "two"
kind = "pump"
curve = [["0 m3/h", "8 m"], ["20 m3/h", "0 m"]]
EXTRA
[[part]]
id = "tee"
kind = "tee"
[[part]]
id = "jets"
kind = "jet-group"
count = 10
bore = "8 mm"
[pipe]
spec = "pvc-sch40"
size = "2 in"
[[run]]
from = "tub.a"
to = "one.in"
length = "1 m"
[[run]]
from = "tub.b"
to = "two.in"
length = "1 m"
[[run]]
from = "one.out"
to = "tee.run-in"
length = "1 m"
[[run]]
from = "two.out"
to = "tee.branch"
length = "1 m"
[[run]]
from = "tee.run-out"
to = "jets.in"
length = "2 m"
[[run]]
from = "jets.out"
to = "tub.c"
length = "0 mm"
[[mode]]
name = "one"
speeds = { one = "on" }
[[mode]]
name = "both"
speeds = { one = "on", two = "on" }
`

// A pump that stands lets water back unless a check of its own stops it.
func TestOffPump(t *testing.T) {
	open := strings.Replace(twoPumps, "EXTRA", "", 1)
	s := solve(t, open, "one")
	if two := s.Part("two"); two.Flow >= -1e-4 || two.State != "off" || !hasNote(s, "while it stands") {
		t.Errorf("two: %g m³/s, %s, %v", two.Flow, two.State, s.Notes)
	}
	// An impeller and a volute cost five velocity heads (common practice, no source).
	given := solve(t, strings.Replace(twoPumps, "EXTRA", "loss = { k = 5 }", 1), "one")
	if back := s.Part("two").Flow; !agree.Within(back, given.Part("two").Flow, 1e-6*math.Abs(back)) {
		t.Errorf("two passes %g m³/s, with K 5 given %g", back, given.Part("two").Flow)
	}
	checked := strings.Replace(twoPumps, "EXTRA", "check = true", 1)
	c := solve(t, checked, "one")
	if two := c.Part("two"); two.Flow != 0 {
		t.Errorf("two passes %g m³/s through its check", two.Flow)
	}
	if c.Part("jets").Flow <= s.Part("jets").Flow {
		t.Error("the check brings the jets nothing")
	}
	both := solve(t, open, "both")
	if both.Part("one").Flow <= 0 || both.Part("two").Flow <= 0 || both.Part("jets").Flow <= c.Part("jets").Flow {
		t.Errorf("both: %g, %g", both.Part("one").Flow, both.Part("two").Flow)
	}
}

const diverted = `
[pipe]
spec = "pvc-sch40"
size = "2 in"
[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b", "c"]
loss = "none"
[[part]]
id = "pump"
kind = "pump"
curve = [["0 m3/h", "10 m"], ["30 m3/h", "0 m"]]
[[part]]
id = "d"
kind = "diverter-valve"
ports = ["in", "left", "right"]
WAYS
loss = { k = 2, bore = "50 mm" }
[[part]]
id = "jets"
kind = "jet-group"
count = 8
bore = "8 mm"
[[part]]
id = "more"
kind = "jet-group"
count = 8
bore = "8 mm"
[[run]]
from = "tub.a"
to = "pump.in"
length = "1 m"
[[run]]
from = "pump.out"
to = "d.in"
length = "1 m"
[[run]]
from = "d.left"
to = "jets.in"
length = "1 m"
[[run]]
from = "d.right"
to = "more.in"
length = "1 m"
[[run]]
from = "jets.out"
to = "tub.b"
length = "0 mm"
[[run]]
from = "more.out"
to = "tub.c"
length = "0 mm"
`

func TestDiverter(t *testing.T) {
	both := solve(t, strings.Replace(diverted, "WAYS", "", 1), "on")
	approx(t, "even ways", both.Part("jets").Flow, both.Part("more").Flow, 1e-9)
	left := solve(t, strings.Replace(diverted, "WAYS", `ways = { right = "shut" }`, 1), "on")
	if left.Part("more").Flow != 0 || left.Part("jets").Flow <= both.Part("jets").Flow {
		t.Errorf("right shut: %g and %g", left.Part("jets").Flow, left.Part("more").Flow)
	}
	half := solve(t, strings.Replace(diverted, "WAYS", `ways = { right = "50 %" }`, 1), "on")
	leg := half.Part("d").Legs[2]
	v := leg.Flow / (math.Pi / 4 * 0.05 * 0.05)
	// half the Kv (no curve in the catalogue: as open as it is turned): four times the loss
	approx(t, "half open", math.Abs(leg.Drop), 4*2*half.Water.Density*v*v/2, 1e-6)
	approx(t, "of the way that loses most", half.Part("d").Drop, max(math.Abs(leg.Drop), math.Abs(half.Part("d").Legs[1].Drop)), 1e-12)
}

// A handle that is off moves what stands between its stops, and nothing that stands at one: by
// hand, K 2 fully open costs 2/0.6² where half open is six tenths.
func TestDiverterOffItsMark(t *testing.T) {
	c := read(t, strings.Replace(diverted, "WAYS", `ways = { right = "50 %" }`, 1))
	m, err := hydraulic.Build(laying.Of(c), c.AllModes()[0], graph.After)
	if err != nil {
		t.Fatal(err)
	}
	p := &hydraulic.Perturb{Position: make([]float64, len(m.Parts))}
	p.Position[m.PartAt["d"]] = 0.1
	s, err := m.Solve(p)
	if err != nil {
		t.Fatal(err)
	}
	for i, k := range []float64{0, 2, 2 / 0.36} {
		if leg := s.Part("d").Legs[i]; k > 0 {
			if math.Abs(leg.Flow) < 1e-4 {
				t.Fatalf("nothing passes %s", leg.Port)
			}
			v := leg.Flow / (math.Pi / 4 * 0.05 * 0.05)
			approx(t, leg.Port, math.Abs(leg.Drop), k*s.Water.Density*v*v/2, 1e-6)
		}
	}
	// half open by the square of its turn, as a cock in a round pipe is: 2/0.5⁴; the other way as it was
	p = &hydraulic.Perturb{Opening: make([]float64, len(m.Parts))}
	p.Opening[m.PartAt["d"]] = 1
	if s, err = m.Solve(p); err != nil {
		t.Fatal(err)
	}
	for i, k := range []float64{0, 2, 32} {
		if leg := s.Part("d").Legs[i]; k > 0 {
			if math.Abs(leg.Flow) < 1e-4 {
				t.Fatalf("nothing passes %s", leg.Port)
			}
			v := leg.Flow / (math.Pi / 4 * 0.05 * 0.05)
			approx(t, leg.Port+" of a cock", math.Abs(leg.Drop), k*s.Water.Density*v*v/2, 1e-6)
		}
	}
	if !m.Parts[m.PartAt["d"]].PartTurned() {
		t.Error("half turned, and not said to be")
	}
}

func TestManifold(t *testing.T) {
	text := strings.NewReplacer("WAYS", "", "diverter-valve", "manifold").Replace(diverted)
	s := solve(t, text, "on")
	d := s.Part("d")
	v := d.Flow / (math.Pi / 4 * 0.05 * 0.05)
	approx(t, "loss of its inlet", d.Legs[0].Drop, 2*s.Water.Density*v*v/2, 1e-6)
	if !agree.Within(d.Legs[1].Drop, 0, 1) || d.Flow <= 0 {
		t.Errorf("outlet costs %g Pa", d.Legs[1].Drop)
	}
}
