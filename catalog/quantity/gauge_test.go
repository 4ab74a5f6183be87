package quantity

import (
	"errors"
	"strings"
	"testing"
)

// Wire told by its gauge is answered by its cross-section, which is then read; of anything else but a
// cross-section it is not. The areas are those of the tables of conductors (NEC chapter 9, table 8, from
// memory: 2.08, 3.31, 5.26, 8.37, 13.3, 21.1, 53.5 and 107 mm²).
func TestGaugeIsAnsweredByItsSection(t *testing.T) {
	for text, want := range map[string]string{
		"14 AWG": "2.08 mm2", "12 awg": "3.31 mm2", "#10": "5.26 mm2", "AWG 8": "8.37 mm2", "6 AWG": "13.3 mm2", "4 gauge": "21.2 mm2",
		"1/0 AWG": "53.5 mm2", "4/0": "107 mm2",
	} {
		_, err := Parse(text, Section)
		var e *Error
		if !errors.As(err, &e) || !strings.HasPrefix(e.Hint, `did you mean "`+want+`"? units that fit: mm2`) {
			t.Errorf("%s: %v, want %s", text, err, want)
		}
		if _, err := Parse(want, Section); err != nil {
			t.Errorf("%s is suggested and not read: %v", want, err)
		}
	}
	for _, text := range []string{"6", "6 mm", "50 AWG", "5/0 AWG", "six AWG"} {
		if _, err := Parse(text, Section); err == nil || strings.Contains(err.Error(), "mm2\"? units") {
			t.Errorf("%s: %v", text, err)
		}
	}
	if _, err := Parse("6 AWG", Length); err == nil || strings.Contains(err.Error(), "mm2") {
		t.Errorf("of a length: %v", err)
	}
}
