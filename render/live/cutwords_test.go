package live

import (
	"os"
	"regexp"
	"testing"

	"dryfit/graph/plan"
	"dryfit/graph/whatif"
)

// The section of the cut speaks as the trade does: of a 90° elbow, as on the papers, not of the kind
// of a row. The two demos are cut beside an elbow.
func TestCutIsInWordsOfTheTrade(t *testing.T) {
	markup := regexp.MustCompile(`<[^>]*>`)
	elbows := 0
	for _, demo := range []string{"two-speed", "large-circulation"} {
		data, err := os.ReadFile("../../testdata/" + demo + ".toml")
		if err != nil {
			t.Fatal(err)
		}
		j := whatif.Job{File: demo + ".toml", Text: data}
		p, _ := j.Plan(plan.Flows | plan.Places)
		page := CutHTML(whatif.Of(j, p))
		said := markup.ReplaceAllString(page, "|")
		for _, s := range []string{page, said} { // what is read out of a picture too
			if kind := regexp.MustCompile(`\b(elbow-\d+|(tee|bush|check|ball)-\w+|reducing-\w+) (at|in|of|between)\b`).FindString(s); kind != "" {
				t.Errorf("%s: %q in\n%s", demo, kind, said)
			}
		}
		elbows += len(regexp.MustCompile(`90° elbow at bend`).FindAllString(said, -1))
	}
	if elbows == 0 {
		t.Error("no cut is measured from an elbow")
	}
}
