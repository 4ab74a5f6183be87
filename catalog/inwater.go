package catalog

import "slices"

// heads are the pressures of a row that were given as heads of water.
type heads uint16

const (
	headDrop heads = 1 << iota
	headDropLow
	headDropHigh
	headCracking
	headCrackingLow
	headCrackingHigh
	headRating
)

// say notes whether a value was given in the way that hangs on the water.
func (r *Row) say(h heads, given bool) {
	r.Heads &^= h
	if given {
		r.Heads |= h
	}
}

// pressures are the fields of the row that may be given as heads.
func (r *Row) pressures() map[heads]*float64 {
	return map[heads]*float64{
		headDrop: &r.LossDropPa, headDropLow: &r.LossLowPa, headDropHigh: &r.LossHighPa,
		headCracking: &r.CrackingPa, headCrackingLow: &r.CrackingLowPa, headCrackingHigh: &r.CrackingHighPa,
		headRating: &r.RatingPa,
	}
}

// hangs reports whether anything in the row hangs on what water is pumped.
func (r *Row) hangs() bool {
	return r.Heads != 0 || len(r.Pressed) > 0 || slices.ContainsFunc(r.Speeds, func(s SpeedRow) bool { return len(s.Pressed) > 0 })
}

// InWater returns the catalogue for water of which a metre weighs metre Pa: what its rows
// give as a head of water is of that water, and what their curves give as pressures is in
// metres of it. It is the catalogue itself where no row hangs on the water.
func (c *Catalog) InWater(metre float64) *Catalog {
	if metre <= 0 || !c.hangs {
		return c
	}
	rows := slices.Clone(c.rows)
	times := metre / conventionalHead
	for i := range rows {
		r := &rows[i]
		for h, pa := range r.pressures() {
			if r.Heads&h != 0 {
				*pa *= times
			}
		}
		r.Heads = 0
		r.Curve, r.Pressed = inHeads(r.Curve, r.Pressed, 1/times), nil
		r.Speeds = slices.Clone(r.Speeds)
		for k := range r.Speeds {
			s := &r.Speeds[k]
			s.Curve, s.Pressed = inHeads(s.Curve, s.Pressed, 1/times), nil
		}
	}
	return newCatalog(rows)
}

// inHeads returns the curve with the heads of the points given as pressures times a factor.
func inHeads(curve [][2]float64, pressed []int, times float64) [][2]float64 {
	if len(pressed) == 0 {
		return curve
	}
	out := slices.Clone(curve)
	for _, i := range pressed {
		out[i][1] *= times
	}
	return out
}
