package twin

import (
	"fmt"
	"math"
)

// What tubs are like to somebody who goes the rounds and mends them: he has seen many makes, few
// of them as they left the factory, and thinks in what he mostly meets with a tail either way
// (triangular), and in kinds (a unit is a coil, a plate or a wide vessel; an elbow swept or tight).
// Written down before a tub was drawn with it and before any spread was looked at again; from
// memory of handbooks and fitters' notes, or common practice, no source.
//
// It differs from the other two in the shape of a pump's curve, which falls from its first drop
// on (a straight share of it besides the bend), in barbs by their own bore (Borda and a
// contraction on 0.78 to 0.92 of the hose), in pipe of which one in fifteen carries half a
// millimetre of lime, in filters that are mostly washed a while ago and now and then long ago, and
// in jets by a gauge at the heater. And in its tubs: a swim spa whose jet pump is teed into the
// heater pump's suction; a small pump whose ozone is in a side stream that a half-shut valve
// drives; a plunge pool with its pipe laid to a roof; tubs made for 50 mm pipe; a pump with a wet
// end of another maker under the old motor's label; diverters half turned between two banks.
const (
	swimSpa  family = "swim spa, three pumps"
	side     family = "small circulation, side stream"
	roof     family = "plunge pool, roof"
	imported family = "two-speed, 50 mm"
	wetEnd   family = "two-speed, other wet end"
	diverted family = "two-speed, diverter"
)

var rounds = &world{
	name:     "rounds",
	families: []family{small, swimSpa, side, roof, imported, wetEnd, diverted, plugIn},
	pump:     roundsPump,
	filter: func(d dice, sand bool, flow float64) (loss, float64) {
		since := func(mean, most float64) float64 { return min(1+mean*d.ExpFloat64(), most) } // when it was washed
		if sand {
			return loss{flow, d.peak(8, 18, 40), d.even(1.1, 1.8)}, since(0.2, 1.8)
		}
		return loss{flow, d.peak(1, 2.2, 6), d.even(1.2, 1.9)}, since(0.25, 2)
	},
	element:  func(d dice, flow float64) loss { return loss{flow, d.peak(0.7, 1.7, 4), d.even(1.8, 2)} },
	injector: func(d dice, flow float64) loss { return loss{flow, d.peak(2, 5, 13), 2} },
	field:    func(d dice) float64 { return d.even(0.9, 1.25) },
	unit: func(d dice, rated float64) (loss, float64) {
		drop := d.peak(3, 8, 16) // a coil
		switch kind := d.Float64(); {
		case kind < 0.2: // compact, or plates
			drop = d.peak(10, 18, 30)
		case kind < 0.3: // a tube in a wide vessel
			drop = d.peak(2, 4, 7)
		}
		return loss{rated, drop, d.peak(1.7, 1.9, 2)}, d.peak(0.92, 1.08, 1.35)
	},
	jets: roundsJets,
	pipe: roundsPipe,
	spring: func(d dice, psi float64) (float64, float64) {
		if psi < 1 && d.in(0.12) {
			return psi * d.even(2, 4), d.even(3, 12)
		}
		return psi * d.peak(0.55, 1, 1.7), d.even(3, 12)
	},
	elbowMake: func(d dice) float64 {
		if d.in(0.35) { // swept
			return d.even(0.35, 0.5)
		}
		return d.even(0.5, 0.9)
	},
	elbow:    func(d dice) float64 { return d.off(0.1) },
	joint:    func(d dice) float64 { return d.even(0.01, 0.12) },
	barb:     roundsBarb,
	entrance: func(d dice) float64 { return d.even(0.4, 0.9) },
	suction:  func(d dice) float64 { return d.peak(0.5, 1.3, 3) },
	tee:      func(d dice) float64 { return d.even(0.75, 1.35) },
	valve:    func(d dice) float64 { return d.nine(0.7, 1.45) },
	typed:    0.4,
}

// roundsPump draws a pump by the sizes it is sold in.
//
// 24 h pumps shut off at 2.2 to 4.3 m and run out at 1.6 to 4.6 m³/h; circulation pumps of 1.5 in
// at 5.5 to 9 and 7 to 14; two-speed pumps at high 10.5 to 18 and 17 to 38; pool pumps 9 to 17 and
// 11 to 26; the box of a plug-in tub 1.8 to 4.6 and 1.9 to 4.4. From wire to water 5 to 17 % of
// small ones, 20 to 42 of circulation pumps, 24 to 46 of large ones. In use 0.82 to 1.06 of the
// head and 0.93 to 1.03 of the flow. A wet end of another maker under the old motor makes 0.75 to
// 1.35 of the water power its label stands for; its own sheet was taken with its own motor.
func roundsPump(d dice, f family) pump {
	var shut, out, eta [3]float64
	switch f {
	case small, side:
		shut, out, eta = [3]float64{2.2, 3.2, 4.3}, [3]float64{1.6, 2.7, 4.6}, [3]float64{0.05, 0.09, 0.17}
	case swimSpa:
		shut, out, eta = [3]float64{5.5, 7, 9}, [3]float64{7, 10, 14}, [3]float64{0.2, 0.3, 0.42}
	case imported, wetEnd, diverted:
		shut, out, eta = [3]float64{10.5, 14, 18}, [3]float64{17, 26, 38}, [3]float64{0.24, 0.34, 0.46}
	case roof:
		shut, out, eta = [3]float64{9, 13, 17}, [3]float64{11, 17, 26}, [3]float64{0.24, 0.34, 0.46}
	default:
		shut, out, eta = [3]float64{1.8, 3, 4.6}, [3]float64{1.9, 3, 4.4}, [3]float64{0.05, 0.09, 0.17}
	}
	mostly := func(of [3]float64) float64 { return d.peak(of[0], of[1], of[2]) }
	c := curve{shut: mostly(shut), runOut: mostly(out), bend: d.even(1.8, 3), slope: d.even(0, 0.5)}
	_, water := c.best()
	p := pump{sheet: c, ratio: d.peak(0.47, 0.49, 0.51), wornH: d.peak(0.82, 0.96, 1.06), wornQ: d.peak(0.93, 0.98, 1.03)}
	watts := water / mostly(eta)
	if f == wetEnd {
		watts *= d.nine(0.75, 1.35)
		p.wornH *= d.off(0.05)
	}
	p.labelW = toStep(watts)
	return p
}

// roundsJets draws jets of a two-speed pump by the gauge at its heater: 0.42 to 0.88 of the head
// at the pump's best flow, 8 to 28 of them; the eyes of a return by the velocity in them, 0.8 to
// 3.5 m/s, of a pool 1.5 to 5.5.
func roundsJets(d dice, f family, c curve) jets {
	flow, _ := c.best()
	j := jets{k: d.even(0.9, 1.6)}
	eye := func(v float64) { j.bore = 1000 * math.Sqrt(4/math.Pi*flow/float64(j.count)*perHour/v) }
	switch f {
	case imported, wetEnd, diverted:
		j.count = d.count(8, 28)
		want := d.peak(0.42, 0.68, 0.88) * c.head(flow) / (flow * flow)
		j.bore = 1
		j.bore = min(54, math.Pow(j.square()/want, 0.25)) // no wider than the pipe behind it
	case roof:
		j.count = d.count(1, 4)
		eye(d.peak(1.5, 3.2, 5.5))
	default:
		j.count = d.count(1, 2)
		eye(d.peak(0.8, 1.8, 3.5))
	}
	j.bore = math.Round(2*j.bore) / 2
	return j
}

// roundsPipe draws pipe: walls anywhere in the tolerance, flexible PVC 10 to 40 % more than smooth
// pipe, corrugated hose 1.6 to 3.2 times; one old pipe in fifteen has half a millimetre of lime.
func roundsPipe(d dice, spec, size string, old, corrugated bool) pipe {
	p := drawPipe(d, spec, size, old, corrugated)
	switch {
	case corrugated:
		p.rough = ribbed(p.bore, d.even(1.6, 3.2))
	case len(spec) > 4 && spec[:4] == "flex":
		p.rough = ribbed(p.bore, d.even(1.1, 1.4))
	case spec == "hose":
		p.rough = d.nine(0.002, 0.05)
	}
	if old && d.in(1./15) {
		p.bore -= 2 * d.even(0.3, 0.8)
		p.rough = max(p.rough, d.even(0.05, 0.2))
	}
	return p
}

// roundsBarb is K of a barb on the bore of its hose: into 0.78 to 0.92 of it, and out again.
func roundsBarb(d dice) float64 {
	b := d.even(0.78, 0.92)
	b *= b // areas
	return 0.5*(1-b)/(b*b) + (1/b-1)*(1/b-1)
}

// line writes what is common to his lines: a run of pipe between two ports.
func (t *tub) line(w way, from, to, of string, length float64, elbows int) {
	w.from, w.to, w.of, w.length, w.elbows = from, to, of, math.Round(length), elbows
	if w.spec == "hose" && length > 0 {
		w.ends = 2
	}
	t.pipe(w)
}

// swimSpaLine is a circulation pump with the heater, long runs, and two jet pumps: the second is
// teed into the suction of the first, the third has a suction of its own.
func (t *tub) swimSpaLine(p pump) {
	d := t.d
	flow, _ := p.sheet.best()
	w, bore := way{spec: "pvc-sch40", size: "2 in"}, 52.0
	if d.in(0.5) {
		w, bore = way{spec: "pvc-pn10", size: "63 mm"}, 56
	}
	tubPart(t, `["skimmer", "return", "river", "wall", "third"]`)
	t.teePart("st", old)
	filter, dirt := t.drawFilter(false, flow)
	t.lossPart("filter", "filter", old, filter, dirt, "")
	t.pumpPart(p, "circulation-pump-1.5in")
	t.lossPart("element", "element-heater", old, t.w.element(d, flow), t.w.field(d), "")
	t.line(w, "tub.skimmer", "filter.in", old, d.nine(800, 3000), d.count(1, 4))
	t.line(w, "filter.out", "st.run-in", old, d.nine(300, 1500), d.count(0, 2))
	t.line(w, "st.run-out", "pump.in", old, d.nine(300, 1500), d.count(0, 2))
	t.line(w, "pump.out", "element.in", old, d.nine(500, 2500), d.count(1, 3))
	t.jetsPart(t.w.jets(d, swimSpa, p.sheet), "pool-inlet")
	length, elbows := d.nine(2500, 7000), d.count(2, 6)
	t.line(w, "element.out", "jets.in", removed, length, elbows)
	t.throttle(bore)
	t.last = "element.out"
	t.assembly(w, way{spec: w.spec, size: w.size}, []float64{4.1, 5.8}[d.IntN(2)], bore)
	t.line(w, "t2.run-out", "jets.in", newWork, length*d.even(0.5, 0.9), elbows)
	t.line(w, "jets.out", "tub.return", old, 0, 0)
	for _, n := range []string{"two", "three"} {
		jet := t.w.pump(d, imported)
		known := t.sheet()
		is := fmt.Sprintf("loss = { k = %.3f, bore = \"%g mm\" }\ncurve = %s\n", d.even(4, 25), bore, curveText(jet.real(1), 24))
		survey := fmt.Sprintf("type = \"jet-pump\"\npower = \"%g W\"\n", jet.labelW)
		if known {
			survey = fmt.Sprintf("known = \"data-sheet\"\ncurve = %s\n", curveText(jet.sheet, 6))
		}
		t.part(n, "pump", old, is, survey)
		j := t.w.jets(d, imported, jet.sheet)
		t.jetsNamed("jets-"+n, j, "")
		port := "river"
		if n == "two" {
			t.line(w, "st.branch", "two.in", old, d.nine(300, 1500), d.count(0, 2))
		} else {
			t.line(w, "tub.third", "three.in", old, d.nine(500, 2000), d.count(1, 3))
			port = "wall"
		}
		t.line(w, n+".out", "jets-"+n+".in", old, d.nine(1000, 4000), d.count(2, 5))
		t.line(w, "jets-"+n+".out", "tub."+port, old, 0, 0)
	}
	modes := "\n[[mode]]\nname = \"on\"\nspeeds = { pump = \"on\" }\n\n[[mode]]\nname = \"swim\"\nspeeds = { pump = \"on\", two = \"on\", three = \"on\" }\n"
	t.is.WriteString(modes)
	t.survey.WriteString(modes)
}

// sideLine is a small circulation pump on hose whose ozone injector, in half of them a lamp, is
// in a side stream round a hand valve that stands part shut.
func (t *tub) sideLine(p pump) {
	d := t.d
	flow, _ := p.sheet.best()
	w, bore := way{spec: "hose", size: "1 in"}, 25.0
	if d.in(0.3) {
		w, bore = way{spec: "hose", size: "3/4 in"}, 19
	}
	tubPart(t, `["well", "return"]`)
	filter, dirt := t.drawFilter(false, flow)
	t.lossPart("filter", "filter", old, filter, dirt, "")
	t.pumpPart(p, "circulation-pump-24h")
	t.lossPart("element", "element-heater", old, t.w.element(d, flow), t.w.field(d), "")
	t.teePart("o1", old)
	t.teePart("o2", old)
	t.line(w, "tub.well", "filter.in", old, 0, 0)
	t.line(w, "filter.out", "pump.in", old, d.nine(500, 2000), d.count(0, 2))
	t.line(w, "pump.out", "element.in", old, d.nine(300, 1500), d.count(0, 2))
	part := flow * d.even(0.2, 0.5)
	if d.in(0.5) {
		t.lossPart("ozone", "ozone-injector", old, t.w.injector(d, part), t.w.field(d), "")
	} else {
		t.lossPart("ozone", "uv-chamber", old, loss{part, d.peak(0.3, 1.2, 4), d.even(1.8, 2)}, t.w.field(d), "")
	}
	t.valveOf(old, "drive", "ball-valve", bore, math.Round(100*d.even(0.45, 0.8))/100)
	length, elbows := d.nine(800, 3000), d.count(1, 3)
	t.line(w, "element.out", "o1.run-in", removed, length, elbows)
	t.line(w, "o1.run-out", "drive.in", old, 120, 0)
	t.line(w, "drive.out", "o2.run-in", old, 120, 0)
	t.line(w, "o1.branch", "ozone.in", old, d.nine(200, 800), d.count(0, 2))
	t.line(w, "ozone.out", "o2.branch", old, d.nine(200, 800), d.count(0, 2))
	t.jetsPart(t.w.jets(d, small, p.sheet), "pool-inlet")
	t.line(w, "o2.run-out", "jets.in", old, d.nine(400, 1500), d.count(0, 2))
	t.line(w, "jets.out", "tub.return", old, 0, 0)
	t.throttle(bore)
	t.last = "element.out"
	t.assembly(w, way{spec: "hose", size: "1 in"}, 1.7, bore)
	t.line(w, "t2.run-out", "o1.run-in", newWork, length*d.even(0.4, 0.8), elbows)
}

// roofLine is a plunge pool: a pool pump, sand, and the unit on a roof at the end of a long pair
// of pipes, each with many elbows.
func (t *tub) roofLine(p pump) {
	d := t.d
	flow, _ := p.sheet.best()
	w, bore := way{spec: "pvc-pn10", size: "50 mm"}, 45.0
	if d.in(0.5) {
		w, bore = way{spec: "pvc-pn10", size: "63 mm"}, 56
	}
	tubPart(t, `["skimmer", "return"]`)
	filter, dirt := t.drawFilter(true, flow)
	t.lossPart("filter", "filter", old, filter, dirt, "media = \"sand\"\n")
	t.pumpPart(p, "pool-pump")
	t.line(w, "tub.skimmer", "pump.in", old, d.nine(2000, 9000), d.count(2, 5))
	t.line(w, "pump.out", "filter.in", old, d.nine(400, 1500), d.count(1, 3))
	t.jetsPart(t.w.jets(d, roof, p.sheet), "pool-inlet")
	length, elbows := d.nine(3000, 12000), d.count(3, 8)
	t.line(w, "filter.out", "jets.in", removed, length, elbows)
	t.throttle(bore)
	t.last = "filter.out"
	t.far = true
	t.assembly(w, w, []float64{4.1, 5.8}[d.IntN(2)], bore)
	t.line(w, "t2.run-out", "jets.in", newWork, length*d.even(0.6, 0.95), elbows)
	t.line(w, "jets.out", "tub.return", old, 0, 0)
}

// windowK is K of a diverter's way on its bore at a share of its turn: a sleeve with a window
// whose area goes with the turn, 0.65 of it the jet (Borda), and what its body costs.
func windowK(body, open float64) float64 {
	loss := 1/(0.65*open) - 1
	return body + loss*loss
}

// divertedLine is a two-speed pump with two banks of jets on a diverter that stands between them.
func (t *tub) divertedLine(p pump) {
	d := t.d
	flow, _ := p.sheet.best()
	flow /= 2
	w, bore := way{spec: "pvc-sch40", size: "2 in"}, 52.0
	if d.in(0.5) {
		w.spec = "flex-inch"
	}
	tubPart(t, `["skimmer", "footwell", "return", "seats"]`)
	t.teePart("st", old)
	filter, dirt := t.drawFilter(false, flow)
	t.lossPart("filter", "filter", old, filter, dirt, "")
	t.pumpPart(p, t.kindOf(p))
	t.lossPart("element", "element-heater", old, t.w.element(d, flow), t.w.field(d), "")
	t.line(w, "tub.skimmer", "filter.in", old, d.nine(300, 1500), d.count(1, 3))
	t.line(w, "filter.out", "st.run-in", old, d.nine(200, 800), d.count(0, 1))
	t.line(w, "tub.footwell", "st.branch", old, d.nine(500, 2500), d.count(1, 3))
	t.line(w, "st.run-out", "pump.in", old, d.nine(400, 1500), d.count(0, 2))
	t.line(w, "pump.out", "element.in", old, d.nine(300, 1500), d.count(1, 3))
	j := t.w.jets(d, diverted, p.sheet)
	a, b := j, j
	a.count = max(1, j.count*d.count(35, 65)/100)
	b.count = max(1, j.count-a.count)
	t.jetsNamed("jets", a, "")
	t.jetsNamed("seats", b, "")
	body, turned := d.even(0.7, 2.5), d.even(0.3, 1) // one way all open, the other part of its turn
	off := t.by.handle * 2 * d.NormFloat64()         // an arrow on a knob
	full := windowK(body, 1)
	share := math.Sqrt(full / windowK(body, min(1, max(0.15, turned+off))))
	is := fmt.Sprintf("ports = [\"in\", \"a\", \"b\"]\nloss = { k = %.4f, bore = \"%g mm\" }\nways = { b = \"%.3f %%\" }\n", full, bore, 100*share)
	t.part("div", "diverter-valve", old, is, fmt.Sprintf("ports = [\"in\", \"a\", \"b\"]\nways = { b = \"%.0f %%\" }\n", 10*math.Round(10*turned)))
	length, elbows := d.nine(1000, 4000), d.count(2, 5)
	t.line(w, "element.out", "div.in", removed, length, elbows)
	t.springBypass(bore)
	t.last = "element.out"
	t.assembly(w, way{spec: w.spec, size: "1 1/2 in"}, []float64{3.1, 4.1}[d.IntN(2)], bore*0.79)
	t.line(w, "t2.run-out", "div.in", newWork, length*d.even(0.5, 0.9), elbows)
	t.line(w, "div.a", "jets.in", old, d.nine(500, 2000), d.count(0, 3))
	t.line(w, "div.b", "seats.in", old, d.nine(500, 2500), d.count(1, 3))
	t.line(w, "jets.out", "tub.return", old, 0, 0)
	t.line(w, "seats.out", "tub.seats", old, 0, 0)
}
