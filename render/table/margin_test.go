package table

import (
	"strings"
	"testing"

	"dryfit/graph/hydraulic/spread"
	"dryfit/render/table/form"
)

// MEASURE FIRST where a judged promise is held in fewer than 80 of 100, with the reading.
func TestMeasureFirst(t *testing.T) {
	r := &spread.Ranges{MeasureFirst: []spread.Influence{{What: "the drop of unit", Reading: "its sheet"}},
		Promises: []spread.Promise{{Kind: spread.RatedFlow, Share: 0.1}, {Kind: spread.LeastFlow, Share: 0.80, Text: "least"}}}
	if got := MeasureFirst(r, nil, form.Style{}); got != "" {
		t.Errorf("80 of 100: %q", got)
	}
	r.Promises[1].Share = 0.79
	if got := MeasureFirst(r, nil, form.Style{}); !strings.HasPrefix(got, "MEASURE FIRST: its sheet.") {
		t.Errorf("79 of 100: %q", got)
	}
	if got := AcceptedLines(r, nil, form.Style{}); got != nil {
		t.Errorf("accepted by nobody: %q", got)
	}
	r.Promises[1].Accepted = "the owner has the pump measured"
	if got := MeasureFirst(r, nil, form.Style{}); got != "" {
		t.Errorf("accepted: %q", got)
	}
	if got := AcceptedLines(r, nil, form.Style{}); len(got) != 1 || !strings.Contains(got[0], "the owner has the pump measured") {
		t.Errorf("accepted: %q", got)
	}
}

// Where nobody says what the unit needs nothing is promised of its flow; what moves that by a tenth
// or more is told to be measured first all the same, and what moves it less is not.
func TestMeasureFirstWithoutPromise(t *testing.T) {
	r := &spread.Ranges{MeasureFirst: []spread.Influence{{What: "the drop of jets", Reading: "a gauge", Jets: 0.4, Unit: 0.02}, {What: "the head of pump", Part: "pump", Reading: "a bucket and a watch", Unit: 0.32}},
		Promises: []spread.Promise{{Kind: spread.UnitPressure, Share: 1}}}
	got := MeasureFirst(r, nil, form.Style{})
	if !strings.HasPrefix(got, "MEASURE FIRST: a bucket and a watch.") || !strings.Contains(got, "32 % either way") || !strings.Contains(got, `the head of "pump"`) {
		t.Errorf("%q", got)
	}
	r.MeasureFirst[0].Unit = 0.2 // and moves the jets more: by 0.4
	if again := MeasureFirst(r, nil, form.Style{}); again != got {
		t.Errorf("%q, not what moves the unit's flow most", again)
	}
	r.MeasureFirst[0].Unit = 0.02
	r.MeasureFirst[1].Unit = 0.09
	if got := MeasureFirst(r, nil, form.Style{}); got != "" {
		t.Errorf("a tenth is not reached: %q", got)
	}
	r.MeasureFirst[1].Unit = 0.32
	r.Promises = append(r.Promises, spread.Promise{Kind: spread.LeastFlow, Share: 0.97})
	if got := MeasureFirst(r, nil, form.Style{}); got != "" {
		t.Errorf("promised in 97 of 100: %q", got)
	}
}
