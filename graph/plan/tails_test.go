package plan_test

import (
	"slices"
	"strings"
	"testing"

	"dryfit/graph/plan"
	"dryfit/graph/takeoff"
)

// A unit is changed between the unions of the old one: the tails go with the pipe cemented into them, so two
// unions are bought for theirs; where the old pipe was hose, or none goes, none is. Common practice, no source.
func TestTailsGoWithTheirPipe(t *testing.T) {
	const swap = `
[pipe]
spec = "pvc-sch40"
size = "1 1/2 in"
[[part]]
id = "tub"
kind = "tub"
ports = ["out", "in"]
[[part]]
id = "pump"
kind = "pump"
existing = true
power = "250 W"
[[part]]
id = "u1"
kind = "union"
existing = true
[[part]]
id = "u2"
kind = "union"
existing = true
[[part]]
id = "old"
kind = "heat-pump"
existing = true
removed = true
[[part]]
id = "unit"
kind = "heat-pump"
flow = { least = "1 m3/h" }
port.in = { faces = "left" }
port.out = { at = ["right 300 mm"], faces = "right" }
[[run]]
from = "tub.out"
to = "pump.in"
existing = true
legs = ["right 500 mm"]
[[run]]
from = "pump.out"
to = "u1.in"
existing = true
legs = ["right 500 mm"]
[[run]]
from = "u1.out"
to = "old.in"
existing = true
removed = true
legs = ["right 400 mm"]
[[run]]
from = "old.out"
to = "u2.in"
existing = true
removed = true
legs = ["right 400 mm"]
[[run]]
from = "u2.out"
to = "tub.in"
existing = true
legs = ["right 500 mm"]
[[run]]
from = "u1.out"
to = "unit.in"
legs = ["right 400 mm"]
[[run]]
from = "unit.out"
to = "u2.in"
legs = ["right 400 mm"]
`
	for said, want := range map[string][]string{
		swap: {"tail of u1.out", "tail of u2.in"},
		strings.Replace(swap, "existing = true\nremoved = true\nlegs = [\"right 400 mm\"]", "existing = true\nremoved = true\nspec = \"hose\"\nsize = \"38 mm\"\nlegs = [\"right 400 mm\"]", 1): {"tail of u2.in"},
	} {
		p := work(t, read(t, "swap.toml", []byte(said)), plan.Findings|plan.Lists)
		var got []string
		bought := 0.0
		for _, it := range p.Bill.Items {
			if it.New && it.Kind == "union" {
				bought += it.Quantity
				got = append(got, takeoff.Apart(it.Where)...)
			}
		}
		if slices.Sort(got); !slices.Equal(got, want) || bought != float64(len(want)) {
			t.Errorf("%g unions bought, at %v, want %v", bought, got, want)
		}
	}
}
