package heating

import (
	"fmt"
	"strings"
	"testing"

	"dryfit/graph/match"
	"dryfit/render/table/form"
)

// Where what was read contradicts the case as described, units are held against what it has, and that is said.
func TestMatchSaysThatReadingsCount(t *testing.T) {
	for _, read := range []bool{false, true} {
		lines := fmt.Sprint(matchBlock(&match.Tub{Read: read}, form.Style{}).Lines)
		if told := strings.Contains(lines, "what was read at the tub contradicts it"); told != read {
			t.Errorf("read %v: %s", read, lines)
		}
	}
}
