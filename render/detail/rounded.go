package detail

import (
	"math"
	"slices"

	"dryfit/catalog/quantity"
)

// roundedNote says that lengths are rounded each by itself, where those of a row do not add up to the length
// beside them as they are printed; "" where all do.
func (d *drawing) roundedNote() string {
	c := d.c
	odd := !d.adds(c.stops(), c.before.to, c.after.from) || !d.adds(c.centres(), c.before.to, c.after.from)
	for i := range c.limbs {
		if l := &c.limbs[i]; d.measured(l) && !d.adds(l.stops(), 0, l.end) {
			odd = true
		}
	}
	if !odd {
		return ""
	}
	to := "1 mm"
	if d.in.Units != quantity.MetricSystem {
		to = "1/16 in"
	}
	return "Each length is rounded by itself, to " + to + ": a row may add up to a little more or less than the whole."
}

// adds reports whether what is printed between the stops from one to another adds up to what is printed of the
// whole; what has no stop at both ends of that is no sum of it, such as a branch to the middle of an elbow.
func (d *drawing) adds(stops []float64, from, to float64) bool {
	const same = 0.01 // mm
	printed := func(mm float64) float64 { return quantity.Tape(math.Abs(mm), d.in.Units) }
	at := func(mm float64) bool {
		return slices.ContainsFunc(stops, func(s float64) bool { return math.Abs(s-mm) < same })
	}
	if !at(from) || !at(to) {
		return true
	}
	sum := 0.0
	for i := 1; i < len(stops); i++ {
		if min(stops[i-1], stops[i]) > min(from, to)-same && max(stops[i-1], stops[i]) < max(from, to)+same {
			sum += printed(stops[i] - stops[i-1])
		}
	}
	return math.Abs(sum-printed(to-from)) < same
}
