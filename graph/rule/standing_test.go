package rule_test

import (
	"strings"
	"testing"
)

// Where a unit lacks its water because its pump moves none, neither the bypass nor the pipe to the unit is
// to be changed: a spring in the old line is what stands in the way, and both findings lead there.
func TestUnitWhosePumpMovesNothing(t *testing.T) {
	said := map[string]string{}
	for _, d := range findings(t, "testdata/unit-least-flow/fail-standing.patch") {
		if d.Mode == "low" {
			said[d.Rule] = d.Message.String() + ": " + d.Hint.String()
		}
	}
	for rule, want := range map[string]string{
		"unit-least-flow":   `no water passes its pump "pump": see there first`,
		"heater-line-flows": `the spring of "old-check" opens at 55.2 kPa, and the pump holds 39.0 kPa at no flow: a spring that opens below`,
		"flow":              `a spring in "old-check" that opens below the pump's head at no flow`,
	} {
		if !strings.Contains(said[rule], want) {
			t.Errorf("%s: %q, want %q", rule, said[rule], want)
		}
	}
}
