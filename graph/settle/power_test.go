package settle_test

import (
	"testing"

	"dryfit/graph/description"
	"dryfit/graph/settle"
)

// The watts somebody read off a pump's label are theirs, though its curve is that of its kind.
// Follows from the description.
func TestWattsOfALabelAreGiven(t *testing.T) {
	const around = `
[pipe]
spec = "pvc-sch40"
size = "2 in"

[[part]]
id = "tub"
kind = "tub"
ports = ["suction", "return"]

[[run]]
from = "tub.suction"
to = "pump.in"
existing = true
length = "1 m"

[[run]]
from = "pump.out"
to = "tub.return"
existing = true
length = "1 m"
`
	for _, kind := range []string{"", `type = "pool-pump"`} {
		c, ds := description.Read("pump.toml", []byte("[[part]]\nid = \"pump\"\nkind = \"pump\"\nexisting = true\npower = \"900 W\"\n"+kind+around))
		if c == nil {
			t.Fatal(ds)
		}
		seen := 0
		for k, v := range settle.Of(c).Values() {
			if k.What == "power at on" {
				seen++
				if v.How != settle.Given || v.Pos.Line != 5 {
					t.Errorf("%q: %s: %+v", kind, k.What, v)
				}
			}
		}
		if seen == 0 {
			t.Errorf("%q: no power among the values", kind)
		}
	}
}
