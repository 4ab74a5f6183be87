package search

import (
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/retrofit"
)

// A change is said with what comes of it, or without where that is not known exactly.
func TestWordMend(t *testing.T) {
	some := []help{writing("spring", `"a"`, "little", nil), leaving("bypass-size", "nothing", nil)}
	const change = `spring = "a" in [retrofit], together with leave out bypass-size in [retrofit]; it costs little, and nothing`
	if got := string(wordMend(some, "low: the unit gets 2", "if so")); got != change+"; low: the unit gets 2; if so" {
		t.Errorf("with flows: %s", got)
	}
	if got := string(wordMend(some, "", "")); got != change {
		t.Errorf("without: %s", got)
	}
}

// A throttle is set in the mode in which the unit gets least; of modes that give it the same, but for
// what the solver leaves, in the first, whichever that leaves more.
func TestThrottleIsSetInTheFirstOfModesAlike(t *testing.T) {
	for _, c := range []struct {
		heat, jets float64
		want       string
	}{{1e-3, 1e-3 - 1e-12, "mode heat"}, {1e-3 - 1e-12, 1e-3, "mode heat"}, {1e-3, 0.9e-3, "mode jets"}} {
		flows := []unitFlow{{mode: "heat", flow: c.heat, wanted: true}, {mode: "jets", flow: c.jets, wanted: true}}
		if got := setBy(flows).String(); !strings.HasSuffix(got, c.want) {
			t.Errorf("%g and %g: %s", c.heat, c.jets, got)
		}
	}
}

// What is said to help where nothing that was tried does names nothing that the tool put in
// itself: nobody can change it where it is written. Follows from the description, which has no
// such pipe or part.
func TestNextNamesNothingTheToolPutIn(t *testing.T) {
	c := &graph.Circuit{Parts: []*graph.Part{{ID: "bypass", Kind: graph.BallValve}, {ID: "filter", Kind: graph.Filter, Existing: true}},
		Runs: []*graph.Run{{ID: "tee-a.run-out>bypass.in"}, {ID: "return-line", Existing: true}}}
	for _, one := range []struct {
		rule, hint string
		unled      bool
		want       bool
	}{
		{"clash", "move leg 1 of tee-a.run-out>bypass.in at least 116 mm back", false, false},
		{"clash", `move the leg that brings ball-valve "bypass" there at least 15 mm down`, false, false},
		{"clash", "keep it at least 15 mm farther inside", true, false},
		{"clash", `measure: the size of filter "filter"`, false, true},
		{"routing", "make leg 1 of return-line at least 30 mm longer", false, true},
		{"retrofit", "move the unit, or cut elsewhere", true, true},
		{"retrofit", "", true, false},
	} {
		tried := &trial{proposal: &retrofit.Proposal{Circuit: c, Unled: one.unled}}
		if got := tried.followable(graph.Diagnostic{Rule: one.rule, Hint: quantity.Text(one.hint)}); got != one.want {
			t.Errorf("%s %q: %v", one.rule, one.hint, got)
		}
	}
}
