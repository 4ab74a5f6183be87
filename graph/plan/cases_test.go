package plan_test

import (
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/agree"
	"dryfit/graph/plan"
	"dryfit/graph/plan/search"
)

// Cut-ins worked by hand: the arithmetic and the sources of its numbers stand at the head of
// each description, what has to come out on its lines "#= what … = number".
func TestCasesByHand(t *testing.T) {
	files, _ := filepath.Glob("testdata/cases/*.toml")
	if len(files) < 11 {
		t.Fatalf("%d cases, want the worked example and ten more", len(files))
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".toml"), func(t *testing.T) {
			data, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			p := work(t, read(t, file, data), plan.Places|plan.Findings|plan.Lists)
			checkCase(t, p, expected(t, string(data)))
		})
	}
}

// expectation is one line of a case.
type expectation struct {
	what   string // "needed", "piece bypass-in", …
	number float64
	words  string // what follows the name, whole
}

// expected reads the lines of a case that say what comes out.
func expected(t *testing.T, text string) []expectation {
	t.Helper()
	var out []expectation
	for line := range strings.Lines(text) {
		rest, ok := strings.CutPrefix(line, "#= ")
		if !ok {
			continue
		}
		words := strings.Fields(rest)
		e := expectation{what: words[0]}
		words = words[1:]
		if e.what == "piece" {
			e.what, words = "piece "+words[0], words[1:]
		}
		e.words = strings.Join(words, " ")
		e.number, _ = strconv.ParseFloat(words[len(words)-1], 64)
		out = append(out, e)
	}
	if len(out) == 0 {
		t.Fatal("nothing is said of what has to come out")
	}
	return out
}

func checkCase(t *testing.T, p *plan.Plan, want []expectation) {
	t.Helper()
	leg := 1
	for _, e := range want {
		if e.what == "leg" {
			leg = int(e.number)
		}
	}
	var v search.Verdict
	for _, place := range p.Places {
		if place.Place.Run == "line" && place.Place.Leg == leg {
			v = place
		}
	}
	numbers := map[string]float64{"leg": float64(v.Place.Leg), "needed": v.Place.NeededMM, "room": v.Place.RoomMM,
		"from": v.Place.FromMM, "gap": v.Place.ToMM - v.Place.FromMM}
	if p.Proposal != nil {
		m := p.Proposal.Marking
		numbers["first"], numbers["second"], numbers["slug"] = m.FirstMM, m.SecondMM, m.SlugMM
		for _, piece := range p.Cuts.Pieces {
			numbers["piece "+piece.Run.ID] = piece.CutMM
		}
	}
	mend := quantity.Join(v.Mend, "\n").String()
	for _, e := range want {
		if e.what == "missing" || e.what == "mend" {
			if v.Verdict != "ruled out" || !strings.Contains(mend, e.words) {
				t.Errorf("%s with mends %q, want it ruled out and %q among them", v.Verdict, mend, e.words)
			}
			continue
		}
		got, ok := numbers[e.what]
		if !ok || !agree.Within(got, e.number, 0.006) {
			t.Errorf("%s is %.4f mm, by hand %s", e.what, got, e.words)
		}
	}
}
