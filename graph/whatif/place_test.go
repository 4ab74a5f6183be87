package whatif

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dryfit/graph/plan"
)

// anywhere is the two-speed demo with the cut left to the tool.
func anywhere(t testing.TB) *Study {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("../../testdata", "two-speed.toml"))
	if err != nil {
		t.Fatal(err)
	}
	var lines []string
	for l := range strings.Lines(string(data)) {
		if !strings.HasPrefix(l, "cut = ") {
			lines = append(lines, l)
		}
	}
	return studyOf(t, strings.Join(lines, ""))
}

// A control that rules out every place leaves the work where it is: the numbers are those of the
// file with what is turned and that place in it, and why no place would be taken is said. Nothing
// of that is written.
func TestLastPlaceIsKept(t *testing.T) {
	s := anywhere(t)
	if s.Plan.Proposal == nil || s.Plan.Asked.Retrofit.Cut != nil {
		t.Fatal("the tool chooses no place in the job as it stands")
	}
	at := CutValue(s.Plan.Proposal.Place.Run, s.Plan.Proposal.Place.Leg, s.Plan.Proposal.Place.FromMM)
	for _, v := range []Values{{"bypass": "none"}, {"bypass": "none", "valve-v1": "50"}, {"branch-size": "1 in"}} {
		text, _, err := s.Text(v)
		if err != nil {
			t.Fatal(err)
		}
		j := Job{File: "job.toml", Text: text}
		if p, found := j.Plan(plan.Flows); p == nil || p.Proposal != nil {
			t.Fatalf("%v: the edited file has a place: %v", v, found)
		}
		a, err := s.Ask(v, plan.Flows)
		if err != nil || a.Plan == nil {
			t.Fatal(v, err)
		}
		if a.NoPlace == nil || !strings.Contains(a.WhyNoPlace().String(), "no place") {
			t.Errorf("%v: it is not said why there is no place: %v", v, a.NoPlace)
		}
		fixed := Values{CutID: at}
		for id, value := range v {
			fixed[id] = value
		}
		want := ask(t, s, fixed)
		got := plan.Summarise(a.Plan)
		if len(got) != len(want) || len(got) == 0 || !got[0].HasUnit {
			t.Fatalf("%v: %d modes, want %d", v, len(got), len(want))
		}
		for i := range got {
			if got[i].Unit != want[i].Unit || got[i].Jets != want[i].Jets {
				t.Errorf("%v: mode %s: the unit gets %v, want %v", v, got[i].Mode, got[i].Unit, want[i].Unit)
			}
		}
	}
	if a, err := s.Ask(Values{"water": "30"}, plan.Flows); err != nil || a.NoPlace != nil {
		t.Error("a place that is there is said to be none", err)
	}
}

// What is turned of the work that was built in is turned of the work as something else in the file
// makes it; of a bypass that is no more nothing is.
func TestBuiltInFollowsTheFile(t *testing.T) {
	s := demo(t, "two-speed")
	crack := "crack-bypass"
	if s.Control(crack) == nil {
		t.Fatal("no spring was built in")
	}
	none, both := ask(t, s, Values{"bypass": "none"}), ask(t, s, Values{"bypass": "none", crack: "20"})
	for i := range none {
		if none[i].Unit != both[i].Unit {
			t.Errorf("mode %s: with no spring its cracking pressure moves the unit from %v to %v", none[i].Mode, none[i].Unit, both[i].Unit)
		}
	}
	if a, err := s.Ask(Values{"bypass": "valve", crack: "20"}, plan.Flows); err != nil || a.Plan == nil {
		t.Errorf("with a valve in the bypass: %v", err)
	}
	if a, err := s.Ask(Values{"branch-size": "2-1/2 in", "branch-length": "6"}, plan.Flows); err != nil || a.Plan == nil {
		t.Errorf("larger and longer: %v", err)
	}
}
