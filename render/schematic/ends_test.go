package schematic

import (
	"strings"
	"testing"

	"dryfit/graph/description"
	"dryfit/render/scene"
)

// A reducer's sign is as high as its pipe is wide, and of a transition the half in metric pipe is filled: whichever
// way the water goes through them. Read back from what is drawn.
func TestSignsOfTwoEndsLieTheRightWay(t *testing.T) {
	const line = `
[pipe]
spec = "pvc-sch40"
size = "2 in"
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
id = "change"
kind = "KIND"
existing = true
[[run]]
from = "tub.out"
to = "pump.in"
existing = true
length = "500 mm"
[[run]]
from = "pump.out"
to = "change.in"
existing = true
FIRST
length = "500 mm"
[[run]]
from = "change.out"
to = "tub.in"
existing = true
SECOND
length = "500 mm"
`
	inch, small, metric := "", `size = "1 1/2 in"`, "spec = \"pvc-pn10\"\nsize = \"50 mm\""
	for _, c := range []struct {
		kind, first, second string
		right               bool // the high, or the filled, end is where the water leaves
	}{
		{"reducer", inch, small, false},
		{"reducer", small, inch, true},
		{"transition", small, metric, true},
		{"transition", metric, small, false},
	} {
		said := strings.NewReplacer("KIND", c.kind, "FIRST", c.first, "SECOND", c.second).Replace(line)
		circuit, ds := description.Read("ends.toml", []byte(said))
		if circuit == nil {
			t.Fatal(ds)
		}
		high, filled := map[bool]float64{}, 0.0
		all := scene.Empty()
		for _, it := range Draw(Input{Circuit: circuit})[0].Items {
			if s, ok := it.(scene.Shape); ok && s.Name == "symbol:change" {
				all = all.Union(scene.Bounds(s))
			}
		}
		for _, it := range Draw(Input{Circuit: circuit})[0].Items {
			s, ok := it.(scene.Shape)
			if !ok || s.Name != "symbol:change" {
				continue
			}
			if b := scene.Bounds(s); b.W() < 0.7*all.W() {
				filled = b.Centre().X - all.Centre().X
			}
			for _, p := range s.Paths {
				for _, g := range p.Segments {
					right := g.To.X > all.Centre().X
					high[right] = max(high[right], g.To.Y-all.Centre().Y)
				}
			}
		}
		if c.kind == "reducer" && (high[true] > high[false]) != c.right {
			t.Errorf("%s from %q to %q: %.1f mm high where the water comes in, %.1f where it leaves", c.kind, c.first, c.second, high[false], high[true])
		}
		if c.kind == "transition" && (filled == 0 || filled > 0 != c.right) {
			t.Errorf("%s from %q to %q is filled at %+.1f mm", c.kind, c.first, c.second, filled)
		}
	}
}
