package whatif

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"dryfit/graph/lots"
	"dryfit/graph/plan"
	"dryfit/graph/retrofit"
)

// The cut that is moved is the cut of the edited file: the verdict is the one that file gets of
// its own, the room the leg's, and along it nothing is lost: what lies before the work, what it
// needs term by term, and what lies behind it.
func TestCutIsMoved(t *testing.T) {
	for _, name := range []string{"two-speed", "large-circulation", "plunge-pool"} {
		if !lots.Named(name, "plunge-pool") {
			continue
		}
		s := demo(t, name)
		c := s.Control(CutID)
		if c == nil {
			t.Fatalf("%s: the cut can't be moved", name)
		}
		short := 0
		for _, leg := range c.Legs {
			if leg.TooShort() {
				if short++; short > 2 { // nothing that can be built: two are enough
					continue
				}
			}
			from, to := leg.Lies()
			low, high := leg.FromMM-from+leg.DatumMM, leg.LegMM()-leg.FarMM-(to-leg.FromMM)
			for _, at := range []float64{low + 1, low - 20, high - 1, high + 20} {
				if at < 0 || at > leg.LegMM() || leg.TooShort() && at != low+1 {
					continue
				}
				a, err := s.Ask(Values{CutID: CutValue(leg.Run, leg.Leg, at)}, plan.Flows)
				if err != nil {
					t.Fatal(name, err)
				}
				other := Job{File: "other.toml", Text: a.Job.Text}
				p, _ := other.Plan(plan.Places | plan.Swift)
				if a.Plan == nil || p == nil || len(p.Places) != 1 {
					t.Fatalf("%s: %s at %.1f: no answer, or not of one place", name, leg.Where(), at)
				}
				got, ok := a.Cut()
				want := p.Places[0]
				if !ok || got.Verdict != want.Verdict || got.Summary != want.Summary {
					t.Errorf("%s: %s at %.1f: %s, %s; of the file %s, %s", name, leg.Where(), at, got.Verdict, got.Summary, want.Verdict, want.Summary)
				}
				if d := cmp.Diff(want.Place, got.Place, cmpopts.IgnoreUnexported(retrofit.Place{})); d != "" {
					t.Errorf("%s: %s at %.1f: %s", name, leg.Where(), at, d)
				}
				sum := 0.0
				for _, term := range got.Place.Terms {
					sum += term.MM
				}
				f, b := got.Place.Lies()
				if far := (f - got.Place.DatumMM) + sum + (got.Place.LegMM() - got.Place.FarMM - b); !near(sum, got.Place.NeededMM) || !near(far, got.Place.RoomMM) {
					t.Errorf("%s: %s at %.1f: the terms are %.2f of %.2f, all of it %.2f of a room of %.2f", name, leg.Where(), at, sum, got.Place.NeededMM, far, got.Place.RoomMM)
				}
				if inside := at > low && at < high; !inside && got.Verdict != "ruled out" {
					t.Errorf("%s: %s at %.1f reaches over a socket and is %q", name, leg.Where(), at, got.Verdict)
				}
			}
		}
	}
}

func near(a, b float64) bool { return a-b < 1e-6 && b-a < 1e-6 }

// The file gets the cut as cutin prints it, in the form it has, with its remarks; what is no
// place of the job is refused.
func TestCutIsWritten(t *testing.T) {
	text := string(demo(t, "two-speed").Job.Text)
	line := `cut = "return-line"          # leave it out and the tool ranks every place`
	if !strings.Contains(text, line) {
		t.Fatal("the demo is another by now")
	}
	for was, want := range map[string]string{
		line: `cut = { run = "return-line", leg = 3, at = "500 mm" }          # leave it out and the tool ranks every place`,
		`cut = { run = "return-line", leg = 2 } # here`:                 `cut = { run = "return-line", leg = 3, at = "500 mm" } # here`,
		`cut = { leg = 3, at = "12 in", run = "return-line" }  # there`: `cut = { leg = 3, at = "500 mm", run = "return-line" }  # there`,
	} {
		s := studyOf(t, strings.Replace(text, line, was, 1))
		got, only, err := s.Text(Values{CutID: CutValue("return-line", 3, 500)})
		if err != nil || len(only) > 0 {
			t.Fatal(err, only)
		}
		if string(got) != strings.Replace(text, line, want, 1) {
			t.Errorf("of %s it makes\n%s", was, got)
		}
	}
	s := studyOf(t, strings.Replace(text, line+"\n", "", 1))
	got, _, err := s.Text(Values{CutID: CutValue("return-line", 3, 500)})
	if err != nil || !strings.Contains(string(got), "\ncut = { run = \"return-line\", leg = 3, at = \"500 mm\" }\n") {
		t.Errorf("where no cut is asked for: %v\n%s", err, got)
	}
	for _, bad := range []string{"", "3", "3 500", "3 x return-line", "9 500 return-line", "3 -1 return-line", "3 99999 return-line", "3 NaN return-line", "3 500 nothing", "3 500 suction"} {
		if _, _, err := s.Text(Values{CutID: bad}); err == nil {
			t.Errorf("%q is taken for a cut", bad)
		}
	}
}
