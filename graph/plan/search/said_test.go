package search

import (
	"os"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/description/ladder"
	"dryfit/graph/plan/stage"
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
		if got := setBy(flows, "the unit").String(); !strings.HasSuffix(got, c.want) {
			t.Errorf("%g and %g: %s", c.heat, c.jets, got)
		}
	}
}

// What is said to help where nothing that was tried does changes nothing that the tool put in
// itself: nobody can change it where it is written. It goes by what the finding says its hint
// changes, not by its words: a run or part whose name is a word of the hint is none of its
// matter. Follows from the description, which has no such pipe or part.
func TestNextChangesNothingTheToolPutIn(t *testing.T) {
	c := &graph.Circuit{Parts: []*graph.Part{{ID: "bypass", Kind: graph.BallValve}, {ID: "filter", Kind: graph.Filter, Existing: true}},
		Runs: []*graph.Run{{ID: "tee-a.run-out>bypass.in"}, {ID: "leg"}, {ID: "return-line", Existing: true}}}
	for _, one := range []struct {
		rule, hint, alters string
		unled              bool
		want               bool
	}{
		{"clash", "move leg 1 of tee-a.run-out>bypass.in at least 116 mm back", "tee-a.run-out>bypass.in", false, false},
		{"clash", `move the leg that brings ball-valve "bypass" there at least 15 mm down`, "bypass", false, false},
		{"clash", "keep it at least 15 mm farther inside", "", true, false},
		{"clash", `measure: the size of filter "filter"`, "", false, true},
		{"clash", `move the leg that brings filter "filter" there at least 15 mm down`, "filter", false, true},
		{"routing", "make leg 1 of return-line at least 30 mm longer", "return-line", false, true},
		{"retrofit", "move the unit, or cut elsewhere", "", true, true},
		{"retrofit", "", "", true, false},
	} {
		tried := &trial{proposal: &retrofit.Proposal{Circuit: c, Unled: one.unled}}
		d := graph.Diagnostic{Rule: one.rule, Hint: quantity.Text(one.hint)}
		if one.alters != "" {
			d.Alters = []string{one.alters}
		}
		if got := tried.followable(d); got != one.want {
			t.Errorf("%s %q: %v", one.rule, one.hint, got)
		}
	}
}

// Every error of a place whose hint has the id of a run the tool drew says that its hint changes it.
// Looked at in two jobs with a token changed, whose pipes run into something at most places; held
// against the words, which nobody else reads.
func TestHintsSayWhatTheyChange(t *testing.T) {
	said := 0
	for demo, changed := range map[string]uint64{"side-by-side": 24, "second-unit": 33} {
		data, err := os.ReadFile("../testdata/jobs/" + demo + ".toml")
		if err != nil {
			t.Fatal(err)
		}
		c, ds := description.Read(demo, ladder.Mutate(data, changed, 1))
		if c == nil {
			t.Fatal(ds)
		}
		c.Retrofit.Cut = nil
		before := &stage.Stage{Circuit: c.At(graph.Before)}
		before.Lay()
		s := newSearch(c, before)
		s.places()
		s.rank()
		for _, tried := range s.trials {
			if tried.proposal == nil {
				continue
			}
			for _, d := range tried.errors() {
				for _, r := range tried.proposal.Circuit.Runs {
					if !r.New() || r.Named || !strings.Contains(string(d.Hint), r.ID) {
						continue
					}
					said++
					if !slices.Contains(d.Alters, r.ID) {
						t.Errorf("%s, %s: [%s] %s: changes %q", demo, tried.place.Where(), d.Rule, d.Hint, d.Alters)
					}
				}
			}
		}
	}
	if said == 0 {
		t.Error("no hint names a run the tool drew")
	}
}
