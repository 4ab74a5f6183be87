package search

import (
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// Where a place is ruled out by more than one error each is told, two behind the first and how many are
// left: a flow that a turn of a valve would mend hid a pressure that nothing does.
func TestAllThatIsAgainstAPlace(t *testing.T) {
	for want, errors := range map[quantity.Text][]quantity.Text{
		"":                {"too little"},
		"; and: too high": {"too little", "too high"},
		"; and: a; and: b; and 2 more, which cutin lists": {"too little", "a", "b", "c", "d"},
	} {
		one := &trial{findings: []graph.Diagnostic{{Severity: graph.Warning, Rule: "unit-least-flow", Message: "told elsewhere"}}}
		for _, e := range errors {
			one.findings = append(one.findings, graph.Diagnostic{Severity: graph.Error, Rule: "unit-least-flow", Message: e})
		}
		if got := alsoAgainst(one, "too little"); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
