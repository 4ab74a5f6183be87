package formula

import "math"

// The ends of the bridge between laminar and turbulent flow, as Reynolds numbers. Source: the critical
// zone of the Moody diagram as handbooks draw it (Crane TP-410, chapter 1, from memory).
const (
	LaminarEnd     = 2000
	TurbulentStart = 4000
)

// Colebrook returns the Darcy friction factor [-] of turbulent flow in a round pipe and its
// derivative by the Reynolds number. It solves
//
//	1/√f = -2·log10(rel/3.7 + 2.51/(re·√f))
//
// to machine precision. re is the Reynolds number, from about 2000 up; rel the relative
// roughness ε/D, 0 to 0.05.
//
// Source: C. F. Colebrook (1939), J. Inst. Civ. Eng. 11, 133-156. Solved for the unknown
// 1/√f by Newton's method from the explicit formula of Haaland; the function is concave
// and the steps close in from one side.
func Colebrook(re, rel float64) (f, slope float64) {
	a := rel / 3.7
	start := -1.8 * math.Log10(6.9/re+1.11*a*math.Cbrt(math.Cbrt(a))) // a^1.11 ≈ 1.11·a^(10/9) will do
	f, slope, _ = colebrook(re, rel, start)
	return f, slope
}

// colebrook solves from a start for x = 1/√f, and returns x too. A step of Newton's takes the
// logarithm for a straight line; what it then misses follows from the logarithm's own series, without
// another logarithm, which is most of what a step costs. With w the logarithm's share of the slope and z
// the share by which Newton's step moves its argument, the series turned round (Lagrange) begins
//
//	dx·(1 + w/2·z + w(w/2 - 1/3)·z² + w(5/8·w² - 5/6·w + 1/4)·z³)
//
// and what follows is less than a fifth of z⁴: below the last digit from enoughShare down.
func colebrook(re, rel, x float64) (f, slope, root float64) {
	const c = 2 / math.Ln10
	const enoughShare = 2e-4
	a, b := rel/3.7, 2.51/re
	for range 40 {
		arg := a + b*x
		m := c * b / arg
		dx := -(x + c*math.Log(arg)) / (1 + m)
		w, z := m/(1+m), dx*b/arg
		x = max(x+dx*(1+w*z*(0.5+z*(0.5*w-1.0/3+z*((0.625*w-5.0/6)*w+0.25)))), 0.5) // f is never above 4
		if math.Abs(z) <= enoughShare {
			break
		}
	}
	m := c * b / (a + b*x)
	f = 1 / (x * x)
	return f, -2 * f * m / (re * (1 + m)), x
}

// Pipe is the friction law of a round pipe for one Reynolds number after another. It begins
// each search at the last answer, which changes nothing but rounding.
type Pipe struct {
	rel  float64 // ε/D
	f4   float64 // Colebrook at TurbulentStart
	df4  float64 // slope of the bridge
	base float64
	root float64 // 1/√f of the last answer: the next is near it
}

// smoothRoot is 1/√f of a smooth pipe at TurbulentStart, nearly: the search for that of any pipe
// begins there.
const smoothRoot = 5

// NewPipe returns the law of a pipe with the relative roughness ε/D, 0 to 0.05.
func NewPipe(rel float64) Pipe {
	f4, _, root := colebrook(TurbulentStart, rel, smoothRoot)
	base := 64.0 / LaminarEnd
	return Pipe{rel: rel, f4: f4, base: base, df4: (f4 - base) / (TurbulentStart - LaminarEnd), root: root}
}

// Of returns the law of a pipe with another roughness ε/D, or with the same as one not used yet.
func (p *Pipe) Of(rel float64) Pipe {
	if p.f4 == 0 || rel != p.rel {
		return NewPipe(rel)
	}
	same := *p
	same.root = 1 / math.Sqrt(p.f4)
	return same
}

// Friction returns the Darcy friction factor [-] and its derivative by the Reynolds number:
// 64/Re up to Re 2000, Colebrook-White from Re 4000, and between them a straight line in
// Re. That line is the choice of this program, as no law is accepted there: f is
// continuous, and since it does not fall, the drop rises with flow all the way.
// Re 0 is answered as 1e-9.
func (p *Pipe) Friction(re float64) (f, slope float64) {
	switch {
	case re >= TurbulentStart:
		f, slope, p.root = colebrook(re, p.rel, p.root)
		return f, slope
	case re > LaminarEnd:
		return p.base + (re-LaminarEnd)*p.df4, p.df4
	default:
		re = max(re, 1e-9)
		return 64 / re, -64 / (re * re)
	}
}
