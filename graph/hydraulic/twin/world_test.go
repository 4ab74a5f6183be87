package twin

import "math"

// What tubs are like. Where nothing else is said a number is of the trade: common practice,
// no source, or from memory of handbooks. Nothing here is the catalogue's.

// A family is one kind of tub.
type family string

const (
	small   family = "small circulation pump"
	large   family = "large circulation pump"
	twin2   family = "two-speed pump"
	plunge  family = "plunge pool"
	plugIn  family = "plug-in"
	metre          = 1000.0 // mm
	perHour        = 1.0 / 3600
)

var families = []family{small, large, twin2, plunge, plugIn}

// curve is a pump as its sheet has it: head = shut·(1-x^bend), x = q/runOut, m and m³/h; of
// one whose curve falls from its first drop on, slope is the share of it that is straight.
type curve struct{ shut, runOut, bend, slope float64 }

func (c curve) head(q float64) float64 {
	x := q / c.runOut
	return c.shut * (1 - c.slope*x - (1-c.slope)*math.Pow(x, c.bend))
}

// best is the flow of the most water power, m³/h, and that power in W at 9.74 kN/m³.
func (c curve) best() (flow, power float64) {
	flow = c.runOut * math.Pow(1/(c.bend+1), 1/c.bend)
	if c.slope > 0 {
		most := 0.0
		for i := 1; i < 1000; i++ {
			if q := c.runOut * float64(i) / 1000; q*c.head(q) > most {
				flow, most = q, q*c.head(q)
			}
		}
	}
	return flow, 9740 * flow * perHour * c.head(flow)
}

// pump is one pump: its sheet, the watts on its label, and what the one in hand does of it.
type pump struct {
	sheet        curve
	labelW       float64
	ratio        float64 // true speed of low over high
	wornQ, wornH float64
}

// drawPump draws a pump of a family.
//
// The ranges of head and flow are those of fitters' notes: 24 h pumps 1 to 3 m³/h at 1 to
// 2.5 m, shut off at 2.5 to 4 m; 1.5 in circulation pumps 5 to 9 at 2 to 4, shut off at 6 to
// 8 m (95 to 130 l/min by a buying guide); two-speed pumps at high 15 to 30 at 7 to 12 m, shut
// off at 12 to 18 m. Pool pumps of 0.5 to 1.1 kW shut off at 10 to 16 m and run out at 12 to
// 24 m³/h; the box of a plug-in tub moves 1 to 2.5 m³/h through its own hoses and shuts off at
// 2 to 4.5 m. The bend of a volute pump's curve is near a parabola's.
//
// Wire-to-water efficiency at the best point: 5 to 15 % of pumps below 150 W (wet rotors,
// shaded poles), 22 to 40 % of circulation pumps, 25 to 45 % above a kilowatt (a seal, no
// hood over the impeller, class of motor).
//
// A fitted pump gives 0.85 to 1.07 of its sheet's head: worn rings, slip at low voltage, a
// strainer or a grille in its eye that the sheet was taken without; and a little of its flow.
func drawPump(d dice, f family) pump {
	var c curve
	var eta float64
	switch f {
	case small:
		c, eta = curve{d.even(2.5, 4), d.nine(1.9, 4.2), d.even(1.5, 2.2), 0}, d.nine(0.06, 0.15)
	case large:
		c, eta = curve{d.even(6, 8), d.nine(7.5, 12.5), d.even(1.6, 2.4), 0}, d.nine(0.22, 0.40)
	case twin2:
		c, eta = curve{d.even(12, 18), d.nine(19, 36), d.even(1.7, 2.6), 0}, d.nine(0.25, 0.45)
	case plunge:
		c, eta = curve{d.even(10, 16), d.nine(12, 24), d.even(1.7, 2.6), 0}, d.nine(0.25, 0.45)
	default:
		c, eta = curve{d.even(2, 4.5), d.nine(2.2, 4.2), d.even(1.5, 2.2), 0}, d.nine(0.06, 0.15)
	}
	_, water := c.best()
	p := pump{sheet: c, labelW: toStep(water / eta), ratio: d.even(0.475, 0.51)}
	p.wornH = d.peak(0.83, 0.97, 1.08)
	p.wornQ = d.peak(0.94, 0.99, 1.04)
	return p
}

// toStep rounds a power to what stands on labels: 5 W steps below 200 W, 50 W above.
func toStep(w float64) float64 {
	step := 5.0
	if w > 200 {
		step = 10
	}
	if w > 500 {
		step = 50
	}
	return max(step, math.Round(w/step)*step)
}

// real is the curve of the pump in hand at a speed ratio.
func (p pump) real(ratio float64) curve {
	return curve{p.sheet.shut * p.wornH * ratio * ratio, p.sheet.runOut * p.wornQ * ratio, p.sheet.bend, p.sheet.slope}
}

// loss is a part's loss: drop at a flow with its exponent, kPa and m³/h.
type loss struct{ flow, drop, exponent float64 }

func (l loss) times(f float64) loss { l.drop *= f; return l }

// drawFilter draws a clean filter for a line of a flow (m³/h), and how much dirt the one in
// use has. Cartridges 1 to 5 kPa at the flow they filter at, between a bed and a fitting in
// shape (a pleat is a porous medium, its core and housing are not); a sand filter with its
// multiport valve 12 to 35 kPa, its bed nearly linear (Ergun) and its valve square. In use
// for weeks since it was cleaned: up to half as much again, seldom double.
func drawFilter(d dice, sand bool, flow float64) (sheet loss, dirt float64) {
	if sand {
		return loss{flow, d.nine(12, 35), d.even(1.2, 1.7)}, d.peak(0.95, 1.1, 1.7)
	}
	return loss{flow, d.nine(1, 5), d.even(1.3, 1.9)}, d.peak(0.95, 1.1, 1.8)
}

// drawElement draws a flow-through heater tube: 1 to 3 kPa at the flow it heats at.
func drawElement(d dice, flow float64) loss { return loss{flow, d.nine(0.9, 3.3), d.even(1.75, 2)} }

// drawUnit draws a heat pump's exchanger: 5 to 15 kPa at rated flow of a coil in a shell, up
// to 20 to 30 of a compact or plate one. In the field its unions, strainer and scale add to
// the sheet's figure, never much less than it.
func drawUnit(d dice, rated float64) (sheet loss, field float64) {
	low, high := 5.0, 15.0
	if d.in(0.2) {
		low, high = 14, 30
	}
	return loss{rated, d.nine(low, high), d.even(1.75, 2)}, d.peak(0.9, 1.05, 1.3)
}

// drawInjector draws a venturi in line after a small pump, which such a line can bear: 2 to
// 12 kPa at its flow.
func drawInjector(d dice, flow float64) loss { return loss{flow, d.nine(2, 12), 2} }

// jets is what the water leaves the line by: count openings of a bore with K on it.
type jets struct {
	count   int
	bore, k float64 // mm
}

// square is the head over the square of flow, m/(m³/h)².
func (j jets) square() float64 {
	area := float64(j.count) * math.Pi / 4 * j.bore * j.bore * 1e-6
	return j.k / (2 * 9.80665 * area * area) * perHour * perHour
}

// drawJets draws jets the maker sized to his pump. A two-speed pump has 10 to 24 of them that
// take 0.5 to 0.8 of the head near its best flow: 60 to 100 kPa of 7 to 12 m. The nozzle's K
// on its bore is 0.9 to 1.5 (a rounded nozzle 1.05, with a swirl insert more). A return of a
// circulation line is one or two open eyes that take 0.04 to 0.3 of the head; a plunge pool
// has one to four inlets of the same kind, 0.05 to 0.35.
func drawJets(d dice, f family, c curve) jets {
	var j jets
	var share float64
	switch f {
	case twin2:
		j.count, share = d.count(10, 24), d.even(0.5, 0.8)
	case plunge:
		j.count, share = d.count(1, 4), d.nine(0.05, 0.35)
	default:
		j.count, share = d.count(1, 2), d.nine(0.04, 0.3)
	}
	j.k = d.nine(0.9, 1.5)
	flow, _ := c.best()
	j.bore = 1
	want := share * c.head(flow) / (flow * flow)
	j.bore = math.Round(2*math.Pow(j.square()/want, 0.25)) / 2
	return j
}

// pipe is a run's pipe as it is: bore and roughness in mm.
type pipe struct{ bore, rough float64 }

// drawPipe draws pipe of a spec and size. Bores of rigid pipe are the outside diameter less
// twice a wall between the standard's least and most (ASTM D1785: 1-1/2 in 3.68 to 4.19 mm,
// 2 in 3.91 to 4.42; EN ISO 1452-2 PN10: 50 mm 2.4 to 2.9, 63 mm 3.0 to 3.5, outside up to
// 0.3 over; all from memory). Hose is named by its bore, 3 % either way. Roughness of new PVC 0.0015 mm, with
// film and scale up to 0.02; flexible PVC has ribs worth 20 to 30 % of loss; hose is smooth
// or, on plug-in tubs, corrugated: two to three times the friction of a smooth bore.
func drawPipe(d dice, spec, size string, old, corrugated bool) pipe {
	p := pipe{rough: d.nine(0.0015, 0.006)}
	if old {
		p.rough = d.nine(0.002, 0.02)
	}
	switch spec + " " + size {
	case "pvc-sch40 1 1/2 in":
		p.bore = 48.26 - 2*d.even(3.68, 4.19)
	case "pvc-sch40 2 in":
		p.bore = 60.32 - 2*d.even(3.91, 4.42)
	case "pvc-pn10 50 mm":
		p.bore = d.even(50, 50.3) - 2*d.even(2.4, 2.9)
	case "pvc-pn10 63 mm":
		p.bore = d.even(63, 63.3) - 2*d.even(3, 3.5)
	case "flex-inch 1 1/2 in":
		p = pipe{40.4 * d.off(0.02), d.nine(0.03, 0.09)}
	case "flex-inch 2 in":
		p = pipe{52 * d.off(0.02), d.nine(0.03, 0.09)}
	case "flex-metric 50 mm":
		p = pipe{42.5 * d.off(0.02), d.nine(0.03, 0.09)}
	case "hose 3/4 in":
		p = pipe{19.05 * d.off(0.02), d.nine(0.003, 0.04)}
	case "hose 1 in":
		p = pipe{25.4 * d.off(0.02), d.nine(0.003, 0.04)}
	case "hose 32 mm":
		p = pipe{32 * d.off(0.02), d.nine(0.003, 0.04)}
	case "hose 38 mm":
		p = pipe{38 * d.off(0.02), d.nine(0.003, 0.04)}
	default:
		panic("no pipe " + spec + " " + size)
	}
	if corrugated {
		p.rough = d.nine(0.25, 1)
	}
	return p
}

// Loss coefficients of what stands in runs. An elbow of a make is alike, and makes differ:
// solvent-weld elbows are short, 0.45 to 0.9 on the bore. A joint's bead of cement, its
// gap and the burr of the saw: 0.02 to 0.1. A barb is narrower than its hose by its wall,
// four fifths of it or less: 0.25 to 0.9 on the hose's bore at each end.
func drawElbowMake(d dice) float64 { return d.nine(0.45, 0.9) }
func drawElbow(d dice) float64     { return d.off(0.12) }
func drawJoint(d dice) float64     { return d.nine(0.02, 0.1) }
func drawBarb(d dice) float64      { return d.nine(0.25, 0.9) }

// Entrances: flush 0.5, standing proud 0.8; a cover and body of a suction 1 to 3 on its pipe.
// Exits 1.
func drawEntrance(d dice) float64 { return d.even(0.4, 0.8) }
func drawSuction(d dice) float64  { return d.nine(0.5, 2.5) }

// A tee's loss by the handbook's curves is off by a quarter (moulded tees differ in their
// corners).
func drawTee(d dice) float64 { return d.off(0.15) }

// valveK returns K of a hand valve on its bore at a share open: cocks and ball valves by
// Weisbach's angles as handbooks repeat them (10° 0.29, 20° 1.56, 30° 5.5, 40° 17.3, 50° 52.6,
// 60° 206; fully open 0.06), gates a quarter open 24, half 4.5, three quarters 0.9, 0.17.
// Straight in logarithms between. Makes differ by a third in K.
func valveK(kind string, open float64) float64 {
	at := [][2]float64{{30. / 90, 206}, {40. / 90, 52.6}, {50. / 90, 17.3}, {60. / 90, 5.5}, {70. / 90, 1.56}, {80. / 90, 0.29}, {1, 0.06}}
	if kind == "gate-valve" {
		at = [][2]float64{{0.25, 24}, {0.5, 4.5}, {0.75, 0.9}, {1, 0.17}}
	}
	if kind == "butterfly-valve" { // 60, 40 and 20° from open; Crane's 45 f_T in 2 in
		at = [][2]float64{{1. / 3, 118}, {5. / 9, 10.8}, {7. / 9, 1.54}, {1, 0.86}}
	}
	i := 0
	for i < len(at)-2 && open > at[i+1][0] {
		i++
	}
	a, b := at[i], at[i+1]
	x := math.Log(open/a[0]) / math.Log(b[0]/a[0])
	return a[1] * math.Pow(b[1]/a[1], x)
}

// A spring: the label is not the cracking pressure. Most open within a third of it, one in
// six at up to three or four times (a "1/2 lb" valve whose sheet says 2 psi). Once open K 3
// to 10 on its bore.
func drawSpring(d dice, psi float64) (cracking, k float64) {
	cracking = psi * d.nine(0.65, 1.5)
	if psi < 1 && d.in(0.15) {
		cracking = psi * d.even(2, 4)
	}
	return cracking, d.nine(3, 11)
}
