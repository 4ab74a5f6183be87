package search

import (
	"os"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/description/ladder"
	"dryfit/graph/lots"
	"dryfit/graph/plan/stage"
)

// The pairs of pipes looked for in trying changes are bounded by their number, whatever the job:
// of this one, with a token of its file changed, every place is ruled out and most changes lead the
// pipes into something. Once the bound is reached changes are tried with the first pair alone, and
// one whose pipes run into something is not said to do. Checked against the count.
func TestPairsOfChangesAreBounded(t *testing.T) {
	data, err := os.ReadFile("../testdata/jobs/side-by-side.toml")
	if err != nil {
		t.Fatal(err)
	}
	c, ds := description.Read("side-by-side", ladder.Mutate(data, 24, 1))
	if c == nil {
		t.Fatal(ds)
	}
	before := &stage.Stage{Circuit: c.At(graph.Before)}
	before.Lay()
	s := newSearch(c, before)
	s.places()
	s.rank()
	if s.others != 0 {
		t.Errorf("%d pairs counted before a change was tried", s.others)
	}
	s.others = lots.Count(0, pairsOfAll-8) // the suite looks for the last of them alone
	for _, v := range s.verdicts() {
		if v.Verdict != "ruled out" && v.Verdict != "measure first" {
			t.Fatalf("%s is %s: no place of this job should do", v.Place.Where(), v.Verdict)
		}
	}
	if s.others != pairsOfAll {
		t.Errorf("%d other pairs were looked for, want %d and no more", s.others, pairsOfAll)
	}
	tries := s.tries
	if s.verdicts(); s.others != pairsOfAll || tries > triesOfAll {
		t.Errorf("%d other pairs, %d changes: beyond the bound", s.others, tries)
	}
}
