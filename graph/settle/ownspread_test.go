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

// What a row of the user's leaves to the row it is laid over is that one's word: named by its type it is
// the catalogue's, of a part whose type nobody said an assumption; and a unit of which he says only how
// long it is has no sheet.
func TestOwnRowLeavesTheRest(t *testing.T) {
	const text = `
[pipe]
spec = "pvc-pn10"
size = "50 mm"
[[catalog.heat-pump]]
name = "heat-pump 9 kW"
body-long = "444 mm"
source = "by tape"
[[catalog.filter]]
name = "cartridge-filter"
body-long = "333 mm"
source = "by tape"
[[catalog.pump]]
name = "pool-pump"
body-long = "555 mm"
source = "by tape"
[[part]]
id = "unit"
kind = "heat-pump"
type = "heat-pump 9 kW"
[[part]]
id = "named"
kind = "filter"
existing = true
type = "cartridge-filter"
[[part]]
id = "pump"
kind = "pump"
existing = true
type = "pool-pump"
[[part]]
id = "tub"
kind = "tub"
ports = ["suction", "return"]
[[part]]
id = "nobody"
kind = "filter"
existing = true
[[run]]
from = "tub.suction"
to = "nobody.in"
length = "1 m"
existing = true
[[run]]
from = "nobody.out"
to = "pump.in"
length = "1 m"
existing = true
[[run]]
from = "pump.out"
to = "named.in"
length = "1 m"
existing = true
[[run]]
from = "named.out"
to = "unit.in"
length = "1 m"
[[run]]
from = "unit.out"
to = "tub.return"
length = "1 m"
`
	c, ds := description.Read("x.toml", []byte(text))
	if c == nil {
		t.Fatal(ds)
	}
	s := settle.Of(c)
	unit, named, nobody, pump := s.Part("unit"), s.Part("named"), s.Part("nobody"), s.Part("pump")
	if unit.Body.LongMM != 444 || named.Body.LongMM != 333 || nobody.Body.LongMM != 333 || pump.Body.LongMM != 555 || named.Body.How != settle.OwnRow {
		t.Fatalf("bodies %v %v %v %v", unit.Body, named.Body, nobody.Body, pump.Body)
	}
	if unit.BySheet() || unit.Ratings.How != settle.Row || len(unit.Ratings.V) == 0 {
		t.Errorf("ratings of the unit: %+v, by a sheet: %v", unit.Ratings.Origin, unit.BySheet())
	}
	for what, c := range map[string]struct{ got, want settle.How }{
		"loss of the filter named": {named.Loss.How, settle.Row}, "of the one nobody named": {nobody.Loss.How, settle.Assumed},
		"what the unit stands": {unit.Highest.How, settle.Row}, "speeds": {pump.Speeds.How, settle.Row},
	} {
		if c.got != c.want {
			t.Errorf("%s: %s, want %s", what, c.got, c.want)
		}
	}
	if w := string(named.Loss.Why); strings.Contains(w, "tape") || w == "" {
		t.Errorf("the loss is as %q says", w)
	}
}
