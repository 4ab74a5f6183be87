package twin

import "math"

// What tubs are like to somebody who makes them up from a table of the trade: flat between the
// ends of each range it gives, nothing outside, every number by itself. Written down before a
// tub was drawn with it and before a spread was looked at again; from memory of handbooks and
// fitters' notes, or common practice, no source.
//
// It differs from the workshop's in what it holds to be usual. A pump is a duty point and a
// shut-off head, the bend of its curve whatever goes through both, and a fitted one has a share
// of its sheet's head that is any of 0.85 to 1.07. Jets are makers' figures, 2 to 3 m³/h of
// water for each at 60 to 100 kPa, as many as the pump feeds. An elbow is the handbook's 30 f_T
// and a fifth either way. Flexible pipe costs 20 to 30 % more than smooth pipe, corrugated hose
// two to three times. A filter stands anywhere between clean and twice that. A spring opens at
// half to twice its label. There are tubs with two banks of jets, with a lamp in the
// line, pools whose pump has three speeds, and two-speed tubs with a hand valve in the bypass.
const (
	smallUV  family = "small circulation, lamp"
	banks    family = "two-speed, two banks"
	variable family = "variable-speed pool"
	throttle family = "two-speed, hand valve"
)

var handbook = &world{
	name:     "handbook",
	families: []family{small, smallUV, large, twin2, banks, throttle, plunge, variable, plugIn},
	pump:     bookPump,
	filter: func(d dice, sand bool, flow float64) (loss, float64) {
		if sand {
			return loss{flow, d.even(10, 35), d.even(1.1, 1.7)}, d.even(1, 1.7)
		}
		return loss{flow, d.even(1, 5), d.even(1.3, 1.9)}, d.even(1, 2)
	},
	element:  func(d dice, flow float64) loss { return loss{flow, d.even(1, 3), d.even(1.75, 2)} },
	injector: func(d dice, flow float64) loss { return loss{flow, d.even(2, 12), 2} },
	field:    func(d dice) float64 { return d.even(0.9, 1.3) },
	unit: func(d dice, rated float64) (loss, float64) {
		drop := d.even(5, 15)
		if d.in(0.2) {
			drop = d.even(15, 30)
		}
		return loss{rated, drop, d.even(1.8, 2)}, d.even(0.95, 1.35)
	},
	jets: bookJets,
	pipe: bookPipe,
	spring: func(d dice, psi float64) (float64, float64) {
		if psi < 1 && d.in(0.1) {
			return psi * d.even(2, 4), d.even(3, 10) // "1/2 lb", 2 psi by its sheet
		}
		return psi * math.Exp(d.even(-0.5, 0.5)), d.even(3, 10)
	},
	elbowMake: func(d dice) float64 { return 30 * 0.0195 * d.even(0.8, 1.3) },
	elbow:     func(d dice) float64 { return d.even(0.85, 1.15) },
	joint:     func(d dice) float64 { return d.even(0, 0.1) },
	barb:      func(d dice) float64 { return d.even(0.2, 1) },
	entrance:  func(d dice) float64 { return d.even(0.5, 0.8) },
	suction:   func(d dice) float64 { return d.even(0.5, 2.5) },
	tee:       func(d dice) float64 { return d.even(0.75, 1.3) },
	valve:     func(d dice) float64 { return d.even(0.7, 1.4) },
	typed:     0.3,
}

// bookPump draws a duty point, a shut-off head above it and the curve through both.
//
// 24 h pumps 1 to 3 m³/h at 1 to 2.5 m, shut off at 2.5 to 4; circulation pumps of 1.5 in 5 to 9
// at 2 to 4, shut off at 6 to 8; two-speed pumps at high 15 to 30 at 7 to 12, shut off at 12 to
// 18; pool pumps 8 to 16 at 6 to 10, shut off at 10 to 16; the box of a plug-in tub 1 to 2.5 at
// 1 to 2.5, shut off at 2 to 4.5. From wire to water 6 to 16 % of the small ones, 20 to 40 of
// circulation pumps, 25 to 48 of large ones.
func bookPump(d dice, f family) pump {
	var q, h, shut, eta [2]float64
	switch f {
	case small, smallUV:
		q, h, shut, eta = [2]float64{1, 3}, [2]float64{1, 2.5}, [2]float64{2.5, 4}, [2]float64{0.06, 0.16}
	case large:
		q, h, shut, eta = [2]float64{5, 9}, [2]float64{2, 4}, [2]float64{6, 8}, [2]float64{0.2, 0.4}
	case twin2, banks, throttle:
		q, h, shut, eta = [2]float64{15, 30}, [2]float64{7, 12}, [2]float64{12, 18}, [2]float64{0.25, 0.48}
	case plunge, variable:
		q, h, shut, eta = [2]float64{8, 16}, [2]float64{6, 10}, [2]float64{10, 16}, [2]float64{0.25, 0.48}
	default:
		q, h, shut, eta = [2]float64{1, 2.5}, [2]float64{1, 2.5}, [2]float64{2, 4.5}, [2]float64{0.06, 0.16}
	}
	in := func(of [2]float64) float64 { return d.even(of[0], of[1]) }
	var c curve
	for {
		c = curve{shut: in(shut), bend: d.even(1.5, 2.5)}
		duty, head := in(q), in(h)
		if head > 0.75*c.shut || head < 0.4*c.shut {
			continue // a duty point lies in the middle of a curve
		}
		c.runOut = duty / math.Pow(1-head/c.shut, 1/c.bend)
		break
	}
	_, water := c.best()
	return pump{sheet: c, labelW: toStep(water / in(eta)), ratio: d.even(0.475, 0.51), wornH: d.even(0.85, 1.07), wornQ: 1}
}

// bookJets draws as many jets of 2 to 3 m³/h as the pump feeds, at 60 to 100 kPa; the eyes of a
// pool or a return by the velocity in them, 1.5 to 4 m/s at the pump's best flow.
func bookJets(d dice, f family, c curve) jets {
	flow, _ := c.best()
	j := jets{k: d.even(0.9, 1.5)}
	area := func(q, v float64) float64 { return q * perHour / v }
	switch f {
	case twin2, banks, throttle:
		each := d.even(1.4, 2.6)
		j.count = max(4, int(math.Round(flow/each)))
		drop := min(d.even(60, 100)*1000/9740, 0.8*c.head(flow)) // m
		v := math.Sqrt(2 * 9.80665 * drop / j.k)
		j.bore = 1000 * math.Sqrt(4/math.Pi*area(flow/float64(j.count), v))
	case plunge, variable:
		j.count = d.count(1, 4)
		j.bore = 1000 * math.Sqrt(4/math.Pi*area(flow/float64(j.count), d.even(2, 5.5)))
	default:
		j.count = d.count(1, 2)
		j.bore = 1000 * math.Sqrt(4/math.Pi*area(flow/float64(j.count), d.even(1.2, 3)))
	}
	j.bore = min(math.Round(2*j.bore)/2, 50) // an eye is no wider than the pipe behind it
	return j
}

// bookPipe draws pipe: walls anywhere in the tolerance; roughness that makes flexible PVC cost
// 20 to 30 % more than smooth pipe at 2 m/s and corrugated hose two to three times (Colebrook
// turned round), 0.0015 to 0.01 mm of rigid pipe.
func bookPipe(d dice, spec, size string, old, corrugated bool) pipe {
	p := drawPipe(d, spec, size, old, corrugated)
	p.rough = d.even(0.0015, 0.01)
	if len(spec) > 4 && spec[:4] == "flex" {
		p.rough = ribbed(p.bore, d.even(1.2, 1.3))
	}
	if corrugated {
		p.rough = ribbed(p.bore, d.even(2, 3))
	}
	return p
}

// ribbed returns the roughness in mm at which a bore (mm) costs so many times a smooth one, by
// Colebrook at 2 m/s and the viscosity of water at 38 °C, 0.68e-6 m²/s.
func ribbed(bore, times float64) float64 {
	re := 2 * bore / 1000 / 0.68e-6
	f := 0.02
	for range 30 {
		f = math.Pow(-2*math.Log10(2.51/(re*math.Sqrt(f))), -2)
	}
	f *= times
	return 3.7 * bore * (math.Pow(10, -0.5/math.Sqrt(f)) - 2.51/(re*math.Sqrt(f)))
}
