package spread

import (
	"strings"
	"testing"

	"dryfit/graph/agree"
	"dryfit/graph/hydraulic"
)

// Whether an elbow is swept says nothing of the corner in a tee: the two are off each by itself. That of the
// elbows moves the runs and leaves the tee its loss, that of the tees the tee alone, and each is one unknown
// wherever it is met.
func TestTeesAndElbowsApart(t *testing.T) {
	text := banksText
	for _, way := range []string{"tub.a pump.in", "pump.out tee.run-in", "tee.run-out backs.in", "tee.branch feet.in", "backs.out tub.b", "feet.out tub.c"} {
		from, to, _ := strings.Cut(way, " ")
		text += "[[run]]\nfrom = \"" + from + "\"\nto = \"" + to + "\"\nlength = \"1 m\"\nfittings = { elbow-90 = 2 }\n"
	}
	m := modelOf(t, text)
	n := map[string]int{}
	for _, u := range unknowns([]*hydraulic.Model{m}) {
		n[u.what]++
	}
	const elbows, tees = "the handbook's K of fittings", "the handbook's loss of tees"
	if n[elbows] != 1 || n[tees] != 1 {
		t.Fatalf("%d of %s, %d of %s, want one of each", n[elbows], elbows, n[tees], tees)
	}
	tee := m.PartAt["tee"]
	for _, c := range []struct {
		what           string
		inRuns, inTees float64
	}{{elbows, 1.5, 1}, {tees, 1, 1.5}} {
		p := &hydraulic.Perturb{}
		unknownOf(m, c.what).set(m, p, 1.5)
		runs := 1.0
		if p.Fittings != nil {
			runs = p.Fittings[0]
		}
		if p.Straight != nil {
			t.Errorf("%s adds to what goes straight on", c.what)
		}
		if !agree.Within(runs, c.inRuns, 1e-12) || !agree.Within(p.Loss[tee], c.inTees, 1e-12) {
			t.Errorf("%s half as much again: %.2f times in runs, %.2f times in the tee", c.what, runs, p.Loss[tee])
		}
	}
	straight := unknownOf(m, "what goes straight on through tees")
	p := &hydraulic.Perturb{}
	straight.set(m, p, 0.2)
	before, _ := m.Solve(nil)
	after, _ := m.Solve(p)
	if p.Straight[tee] != 0.2 || p.Loss != nil || !(after.Part("tee").Drop > before.Part("tee").Drop) {
		t.Errorf("K 0.2 straight on: %v, the tee's run loses %.0f Pa for %.0f", p.Straight, after.Part("tee").Drop, before.Part("tee").Drop)
	}
}
