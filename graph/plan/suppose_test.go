package plan_test

import (
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/plan"
)

const nobodyKnows = `
[pipe]
spec = "hose"
size = "1 in"
[[part]]
id = "tub"
kind = "tub"
ports = ["suction", "return"]
[[part]]
id = "pump"
kind = "pump"
existing = true
power = "60 W"
always-on = true
[[part]]
id = "filter"
kind = "filter"
existing = true
[[run]]
id = "in"
from = "tub.suction"
to = "pump.in"
existing = true
length = "600 mm"
[[run]]
id = "middle"
from = "pump.out"
to = "filter.in"
existing = true
length = "0 mm"
[[run]]
id = "back"
from = "filter.out"
to = "tub.return"
existing = true
length = "1500 mm"
fittings = { elbow-90 = 4 }
[[part]]
id = "unit"
kind = "heat-pump"
[retrofit]
unit = "unit"
`

// Of a tub nobody knows, two lengths and no legs, there is no place for the cut, and that is an error;
// what the unit would get is told all the same, with a range. What the bends cost stays in the line:
// the same run written leg by leg, with as many corners, gives the unit as much to a twentieth.
func TestUnmeasuredLineHasAnAnswer(t *testing.T) {
	made := func(text string) *plan.Plan {
		c, ds := description.Read("nobody.toml", []byte(text))
		if c == nil {
			t.Fatal(ds)
		}
		p, err := plan.Make(c, plan.Findings|plan.Flows|plan.Ranges)
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	unit := func(p *plan.Plan) float64 {
		s := p.After.Solution("on")
		if s == nil {
			t.Fatal("no answer")
		}
		return s.Part("unit").Flow
	}
	p := made(nobodyKnows)
	if !graph.HasErrors(p.Findings) || p.Proposal != nil || p.Supposed == nil || p.Supposed.Place.Run != "back" {
		t.Fatalf("proposal %v, supposed %v: %v", p.Proposal, p.Supposed, p.Findings)
	}
	if p.Supposed.Ranges == nil || len(p.Supposed.Ranges.MeasureFirst) == 0 || p.Supposed.Ranges.MeasureFirst[0].Unit < 0.1 {
		t.Errorf("nothing to measure first")
	}
	if named := made(nobodyKnows + "cut = \"back\"\n"); named.Supposed == nil || !agree.Within(unit(named.Supposed.Plan), unit(p.Supposed.Plan), 1e-9) {
		t.Error("the run named as the place of the cut has no such answer")
	}
	legs := strings.Replace(nobodyKnows, "length = \"1500 mm\"\nfittings = { elbow-90 = 4 }",
		`legs = ["right 900 mm", "up 200 mm", "right 100 mm", "down 100 mm", "right 200 mm"]`, 1)
	q := made(legs)
	if q.Supposed != nil || q.Proposal == nil {
		t.Fatalf("measured by legs: supposed %v, proposal %v: %v", q.Supposed, q.Proposal, q.Findings)
	}
	if got, want := unit(p.Supposed.Plan), unit(q); !agree.Within(got, want, 0.05*want) {
		t.Errorf("the unit gets %.3f m3/h as supposed, %.3f with the legs", got*3600, want*3600)
	}
}
