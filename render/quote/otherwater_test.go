package quote

import (
	"os"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/description"
	"dryfit/graph/plan"
	"dryfit/render/table/form"
)

// otherWater is a tub with pipes of its own beside the job's, its element in use.
const otherWater = `
[[part]]
id = "spa"
kind = "tub"
ports = ["out", "back"]

[[part]]
id = "spa-pump"
kind = "pump"
existing = true
always-on = true
curve = [["0 m3/h", "9 m"], ["8 m3/h", "6 m"], ["14 m3/h", "1 m"]]

[[part]]
id = "spa-element"
kind = "element-heater"
existing = true
disconnected = false
interlock = "set-point"
set-point = "39 °C"

[[run]]
from = "spa.out"
to = "spa-pump.in"
existing = true
length = "900 mm"

[[run]]
from = "spa-pump.out"
to = "spa-element.in"
existing = true
length = "900 mm"

[[run]]
from = "spa-element.out"
to = "spa.back"
existing = true
length = "900 mm"
`

// What is offered is the work on the water that the unit heats: the element of another tub, whose
// pipes never meet the unit's, is neither disconnected nor kept as a help by it. Common practice,
// no source.
func TestOtherWatersElementIsNotOffered(t *testing.T) {
	alone, err := os.ReadFile("../../testdata/large-circulation.toml")
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{"alone": string(alone), "beside another water": string(alone) + otherWater} {
		c, found := description.Read("job.toml", []byte(text))
		if c == nil {
			t.Fatalf("%s: %v", name, found)
		}
		p, err := plan.Make(c, plan.Findings|plan.Lists)
		if err != nil {
			t.Fatal(err)
		}
		said := strings.Join(work(p, form.Style{Units: quantity.MetricSystem}), "\n")
		if n := strings.Count(said, "disconnects the old element heater"); n != 1 || strings.Contains(said, "stays as a help") {
			t.Errorf("%s: an element is disconnected %d times in\n%s", name, n, said)
		}
	}
}
