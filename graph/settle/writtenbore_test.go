package settle_test

import (
	"strings"
	"testing"

	"dryfit/graph/agree"
	"dryfit/graph/settle"
)

// A bore that the description says is nobody's to a tenth of a millimetre: it has a spread of its own, in
// show and in the sample, the same for all runs of one pipe, and one of a pipe that no table has by itself.
// Source: common practice, half a millimetre of what was measured; 52.5 mm is the bore of 2 in by ASTM D1785.
func TestAWrittenBoreIsOff(t *testing.T) {
	text := strings.Replace(loop("", ""), "[[run]]\nfrom = \"tub.s\"\nto = \"pump.in\"\n", "[[run]]\nid = \"a\"\nfrom = \"tub.s\"\nto = \"pump.in\"\nknown = \"measured\"\nbore = \"51.8 mm\"\n", 1)
	text = strings.Replace(text, "[[run]]\nfrom = \"pump.out\"\nto = \"check.in\"\n", "[[run]]\nid = \"b\"\nfrom = \"pump.out\"\nto = \"check.in\"\nknown = \"measured\"\nbore = \"52 mm\"\n", 1)
	s := read(t, text)
	a, b := s.Run("a").Bore, s.Run("b").Bore
	if !agree.Within(a.High*52.5, 0.5, 0.01) || !agree.Within(a.Low*52.5, -0.5, 0.01) || a.V != 51.8 {
		t.Errorf("a bore of %g mm that was measured is off by %+v of it, want half a millimetre", a.V, a.Span)
	}
	if a.Class == "" || a.Class != b.Class || a.Span != b.Span {
		t.Errorf("two runs of one pipe: %q %+v and %q %+v", a.Class, a.Span, b.Class, b.Span)
	}
	for k, v := range s.Values() {
		if k.Of == "a" && k.What == "bore" && v.Span != a.Span {
			t.Errorf("show has %+v of it, want %+v", v.Span, a.Span)
		}
	}
	n := 0
	for _, u := range s.Unknowns() {
		if u.Number == settle.BoreNumber && u.Class == a.Class {
			n++
		}
	}
	if n != 2 {
		t.Errorf("%d runs have that unknown, want 2", n)
	}
	guessed := read(t, strings.ReplaceAll(text, "known = \"measured\"\n", "")).Run("a").Bore
	if !(guessed.High > a.High) {
		t.Errorf("not measured it is off by %g, measured by %g", guessed.High, a.High)
	}
}
