package heat

// Warming is a tub on its way to a temperature.
type Warming struct {
	Capacity   float64 // J/K
	FromC, ToC float64
	Power      func(waterC, seconds float64) float64 // heat into the water [W]
	Element    func(waterC, seconds float64) float64 // heat of an element on top [W]; nil: none
	Loss       func(waterC, seconds float64) float64 // heat out of it [W]
	MostHours  float64                               // the work stops there; 0: 60 days
}

// Warmed is how it came there.
type Warmed struct {
	Reached bool
	Hours   float64 // until reached, or the time given
	HeatKWh float64 // into the water
	Element float64 // the element's share of it [kWh]
	LostKWh float64
	EndsC   float64
	CurveC  []float64 // at the start and after each hour
}

// Run follows the water in steps of a minute by the classical Runge-Kutta rule; the last
// step ends where the temperature is reached.
func (w Warming) Run() Warmed {
	const step = 60.0
	most := w.MostHours
	if most <= 0 {
		most = 60 * 24
	}
	out := Warmed{EndsC: w.FromC, CurveC: []float64{w.FromC}, Reached: w.FromC >= w.ToC}
	state := warmState{t: w.FromC}
	for i := 0; !out.Reached && float64(i)*step < most*hourS; i++ {
		next := w.step(state, step)
		if next.t >= w.ToC {
			low, high := 0.0, step
			for range 60 {
				if mid := (low + high) / 2; w.step(state, mid).t < w.ToC {
					low = mid
				} else {
					high = mid
				}
			}
			next, out.Reached = w.step(state, high), true
		}
		state = next
		if (i+1)%60 == 0 {
			out.CurveC = append(out.CurveC, state.t)
		}
	}
	out.Hours, out.EndsC = state.s/hourS, state.t
	out.HeatKWh, out.Element, out.LostKWh = state.heat/JoulesPerKWh, state.element/JoulesPerKWh, state.lost/JoulesPerKWh
	return out
}

type warmState struct{ t, s, heat, element, lost float64 }

// Bathed returns to what the water of a tub falls during a bath [°C], in air that stays as it is and with nothing
// that heats it: the colder it gets, the less it loses, and it comes to no less than the air round it.
func Bathed(tub *Tub, air Air) float64 {
	const steps = 60
	around, t := tub.Around(air).TempC, tub.SetC
	if t <= around {
		return t
	}
	fall := func(t float64) float64 { return tub.Bathing(t, air).Total() / tub.Capacity() }
	h := tub.Use.OpenS / steps
	for range steps {
		middle := max(around, t-fall(t)*h/2)
		t = max(around, t-fall(middle)*h)
	}
	return t
}

// step moves the state on by h seconds.
func (w Warming) step(x warmState, h float64) warmState {
	var heat, element, lost [4]float64
	slope := func(i int, t, s float64) float64 {
		heat[i], lost[i] = w.Power(t, s), w.Loss(t, s)
		if w.Element != nil {
			element[i] = w.Element(t, s)
			heat[i] += element[i]
		}
		return (heat[i] - lost[i]) / w.Capacity
	}
	k1 := slope(0, x.t, x.s)
	k2 := slope(1, x.t+k1*h/2, x.s+h/2)
	k3 := slope(2, x.t+k2*h/2, x.s+h/2)
	k4 := slope(3, x.t+k3*h, x.s+h)
	mean := func(v [4]float64) float64 { return h / 6 * (v[0] + 2*v[1] + 2*v[2] + v[3]) }
	return warmState{t: x.t + h/6*(k1+2*k2+2*k3+k4), s: x.s + h, heat: x.heat + mean(heat), element: x.element + mean(element), lost: x.lost + mean(lost)}
}
