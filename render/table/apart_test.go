package table

import (
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/catalog/tables"
	"dryfit/graph/hydraulic/spread"
	"dryfit/graph/settle"
)

// How far a number may be off, and as what it is taken, is told in what the number is of, whatever its words: a
// diverter's turn in points of its way, and how it opens as a power, not as a K.
func TestWhatANumberIsToldIn(t *testing.T) {
	off := 0.25
	for _, c := range []struct {
		number      settle.Number
		adds        bool
		span, taken string
	}{
		{settle.KvNumber, false, "-5 to +25 %", "0.25 times"},
		{settle.ExponentNumber, true, "power -0.05 to +0.25", "+0.25 of its power"},
		{settle.OpeningNumber, true, "power -0.05 to +0.25", "+0.25 of its power"},
		{settle.PositionNumber, true, "-5 to +25 points", "+25 points off"},
		{settle.StraightNumber, true, "K -0.05 to +0.25", "with K +0.25 more"},
		{"", false, "-5 to +25 %", "0.25 times"},
	} {
		f := &spread.Influence{What: "where the water goes", Number: c.number, Adds: c.adds, Span: tables.Span{Low: -0.05, High: off}, Taken: &off}
		if got := spanText(f, quantity.MetricSystem); got != c.span {
			t.Errorf("%q may be off by %q, want %q", c.number, got, c.span)
		}
		if got := takenText(f); got != c.taken {
			t.Errorf("%q is taken %q, want %q", c.number, got, c.taken)
		}
	}
	depth := spread.Level()
	if got, want := spanText(&depth, quantity.MetricSystem), "0 m to 3.00 m"; got != want {
		t.Errorf("what lies below the water lies %q, want %q", got, want)
	}
}
