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
