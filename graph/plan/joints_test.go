package plan_test

import (
	"slices"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/graph/plan/search"
)

// The two cases of "can it be assembled": with plain sockets the last joint needs the free
// end drawn back by its socket's depth where it can be sprung aside, by both depths where it
// can only move along its axis (1-1/2 in Schedule 80, ASTM D2467: 34.93 and 69.85 mm); with a
// true-union valve none is needed. The limits follow from the socket's depth.
func TestCanItBeAssembled(t *testing.T) {
	yes, no := true, false
	for _, c := range []struct {
		name      string
		trueUnion *bool
		playMM    float64
		aside     *bool
		want      graph.Severity // of what is found; Note: nothing
	}{
		{"true-union valve, no play", &yes, 0, nil, graph.Note},
		{"plain, no play", &no, 0, nil, graph.Error},
		{"plain, a little less than a depth, sprung aside", &no, 34.5, &yes, graph.Error},
		{"plain, a depth, sprung aside", &no, 35, &yes, graph.Warning},
		{"plain, two depths but for a little", &no, 69.5, nil, graph.Warning},
		{"plain, two depths", &no, 69.9, nil, graph.Note},
	} {
		t.Run(c.name, func(t *testing.T) {
			circuit := readFile(t, "testdata/cases/worked-example.toml")
			circuit.Retrofit.TrueUnion = c.trueUnion
			circuit.Retrofit.Cut = &graph.Cut{Run: "line", Leg: 1, AtMM: -1}
			line := circuit.Run("line")
			line.PlayMM, line.PushesAside = c.playMM, c.aside
			p := work(t, circuit, plan.Findings)
			worst, hint := graph.Note, ""
			for _, d := range p.Findings {
				if d.Rule == "assembly" && d.Severity > worst {
					worst, hint = d.Severity, d.Hint.String()
				}
			}
			if worst != c.want || p.Assembly.OK != (c.want != graph.Error) {
				t.Errorf("found %s, order %v; want %s\n%v", worst, p.Assembly.OK, c.want, p.Findings)
			}
			if worst == graph.Error && !strings.Contains(hint, "true-union = true in [retrofit]") {
				t.Errorf("the cheapest mend is said to be %q", hint)
			}
		})
	}
}

// A circuit with no place at all: every leg lacks something, and what would make it possible
// is said of each.
func TestNoPlaceAtAll(t *testing.T) {
	c := readFile(t, "testdata/jobs/no-place.toml")
	p := work(t, c, plan.Places|plan.Findings)
	if p.Proposal != nil {
		t.Fatal("a place was found")
	}
	want := map[string][]string{ // what of each run, rule and mend
		"discharge": {"unit-after-filter", ""}, // it stands wrong, and nothing mends that
		"filtered":  {"cut-room", ""},          // 284 mm are too much for anything
		"heated":    {"cut-clear-room", "clear = \"100 mm\" on your leg \"right 700 mm\", line 86"},
		"panel":     {"cut-reachable", "reachable = true on your leg \"right 700 mm\", line 94"},
		"near":      {"cut-room", "measure your leg \"right 488 mm\", line 101 again: as \"right 495 mm\""},
	}
	for _, v := range p.Places {
		if v.Verdict != "ruled out" || len(v.Reasons) == 0 {
			t.Errorf("%s is %s for %v; mends %v", v.Place.Where(), v.Verdict, v.Reasons, v.Mend)
			continue
		}
		w, ok := want[v.Place.Run]
		if !ok {
			continue
		}
		delete(want, v.Place.Run)
		has := func(r search.Reason) bool { return r.Rule == w[0] }
		if !slices.ContainsFunc(v.Reasons, has) || !strings.Contains(quantity.Join(v.Mend, "\n").String(), w[1]) {
			t.Errorf("%s: %v; mends %q; want %v", v.Place.Where(), v.Reasons, v.Mend, w)
		}
	}
	if len(want) > 0 {
		t.Errorf("not looked at: %v", want)
	}
	nearest := func(d graph.Diagnostic) bool {
		return d.Severity == graph.Error && strings.Contains(d.Message.String(), "nearest is leg 1 of heated: run \"heated\" has 40 mm of free room") && strings.Contains(d.Hint.String(), "clear = \"100 mm\"")
	}
	if !slices.ContainsFunc(p.Findings, nearest) {
		t.Errorf("nobody says what comes nearest: %v", p.Findings)
	}
}
