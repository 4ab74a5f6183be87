package catalog

import "dryfit/catalog/quantity"

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
	default:
		return quantity.Fraction(s.Nominal, 16) + " in"
	}
}
