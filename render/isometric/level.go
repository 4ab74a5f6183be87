package isometric

import (
	"cmp"
	"math"
	"slices"

	"dryfit/graph"
)

// sameLevel is how far coordinates may differ and still be one level, mm: less than can be
// cut or drawn.
const sameLevel = 1.0

// leastGap and mostGap bound the display distance of neighbouring levels nothing spans, mm.
const (
	leastGap = 4.0
	mostGap  = 11.0
)

// levels maps the coordinates along one axis to display, rising where they rise.
type levels struct{ real, show []float64 }

// newLevels gathers the distinct coordinates.
func newLevels(values []float64) levels {
	sorted := slices.Clone(values)
	slices.Sort(sorted)
	var l levels
	for _, v := range sorted {
		if n := len(l.real); n == 0 || v-l.real[n-1] >= sameLevel {
			l.real = append(l.real, v)
		}
	}
	return l
}

// index returns the level nearest to v.
func (l levels) index(v float64) int {
	i, _ := slices.BinarySearch(l.real, v)
	if i == len(l.real) || (i > 0 && v-l.real[i-1] < l.real[i]-v) {
		i--
	}
	return i
}

// at returns the display coordinate of a real one: of a level its own, between two in
// proportion, beyond the last as far as that.
func (l levels) at(v float64) float64 {
	if len(l.real) == 0 {
		return 0
	}
	i := l.index(v)
	if math.Abs(l.real[i]-v) < sameLevel {
		return l.show[i]
	}
	if v < l.real[i] {
		i--
	}
	switch {
	case i < 0:
		return l.show[0]
	case i+1 >= len(l.real):
		return l.show[len(l.real)-1]
	}
	t := (v - l.real[i]) / (l.real[i+1] - l.real[i])
	return l.show[i] + t*(l.show[i+1]-l.show[i])
}

// span asks for a display length between two levels.
type span struct {
	from, to int
	want     float64
}

// spread sets the display coordinates: every gap at least what its real length asks for,
// every span at least what it wants; what is missing is shared out over the span's gaps.
// grow widens single gaps by a factor; nil: none.
func (l *levels) spread(spans []span, scale float64, grow map[int]float64) {
	n := len(l.real)
	l.show = make([]float64, n)
	if n == 0 {
		return
	}
	gaps := make([]float64, n-1)
	for i := range gaps {
		gaps[i] = scale * math.Min(mostGap, math.Max(leastGap, 0.12*(l.real[i+1]-l.real[i])))
	}
	for i := range spans {
		if spans[i].from > spans[i].to {
			spans[i].from, spans[i].to = spans[i].to, spans[i].from
		}
	}
	ordered := slices.Clone(spans)
	slices.SortStableFunc(ordered, func(a, b span) int { return cmp.Compare(a.to-a.from, b.to-b.from) })
	for _, s := range ordered {
		sum := 0.0
		for _, g := range gaps[s.from:s.to] {
			sum += g
		}
		if sum > 0 && sum < s.want {
			for i := s.from; i < s.to; i++ {
				gaps[i] *= s.want / sum
			}
		}
	}
	for i, g := range gaps {
		if f := grow[i]; f > 0 {
			g *= f
		}
		l.show[i+1] = l.show[i] + g
	}
}

// space maps real points to display points.
type space [3]levels

// show returns the display point of a real one.
func (s *space) show(v graph.Vec) graph.Vec {
	return graph.Vec{X: s[0].at(v.X), Y: s[1].at(v.Y), Z: s[2].at(v.Z)}
}
