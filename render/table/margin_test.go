package table

import (
	"strings"
	"testing"

	"dryfit/graph/hydraulic"
	"dryfit/graph/hydraulic/spread"
	"dryfit/render/table/form"
)

// Steps of a tenth of the cracking pressure, worked by hand: of 13.8 kPa 1 kPa, of 2 psi the
// same; of 3.4 kPa 0.2 kPa.
func TestMarginDigits(t *testing.T) {
	for _, c := range []struct {
		drop, margin float64
		state, want  string
	}{
		{13930, 130, "lifting", "at most 1.0 kPa"},
		{19300, 5500, "lifting", "6.0 kPa"}, // 5.5 of steps of 1
		{12300, 1500, "shut", "2.0 kPa"},
		{3000, 440, "shut", "0.40 kPa"},
		{0, 0, "shut", "next to nothing"},
	} {
		f := hydraulic.PartFlow{Drop: c.drop, MarginPa: c.margin, State: c.state}
		if got := marginWords(form.Style{}, f); got != c.want {
			t.Errorf("%+v: %q", c, got)
		}
	}
}

// MEASURE FIRST where a judged promise is held in fewer than 80 of 100, with the reading.
func TestMeasureFirst(t *testing.T) {
	r := &spread.Ranges{MeasureFirst: []spread.Influence{{What: "the drop of unit", Reading: "its sheet"}},
		Promises: []spread.Promise{{Kind: spread.RatedFlow, Share: 0.1}, {Kind: spread.LeastFlow, Share: 0.80, Text: "least"}}}
	if got := MeasureFirst(r, form.Style{}); got != "" {
		t.Errorf("80 of 100: %q", got)
	}
	r.Promises[1].Share = 0.79
	if got := MeasureFirst(r, form.Style{}); !strings.HasPrefix(got, "MEASURE FIRST: its sheet.") {
		t.Errorf("79 of 100: %q", got)
	}
	if got := AcceptedLines(r, form.Style{}); got != nil {
		t.Errorf("accepted by nobody: %q", got)
	}
	r.Promises[1].Accepted = "the owner has the pump measured"
	if got := MeasureFirst(r, form.Style{}); got != "" {
		t.Errorf("accepted: %q", got)
	}
	if got := AcceptedLines(r, form.Style{}); len(got) != 1 || !strings.Contains(got[0], "the owner has the pump measured") {
		t.Errorf("accepted: %q", got)
	}
}
