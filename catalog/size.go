package catalog

import (
	"fmt"
	"math"

	"dryfit/catalog/quantity"
)

// Size is a nominal pipe size: inches of the trade's inch series, or mm of the metric one.
// The zero Size means "not given".
type Size struct {
	Metric  bool
	Nominal float64 // in or mm, by Metric; 0: not given
}

// IsZero reports whether no size was given.
func (s Size) IsZero() bool { return s.Nominal == 0 }

// String returns the size as the trade writes it: "1-1/2 in", "50 mm"; "" for the zero Size.
func (s Size) String() string {
	switch {
	case s.IsZero():
		return ""
	case s.Metric:
		return quantity.Trim(s.Nominal) + " mm"
	case s.Nominal*16 != math.Trunc(s.Nominal*16): // no size of the trade: as it is
		return quantity.Trim(s.Nominal) + " in"
	default:
		return quantity.Fraction(s.Nominal, 16) + " in"
	}
}

// NominalMM returns the nominal size in mm, for comparing sizes of both series: 2 in is
// 50.8. It is no dimension of the pipe.
func (s Size) NominalMM() float64 {
	if s.Metric {
		return s.Nominal
	}
	return s.Nominal * 25.4
}

// mostSizeMM is the largest nominal size that is read: far above any tub's.
const mostSizeMM = 400

// ParseSize reads a nominal size: "1-1/2 in", "1 1/2 in", "1.5 in", "50 mm". The unit says
// which series it is of; metric says only which one the example in an error shows. Inch sizes are
// whole sixteenths, as the trade makes them.
func ParseSize(text string, metric bool) (Size, error) {
	example := `write a size such as "1-1/2 in"`
	if metric {
		example = `write a size such as "50 mm"`
	}
	q, err := quantity.Parse(text, quantity.Length)
	if err != nil {
		return Size{}, err
	}
	wrong := func(format string, args ...any) error {
		return &quantity.Error{Text: text, Message: fmt.Sprintf(format, args...), Hint: example}
	}
	if q.Value <= 0 || q.Value > mostSizeMM {
		return Size{}, wrong("%q is no pipe size", text)
	}
	inches := quantity.Round(q.Value/25.4, 9)
	switch q.Unit {
	case "mm", "cm":
		return Size{Metric: true, Nominal: q.Value}, nil
	case "in":
		if parts := inches * 16; parts != math.Trunc(parts) {
			example += "; what a calliper reads on the pipe is no nominal size"
			return Size{}, wrong("%q is no pipe size: those of the inch series go by halves, quarters, eighths and sixteenths", text)
		}
		return Size{Nominal: inches}, nil
	}
	return Size{}, wrong("a pipe size is given in in or mm, not %s", q.Unit)
}

// pair writes two sizes: "2 x 1-1/2 in", or "1-1/2 in x 50 mm" where the series differ.
func pair(a, b Size) string {
	switch {
	case b.IsZero():
		return a.String()
	case a.Metric != b.Metric:
		return a.String() + " x " + b.String()
	case a.Metric:
		return quantity.Trim(a.Nominal) + " x " + b.String()
	}
	return quantity.Fraction(a.Nominal, 16) + " x " + b.String()
}

// Exact writes the size so that it reads back to the same one.
func (s Size) Exact() string { return s.String() }
