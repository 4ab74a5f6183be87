package formula

// The flow-dependent losses of a tee of 90 degrees: K on the velocity head of the leg that
// carries the whole flow, and its derivative by q. q is the share of the branch in that
// flow, 0 to 1; beta the ratio of the branch's bore to the run's. K may be negative: that
// leg gains what the other loses.
//
// Source: Crane Co., TP-410, 2009, chapter 2, as transcribed with the printed examples
// 7.35 and 7.36 in an open-source function library.

// TeeDividingBranch returns K from the common leg to the branch, water coming by the run.
func TeeDividingBranch(q, beta float64) (k, slope float64) {
	b2 := beta * beta
	h := 0.3
	if TeeIsReduced(beta) {
		h = 1
	}
	r := q / b2
	k, slope = 1+h*r*r, 2*h*r/b2
	if b2 > 2.0/3 {
		g := 1 + 0.3*q*q
		k, slope = g*k, g*slope+0.6*q*k
	}
	return k, slope
}

// TeeIsReduced reports whether a ratio of bores counts for the handbook as that of a branch of two
// thirds of its run or less. Bores that make two thirds but for their tolerances do, a hundredth
// more: 25.4 on 38.1 mm, 42.1 on 63.15. That hundredth is judgement.
func TeeIsReduced(beta float64) bool { return beta <= 2.0/3+0.01 }

// TeeDividingRun returns K from the common leg straight on, water coming by the run.
func TeeDividingRun(q, beta float64) (k, slope float64) {
	m, dm := 0.3*(2*q-1), 0.6
	switch {
	case beta*beta <= 0.4:
		m, dm = 0.4, 0
	case q <= 0.5:
		m, dm = 2*(2*q-1), 4
	}
	return m * q * q, dm*q*q + 2*m*q
}

// TeeCombiningBranch returns K from the branch to the common leg, water leaving by the run.
// The handbook's factor C, 0.9·(1 - q) up to q = 0.4 and 0.55 above it, jumps by 2 % there;
// here the greater of the two is taken, which differs only between q = 0.389 and 0.4.
func TeeCombiningBranch(q, beta float64) (k, slope float64) {
	b2 := beta * beta
	c, dc := 1.0, 0.0
	if b2 > 0.35 {
		c, dc = 0.9*(1-q), -0.9
		if c < 0.55 {
			c, dc = 0.55, 0
		}
	}
	r := q / b2
	k, slope = 1+r*r-2*(1-q)*(1-q), 2*r/b2+4*(1-q)
	return c * k, c*slope + dc*k
}

// TeeCombiningRun returns K straight on to the common leg, water leaving by the run.
func TeeCombiningRun(q float64) (k, slope float64) { return 1.55*q - q*q, 1.55 - 2*q }

// TeeTurning returns K of a tee whose branch carries the whole flow, to or from both sides
// of the run, on the velocity head of the branch, whose bore is given in m. The handbook has
// no flow-dependent form for that; its fixed one is used, 60·f_T.
func TeeTurning(bore float64) float64 { return HandbookK(LoverDTeeBranch, bore) }
