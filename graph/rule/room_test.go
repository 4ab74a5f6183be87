package rule_test

import (
	"testing"

	"dryfit/graph"
	"dryfit/graph/rule"
)

// In a warm room a tub cools while its unit stops, and does not freeze: no error there.
func TestUnitStopsOverATubInARoom(t *testing.T) {
	for file, want := range map[string]graph.Severity{"fail-indoors": graph.Warning, "fail-cold-room": graph.Error, "fail": graph.Error} {
		ds := of(rule.ByName("heat-when-unit-stops"), findings(t, "testdata/heat-when-unit-stops/"+file+".patch"))
		if len(ds) != 1 || ds[0].Severity != want {
			t.Errorf("%s: %v, want one of severity %v", file, ds, want)
		}
	}
}
