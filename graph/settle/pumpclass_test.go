package settle_test

import (
	"fmt"
	"testing"

	"dryfit/graph/description"
	"dryfit/graph/settle"
)

// The less is said of a pump, the farther its size may be off: by its type, by its watts, by its hose
// where it never stops, and by nothing. Common practice, no source: pumps of tubs go from 0.35 to
// 2.2 kW, six times apart, those of one type three times.
func TestPumpIsAsWideAsItIsUnknown(t *testing.T) {
	width := func(keys string) float64 {
		text := fmt.Sprintf(`
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
`, keys)
		c, ds := description.Read("x.toml", []byte(text))
		if c == nil {
			t.Fatal(keys, ds)
		}
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
}
