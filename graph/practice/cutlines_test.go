package practice

import (
	"strings"
	"testing"

	"dryfit/catalog/quantity"
)

// A second unit teed into two pipes has four cut lines, a cut at one joint has one: the step that
// marks them speaks of every line, on pipe and on hose, and never of two.
func TestEveryCutLineIsMarked(t *testing.T) {
	for _, j := range []*Job{
		{Cuts: true, MarkedOut: true, Bands: true},
		{Cuts: true, MarkedOut: true},
		{CutsHose: true, MarkedOut: true},
	} {
		text := strings.Join(Texts(Pick(j, Ready()), quantity.MetricSystem), " ")
		if !strings.Contains(text, "Mark every cut line") || strings.Contains(text, "both cut lines") {
			t.Errorf("%+v: %s", *j, text)
		}
	}
}
