package settle_test

import (
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/description"
	"dryfit/graph/settle"
)

// What a blower moves is air, given or assumed, and is printed as the trade counts air: in gpm it
// would be taken for water. A cubic foot a minute is 0.4719 l/s (NIST SP 811, appendix B.8).
func TestBlowerMovesAir(t *testing.T) {
	for air, want := range map[string]string{`air = "17 cfm"`: "17 cfm", `air = "8 l/s"`: "17 cfm", "": "25 cfm"} { // assumed: 12 l/s
		c, ds := description.Read("air.toml", []byte(`
[pipe]
spec = "pvc-sch40"
size = "2 in"

[[part]]
id = "tub"
kind = "tub"
ports = ["air"]

[[part]]
id = "blower"
kind = "blower"
existing = true
`+air+`

[[run]]
from = "blower.in"
to = "tub.air"
existing = true
air = true
length = "1 m"
`))
		if c == nil {
			t.Fatal(ds)
		}
		seen := 0
		for k, v := range settle.Of(c).Values() {
			if k.What != "air" {
				continue
			}
			if seen++; v.Dim != quantity.Air || v.Dim.Of(v.V).In(quantity.InchSystem) != want {
				t.Errorf("%q: %s in inch units, want %s", air, v.Dim.Of(v.V).In(quantity.InchSystem), want)
			}
		}
		if seen != 1 {
			t.Errorf("%q: %d values called air", air, seen)
		}
	}
}
