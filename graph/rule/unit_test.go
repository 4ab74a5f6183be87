package rule_test

import (
	"testing"

	"dryfit/graph/rule"
)

// What is found of one unit says of which, so that it follows from nothing that is found of another:
// in the case of each of these rules there is one, called "unit".
func TestFindingsOfAUnitNameIt(t *testing.T) {
	for _, name := range []string{
		"branch-not-below-ports", "line-not-narrowed", "unit-least-flow", "unit-most-flow", "least-flow-when-dirty", "flow-past-check",
		"spring-not-too-weak", "spring-not-too-strong", "unit-temperature-rise", "heat-when-unit-stops", "unit-holds-tub",
	} {
		r := rule.ByName(name)
		ds := of(r, findings(t, cases(t, r, "fail")[0]))
		if len(ds) == 0 {
			t.Errorf("%s: nothing found", name)
		}
		for _, d := range ds {
			if d.Unit != "unit" {
				t.Errorf("%s: of unit %q, want that it names \"unit\"", name, d.Unit)
			}
		}
	}
}
