package table

import (
	"fmt"
	"strings"
	"testing"

	"dryfit/graph/hydraulic/spread"
	"dryfit/render/table/form"
)

// Of a circuit too large for the whole sample it is said how much of it was solved; of others
// nothing is.
func TestHowManySamplesIsSaid(t *testing.T) {
	for samples, want := range map[int]string{1021: "How sure (1021 samples", 500: "How sure (500 of 1021 samples"} {
		r := &spread.Ranges{Samples: samples, Promises: []spread.Promise{{Mode: "low", Kind: spread.LeastFlow, Kept: samples, Of: samples, Share: 1}}}
		b := SureBlocks(r, nil, form.Style{})
		if len(b) != 1 || !strings.HasPrefix(b[0].Title, want) {
			t.Fatalf("%d samples: %v, want %s", samples, b, want)
		}
		if told := strings.Contains(fmt.Sprint(b[0].Lines), "too large for all of them"); told != (samples < 1021) {
			t.Errorf("%d samples: %q", samples, b[0].Lines)
		}
	}
}

// Nobody is told to measure what would change nothing: where every judged promise is kept often enough,
// or is accepted, and nothing moves a flow by more than a tenth, the list says so. What one moves more,
// or a promise kept in fewer ways, asks for a reading.
func TestNothingIsMeasuredForNothing(t *testing.T) {
	for _, c := range []struct {
		share, effect float64
		accepted      string
		asks          bool
	}{{1, 0.02, "", false}, {0.95, 0.1, "", false}, {0.94, 0.02, "", true}, {0.94, 0.02, "the owner knows", false}, {1, 0.11, "", true}} {
		r := &spread.Ranges{Samples: 1021, Promises: []spread.Promise{{Mode: "low", Kind: spread.LeastFlow, Share: c.share, Accepted: c.accepted}},
			MeasureFirst: []spread.Influence{{What: "the drop of unit", Part: "unit", Effect: c.effect, Moves: spread.UnitsFlow, Mode: "low", Reading: "the display"}}}
		lines := fmt.Sprint(SureBlocks(r, nil, form.Style{})[0].Lines)
		if strings.Contains(lines, "measure this first") != c.asks || strings.Contains(lines, "nothing has to be measured first") == c.asks || strings.Contains(lines, "by the display") != c.asks {
			t.Errorf("%+v: %s", c, lines)
		}
	}
}
