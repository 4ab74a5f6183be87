package route

import "slices"

// Postponed returns the layout with one joint made right after another that comes later in the
// order now, both by their numbers, and all joints numbered anew; nil where that can't be: a
// joint of the old pipe's before the bench work it belongs to, or one that closes a loop, which
// has its place.
func (lay *Layout) Postponed(joint, after int) *Layout {
	k, j := joint-1, after-1
	if lay.sequence == nil || k < 0 || j <= k || j >= len(lay.Joints) || lay.sequence.late[k] > 0 || lay.links[k].Open {
		return nil
	}
	out, o := lay.reordered()
	o.made = o.made[:0:0]
	for i := range out.links {
		if i != k {
			o.made = append(o.made, i)
		}
		if i == j {
			o.made = append(o.made, k)
		}
	}
	o.phase[k], o.late[k] = o.phase[j], o.late[j]
	o.inThisOrder()
	return out
}

// Waiting returns the layout with those joints of the bench whose pieces are cut on site made after the
// others, when the unit stands, and all joints numbered anew; the layout itself where no piece waits so.
// What closes a loop with such a joint waits with it.
func (lay *Layout) Waiting() *Layout {
	if lay.sequence == nil {
		return lay
	}
	out, o := lay.reordered()
	waits := false
	for k, n := range out.links {
		if o.phase[k] == Bench && n.Piece >= 0 && out.Pieces[n.Piece].OnSite {
			o.phase[k], waits = Waits, true
		}
	}
	if !waits {
		return lay
	}
	for rank, c := range o.closings {
		if !slices.ContainsFunc(append(slices.Clone(c.cycle), c.link), func(k int) bool { return o.phase[k] == Waits }) {
			continue
		}
		for k := range out.links {
			if o.late[k] == rank+1 {
				o.phase[k] = max(o.phase[k], Waits)
			}
		}
	}
	o.made = o.made[:0:0]
	for k := range out.links {
		o.made = append(o.made, k)
	}
	slices.SortStableFunc(o.made, func(x, y int) int { return int(o.phase[x] - o.phase[y]) })
	o.inThisOrder()
	return out
}

// reordered returns a copy of the layout, and of the sequence it was put in order by, whose order may be
// changed.
func (lay *Layout) reordered() (*Layout, *sequence) {
	out, o := *lay, *lay.sequence
	out.Joints, out.links, out.Pieces = slices.Clone(lay.Joints), slices.Clone(lay.links), slices.Clone(lay.Pieces)
	o.lay = &out
	o.phase, o.late = slices.Clone(o.phase), slices.Clone(o.late)
	o.closings = slices.Clone(o.closings)
	for i := range o.closings {
		o.closings[i].cycle = slices.Clone(o.closings[i].cycle)
	}
	return &out, &o
}

// inThisOrder numbers the joints in the order they are made, and words it.
func (o *sequence) inThisOrder() {
	o.renumber()
	o.fitAt()
	o.lay.assembly, o.lay.sequence = o.assembly(), o
}
