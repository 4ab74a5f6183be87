package settle_test

import (
	"fmt"
	"math"
	"testing"

	"dryfit/catalog/tables"
	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/settle"
)

// The less is said of a pump, the farther its size may be off: by its type, by its watts, by its hose
// where it never stops, and by nothing. Common practice, no source: pumps of tubs go from 0.35 to
// 2.2 kW, six times apart, those of one type three times.
func TestPumpIsAsWideAsItIsUnknown(t *testing.T) {
	width := func(keys string) float64 {
		c := onePump(t, keys)
		for _, u := range settle.Of(c).Unknowns() {
			if u.Number == settle.SizeNumber && u.At == "p" {
				return (1 + u.Span.High) / (1 + u.Span.Low)
			}
		}
		t.Fatalf("%s: how large the pump is is no unknown", keys)
		return 0
	}
	unnamed := width("")
	if unnamed < 5 {
		t.Errorf("a pump that nobody names is known to a factor of %.1f", unnamed)
	}
	for _, said := range []string{`type = "two-speed-pump"`, `type = "pool-pump"`, `power = "1.5 kW"`, `always-on = true`} {
		if w := width(said); !(w < unnamed*0.7) {
			t.Errorf("%s leaves a factor of %.1f, nothing one of %.1f", said, w, unnamed)
		}
	}
	watts, amps := width(`power = "1.5 kW"`), width("amps = \"8.2 A\"\nvolts = \"230 V\"")
	if !(amps > 1.03*watts) {
		t.Errorf("amps leave a factor of %.2f, watts one of %.2f", amps, watts)
	}
	if factor := width("amps = \"8.2 A\"\nvolts = \"230 V\"\npower-factor = 0.8"); !agree.Within(factor, watts, 1e-9) {
		t.Errorf("amps with their power factor leave a factor of %.2f, watts one of %.2f", factor, watts)
	}
	few, small := width(`power = "100 W"`), width("amps = \"0.6 A\"\nvolts = \"230 V\"")
	if !(small > 1.02*few) {
		t.Errorf("amps of a small pump leave a factor of %.2f, watts one of %.2f", small, few)
	}
}

// The head of a pump of which only the type is known is off by its size, of which three tenths go into head, and by
// its shape, as much less as it gives more flow; what the two make of it together adds as deviations do, from the
// middle of both, and a wide wheel is the low end of the head. By hand, of spreads.csv.
func TestHeadOfATypeIsOffBySizeAndShape(t *testing.T) {
	c := onePump(t, `type = "two-speed-pump"`)
	size, shape := tables.Spread(tables.SpreadPumpSize, "assumed"), tables.Spread(tables.SpreadPumpShape, "assumed")
	bySize := func(to float64) float64 { return 0.3 * math.Log((1+to)/(1+size.Middle)) }
	byShape := func(to float64) float64 { return math.Log((1 + shape.Middle) / (1 + to)) }
	middle := 0.3*math.Log1p(size.Middle) - math.Log1p(shape.Middle)
	low := math.Exp(middle-math.Hypot(bySize(size.Low), byShape(shape.High))) - 1
	high := math.Exp(middle+math.Hypot(bySize(size.High), byShape(shape.Low))) - 1
	for k, v := range settle.Of(c).Values() {
		if k.What == "shut-off head at high" {
			if !agree.Within(v.Low, low, 1e-9) || !agree.Within(v.High, high, 1e-9) {
				t.Errorf("off by %+.4f to %+.4f, want %+.4f to %+.4f", v.Low, v.High, low, high)
			}
			return
		}
	}
	t.Error("no shut-off head among the values")
}

// onePump reads a tub and an old pump of which some keys are said.
func onePump(t *testing.T, keys string) *graph.Circuit {
	t.Helper()
	c, ds := description.Read("x.toml", fmt.Appendf(nil, `
[pipe]
spec = "pvc-sch40"
size = "2 in"
[[part]]
id = "tub"
kind = "tub"
ports = ["suction", "return"]
[[part]]
id = "p"
kind = "pump"
existing = true
%s
[[run]]
from = "tub.suction"
to = "p.in"
length = "1 m"
existing = true
[[run]]
from = "p.out"
to = "tub.return"
length = "1 m"
existing = true
`, keys))
	if c == nil {
		t.Fatal(keys, ds)
	}
	return c
}
