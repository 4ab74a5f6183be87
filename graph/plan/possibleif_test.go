package plan_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/plan"
	"dryfit/graph/plan/search"
)

// A place with less to spare than its lengths are uncertain is possible if a part is short
// enough, with the number: 20 mm of room more than the work needs leave 20 mm for the check. With
// more room than that the place is sure. Worked by hand from the sum of lengths.
func TestPossibleIf(t *testing.T) {
	for _, c := range []struct {
		spare float64
		sure  bool
	}{{20, false}, {40, false}, {300, true}} {
		circuit := readFile(t, "../../testdata/two-speed.toml")
		best := work(t, asked(circuit, nil), plan.Findings|plan.Places).Places[0].Place
		changeLegOf(circuit, best.Run, best.Leg, best.NeededMM+c.spare-best.RoomMM)
		p := work(t, asked(circuit, &graph.Cut{Run: best.Run, Leg: best.Leg, AtMM: -1}), plan.Findings|plan.Places)
		v := p.Places[0]
		if !agree.Within(v.Place.RoomMM-v.Place.NeededMM, c.spare, 0.01) {
			t.Fatalf("%.1f mm to spare, want %.1f", v.Place.RoomMM-v.Place.NeededMM, c.spare)
		}
		element := 0.0
		for _, term := range v.Place.Terms {
			if strings.Contains(term.What.String(), "spring check") {
				element = term.MM
			}
		}
		says := fmt.Sprintf("only if the true-union spring check measures at most %.0f mm", math.Floor(element+c.spare))
		said := slices.ContainsFunc(v.Reasons, func(r search.Reason) bool { return strings.Contains(r.Text.String(), says) })
		if sure := v.Verdict == "best"; sure != c.sure || said == c.sure || (v.Verdict == "possible if") == c.sure {
			t.Errorf("%.0f mm to spare: %s, says %q: %t; %v", c.spare, v.Verdict, says, said, v.Reasons)
		}
		warns := slices.ContainsFunc(p.Findings, func(d graph.Diagnostic) bool {
			return d.Severity == graph.Warning && strings.Contains(d.Message.String(), says)
		})
		again := rewritten(t, p) // the plan written out hangs on the same length
		kept := fmt.Sprintf("measures at most %.0f mm", math.Floor(element+c.spare))
		held := slices.ContainsFunc(again.Findings, func(d graph.Diagnostic) bool {
			return d.Severity == graph.Warning && strings.Contains(d.Message.String(), "check-valve") && strings.Contains(d.Message.String(), kept)
		})
		if held == c.sure {
			t.Errorf("%.0f mm to spare: the plan written out says %q: %t; %v", c.spare, kept, held, again.Findings)
		}
		if warns == c.sure {
			t.Errorf("%.0f mm to spare: a warning says %q: %t; %v", c.spare, says, warns, p.Findings)
		}
	}
}

// changeLegOf makes a leg longer or shorter.
func changeLegOf(c *graph.Circuit, run string, leg int, by float64) {
	for _, r := range c.Runs {
		if r.ID == run {
			l := &r.Legs[leg-1]
			l.By = l.By.Unit().Scale(l.LengthMM() + by)
		}
	}
}
