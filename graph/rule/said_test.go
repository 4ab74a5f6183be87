package rule_test

import (
	"path/filepath"
	"strings"
	"testing"

	"dryfit/graph/plan"
	"dryfit/graph/rule"
	"dryfit/graph/said"
)

// otherCases are descriptions of whole jobs in which more is said: of work that the tool plans.
var otherCases = []string{"../plan/testdata/jobs/shared-filter.toml", "../plan/testdata/jobs/pumps-side-by-side.toml", "../plan/testdata/tubs/small-branch.toml", "../plan/testdata/tubs/threads.toml"}

// saidElsewhere are texts that no case of a rule brings about well, and the test that does.
var saidElsewhere = map[string]string{
	"it gets with such a filter": "TestWhatAnotherFilterDoesToAnOldUnit",
	"it warms by":                "TestWhatWasBadAndGetsWorse",
	"and %d more like these":     "TestFollowsFromTheMistakeItHangsOn",
}

// TestEverythingIsSaid looks for every text of the rules' source among what they say of their failing
// cases: nobody has seen how what is missing there reads.
func TestEverythingIsSaid(t *testing.T) {
	var all strings.Builder
	for _, r := range rule.All() {
		for _, file := range cases(t, r, "fail") {
			for _, d := range findings(t, file) {
				all.WriteString(d.Message.String() + "\n" + d.Hint.String() + "\n")
				for _, other := range d.Related {
					all.WriteString(other.Message.String() + "\n")
				}
			}
		}
	}
	for _, file := range otherCases {
		for _, d := range findings(t, file) {
			all.WriteString(d.Message.String() + "\n" + d.Hint.String() + "\n")
		}
	}
	for _, name := range []string{"cut-room", "cut-reachable", "cut-clear-room"} { // as long as nothing was tried
		files, err := filepath.Glob(filepath.Join("testdata", name, "fail*.patch"))
		if err != nil || len(files) == 0 {
			t.Fatalf("%s: %d cases (%v)", name, len(files), err)
		}
		for _, file := range files {
			for _, d := range found(t, name, read(t, file), plan.Swift) {
				all.WriteString(d.Hint.String() + "\n")
			}
		}
	}
	texts := said.In(t, ".", "word.go", "doc.go", "table.go", "Name", "Asks", "Why", "Source") // but for what the list of rules says of them
	for _, wrong := range said.Hold(texts, all.String(), saidElsewhere) {
		t.Error(wrong)
	}
}
