package stock

import (
	"cmp"
	"math/bits"
	"slices"
)

// worth is a kind of piece offered to a bar: its width, what one is worth, how many there are.
type worth struct {
	kind   int
	width  int64
	value  int64
	copies int

	density float64 // value by width, a little more; set by filler.best
}

// partial is one fill of a bar on the way to the best: what came before it, and what was added.
type partial struct {
	before int32 // index into filler.all; -1: none
	kind   int32
	count  int32
}

// sum is what a partial comes to. The sums are gone through again and again, one after the other;
// what they are made of is asked of the best alone.
type sum struct {
	width, value int64
	of           int32 // index into filler.all
}

// filler finds the fullest bar. It is kept for its memory alone.
type filler struct {
	all  []partial
	list []sum // undominated fills, width and value rising
	next []sum
	work []worth
}

// mostPartials bounds the undominated fills of one bar that are kept.
const mostPartials = 60_000

// fillNodes bounds the first, depth-first look for the fullest bar.
const fillNodes = 1000

// filling is what filler.best found: no bar is worth more than most; take is the best fill
// that is worth more than the floor, nil if none was found; then exact says that there is none.
type filling struct {
	most  int64
	value int64
	take  []int32
	exact bool
}

// best looks for the pieces that are worth most together in a bar of the width, if that is
// more than floor. It first looks depth first, densest pieces first, and is content with a
// fill that is worth more than floor where eager is set; then it goes through the list of
// undominated fills of Nemhauser and Ullmann, Management Science 15 (1969) 494–505, without
// those that cannot beat the best fill known.
func (f *filler) best(offer []worth, width, floor int64, kinds int, eager bool, e *effort) filling {
	f.work = f.work[:0]
	for _, w := range offer {
		if w.width <= width && w.value > 0 && w.copies > 0 {
			w.density = float64(w.value) / float64(w.width) * roundUp
			f.work = append(f.work, w)
		}
	}
	items := f.work
	slices.SortStableFunc(items, func(a, b worth) int { // most worth for its width first
		return cmp.Or(compareProducts(b.value, a.width, a.value, b.width), cmp.Compare(b.width, a.width))
	})
	most := max(floor, fractional(items, width))
	if most == floor {
		return filling{most: floor, exact: true}
	}
	d := diver{items: items, width: width, best: floor, most: most, left: fillNodes, take: make([]int32, len(items))}
	d.dive(0, width, 0)
	e.spend(fillNodes - d.left)
	out := filling{most: most, value: d.best}
	if d.bestTake != nil {
		out.take = make([]int32, kinds)
		for i, n := range d.bestTake {
			out.take[items[i].kind] = n
		}
	}
	if d.left > 0 {
		out.most, out.exact = d.best, true
		return out
	}
	if eager {
		return out
	}
	return f.thorough(items, width, out, kinds, e)
}

// diver looks for the best fill depth first.
type diver struct {
	items      []worth
	width      int64
	best, most int64
	left       int
	take       []int32
	bestTake   []int32
}

// dive decides how many of item i and the following are cut from the room.
func (d *diver) dive(i int, room, value int64) {
	d.left--
	if value > d.best {
		d.best = value
		d.bestTake = append(d.bestTake[:0], d.take...)
	}
	for ; i < len(d.items); i++ {
		if d.left <= 0 || d.best >= d.most {
			return
		}
		it := &d.items[i]
		if it.width > room {
			continue
		}
		if value+reach(it, room) <= d.best {
			return
		}
		n := min(int64(it.copies), room/it.width)
		for m := n; m >= 1; m-- {
			d.take[i] = int32(m)
			d.dive(i+1, room-m*it.width, value+m*it.value)
		}
		d.take[i] = 0
	}
}

// thorough goes on from what the depth-first look found until the best fill is certain, or
// the list of undominated fills grows too long.
func (f *filler) thorough(items []worth, width int64, known filling, kinds int, e *effort) filling {
	best, found := known.value, int32(-1)
	f.all = append(f.all[:0], partial{before: -1, kind: -1})
	f.list = append(f.list[:0], sum{})
	done := func(exact bool) filling {
		out := filling{most: known.most, value: best, take: known.take, exact: exact}
		if found >= 0 {
			out.take = f.taken(found, kinds)
		}
		if exact {
			out.most = best
		}
		return out
	}
	for i, it := range items {
		copies := int(min(int64(it.copies), width/it.width))
		for step := 1; copies > 0; step *= 2 {
			n := min(step, copies)
			copies -= n
			var after worth // what can still be added, at best
			switch {
			case copies > 0:
				after = it
			case i+1 < len(items):
				after = items[i+1]
			}
			best, found = f.add(it, n, &after, width, best, found)
			if len(f.list) > mostPartials || !e.spend(len(f.list)+8) {
				return done(false)
			}
			if best >= known.most {
				return done(true)
			}
		}
	}
	return done(true)
}

// add merges the list with the same fills and n more of the item, and drops what is
// dominated or cannot beat the best.
func (f *filler) add(it worth, n int, after *worth, width, best int64, found int32) (int64, int32) {
	dw, dv := it.width*int64(n), it.value*int64(n)
	old, more, next := f.list, f.list, f.next[:0]
	last := int64(-1) // value of the last fill kept
	for len(old) > 0 || len(more) > 0 {
		useOld := len(more) == 0
		if !useOld && len(old) > 0 {
			w := more[0].width + dw
			useOld = old[0].width < w || old[0].width == w && old[0].value >= more[0].value+dv
		}
		if useOld {
			if s := old[0]; s.value > last && s.value+reach(after, width-s.width) > best {
				next = append(next, s)
				last = s.value
			}
			old = old[1:]
			continue
		}
		s := sum{width: more[0].width + dw, value: more[0].value + dv, of: int32(len(f.all))}
		from := more[0].of
		more = more[1:]
		if s.width > width {
			more = nil // the rest are wider still
			continue
		}
		if s.value <= last {
			continue
		}
		if s.value > best {
			best, found = s.value, s.of
		} else if s.value+reach(after, width-s.width) <= best {
			continue
		}
		f.all = append(f.all, partial{before: from, kind: int32(it.kind), count: int32(n)})
		next = append(next, s)
		last = s.value
	}
	f.list, f.next = next, f.list
	return best, found
}

// reach is at least what can be added in the room left, at the density of the item. The
// density is a little more than it is, so that no rounding makes the reach too small: values
// and rooms stay below 2^50, where a float64 is off by less than one part in 10^15.
func reach(it *worth, room int64) int64 {
	return int64(it.density * float64(room))
}

// roundUp is how much more a density is taken for.
const roundUp = 1 + 1e-12

// fractional is the value of a bar filled in order of density with the last piece cut: never
// less than the best.
func fractional(items []worth, width int64) int64 {
	most := int64(0)
	for i := range items {
		it := &items[i]
		n := min(int64(it.copies), width/it.width)
		most += n * it.value
		width -= n * it.width
		if n < int64(it.copies) {
			return most + reach(it, width) + 1
		}
	}
	return most
}

// taken returns how many of each kind are in a fill.
func (f *filler) taken(idx int32, kinds int) []int32 {
	if idx < 0 {
		return nil
	}
	take := make([]int32, kinds)
	for ; idx > 0; idx = f.all[idx].before {
		take[f.all[idx].kind] += f.all[idx].count
	}
	return take
}

// compareProducts compares a·b with c·d without overflow.
func compareProducts(a, b, c, d int64) int {
	h1, l1 := bits.Mul64(uint64(a), uint64(b))
	h2, l2 := bits.Mul64(uint64(c), uint64(d))
	switch {
	case h1 < h2 || h1 == h2 && l1 < l2:
		return -1
	case h1 > h2 || l1 > l2:
		return 1
	}
	return 0
}
