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
// or more is told to be measured first all the same, and what moves it less is not. Of two units it is
// asked of the one of which nothing is promised.
func TestMeasureFirstWithoutPromise(t *testing.T) {
	on := func(unit string, moves float64) map[spread.UnitIn]float64 {
		return map[spread.UnitIn]float64{{Unit: unit, Mode: "on"}: moves}
	}
	r := &spread.Ranges{MeasureFirst: []spread.Influence{{What: "the drop of jets", Reading: "a gauge", Jets: 0.4, UnitIn: on("unit", 0.02)}, {What: "the head of pump", Part: "pump", Reading: "a bucket and a watch", UnitIn: on("unit", 0.32)}},
		Promises: []spread.Promise{{Kind: spread.UnitPressure, Part: "unit", Share: 1}}}
	got := MeasureFirst(r, nil, form.Style{})
	if !strings.HasPrefix(got, "MEASURE FIRST: a bucket and a watch. What the unit needs") || !strings.Contains(got, "32 % either way") || !strings.Contains(got, `the head of "pump"`) {
		t.Errorf("%q", got)
	}
	r.MeasureFirst[0].UnitIn = on("unit", 0.2) // and moves the jets more: by 0.4
	if again := MeasureFirst(r, nil, form.Style{}); again != got {
		t.Errorf("%q, not what moves the unit's flow most", again)
	}
	r.MeasureFirst[0].UnitIn = on("unit", 0.02)
	r.MeasureFirst[1].UnitIn = on("unit", 0.09)
	if got := MeasureFirst(r, nil, form.Style{}); got != "" {
		t.Errorf("a tenth is not reached: %q", got)
	}
	r.MeasureFirst[1].UnitIn = on("unit", 0.32)
	r.Promises = append(r.Promises, spread.Promise{Kind: spread.LeastFlow, Part: "unit", Share: 0.97})
	if got := MeasureFirst(r, nil, form.Style{}); got != "" {
		t.Errorf("promised in 97 of 100: %q", got)
	}
	r.Unit, r.MeasureFirst[0].UnitIn = "unit", on("unit-2", 0.25)
	if got := MeasureFirst(r, nil, form.Style{}); !strings.HasPrefix(got, `MEASURE FIRST: a gauge. What "unit-2" needs`) || !strings.Contains(got, "25 % either way") {
		t.Errorf("nothing is promised of the second unit: %q", got)
	}
}
