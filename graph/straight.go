package graph

import "dryfit/catalog/quantity"

// Straight returns the first and the last of the legs, from 1, that lie in one line with a leg of the
// run and go the same way, with nothing round them that differs: no bend stands between them.
func (r *Run) Straight(leg int) (first, last int) {
	goesOn := func(k int) bool { // leg k and the next
		return k >= 1 && k < len(r.Legs) && r.Legs[k-1].By.AngleTo(r.Legs[k].By) < StraightDeg && r.Around(k).Same(r.Around(k+1))
	}
	first, last = leg, leg
	for goesOn(first - 1) {
		first--
	}
	for goesOn(last) {
		last++
	}
	return first, last
}

// OneLeg is the leg that legs first to last of a run, from 1, come to together, with what the first says
// of what is round it.
func (r *Run) OneLeg(first, last int) Leg {
	one := r.Legs[first-1]
	one.Written = ""
	for _, l := range r.Legs[first:last] {
		one.By = one.By.Add(l.By)
	}
	return one
}

// LegsWords names legs in words: "legs 3 to 6".
func LegsWords(first, last int) quantity.Text {
	if last == first+1 {
		return Say("legs %d and %d", first, last)
	}
	return Say("legs %d to %d", first, last)
}
