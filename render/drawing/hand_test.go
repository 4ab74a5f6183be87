package drawing

import (
	"os"
	"testing"

	"dryfit/graph/description"
	"dryfit/graph/plan"
)

// The throttle of the demo is set to Kv 11.3 m³/h on a bore of 40.44 mm. By hand: K =
// 200·(3600·π/4·0.04044²/11.3)² = 33.5, between 52.6 and 17.3 of a cock 50 and 40 degrees from
// open (Weisbach, as in openings.csv), by its logarithm 44 degrees from shut, said to 5.
func TestHandOfTheDemo(t *testing.T) {
	file := "../../testdata/large-circulation.toml"
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	c, ds := description.Read(file, data)
	if c == nil {
		t.Fatal(ds)
	}
	p, err := plan.Make(c, plan.Flows)
	if err != nil {
		t.Fatal(err)
	}
	v := p.After.Circuit.Part(p.Proposal.Element)
	if v.Valve.Kv < 10.8 || v.Valve.Kv > 11.8 {
		t.Fatalf("the throttle is set to Kv %.2f now: reckon again", v.Valve.Kv)
	}
	if got := Hand(p, v); got != "HANDLE 45° from shut" {
		t.Errorf("a throttle of Kv %.2f on its bore: %q", v.Valve.Kv, got)
	}
}
