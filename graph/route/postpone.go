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
	out := *lay
	out.Joints, out.links, out.Pieces = slices.Clone(lay.Joints), slices.Clone(lay.links), slices.Clone(lay.Pieces)
	o := *lay.sequence
	o.lay = &out
	o.phase, o.late = slices.Clone(o.phase), slices.Clone(o.late)
	o.closings = slices.Clone(o.closings)
	for i := range o.closings {
		o.closings[i].cycle = slices.Clone(o.closings[i].cycle)
	}
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
	o.renumber()
	o.fitAt()
	out.assembly, out.sequence = o.assembly(), &o
	return &out
}
