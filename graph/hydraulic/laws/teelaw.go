package laws

import (
	"math"

	"dryfit/graph/hydraulic/formula"
)

// TeeLaw is the loss of a tee by the split of its flow. Legs are run-in, run-out, branch;
// flows count into the tee. The leg that carries the whole flow has no loss of its own. It
// implements network.JointLaw.
//
// Water comes by one run leg and leaves by the other and the branch (formula.TeeDividingBranch and
// TeeDividingRun), or comes by one and the branch and leaves by the other (TeeCombiningBranch and
// TeeCombiningRun). Where both run legs feed the branch, or the branch feeds both:
// formula.TeeTurning on the branch.
//
// Where a leg's flow turns round, the handbook's values of the two patterns differ. They are
// joined by straight lines just beyond the turn, so that a leg without flow has exactly the
// values of the dividing branch (q = 0), and of the pattern in which the branch carries all
// (q = 1).
//
// What goes straight on may lose some more, on the velocity head of that flow alone: Straight.
type TeeLaw struct {
	Run      float64 // head per flow² of the velocity head in the run, K = 1
	turn     float64 // of the branch, times TeeTurning
	Beta     float64
	Straight float64 // K besides of what goes straight on, on its own flow; the handbook has none
	Times    float64
}

// How far beyond a turn the joining lines reach, as shares of the whole flow. Choice of
// this program.
const (
	BranchBlend = 0.02
	RunBlend    = 0.05
)

// NewTeeLaw returns the law of a tee with bores in m.
func NewTeeLaw(run, branch float64) *TeeLaw {
	return &TeeLaw{
		Run:   formula.HeadPerFlow2(run),
		turn:  SquareOf(formula.TeeTurning(branch), branch),
		Beta:  branch / run,
		Times: 1,
	}
}

// Loss returns the head in m and its slope at a flow in m³/s.
func (l *TeeLaw) Loss(q [3]float64) (head [3]float64, slope [3][3]float64) {
	through, small := 0, 1 // legs of the run: with the greater flow, and the other
	if math.Abs(q[1]) > math.Abs(q[0]) {
		through, small = 1, 0
	}
	branch := q[2]
	switch {
	case branch <= 0 && q[small] <= 0 && q[through] > 0:
		l.split(-1, small, q, l.dividing, &head, &slope)
	case branch >= 0 && q[small] >= 0 && q[through] < 0:
		l.split(1, small, q, l.combining, &head, &slope)
	default:
		l.turned(q, &head, &slope)
	}
	for i := range head {
		head[i] *= l.Times
		for k := range slope[i] {
			slope[i][k] *= l.Times
		}
	}
	return head, slope
}

// pattern returns K and slope of the branch and of the run at a share q of the branch.
type pattern func(q float64) (kb, db, kr, dr float64)

func (l *TeeLaw) dividing(q float64) (kb, db, kr, dr float64) {
	kb, db = formula.TeeDividingBranch(q, l.Beta)
	kr, dr = formula.TeeDividingRun(q, l.Beta)
	kr, dr = l.passed(q, kr, dr)
	return kb, db, kr, dr
}

// passed adds what is lost besides straight on.
func (l *TeeLaw) passed(q, kr, dr float64) (k, slope float64) {
	left := 1 - q
	return kr + l.Straight*left*left, dr - 2*l.Straight*left
}

func (l *TeeLaw) combining(q float64) (kb, db, kr, dr float64) {
	kr, dr = formula.TeeCombiningRun(q)
	kr, dr = l.passed(q, kr, dr)
	kb, db = formula.TeeCombiningBranch(q, l.Beta)
	if q < BranchBlend {
		end, _ := formula.TeeCombiningBranch(BranchBlend, l.Beta)
		start, _ := formula.TeeDividingBranch(0, l.Beta)
		start -= l.Straight // a branch without flow stands by what comes to it, not by what has passed it
		db = (end + start) / BranchBlend
		kb = -start + db*q
	}
	return kb, db, kr, dr
}

// split fills in a pattern with a common leg in the run: sign 1 combining, -1 dividing. The
// losses are written by the flows x of the branch and y of the other run leg, whose sum is
// the whole flow.
func (l *TeeLaw) split(sign float64, small int, q [3]float64, k pattern, head *[3]float64, slope *[3][3]float64) {
	x, y := math.Abs(q[2]), math.Abs(q[small])
	all := x + y
	if all == 0 {
		return
	}
	r := x / all
	kb, db, kr, dr := k(r)
	fill := func(leg int, k, d float64) {
		head[leg] = sign * l.Run * k * all * all
		slope[leg][2] = l.Run * all * (2*k + d*(1-r))
		slope[leg][small] = l.Run * all * (2*k - d*r)
	}
	fill(2, kb, db)
	fill(small, kr, dr)
}

// turned fills in the patterns in which the branch carries the whole flow. The leg of the
// run with the lesser flow has just turned round where that is a small share.
func (l *TeeLaw) turned(q [3]float64, head *[3]float64, slope *[3][3]float64) {
	c := math.Abs(q[2])
	if c == 0 {
		return
	}
	sign, k := 1.0, l.combining
	if q[2] < 0 {
		sign, k = -1, l.dividing
	}
	small := 1
	if math.Abs(q[0]) < math.Abs(q[1]) {
		small = 0
	}
	y := math.Abs(q[small])
	if y >= RunBlend*c {
		head[2] = sign * l.turn * c * c
		slope[2][2] = 2 * l.turn * c
		return
	}
	kb, _, kr, _ := k(1)
	kb, kr = kb*l.Run, kr*l.Run
	head[small] = sign * kr * (c*c - y*c/RunBlend)
	slope[small][small] = kr * c / RunBlend
	slope[small][2] = kr * (2*c - y/RunBlend)
	head[2] = sign * (kb*c*c + (l.turn-kb)*y*c/RunBlend)
	slope[2][2] = 2*kb*c + (l.turn-kb)*y/RunBlend
	slope[2][small] = -(l.turn - kb) * c / RunBlend
}
