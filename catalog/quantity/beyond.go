package quantity

import "math"

// Beyond returns the length in mm that prints as two lengths one behind the other do: where one
// mark lies at first and another so far behind it, both marks and what is between them then agree on
// every paper, in whole mm or sixteenths of an inch. Of two saw lines what is between them decides
// whether the work fits, so that it is told to the nearest mark; the second line may be off by one.
func Beyond(first, behind float64, s System) float64 {
	return marked(first, s) + marked(behind, s)
}

// marked is a length as Format prints it, in mm.
func marked(mm float64, s System) float64 {
	if s == InchSystem {
		return Round(mm/25.4*16, 0) / 16 * 25.4
	}
	return Round(mm, 0)
}

// AddsUp returns the shortest length from least on, both in mm, in steps of a tenth, that adds up on
// paper in both systems: printed behind a first length it is what the two together print as, less
// what the first does. It is no half of a mm, which not everybody rounds alike, and least where there
// is none within a quarter of an inch.
func AddsUp(first, least float64) float64 {
	for tenth := range 64 {
		more := least + float64(tenth)/10
		ok := math.Abs(math.Mod(more, 1)-0.5) > 0.01
		for _, s := range []System{MetricSystem, InchSystem} {
			ok = ok && math.Abs(marked(first+more, s)-Beyond(first, more, s)) < 1e-6
		}
		if ok {
			return more
		}
	}
	return least
}
