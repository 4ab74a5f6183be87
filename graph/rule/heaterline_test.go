package rule_test

import (
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/plan"
	"dryfit/graph/rule"
)

// Where each of two pumps has an element heater on its line, either heats, and a unit may be on the line of the
// second; without an element there the rule speaks.
func TestEitherOfTwoPumpsThatHeat(t *testing.T) {
	r := rule.ByName("unit-on-heater-line")
	const line = "id = \"jet-line\"\nfrom = \"jet-pump.out\"\nto = \"tee-a.run-in\""
	text := string(read(t, "testdata/unit-on-heater-line/fail.patch"))
	for _, second := range []bool{false, true} {
		if second {
			text = swap(t, text, line, "id = \"jet-heat\"\nfrom = \"jet-pump.out\"\nto = \"second.in\"\nexisting = true\nlegs = [\"right 300 mm\"]\n\n"+
				"[[part]]\nid = \"second\"\nkind = \"element-heater\"\nexisting = true\ndisconnected = true\n\n[[run]]\nid = \"jet-line\"\nfrom = \"second.out\"\nto = \"tee-a.run-in\"")
		}
		d, ds := description.Read("two.toml", []byte(text))
		if d == nil {
			t.Fatal(ds)
		}
		p, err := plan.Make(d, plan.Findings)
		if err != nil {
			t.Fatal(err)
		}
		if said := len(of(r, p.Findings)) > 0; said == second {
			t.Errorf("a second element %v: spoken of %v: %v", second, said, graph.Errors(p.Findings))
		}
	}
}
