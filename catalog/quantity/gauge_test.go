package quantity

import (
	"strings"
	"testing"
)

// Wire told by its gauge is read as its cross-section, and told by its gauge again; of anything else but a
// cross-section it is not. The areas are those of the tables of conductors (NEC chapter 9, table 8, from
// memory: 2.08, 3.31, 5.26, 8.37, 13.3, 21.1, 53.5 and 107 mm²).
func TestGaugeIsReadAsItsSection(t *testing.T) {
	for text, want := range map[string]struct {
		mm2   float64
		gauge string
	}{
		"14 AWG": {2.08, "14 AWG"}, "12 awg": {3.31, "12 AWG"}, "#10": {5.26, "10 AWG"}, "AWG 8": {8.37, "8 AWG"}, "6 AWG": {13.3, "6 AWG"}, "4 gauge": {21.2, "4 AWG"},
		"1/0 AWG": {53.5, "1/0 AWG"}, "4/0": {107, "4/0 AWG"},
	} {
		q, err := Parse(text, Section)
		if err != nil || q.Value != want.mm2 || Gauge(q.Value) != want.gauge {
			t.Errorf("%s: %v, %v, want %+v", text, q, err, want)
			continue
		}
		if got := Exact(q.Value, Section); got != want.gauge {
			t.Errorf("%s is written as %s, want as it was told, %s", text, got, want.gauge)
		}
	}
	for _, mm2 := range []float64{1.5, 2.5, 4, 6, 10, 16} { // of IEC 60228
		if got := Gauge(mm2); got != "" {
			t.Errorf("%g mm² is told as %s", mm2, got)
		}
	}
	for _, text := range []string{"6", "6 mm", "50 AWG", "5/0 AWG", "six AWG"} {
		if _, err := Parse(text, Section); err == nil || strings.Contains(err.Error(), "mm2\"? units") {
			t.Errorf("%s: %v", text, err)
		}
	}
	for _, text := range []string{"50 AWG", "5/0 AWG"} {
		if _, err := Parse(text, Section); err == nil || !strings.Contains(err.Error(), "is no gauge of wire") {
			t.Errorf("%s: %v", text, err)
		}
	}
	if _, err := Parse("6 AWG", Length); err == nil || strings.Contains(err.Error(), "mm2") {
		t.Errorf("of a length: %v", err)
	}
}
