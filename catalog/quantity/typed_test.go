package quantity

import (
	"errors"
	"math"
	"strings"
	"testing"

	"dryfit/graph/agree"
)

// What is typed in other ways than these is told with what would be right, and never with a unit that is
// near by its letters and another by its value.
func TestTypedOtherwise(t *testing.T) {
	for _, c := range []struct {
		text          string
		want          Dimension
		message, hint string
	}{
		{"1150\u00a0l", Volume, "a space that no key types, U+00A0", `write "1150 l", with`},
		{"1\u202f150\u202fl", Volume, "unknown unit", `write "1150 l": nothing stands between thousands`},
		{"1 150 l", Volume, "unknown unit", `write "1150 l": nothing`},
		{"1'150 l", Volume, "unknown unit", `write "1150 l": nothing`},
		{"1’150 l", Volume, "unknown unit", `write "1150 l": nothing`},
		{"1_150 l", Volume, "unknown unit", `write "1150 l": nothing`},
		{"12 345 678 l", Volume, "unknown unit", `write "12345678 l": nothing`},
		{"1 1500 l", Volume, "unknown unit", "units that fit"},
		{"1150 dm3", Volume, "unknown unit", "1 dm3 is 1 l"},
		{"11.5 hl", Volume, "unknown unit", "1 hl is 100 l"},
		{"1.2 kL", Volume, "unknown unit", "1 kL is 1 m3"},
		{"900 mL", Volume, "unknown unit", "1 mL is 0.001 l"},
		{"0.3 mpa", Pressure, "unknown unit", "1 mpa is 10 bar"},
		{"2 Mw", Power, "unknown unit", "units that fit: W"},
		{"2 ML", Volume, "unknown unit", "units that fit: l"}, // a million, or a thousandth
		{"2 KW", Power, "unknown unit", `did you mean "2 kW"?`},
		{"40 cu ft", Volume, "unknown unit", `did you mean "40 ft3"?`},
		{"40 cu.ft.", Volume, "unknown unit", `did you mean "40 ft3"?`},
		{"40 cuft", Volume, "unknown unit", `did you mean "40 ft3"?`},
		{"40 cubic feet", Volume, "unknown unit", `did you mean "40 ft3"?`},
		{"4 sq.ft.", Area, "unknown unit", `did you mean "4 ft2"?`},
		{"0.3 MPa", Pressure, "unknown unit", "1 MPa is 10 bar"},
		{"3 yd", Length, "unknown unit", "1 yd is 3 ft"},
		{"3 yd", Volume, "unknown unit", "units that fit"},
		{"5ft3in", Length, "unknown unit", `did you mean "5 ft 3 in"?`},
		{"5ft 3in", Length, "", ""},
		{"1h30min", Time, "unknown unit", `did you mean "1 h 30 min"?`},
		{"3 ⅜ in", Length, "a fraction in one character", "1-1/2 in"},
		{"3⁄8 in", Length, "no key types", `"3/4"`},
	} {
		_, err := Parse(c.text, c.want)
		if c.message == "" {
			if err != nil {
				t.Errorf("%q: %v", c.text, err)
			}
			continue
		}
		var e *Error
		if !errors.As(err, &e) {
			t.Errorf("%q: no error", c.text)
			continue
		}
		if !strings.Contains(e.Message, c.message) || !strings.Contains(e.Hint, c.hint) || strings.HasPrefix(c.hint, "units that fit: ") && !strings.HasPrefix(e.Hint, c.hint) || strings.Contains(c.hint, " is ") && strings.Contains(e.Hint, "did you mean") {
			t.Errorf("%q: %q, hint %q; want %q, %q", c.text, e.Message, e.Hint, c.message, c.hint)
		}
		if e.Offset < 0 || e.Offset > len(c.text) {
			t.Errorf("%q: at %d", c.text, e.Offset)
		}
	}
}

// Units that are none here are none, and what one is comes to the same by their definitions.
func TestUnitsElsewhere(t *testing.T) {
	const inch, gravity = 0.0254, 9.80665
	base := map[string]float64{ // in m³, m, Pa, W, J, kg
		"in3": math.Pow(inch, 3), "qt": 231 * math.Pow(inch, 3) / 4, "pt": 231 * math.Pow(inch, 3) / 8,
		"mmHg": 101325.0 / 760, "PS": 75 * gravity, "ton": 12000 * 1055.05585262 / 3600, "kcal/h": 4186.8 / 3600,
		"MJ": 1e6, "kJ": 1e3, "yd": 36 * inch, "mil": inch / 1000,
	}
	for word, ours := range elsewhere {
		if _, err := Parse("1 " + word); err == nil {
			t.Errorf("%s is a unit here", word)
		}
		q, err := Parse(ours)
		if err != nil {
			t.Errorf("%s is %q: %v", word, ours, err)
			continue
		}
		unit, _ := Parse("1 " + q.Unit)
		si := map[Dimension]float64{}
		for _, one := range []struct {
			text string
			in   float64
		}{{"1 m3", 1}, {"1 m", 1}, {"1 Pa", 1}, {"1 W", 1}, {"1 kWh", 3.6e6}} {
			if a, err := Parse(one.text); err == nil {
				si[a.Dimension] = one.in / a.Value
			}
		}
		if want, known := base[word]; known {
			if got := q.Value * si[unit.Dimension]; !agree.Within(got/want, 1, 1e-4) {
				t.Errorf("1 %s is %q: %g, want %g", word, ours, got, want)
			}
		}
	}
}
