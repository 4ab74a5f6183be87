package live

import (
	"strings"
	"testing"
)

// With :has() in its styles the browser looks through the whole page, drawings and all, each time
// something in it changes: that took more than half of what the page took to show an answer.
func TestStylesLookDownwardsOnly(t *testing.T) {
	for i, line := range strings.Split(ownStyle, "\n") {
		if strings.Contains(line, ":has(") {
			t.Errorf("live.css:%d: %s", i+1, line)
		}
	}
}
