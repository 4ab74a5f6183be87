package settle_test

import (
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/settle"
)

const tailsText = `
[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b"]
[[part]]
id = "valve"
kind = "ball-valve"
[[part]]
id = "tee"
kind = "tee"
[[part]]
id = "unit"
kind = "heat-pump"
[[run]]
id = "first"
from = "tub.a"
to = "valve.in"
length = "1 m"
[[run]]
id = "second"
from = "valve.out"
to = "tee.run-in"
length = "1 m"
[[run]]
id = "third"
from = "tee.run-out"
to = "tub.b"
length = "1 m"
[[run]]
id = "aside"
from = "tee.branch"
to = "unit.in"
length = "1 m"
[[run]]
id = "back"
from = "unit.out"
to = "tub.c"
length = "1 m"
`

// Hose is named by what it is inside, pipe by what it is outside (ISO 1307 and EN ISO 1452-2, from memory):
// a valve of 32 mm and a tee, whose tails go into hose of 32 mm, are as wide as pipe of 32 mm, which has a
// wall of 2.4 to 2.9 mm; those in hose of 38 mm are of 40 mm pipe, wall 3.0 to 3.5. Pipe of an inch is
// wider than an inch, and the hose is the narrower of the two.
func TestBoreOnTails(t *testing.T) {
	for _, of := range []struct {
		spec, size string
		low, high  float64
	}{
		{"hose", "32 mm", 26.2, 27.2},
		{"hose-corrugated", "32 mm", 26.2, 27.2},
		{"hose", "38 mm", 33, 34},
		{"hose-corrugated", "38 mm", 33, 34},
		{"hose", "1 in", 25.4, 25.4},
		{"pvc-pn16", "32 mm", 26.2, 27.2},
	} {
		text := "[pipe]\nspec = \"" + of.spec + "\"\nsize = \"" + of.size + "\"\n" + strings.Replace(tailsText, `["a", "b"]`, `["a", "b", "c"]`, 1)
		c, ds := description.Read("tails.toml", []byte(text))
		if c == nil || graph.HasErrors(ds) {
			t.Fatal(ds)
		}
		s := settle.Of(c)
		tee := s.Part("tee")
		for what, bore := range map[string]float64{"the valve": s.Part("valve").Bore.V, "the tee": tee.Bore.V, "its branch": tee.BranchBore.V} {
			if !(bore >= of.low-0.01 && bore <= of.high+0.01) {
				t.Errorf("%s of %s: %s is %.2f mm wide, want %g to %g", of.spec, of.size, what, bore, of.low, of.high)
			}
		}
	}
}

// How a valve opens is what handbooks say of its kind, however well anybody knows the valve or its handle:
// a ball valve half open has K 10.6 by one of them (Miller, 10^(2.9449 - 3.8397/2)) and 29 by another
// (Perry, between 52.6 at four ninths and 17.3 at five), and no more than 5 by what makers of plastic ones print
// (from memory), so that by the second its Kv may be more than by the first, and no more than by the last. A Kv
// that is given is as sure as it is known.
func TestHowAValveOpens(t *testing.T) {
	kv := func(keys string) settle.Unknown {
		text := "[pipe]\nspec = \"pvc-sch40\"\nsize = \"2 in\"\n" + strings.Replace(strings.Replace(tailsText, `["a", "b"]`, `["a", "b", "c"]`, 1), "kind = \"ball-valve\"\n", "kind = \"ball-valve\"\n"+keys, 1)
		c, ds := description.Read("valve.toml", []byte(text))
		if c == nil || graph.HasErrors(ds) {
			t.Fatal(ds)
		}
		for _, u := range settle.Of(c).Unknowns() {
			if u.At == "valve" && u.Number == settle.KvNumber {
				return u
			}
		}
		t.Fatalf("%s: its Kv is taken for sure", keys)
		return settle.Unknown{}
	}
	guess := kv("position = \"50 %\"\n").Span
	if 1+guess.High < 1.66 || 1+guess.High > 2.4 { // (29/10.6)^(1/2), (29/5)^(1/2)
		t.Errorf("half open it may let through %+.0f %%", 100*guess.High)
	}
	for _, known := range []string{"data-sheet", "measured"} {
		if got := kv("position = \"50 %\"\nknown = \"" + known + "\"\n").Span; got != guess {
			t.Errorf("known = %s: %+v, want %+v: the curve is the handbook's all the same", known, got, guess)
		}
		if got := kv("position = \"50 %\"\nkv = \"20 m3/h\"\nknown = \"" + known + "\"\n").Span; !(got.High < guess.High/2) {
			t.Errorf("known = %s with a Kv of its own: %+v", known, got)
		}
	}
}
