package catalog

// Over returns the row laid over another of the same name: what r does not say is taken from
// below. Numbers that belong together are taken together: a loss in any form puts every
// form of the one below aside, a curve puts the speeds aside, and a take-off or length that
// the user gives is no longer a guess.
func (r Row) Over(below Row) Row {
	fill(&r.Kind, below.Kind)
	fill(&r.Spec, below.Spec)
	fill(&r.Spec2, below.Spec2)
	fill(&r.Size, below.Size)
	fill(&r.Size2, below.Size2)
	fill(&r.Style, below.Style)
	fill(&r.Ends, below.Ends)
	r.overDimensions(below)
	take := func(h heads) { r.Heads = r.Heads&^h | below.Heads&h }
	if !r.hasLoss() {
		take(headDrop | headDropLow | headDropHigh)
		r.LoverD, r.LoverDBranch, r.K, r.KLow, r.KHigh, r.Kv = below.LoverD, below.LoverDBranch, below.K, below.KLow, below.KHigh, below.Kv
		r.LossFlow, r.LossDropPa, r.LossLowPa, r.LossHighPa = below.LossFlow, below.LossDropPa, below.LossLowPa, below.LossHighPa
		r.Exponent, r.Sized = below.Exponent, below.Sized
		r.HeadShare, r.HeadShareLow, r.HeadShareHigh = below.HeadShare, below.HeadShareLow, below.HeadShareHigh
		fill(&r.SpreadPct, below.SpreadPct)
	}
	if r.CrackingPa == 0 {
		take(headCracking | headCrackingLow | headCrackingHigh)
		r.CrackingPa, r.CrackingLowPa, r.CrackingHighPa = below.CrackingPa, below.CrackingLowPa, below.CrackingHighPa
	}
	if len(r.Opening) == 0 {
		r.Opening = below.Opening
	}
	if len(r.Curve) == 0 && len(r.Speeds) == 0 {
		r.Curve, r.Pressed, r.Speeds = below.Curve, below.Pressed, below.Speeds
	}
	if r.RatingPa == 0 {
		take(headRating)
	}
	fill(&r.RatingPa, below.RatingPa)
	fill(&r.Least, below.Least)
	fill(&r.Rated, below.Rated)
	fill(&r.Most, below.Most)
	fill(&r.PowerW, below.PowerW)
	fill(&r.DirtyFactor, below.DirtyFactor)
	fill(&r.Clips, below.Clips)
	fill(&r.Ways, below.Ways)
	r.Default = r.Default || below.Default
	if len(r.StockMM) == 0 {
		r.StockMM = below.StockMM
	}
	return r
}

// overDimensions fills in the lengths.
func (r *Row) overDimensions(below Row) {
	if r.TakeOffMM == 0 && r.BranchTakeOffMM == 0 && r.LengthMM == 0 {
		r.Measure = r.Measure || below.Measure
	}
	if r.TolMinusMM == 0 && r.TolPlusMM == 0 {
		r.TolMinusMM, r.TolPlusMM = below.TolMinusMM, below.TolPlusMM
	}
	fill(&r.TakeOffMM, below.TakeOffMM)
	fill(&r.BranchTakeOffMM, below.BranchTakeOffMM)
	fill(&r.LengthMM, below.LengthMM)
	fill(&r.OverallMM, below.OverallMM)
	fill(&r.SocketMM, below.SocketMM)
	fill(&r.OutsideMM, below.OutsideMM)
	fill(&r.WallMM, below.WallMM)
	fill(&r.BoreMM, below.BoreMM)
	fill(&r.BoreMinWallMM, below.BoreMinWallMM)
	fill(&r.RoughnessMM, below.RoughnessMM)
}

// hasLoss reports whether the row says a loss in any form.
func (r *Row) hasLoss() bool {
	return r.LoverD != 0 || r.LoverDBranch != 0 || r.K != 0 || r.Kv != 0 || r.LossFlow != 0
}

// fill sets a value that was not said.
func fill[T comparable](to *T, from T) {
	var zero T
	if *to == zero {
		*to = from
	}
}
