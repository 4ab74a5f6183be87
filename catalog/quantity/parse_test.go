package quantity

import (
	"errors"
	"math"
	"strings"
	"testing"
)

func TestParse(t *testing.T) {
	for _, c := range []struct {
		text string
		want []Dimension
		is   Dimension
		v    float64
	}{
		{"450 mm", []Dimension{Length}, Length, 450},
		{"45 cm", []Dimension{Length}, Length, 450},
		{"1.8m", []Dimension{Length}, Length, 1800},
		{"  2 in ", []Dimension{Length}, Length, 50.8},
		{".5 in", []Dimension{Length}, Length, 12.7},
		{"+5 mm", []Dimension{Length}, Length, 5},
		{"-5 mm", []Dimension{Length}, Length, -5},
		{"12 ft 6 in", []Dimension{Length}, Length, 3810},
		{"12ft 6in", []Dimension{Length}, Length, 3810},
		{"12 ft 6-1/2 in", []Dimension{Length}, Length, 3822.7},
		{"12 ft 6 1/2 in", []Dimension{Length}, Length, 3822.7},
		{"-1 ft 6 in", []Dimension{Length}, Length, -457.2},
		{"1 1/2 ft", []Dimension{Length}, Length, 457.2},
		{"2 h 30 min", []Dimension{Time}, Time, 9000},
		{"1 h 15 s", []Dimension{Time}, Time, 3615},
		{"2.4 m", nil, Length, 2400},
		{"2.4 m", []Dimension{Pressure, Head}, Head, 2.4},
		{"2.4 m", []Dimension{Head, Length}, Length, 2400},
		{"10 ft", []Dimension{Head}, Head, 3.048},
		{"6 kPa", []Dimension{Pressure, Head}, Pressure, 6000},
		{"38 °C", []Dimension{Temperature}, Temperature, 38},
		{"-40 °F", []Dimension{Temperature}, Temperature, -40},
		{"311.15 K", []Dimension{Temperature}, Temperature, 38},
		{"2.5 K", []Dimension{TemperatureDifference}, TemperatureDifference, 2.5},
		{"4.5 °F", []Dimension{TemperatureDifference}, TemperatureDifference, 2.5},
		{"50 %", []Dimension{Share}, Share, 0.5},
		{"31 m3/h", []Dimension{Kv}, Kv, 31},
		{"31 m³/h", []Dimension{Flow}, Flow, 31.0 / 3600},
		{"0.68 mPa s", []Dimension{Viscosity}, Viscosity, 0.00068},
		{"993 kg/m³", []Dimension{Density}, Density, 993},
		{"95 L/min", []Dimension{Flow}, Flow, 0.095 / 60},
	} {
		q, err := Parse(c.text, c.want...)
		if err != nil {
			t.Errorf("Parse(%q): %v", c.text, err)
			continue
		}
		if q.Dimension != c.is || q.Value != c.v || q.Text != c.text {
			t.Errorf("Parse(%q) = %v %v, want %v %v", c.text, q.Value, q.Dimension, c.v, c.is)
		}
	}
}

// Inch fractions are exact: the mm of each is worked out by hand as inches times 25.4 and
// written out in full, and the value is the float64 nearest to it.
func TestParseInchFractionsExact(t *testing.T) {
	for text, mm := range map[string]float64{
		"1-3/8 in": 34.925, "7/16 in": 11.1125, "1-1/4 in": 31.75, "1/8 in": 3.175, "3/32 in": 2.38125,
		"1-13/16 in": 46.0375, "15/16 in": 23.8125, "1/64 in": 0.396875, "1/3 in": 25.4 / 3,
		"2.375 in": 60.325, "0.145 in": 3.683, "0.1 in": 2.54, "1.1 in": 27.94,
	} {
		q, err := Parse(text, Length)
		if err != nil || q.Value != mm {
			t.Errorf("Parse(%q) = %.17g, %v, want %.17g", text, q.Value, err, mm)
		}
	}
}

func TestParseErrors(t *testing.T) {
	for _, c := range []struct {
		text          string
		want          Dimension
		offset        int
		message, hint string // what each must hold
	}{
		{"", Length, 0, "empty", "mm, cm, m, in, ft"},
		{"   ", Length, 0, "empty", "mm"},
		{"+", Length, 1, "does not start with a number", "mm"},
		{"-", Length, 1, "does not start with a number", "mm"},
		{"450", Length, 3, "no unit", "mm, cm, m, in, ft"},
		{"1 1/2", Length, 5, "no unit", "in"},
		{"12 ft 6", Length, 7, "the last number", "in"},
		{"12 kg", Length, 3, "a mass, but a length is wanted", "mm, cm, m, in, ft"},
		{"3 m", Pressure, 2, "a length, but a pressure", "Pa, kPa, mbar, bar, psi"},
		{"31 gpm", Kv, 3, "a flow, but a Kv", "m3/h"},
		{"31 m3/h", Cv, 3, "a flow, but a Cv", "gpm"},
		{"1,5 m", Length, 1, "decimal comma", `write "1.5 m"`},
		{"1,500 mm", Length, 1, "decimal comma", `or "1500 mm" if thousands`},
		{"1,234,5 mm", Length, 1, "decimal comma", "without marks"},
		{"1,234.5 mm", Length, 1, "decimal comma", "without marks"},
		{"1.234.5 mm", Length, 5, "not a number", "one point"},
		{"12 mmm", Length, 3, `unknown unit "mmm"`, `did you mean "12 mm"`},
		{"38 C", Temperature, 3, "unknown unit", `did you mean "38 °C"`},
		{"100 degF", Temperature, 4, "unknown unit", `did you mean "100 °F"`},
		{"2 PSI", Pressure, 2, "unknown unit", `did you mean "2 psi"`},
		{`6"`, Length, 1, "unknown unit", `did you mean "6 in"`},
		{"6'", Length, 1, "unknown unit", `did you mean "6 ft"`},
		{"95 lpm", Flow, 3, "unknown unit", `did you mean "95 l/min"`},
		{"1e5 mm", Length, 1, "exponent", "write the number out"},
		{"1E+5 mm", Length, 1, "exponent", "write the number out"},
		{"NaN mm", Length, 0, "does not start with a number", "mm"},
		{"Inf mm", Length, 0, "does not start with a number", "mm"},
		{"0x10 mm", Length, 1, "unknown unit", "mm"},
		{"−3 mm", Length, 0, "does not start with a number", "minus"},
		{"½ in", Length, 0, "does not start with a number", "slash"},
		{"1½ in", Length, 1, "fraction in one character", "slash"},
		{"1/0 in", Length, 0, "divides by nothing", ""},
		{"1/ in", Length, 2, "under its fraction", "3/4"},
		{"1 5/4 in", Length, 2, "one or more", "less than one"},
		{"1/2/3 in", Length, 3, "not a number", ""},
		{"5. m", Length, 0, "after its point", ""},
		{"2-4 mm", Length, 1, "not one number", "1-1/2 in"},
		{"- - 5 mm", Length, 1, "does not start with a number", ""},
		{"5 ft 14 in", Length, 5, "too many in", "12 in make 1 ft"},
		{"1.5 ft 6 in", Length, 0, "fraction before its last", ""},
		{"5 in 1 ft", Length, 5, "ft after in", "feet and inches"},
		{"1 m 5 cm", Length, 4, "cm after m", ""},
		{"12 ft -6 in", Length, 6, "does not start with a number", ""},
		{"9999999999999999999 mm", Length, 0, "too many digits", "18 digits"},
		{strings.Repeat("1", 65) + " mm", Length, 64, "too long", "64 bytes"},
	} {
		q, err := Parse(c.text, c.want)
		var e *Error
		if !errors.As(err, &e) {
			t.Errorf("Parse(%q) = %v, want an *Error", c.text, q)
			continue
		}
		if e.Text != c.text || e.Offset != c.offset || !strings.Contains(e.Message, c.message) || !strings.Contains(e.Hint, c.hint) {
			t.Errorf("Parse(%q): at %d %q hint %q, want at %d %q hint %q", c.text, e.Offset, e.Message, e.Hint, c.offset, c.message, c.hint)
		}
	}
}

// What a user typed is quoted in messages, so that control characters in it stay inert.
func TestErrorsQuoteControlCharacters(t *testing.T) {
	_, err := Parse("5 \x1b[31mmm", Length)
	if err == nil || strings.ContainsRune(err.Error(), '\x1b') {
		t.Errorf("the message %v passes an escape on", err)
	}
}

func FuzzParse(f *testing.F) {
	for _, u := range Units() {
		f.Add(u.Example)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, want := range [][]Dimension{nil, {Length}, {Pressure, Head}, {Temperature}} {
			q, err := Parse(text, want...)
			if err != nil {
				var e *Error
				if !errors.As(err, &e) || e.Message == "" || e.Offset < 0 || e.Offset > len(text) {
					t.Fatalf("Parse(%q): %#v", text, err)
				}
				continue
			}
			if math.IsNaN(q.Value) || math.IsInf(q.Value, 0) || q.Text != text || q.Unit == "" {
				t.Fatalf("Parse(%q) = %#v", text, q)
			}
			for _, s := range []System{MetricSystem, InchSystem} {
				checkRoundTrip(t, q.Value, q.Dimension, s)
			}
		}
	})
}
