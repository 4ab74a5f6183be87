package hydraulic_test

import (
	"fmt"
	"strings"
	"testing"

	"dryfit/graph/agree"
)

// twoText is the loop with a pump whose curve rises, behind a spring it does not lift from rest.
func twoText(curve, cracking string) string {
	text := strings.Replace(loopText, `[["0 m3/h", "10 m"], ["10 m3/h", "5 m"], ["20 m3/h", "0 m"]]`, curve, 1)
	return strings.Replace(text, "kind = \"filter\"\nloss =", "kind = \"check-valve\"\ncracking = \""+cracking+"\"\nloss =", 1)
}

// Both flows are said, the one from rest first: nothing, and where the curve from 9 m at 10 m3/h to 0 m
// at 20 m3/h meets a spring of 6 m and next to no other loss. By hand: level at its top, at its end by the
// three-point formula (30·(-0.9) - 10·0.4)/20 = -1.55 m per m3/h, between them 9 - 11.5 t² + 2.5 t³ = 6 at
// t = 0.544, so 15.44 m3/h.
func TestBothFlowsAreSaid(t *testing.T) {
	text := strings.NewReplacer("k = 4,", "k = 0.001,", "k = 1.5", "k = 0.001", `length = "20 m"`, `length = "1 mm"`).
		Replace(twoText(`[["0 m3/h", "5 m"], ["10 m3/h", "9 m"], ["20 m3/h", "0 m"]]`, "6 m"))
	s := solve(t, text, "on")
	p := s.Part("pump")
	if got := p.Moving * 3600; !agree.Within(got, 15.44, 0.02) {
		t.Errorf("once it moves %g m3/h", got)
	}
	if want := fmt.Sprintf("two flows at which it holds, 0 m3/h and %.1f m3/h: from rest it comes to the smaller", p.Moving*3600); !hasNote(s, want) {
		t.Errorf("no note of %q: %v", want, s.Notes)
	}
}

// Two flows that lie near each other, against what the pump can give, are two: a spring of 5.02 m, a
// shut-off of 5 m, and 5.1 m at 0.3 m3/h of a pump that ends at 20. By comparing the heads.
func TestTwoFlowsNearEachOther(t *testing.T) {
	s := solve(t, twoText(`[["0 m3/h", "5 m"], ["0.3 m3/h", "5.1 m"], ["0.8 m3/h", "4 m"], ["20 m3/h", "0 m"]]`, "5.02 m"), "on")
	p := s.Part("pump")
	if p.Flow != 0 || !(p.Moving*3600 > 0.3 && p.Moving*3600 < 0.5) || !hasNote(s, "two flows at which it holds") {
		t.Errorf("%g and %g m3/h: %v", p.Flow*3600, p.Moving*3600, s.Notes)
	}
}

// Of two pumps in one line it is the one whose curve rises that makes two flows of it: it alone is told.
func TestTwoFlowsAreOfThePumpThatRises(t *testing.T) {
	text := strings.Replace(twoText(`[["0 m3/h", "5 m"], ["5 m3/h", "9 m"], ["9 m3/h", "8 m"], ["20 m3/h", "0 m"]]`, "6.5 m"),
		`to = "pump.in"`, "to = \"boost.in\"\n", 1) + `
[[part]]
id = "boost"
kind = "pump"
curve = [["0 m3/h", "0.5 m"], ["20 m3/h", "0.1 m"]]
[[run]]
from = "boost.out"
to = "pump.in"
size = "2 in"
spec = "pvc-sch40"
length = "0 mm"
[[mode]]
name = "on"
speeds = { pump = "on", boost = "on" }
`
	s := solve(t, text, "on")
	if b := s.Part("boost"); b.Flow != 0 || b.Moving < 1e-3 || !hasNote(s, `"pump" has two flows`) || hasNote(s, `"boost" has two flows`) {
		t.Errorf("the other gives %g and %g m³/s: %v", b.Flow, b.Moving, s.Notes)
	}
}
