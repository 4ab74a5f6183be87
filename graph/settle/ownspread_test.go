package settle_test

import (
	"strings"
	"testing"

	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/settle"
)

// What a part costs the water may be off by as much where a row of the user's says it as where its own
// key does: it is one sheet, written down here or there. Of every kind that has a loss, old and new.
// Checked against nothing but itself: a property.
func TestLossByAnOwnRowIsAsSure(t *testing.T) {
	const around = `
[pipe]
spec = "pvc-pn10"
size = "50 mm"
[[catalog.KIND]]
name = "mine"
spec = "pvc-pn10"
size = "50 mm"
loss-flow = "6 m3/h"
loss-drop = "3 kPa"
length = "110 mm"
socket = "31 mm"
ends = "socket"
rating = "9 bar"
source = "its sheet"
MORE
[[part]]
id = "tub"
kind = "tub"
ports = ["suction", "return"]
[[part]]
id = "p"
kind = "KIND"
`
	runs := `
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
`
	more := map[string]string{
		"check-valve":    "style = \"spring-check\"\ncracking = \"5 kPa\"",
		"heat-pump":      "least = \"1 m3/h\"\nrated = \"2 m3/h\"\nmost = \"8 m3/h\"",
		"filter":         "style = \"cartridge-filter\"",
		"uv-chamber":     "",
		"salt-cell":      "least = \"1 m3/h\"",
		"ball-valve":     "",
		"gate-valve":     "",
		"strainer":       "",
		"ozone-injector": "",
	}
	for kind, keys := range more {
		for _, stands := range []string{"", "existing = true\n", "known = \"data-sheet\"\n"} {
			of := func(said string) settle.Spread {
				text := strings.NewReplacer("KIND", kind, "MORE", keys).Replace(around) + stands + said + runs
				c, ds := description.Read("x.toml", []byte(text))
				if c == nil {
					t.Fatal(kind, ds)
				}
				return settle.Of(c).Part("p").Loss.Spread
			}
			byKey, byRow := of("loss = { flow = \"6 m3/h\", drop = \"3 kPa\" }\n"), of("type = \"mine\"\n")
			if !agree.Within(byKey.Low, byRow.Low, 1e-12) || !agree.Within(byKey.High, byRow.High, 1e-12) || !agree.Within(byKey.Middle, byRow.Middle, 1e-12) || !(byKey.High > 0) {
				t.Errorf("%s %s: by its key %+v, by a row %+v", kind, stands, byKey.Span, byRow.Span)
			}
		}
	}
}
