package plan_test

import (
	"regexp"
	"strings"
	"testing"

	"dryfit/graph/plan"
)

// Where the nearest place has only to be measured the hint is the order to measure it, as a
// sentence that can be followed. Follows from the description.
func TestNoPlaceButOneToMeasure(t *testing.T) {
	was := text(t, "testdata/jobs/one-speed.toml")
	now := regexp.MustCompile(`(?m)^legs = .*$`).ReplaceAllString(was, `length = "1450 mm"`)
	now = strings.Replace(now, "cut = \"return-line\"\n", "", 1)
	now = regexp.MustCompile(`(?m)^(at|at-from|ports-face|keep-clear) = .*\n`).ReplaceAllString(now, "")
	p := work(t, read(t, "one-speed.toml", []byte(now)), plan.Findings|plan.Places)
	for _, d := range p.Findings {
		if d.Rule == "retrofit" && strings.HasPrefix(d.Hint.String(), "measure its legs and write them") {
			return
		}
	}
	t.Errorf("no hint says to measure: %v", p.Findings)
}

// Where the nearest place is written by a length that can't hold the work however it is off, what is left
// to do is said, as it is of a leg that is too short. Follows from the description.
func TestNoPlaceAndTheNearestTooShort(t *testing.T) {
	was := text(t, "testdata/jobs/one-speed.toml")
	now := regexp.MustCompile(`(?m)^legs = .*$`).ReplaceAllString(was, `length = "250 mm"`)
	now = strings.Replace(now, "cut = \"return-line\"\n", "", 1)
	now = regexp.MustCompile(`(?m)^(at|at-from|ports-face|keep-clear) = .*\n`).ReplaceAllString(now, "")
	p := work(t, read(t, "one-speed.toml", []byte(now)), plan.Findings|plan.Places)
	for _, d := range p.Findings {
		if d.Rule == "retrofit" && strings.Contains(d.Message.String(), "hardly longer than") {
			if !strings.HasPrefix(d.Hint.String(), "it lacks ") || !strings.Contains(d.Hint.String(), "further apart") {
				t.Errorf("nothing is said to be done: %q", d.Hint)
			}
			return
		}
	}
	t.Errorf("the nearest is none that is too short by its length: %v", p.Findings)
}
