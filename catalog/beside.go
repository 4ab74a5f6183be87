package catalog

// besides pairs the metric sizes of the trade with the inch sizes used in their place.
// Common practice, no source.
var besides = [][2]float64{{20, 0.5}, {25, 0.75}, {32, 1}, {40, 1.25}, {50, 1.5}, {63, 2}, {75, 2.5}, {90, 3}, {110, 4}}

// In returns the size of the family that is used in place of the size, the next larger where
// none stands right beside it; the size itself where it is of the family already or has no
// counterpart.
func (s Size) In(f Family) Size {
	if s.IsZero() {
		return s
	}
	for _, b := range besides {
		switch {
		case f == Inch && s.Metric && s.Nominal <= b[0]:
			return Size{Nominal: b[1]}
		case f == Metric && !s.Metric && s.Nominal <= b[1]:
			return Size{Metric: true, Nominal: b[0]}
		}
	}
	return s
}

// UsualBranch returns the size of the pipe to a heat pump where nothing asks for another: 1-1/2 in,
// or 50 mm. Common practice, no source: it carries 6 m³/h over 10 m each way.
func UsualBranch(f Family) Size { return Size{Nominal: 1.5}.In(f) }

// NominalInch returns a size in nominal inches, for comparing the width of pipe of both
// series: 50 mm counts as 1-1/2 in, a metric size with no inch size beside it as a 32nd of
// its mm. Hose is sold by its bore: 38 mm is 1-1/2 in.
func NominalInch(spec Spec, s Size) float64 {
	if !s.Metric {
		return s.Nominal
	}
	if spec.IsHose() {
		return s.Nominal / 25.4
	}
	if near, _ := InchBeside(s); !near.IsZero() {
		return near.Nominal
	}
	return s.Nominal / 32
}

// Narrower reports whether pipe is a size smaller than other pipe, both in nominal inches: by more
// than a twentieth, so that hose of 38 mm is as good as 1-1/2 in. Judgement, no source.
func Narrower(inch, than float64) bool { return inch > 0 && than > 0 && inch < 0.95*than }

// InchBeside returns the inch size right beside a metric one, and words for the source; an
// inch size is returned as it is, the zero Size where there is none.
func InchBeside(size Size) (Size, string) {
	if !size.Metric {
		return size, ""
	}
	for _, b := range besides {
		if b[0] == size.Nominal {
			near := Size{Nominal: b[1]}
			return near, ", taken from " + near.String()
		}
	}
	return Size{}, ""
}
