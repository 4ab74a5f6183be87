package heating

import (
	"fmt"
	"strings"
	"testing"

	"dryfit/graph/match"
	"dryfit/render/table/form"
)

// Units are held against the case as described: where something was read at the tub that is said.
func TestMatchSaysThatNoReadingCounts(t *testing.T) {
	for _, read := range []int{0, 2} {
		lines := fmt.Sprint(matchBlock(&match.Tub{Read: read}, form.Style{}).Lines)
		if told := strings.Contains(lines, "what was read at the tub is not counted here"); told != (read > 0) {
			t.Errorf("%d readings: %s", read, lines)
		}
	}
}
