package spread

import (
	"fmt"
	"strings"
	"testing"
)

// Of a case that lies outside what nine in ten samples come to, as printed, it is said that it does.
func TestACaseOutsideItsRangeIsTold(t *testing.T) {
	say := func(v float64) string { return fmt.Sprintf("%.1f", v) }
	for _, c := range []struct {
		r    Range
		told bool
	}{
		{Range{Low: 3.2, Middle: 3.7, High: 4.2, Likely: 4.3, Of: 500}, true},
		{Range{Low: 3.2, Middle: 3.7, High: 4.2, Likely: 3.0, Of: 500}, true},
		{Range{Low: 3.2, Middle: 3.7, High: 4.2, Likely: 4.1, Of: 500}, false},
		{Range{Low: 3.2, Middle: 3.7, High: 4.2, Likely: 4.24, Of: 500}, false}, // printed alike
		{Range{Low: 3.2, Middle: 3.7, High: 4.2, Likely: 4.3, Of: 500, OpenHigh: true}, false},
		{Range{Low: 3.2, Middle: 3.7, High: 4.2, Likely: 3.0, Of: 500, OpenHigh: true}, true},
		{Range{Likely: 4.3}, false}, // none was made
	} {
		got := c.r.Aside(say)
		if told := strings.Contains(got, "lies outside"); told != c.told || told && !strings.Contains(got, "middle 3.7") {
			t.Errorf("%+v: %q, want it told: %v", c.r, got, c.told)
		}
	}
}
