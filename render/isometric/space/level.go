package space

import (
	"cmp"
	"math"
	"slices"

	"dryfit/graph"
)

// SameLevel is how far coordinates may differ and still be one level, mm: less than can be
// cut or drawn.
const SameLevel = 1.0

// leastGap and mostGap bound the display distance of neighbouring levels nothing spans, mm.
const (
	leastGap = 4.0
	mostGap  = 11.0
)

// Levels maps the coordinates along one axis to display, rising where they rise.
type Levels struct{ Real, Show []float64 }

// NewLevels gathers the distinct coordinates.
func NewLevels(values []float64) Levels {
	sorted := slices.Clone(values)
	slices.Sort(sorted)
	var l Levels
	for _, v := range sorted {
		if n := len(l.Real); n == 0 || v-l.Real[n-1] >= SameLevel {
			l.Real = append(l.Real, v)
		}
	}
	return l
}

// Index returns the level nearest to v.
func (l Levels) Index(v float64) int {
	i, _ := slices.BinarySearch(l.Real, v)
	if i == len(l.Real) || (i > 0 && v-l.Real[i-1] < l.Real[i]-v) {
		i--
	}
	return i
}

// At returns the display coordinate of a real one: of a level its own, between two in
// proportion, beyond the last as far as that.
func (l Levels) At(v float64) float64 {
	if len(l.Real) == 0 {
		return 0
	}
	i := l.Index(v)
	if math.Abs(l.Real[i]-v) < SameLevel {
		return l.Show[i]
	}
	if v < l.Real[i] {
		i--
	}
	switch {
	case i < 0:
		return l.Show[0]
	case i+1 >= len(l.Real):
		return l.Show[len(l.Real)-1]
	}
	t := (v - l.Real[i]) / (l.Real[i+1] - l.Real[i])
	return l.Show[i] + t*(l.Show[i+1]-l.Show[i])
}

// Span asks for a display length between two levels.
type Span struct {
	From, To int
	Want     float64
}

// Gaps returns the display distances of neighbouring levels: every gap at least what its real
// length asks for, every span at least what it wants; what is missing is shared out over the
// span's gaps.
func (l Levels) Gaps(spans []Span, scale float64) []float64 {
	n := len(l.Real)
	if n == 0 {
		return nil
	}
	gaps := make([]float64, n-1)
	for i := range gaps {
		gaps[i] = scale * math.Min(mostGap, math.Max(leastGap, 0.12*(l.Real[i+1]-l.Real[i])))
	}
	for i := range spans {
		if spans[i].From > spans[i].To {
			spans[i].From, spans[i].To = spans[i].To, spans[i].From
		}
	}
	ordered := slices.Clone(spans)
	slices.SortStableFunc(ordered, func(a, b Span) int { return cmp.Compare(a.To-a.From, b.To-b.From) })
	for _, s := range ordered {
		sum := 0.0
		for _, g := range gaps[s.From:s.To] {
			sum += g
		}
		if sum > 0 && sum < s.Want {
			for i := s.From; i < s.To; i++ {
				gaps[i] *= s.Want / sum
			}
		}
	}
	return gaps
}

// Spread returns the levels displayed so far apart as the gaps say. grow widens single gaps by
// a factor; nil: none.
func (l Levels) Spread(gaps []float64, grow map[int]float64) Levels {
	l.Show = make([]float64, len(l.Real))
	for i, g := range Grown(gaps, grow) {
		l.Show[i+1] = l.Show[i] + g
	}
	return l
}

// Grown is gaps of which single ones are widened by a factor.
func Grown(gaps []float64, grow map[int]float64) []float64 {
	out := slices.Clone(gaps)
	for i := range out {
		if f := grow[i]; f > 0 {
			out[i] *= f
		}
	}
	return out
}

// Space maps real points to display points.
type Space [3]Levels

// Show returns the display point of a real one.
func (s *Space) Show(v graph.Vec) graph.Vec {
	return graph.Vec{X: s[0].At(v.X), Y: s[1].At(v.Y), Z: s[2].At(v.Z)}
}
