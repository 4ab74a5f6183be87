package formula

import "math"

// The ends of the bridge between laminar and turbulent flow, as Reynolds numbers.
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
	const c = 2 / math.Ln10
	a, b := rel/3.7, 2.51/re
	x := -1.8 * math.Log10(6.9/re+1.11*a*math.Cbrt(math.Cbrt(a))) // a start only: a^1.11 ≈ 1.11·a^(10/9)
	for range 20 {
		arg := a + b*x
		dx := -(x + c*math.Log(arg)) / (1 + c*b/arg)
		x += dx
		if math.Abs(dx) <= 1e-13*x {
			break
		}
	}
	m := c * b / (a + b*x)
	dx := m * x / (re * (1 + m))
	f = 1 / (x * x)
	return f, -2 * f / x * dx
}

// Pipe is the friction law of a round pipe for one Reynolds number after another.
type Pipe struct {
	rel  float64 // ε/D
	f4   float64 // Colebrook at TurbulentStart
	df4  float64 // slope of the bridge
	base float64
}

// NewPipe returns the law of a pipe with the relative roughness ε/D, 0 to 0.05.
func NewPipe(rel float64) Pipe {
	f4, _ := Colebrook(TurbulentStart, rel)
	base := 64.0 / LaminarEnd
	return Pipe{rel: rel, f4: f4, base: base, df4: (f4 - base) / (TurbulentStart - LaminarEnd)}
}

// Friction returns the Darcy friction factor [-] and its derivative by the Reynolds number:
// 64/Re up to Re 2000, Colebrook-White from Re 4000, and between them a straight line in
// Re. That line is the choice of this program, as no law is accepted there: f is
// continuous, and since it does not fall, the drop rises with flow all the way.
// Re 0 is answered as 1e-9.
func (p Pipe) Friction(re float64) (f, slope float64) {
	switch {
	case re >= TurbulentStart:
		return Colebrook(re, p.rel)
	case re > LaminarEnd:
		return p.base + (re-LaminarEnd)*p.df4, p.df4
	default:
		re = max(re, 1e-9)
		return 64 / re, -64 / (re * re)
	}
}
