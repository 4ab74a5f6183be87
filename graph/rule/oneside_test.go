package rule_test

import (
	"strings"
	"testing"

	"dryfit/graph/rule"
)

// A check with a hand valve on one side of it is told which one there is, and on which side one is wanted.
// By the rule's own words.
func TestCheckShutOffOnOneSide(t *testing.T) {
	valve := func(name, from, to string) string {
		return "[[part]]\nid = \"shut\"\nkind = \"ball-valve\"\nlength = \"60 mm\"\n\n[[run]]\nid = \"" + name + "\"\nfrom = \"" + from + "\"\nto = \"shut.in\"\nlegs = [\"right 110 mm\"]\n\n" +
			"[[run]]\nid = \"shut-on\"\nfrom = \"shut.out\"\nto = \"" + to + "\"\nlegs = [\"right 110 mm\"]\n"
	}
	run := func(name, from, to string) string {
		return "[[run]]\nid = \"" + name + "\"\nfrom = \"" + from + "\"\nto = \"" + to + "\"\nlegs = [\"right 110 mm\"]\n"
	}
	for name, c := range map[string]struct{ from, to, other string }{
		"bypass-a": {"tee-a.run-out", "spring.in", "after"},
		"bypass-b": {"spring.out", "tee-b.run-in", "before"},
	} {
		text := swap(t, string(read(t, "testdata/clean.toml")), run(name, c.from, c.to), valve(name, c.from, c.to))
		ds := toldOf(t, rule.ByName("bypass-serviceable"), swap(t, text, `below-water = "-250 mm"`, `below-water = "500 mm"`))
		if len(ds) != 1 || !strings.Contains(ds[0].Message.In(0), `"shut" alone shuts it off`) || !strings.HasPrefix(ds[0].Hint.In(0), "a hand valve "+c.other+" it too") {
			t.Errorf("%s: %v", name, ds)
		}
	}
}
