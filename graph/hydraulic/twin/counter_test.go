package twin

import (
	"fmt"
	"math"
)

// The fifth maker stands at the counter of a merchant of spare parts: he knows a tub by what is brought
// back to him and by the printed data of what he sells instead. All of it was written down before a tub
// was drawn with it, and before the rows and spreads of the catalogue or the other makers' numbers were
// looked at; from memory where a handbook is named, common practice without a source where none is.
const (
	cLong   family = "cabinet line"      // a 24 h pump, hose on barbs right round the cabinet
	cLamp   family = "cabinet line, UV"  // the same with a lamp, and its ozone in a loop beside the line
	cBarrel family = "barrel pump"       // a 1.5 in circulation pump, two eyes on a branching line
	cPair   family = "two cartridges"    // two-speed, two filters side by side, three banks on tees
	cPool   family = "pool with a house" // a sand filter behind its multiport valve, the unit above it
	cBox    family = "box at the wall"   // plug-in, ribbed hose
)

var counter = &world{
	name: "counter", families: []family{cLong, cLamp, cBarrel, cPair, cPool, cBox},
	pump: counterPump, line: counterLine,
	// What a part in use costs to its sheet: scale and what the sheet's bench left out, never less.
	field: func(d dice) float64 { return d.even(1, 1.3) },
	// A unit's sheet: 4 to 22 kPa at its rated flow (coil in shell 5 to 15, plates more); in use 0.95 to 1.3
	// of it, for its unions and the film on the titanium.
	unit: func(d dice, rated float64) (loss, float64) {
		return loss{rated, d.nine(4, 22), d.even(1.75, 2)}, d.nine(0.95, 1.3)
	},
	// Three books give an elbow: Hooper's 2-K for screwed and cemented ones, 0.40·(1+25.4/D): 0.6 to 0.65;
	// Crane's 30 fT: 0.57 to 0.63; and benches that measured moulded PVC with its sharp inside: 0.75 to 1.1.
	elbowMake: func(d dice) float64 {
		return []float64{d.even(0.58, 0.68), d.even(0.55, 0.65), d.even(0.75, 1.1)}[d.IntN(3)]
	},
	elbow: func(d dice) float64 { return d.off(0.1) },
	// A joint has its gap, and one cut in six a burr or a bead of cement nobody sees.
	joint: func(d dice) float64 {
		k := d.nine(0.01, 0.08)
		if d.in(1.0 / 6) {
			k += d.nine(0.08, 0.4)
		}
		return k
	},
	// A barb is 0.76 to 0.9 as wide as its hose: a mouth with its edge (0.2 to 0.5 of the sharp one's loss) and
	// a step out of which 0.5 to 1 of Borda's is lost.
	barb: func(d dice) float64 {
		b := d.even(0.76, 0.9)
		step := 1/(b*b) - 1
		return d.even(0.2, 0.5)*(1-b*b)/math.Pow(b, 4) + d.even(0.5, 1)*step*step
	},
	entrance: func(d dice) float64 { return d.even(0.3, 0.8) },
	suction:  func(d dice) float64 { return d.nine(0.4, 2.5) }, // a cover by ASME's tests, 1 to 3 on its pipe
	// Miller's, Idelchik's and Crane's tees lie so far from one another.
	tee: func(d dice) float64 { return d.nine(0.65, 1.5) },
	// The spring: a third off, and of the weakest one in ten opens at two to four times its label. Kv of
	// 2 in plastic checks is 35 to 75 m³/h: K 2.2 to 10.
	spring: func(d dice, psi float64) (float64, float64) {
		cracking := psi * d.nine(0.7, 1.6)
		if psi < 1 && d.in(0.1) {
			cracking = psi * d.even(2, 4)
		}
		return cracking, d.nine(2.2, 10)
	},
}

// counterCareful comes with a tape and a calliper: old lengths to the half foot, a seventh off where
// foam hides them, hose taped straight though it hangs slack; of the runs with elbows one in six has one
// counted too few and one in twelve one too many; a handle is set by eye, five in a hundred of its turn.
// With every sheet at hand he also writes what he measured inside the pipe, to half a millimetre.
//
// What is asked of both is what was met once the catalogue had been mended for reasons of its own (doc.go): less
// than of the others, for two thirds of his ball valves open two to five times as easily as the cock that
// stands in the table of openings.
var counterCareful = surveyor{name: "counter, careful", paced: 0.14, taped: 0.02, step: 152.4, missed: 1.0 / 6, over: 1.0 / 12,
	handle: 0.045, sheet: 0.05, shaft: 0.12, grime: 1, bores: 0.5, boreOff: 0.5, leans: true, least: 80}

// counterHurried does it from the lorry: a fifth off, one elbow in four too few, a nominal size written
// as the bore in one run of ten, the jets miscounted now and then, labels of the shaft more often.
var counterHurried = surveyor{name: "counter, hurried", paced: 0.18, short: 0.04, taped: 0.03, step: 304.8, missed: 0.25, over: 0.1,
	handle: 0.055, sheet: 0.07, shaft: 0.2, miscount: 0.15, grime: 1.1, bores: 0.3, boreOff: 0.7, nominal: 0.1, leans: true, least: 77}

// counterPump draws a pump by its kind's printed data.
//
// 24 h: wet rotors of 40 to 100 W that shut off at 2.2 to 4.5 m and run out at 2.5 to 5.5 m³/h, 6 to 16 %
// from wire to water. 1.5 in, 48 frame: 5.5 to 8.5 m, 9 to 15 m³/h, 17 to 33 %. Two speeds, 56 frame: 12
// to 17.5 m, 24 to 40 m³/h, 28 to 45 %. Pools: 10 to 17 m, 13 to 26 m³/h, 28 to 45 %. Boxes: 1.8 to 4.5 m,
// 1.8 to 3.6 m³/h, 6 to 15 %. A pump sold is within ISO 9906 grade 3 of its sheet, 9 % of flow and 7 % of
// head, and wears from there.
func counterPump(d dice, f family) pump {
	draw := map[family][6]float64{
		cLong: {2.2, 4.5, 2.5, 5.5, 0.06, 0.16}, cLamp: {2.2, 4.5, 2.5, 5.5, 0.06, 0.16},
		cBarrel: {5.5, 8.5, 9, 15, 0.17, 0.33}, cPair: {12, 17.5, 24, 40, 0.28, 0.45},
		cPool: {10, 17, 13, 26, 0.28, 0.45}, cBox: {1.8, 4.5, 1.8, 3.6, 0.06, 0.15},
	}[f]
	c := curve{shut: d.nine(draw[0], draw[1]), runOut: d.nine(draw[2], draw[3]), bend: d.even(1.5, 2.3), slope: d.even(0, 0.35)}
	_, water := c.best()
	return pump{sheet: c, labelW: water / d.nine(draw[4], draw[5]), ratio: d.even(0.48, 0.512),
		wornH: d.peak(0.85, 0.97, 1.06), wornQ: d.peak(0.91, 0.98, 1.05)}
}

// counterRead is the watts he reads: of the shaft, amps times volts with a power factor of 0.75 to 0.95
// in one label of eight, else what it draws.
func (t *tub) counterRead(w float64) float64 {
	switch x := t.d.Float64(); {
	case x < t.by.shaft:
		return toStep(w * t.d.even(0.6, 0.8))
	case x < t.by.shaft+0.125:
		return toStep(w / t.d.even(0.75, 0.95))
	}
	return toStep(w)
}

// counterPumpPart writes the pump. At its low speed a pump loses a little more than the laws of affinity
// say, for its water is the thicker by comparison: 0.94 to 1 of the head. A sheet is read at five points.
func (t *tub) counterPumpPart(p pump, kind string) {
	watts, known := t.counterRead(p.labelW), t.sheet()
	if t.family == cPair {
		low := p.real(p.ratio)
		low.shut *= t.d.even(0.94, 1)
		is := fmt.Sprintf("speeds = [\n{ name = \"low\", curve = %s },\n{ name = \"high\", curve = %s },\n]\n", curveText(low, 24), curveText(p.real(1), 24))
		least := ""
		if t.d.in(0.5) {
			least = fmt.Sprintf(", power = \"%g W\"", toStep(watts*t.d.even(0.15, 0.24)))
		}
		survey := fmt.Sprintf("type = %q\nspeeds = [{ name = \"low\"%s }, { name = \"high\", power = \"%g W\" }]\n", kind, least, watts)
		if known {
			survey = fmt.Sprintf("known = \"data-sheet\"\nspeeds = [\n{ name = \"low\", ratio = 0.5 },\n{ name = \"high\", power = \"%g W\", curve = %s },\n]\n", watts, curveText(p.sheet, 4))
		}
		t.part("pump", "pump", old, is, survey)
		t.modes = []string{"low", "high"}
		return
	}
	survey := fmt.Sprintf("type = %q\npower = \"%g W\"\n", kind, watts)
	if known {
		survey = fmt.Sprintf("known = \"data-sheet\"\npower = \"%g W\"\ncurve = %s\n", watts, curveText(p.sheet, 4))
	}
	t.part("pump", "pump", old, fmt.Sprintf("curve = %s\n", curveText(p.real(1), 24)), survey)
}

// counterFilter writes a filter. Paper: 0.8 to 4.5 kPa clean at the flow it was chosen for, power 1.1 to
// 1.8 (the pleats are slow, the core and the lid are not); between two cleans 1 to 2.5 times that, and one
// in six is scaled so that cleaning brings 1.5 to 3 times at best. Sand behind its multiport valve: 7 to
// 25 kPa, power 1.2 to 1.7, 1 to 1.8 in use.
func (t *tub) counterFilter(id string, flow float64) {
	d := t.d
	sheet, dirt, extra, row := loss{flow, d.nine(0.8, 4.5), d.even(1.1, 1.8)}, d.even(1, 2.5), "", ""
	if d.in(1.0 / 6) {
		dirt = d.even(1.5, 3)
	}
	if t.family == cPool {
		sheet, dirt = loss{flow, d.nine(7, 25), d.even(1.2, 1.7)}, d.even(1, 1.8)
		extra, row = "media = \"sand\"\n", "type = \"sand-filter\"\n"
	}
	survey := extra + row
	if t.sheet() {
		survey = extra + "known = \"data-sheet\"\n" + onePoint(sheet.times(t.sheetOff()))
	}
	t.part(id, "filter", old, extra+lossText(sheet.times(dirt*t.by.grime)), survey)
}

// counterBore is what a pipe is like inside, mm. Rigid pipe by its standard's outside and wall (ASTM D1785:
// 1-1/2 in 48.26 less twice 3.68 to 4.19, 2 in 60.33 less twice 3.91 to 4.42; EN ISO 1452 PN 10: 50 mm twice
// 2.4 to 2.9, 63 mm twice 3.0 to 3.5). Flexible pipe is wound: 1-1/2 in 38.5 to 41 mm and ribs that cost a tenth
// to a third more, 2 in 49.5 to 52. Hose: 2 % of its name, a little flat where it hangs over an edge;
// ribbed hose costs 1.6 to 3.8 times a smooth one. More friction is written as a narrower bore.
func (t *tub) counterBore(w way, isOld bool) (p pipe, nominal, across float64) {
	d := t.d
	more := 1.0
	switch w.spec + " " + w.size {
	case "pvc-sch40 1 1/2 in":
		p.bore, nominal = 48.26-2*d.even(3.68, 4.19), 38.1
	case "pvc-sch40 2 in":
		p.bore, nominal = 60.33-2*d.even(3.91, 4.42), 50.8
	case "pvc-pn10 50 mm":
		p.bore, nominal = d.even(50, 50.2)-2*d.even(2.4, 2.9), 45
	case "pvc-pn10 63 mm":
		p.bore, nominal = d.even(63, 63.3)-2*d.even(3, 3.5), 57
	case "flex-inch 1 1/2 in":
		p.bore, nominal, more = d.even(38.5, 41), 38.1, d.even(1.1, 1.35)
	case "flex-inch 2 in":
		p.bore, nominal, more = d.even(49.5, 52), 50.8, d.even(1.1, 1.35)
	default: // hose
		nominal = map[string]float64{"3/4 in": 19.05, "1 in": 25.4, "32 mm": 32, "38 mm": 38}[w.size]
		p.bore = nominal * d.off(0.02) * d.even(0.97, 1)
		if w.corrugated {
			more = d.nine(1.6, 3.8)
		}
	}
	across = p.bore
	p.bore *= math.Pow(more, -1/4.75)
	p.rough = 0.0015
	if isOld {
		p.rough = d.nine(0.003, 0.06) // film and scale: 150 to 140 by Hazen and Williams
	}
	return p, nominal, across
}

// counterRun lays a run and surveys it.
func (t *tub) counterRun(w way) {
	d := t.d
	t.runs++
	id := fmt.Sprintf("r%d", t.runs)
	if w.from == "" {
		w.from = t.last
	}
	if w.spec == "hose" && w.length > 0 {
		w.ends = 2
	}
	isOld := w.of != newWork
	p, nominal, bore := t.counterBore(w, isOld)
	k := w.extra
	var each []float64
	for range w.elbows {
		each = append(each, t.elbow*t.w.elbow(d))
		k += each[len(each)-1]
	}
	if w.length > 0 && w.spec != "hose" {
		joints := 0.0
		for range 2 + int(w.length/2000) {
			joints += t.w.joint(d)
		}
		t.told.joints(isOld, joints, false)
		k += joints
	}
	for range w.ends {
		k += t.told.barb(isOld, t.w.barb(d))
	}
	if len(w.from) > 4 && w.from[:4] == "tub." {
		k += t.told.cover(t.w.entrance(d) + t.w.suction(d))
	}
	if len(w.to) > 4 && w.to[:4] == "tub." && w.length > 0 {
		k++
	}
	t.k[id] = k * math.Pow(p.bore/bore, 4) // K is of the true bore
	head := fmt.Sprintf("\n[[run]]\nid = %q\nfrom = %q\nto = %q\nspec = %q\nsize = %q\n%s", id, w.from, w.to, w.spec, w.size, w.of)
	fmt.Fprintf(&t.is, "%slength = \"%.1f mm\"\nbore = \"%.4f mm\"\nroughness = \"%.5f mm\"\n", head, max(w.length, 1), p.bore, p.rough)
	if w.corrugated {
		head = fmt.Sprintf("\n[[run]]\nid = %q\nfrom = %q\nto = %q\nspec = %q\nsize = %q\n%s", id, w.from, w.to, "hose-corrugated", w.size, w.of)
	}
	said, known, elbows := w.length, "", w.elbows
	switch {
	case w.length == 0:
	case !isOld:
		said, known = math.Round(said*d.off(t.by.taped)/10)*10, "known = \"measured\"\n"
	default:
		if w.spec == "hose" {
			said /= d.even(1, 1.1)
		}
		off, step := t.by.paced, t.by.step
		if t.level == all {
			off, step, known = t.by.taped, 152.4, "known = \"measured\"\n"
			if said < 1000 {
				step = 50
			}
		}
		said = max(step, math.Round(said*(1-t.by.short)*d.off(off)/step)*step)
		if elbows > 0 && d.in(t.by.missed) {
			elbows--
		} else if elbows > 0 && d.in(t.by.over) {
			elbows++
		}
	}
	t.told.elbows(id, each, elbows)
	t.told.know("bore of "+id, bore)
	fmt.Fprintf(&t.survey, "%slength = \"%.0f mm\"\n%s", head, said, known)
	switch {
	case w.corrugated || w.length == 0 || !isOld:
	case d.in(t.by.nominal):
		fmt.Fprintf(&t.survey, "bore = \"%.1f mm\"\n", nominal)
	case t.level == all && d.in(t.by.bores):
		fmt.Fprintf(&t.survey, "bore = \"%.1f mm\"\n", bore+t.by.boreOff*d.NormFloat64())
	}
	if elbows > 0 {
		fmt.Fprintf(&t.survey, "fittings = { elbow-90 = %d }\n", elbows)
	}
	for i := range w.to {
		if w.to[i:] == ".in" {
			t.last = w.to[:i] + ".out"
		}
	}
}

// counterBall is K of a ball valve: of a cock by Perry in one of three (20° shut 1.56, 40° 17.3, 60° 206),
// half of that in another (Miller's ball), and in the third by the Kv a maker of plastic valves prints
// (of its Kv fully open 6 % at three tenths of its way, 12, 20, 31, 45, 65 and 85 % at each tenth more).
func (t *tub) counterBall(book int, open float64) float64 {
	if book < 2 {
		return valveK("ball-valve", open) / float64(1+book) * t.d.off(0.12)
	}
	kv := []float64{0.005, 0.01, 0.025, 0.06, 0.12, 0.2, 0.31, 0.45, 0.65, 0.85, 1}
	i := min(9, int(open*10))
	share := kv[i] * math.Pow(kv[i+1]/kv[i], open*10-float64(i))
	return t.d.nine(0.15, 0.6) / (share * share)
}

// counterValve writes a ball valve of the new work, set by eye to a share open.
func (t *tub) counterValve(id string, bore, open float64) {
	d := t.d
	if open == 1 {
		t.part(id, "ball-valve", newWork, fmt.Sprintf("loss = { k = %.4f, bore = \"%.1f mm\" }\n", d.nine(0.1, 0.6), bore), "")
		return
	}
	at := min(0.97, max(0.26, open+t.by.handle*d.NormFloat64()))
	k := t.counterBall(d.IntN(3), at)
	t.told.valve(id, at-open, k/valveK("ball-valve", at))
	t.part(id, "ball-valve", newWork, fmt.Sprintf("loss = { k = %.5f, bore = \"%.1f mm\" }\n", k, bore), fmt.Sprintf("position = \"%.0f %%\"\n", 100*open))
}

// counterJets writes count jets of a share of the pump's head: by a gauge in the nozzle, by the sheet of a
// jet, or counted. Of jets on hoses 5 to 25 % of their loss is the hose's and no sheet's.
func (t *tub) counterJets(id string, j jets, kind string, onHoses bool) {
	d := t.d
	own := j
	if onHoses {
		own.bore *= math.Pow(1+d.nine(0.05, 0.25), 0.25)
	}
	counted := j.count
	if t.by.miscount > 0 && counted > 4 && d.in(t.by.miscount) {
		counted--
	}
	survey := fmt.Sprintf("count = %d\n", counted)
	if kind != "" {
		survey += fmt.Sprintf("type = %q\n", kind)
	}
	if t.sheet() {
		if d.in(0.5) {
			survey += fmt.Sprintf("known = \"data-sheet\"\nbore = \"%.1f mm\"\n", own.bore+0.3*d.NormFloat64())
		} else {
			own.count = 1
			survey += fmt.Sprintf("known = \"data-sheet\"\nrated = { flow = \"%.4g m3/h\", drop = \"%.4g kPa\" }\n", math.Sqrt(8/own.square()), 8*9.74*t.sheetOff()*t.sheetOff())
		}
	}
	t.part(id, "jet-group", old, fmt.Sprintf("count = %d\nbore = \"%g mm\"\nk = %.4f\n", j.count, j.bore, j.k), survey)
}

func counterNozzles(d dice, count int, share float64, c curve) jets {
	flow, _ := c.best()
	j := jets{count: count, bore: 1, k: d.nine(0.9, 1.6)}
	j.bore = min(54, math.Round(2*math.Pow(j.square()/(share*c.head(flow)/(flow*flow)), 0.25))/2) // no wider than the pipe behind it
	return j
}

// counterWork writes the new work: tees, bypass, valves, the unit, and pipe to where it stands, on a deck
// or on the ground, 2 to 14 m each way.
func (t *tub) counterWork(line, unit way, rated, unitBore float64) {
	d := t.d
	lay := func(w way, from, to string, length float64, elbows int, extra float64) {
		w.of, w.from, w.to, w.length, w.elbows, w.extra = newWork, from, to, math.Round(length), elbows, extra
		t.counterRun(w)
	}
	t.teePart("t1", newWork)
	t.teePart("t2", newWork)
	lay(line, t.last, "t1.run-in", d.even(100, 500), 0, 0)
	lay(line, "t1.run-out", "bypass.in", d.even(80, 200), 0, 0)
	lay(line, "bypass.out", "t2.run-in", d.even(80, 200), 0, 0)
	t.counterValve("v1", unitBore, 1)
	t.counterValve("v2", unitBore, 1)
	t.unitPart(rated)
	each, elbows := d.nine(2000, 14000), d.count(3, 8)
	lay(unit, "t1.branch", "v1.in", d.even(80, 250), 0, 0)
	lay(unit, "v1.out", "unit.in", each, elbows, d.nine(0.05, 0.4))
	lay(unit, "unit.out", "v2.in", each*d.even(0.85, 1.15), elbows, d.nine(0.05, 0.4))
	lay(unit, "v2.out", "t2.branch", d.even(80, 250), 0, 0)
	t.last = "t2.run-out"
}

// counterThrottle is the valve in the bypass of one speed: shut in a third, else 0.35 to 0.7 open.
func (t *tub) counterThrottle(bore float64) {
	if t.d.in(1.0 / 3) {
		t.part("bypass", "ball-valve", newWork, "position = \"shut\"\n", "position = \"shut\"\n")
		return
	}
	t.counterValve("bypass", bore, math.Round(20*t.d.even(0.35, 0.7))/20)
}

// counterLine lays a tub.
func counterLine(t *tub, p pump) {
	d := t.d
	flow, _ := p.sheet.best()
	var w, unit way
	bore, unitBore := 40.0, 40.0
	switch t.family {
	case cLong, cLamp:
		w = way{spec: "hose", size: []string{"3/4 in", "1 in"}[d.IntN(2)]}
		unit = way{spec: "hose", size: "1 in"}
		bore, unitBore = map[string]float64{"3/4 in": 19, "1 in": 25}[w.size], 25
	case cBox:
		w = way{spec: "hose", size: []string{"32 mm", "38 mm"}[d.IntN(2)], corrugated: d.in(0.7)}
		unit = w
		unit.corrugated = false
		bore = map[string]float64{"32 mm": 27, "38 mm": 35}[w.size]
		unitBore = bore
	case cBarrel:
		w = []way{{spec: "pvc-sch40", size: "1 1/2 in"}, {spec: "flex-inch", size: "1 1/2 in"}, {spec: "pvc-pn10", size: "50 mm"}}[d.IntN(3)]
		unit = w
	default:
		w = []way{{spec: "pvc-sch40", size: "2 in"}, {spec: "flex-inch", size: "2 in"}, {spec: "pvc-pn10", size: "63 mm"}}[d.IntN(3)]
		unit = w
		unit.size = map[string]string{"2 in": "1 1/2 in", "63 mm": "50 mm"}[w.size]
		bore = 51
	}
	w.of = old
	run, touch := t.counterLays(w)
	switch t.family {
	case cLong, cLamp:
		tubPart(t, `["well", "return"]`)
		t.counterFilter("filter", flow)
		t.counterPumpPart(p, "circulation-pump-24h")
		touch("tub.well", "filter.in")
		run("filter.out", "pump.in", 600, 2500, 2)
		t.counterElement(flow, "element-heater-low-flow")
		run("pump.out", "element.in", 500, 3000, 2)
	case cBarrel:
		tubPart(t, `["skimmer", "return", "return2"]`)
		t.counterFilter("filter", flow)
		t.counterPumpPart(p, "circulation-pump-1.5in")
		run("tub.skimmer", "filter.in", 300, 1500, 3)
		run("filter.out", "pump.in", 400, 1500, 2)
		t.counterElement(flow, "")
		run("pump.out", "element.in", 300, 1500, 3)
	case cPair:
		flow /= 2
		tubPart(t, `["skimmer", "skimmer2", "return", "seats", "feet"]`)
		t.counterFilter("filter", flow/2)
		t.counterFilter("filter2", flow/2)
		t.teePart("st", old)
		t.counterPumpPart(p, "two-speed-pump")
		run("tub.skimmer", "filter.in", 200, 800, 1)
		run("filter.out", "st.run-in", 300, 1500, 2)
		run("tub.skimmer2", "filter2.in", 200, 800, 1)
		run("filter2.out", "st.branch", 300, 2000, 3)
		run("st.run-out", "pump.in", 200, 1000, 2)
		t.counterElement(flow, "")
		run("pump.out", "element.in", 300, 1500, 3)
	case cPool:
		tubPart(t, `["skimmer", "return", "return2"]`)
		t.counterFilter("filter", flow)
		t.counterPumpPart(p, "pool-pump")
		run("tub.skimmer", "pump.in", 2000, 8000, 5)
		run("pump.out", "filter.in", 400, 1500, 4)
	default:
		tubPart(t, `["suction", "return"]`)
		t.counterFilter("filter", flow)
		t.counterPumpPart(p, "plug-in-pump")
		run("tub.suction", "filter.in", 600, 2200, 1)
		touch("filter.out", "pump.in")
		t.counterElement(flow, "")
		touch("pump.out", "element.in")
	}
	t.counterReturn(p, w, unit, bore, unitBore)
}

// counterElement writes the barrel: 0.7 to 3.2 kPa at the flow it was made for.
func (t *tub) counterElement(flow float64, row string) {
	sheet, survey := loss{flow, t.d.nine(0.7, 3.2), t.d.even(1.8, 2)}, ""
	if row != "" {
		survey = fmt.Sprintf("type = %q\n", row)
	}
	if t.sheet() {
		survey = "known = \"data-sheet\"\n" + onePoint(sheet.times(t.sheetOff()))
	}
	t.part("element", "element-heater", old, lossText(sheet.times(t.w.field(t.d))), survey)
}

// counterLays returns what lays a run of a pipe, its length between two and its elbows up to a count, and
// what joins two parts that touch.
func (t *tub) counterLays(w way) (run func(from, to string, low, high float64, most int), touch func(from, to string)) {
	lay := func(from, to string, length float64, elbows int) {
		x := w
		x.from, x.to, x.length, x.elbows = from, to, length, elbows
		t.counterRun(x)
	}
	run = func(from, to string, low, high float64, most int) {
		lay(from, to, math.Round(t.d.nine(low, high)), t.d.count(0, most))
	}
	return run, func(from, to string) { lay(from, to, w.length, w.elbows) }
}

// counterReturn lays what comes after the heater or the filter: the line that is cut, the new work, and the
// way home.
func (t *tub) counterReturn(p pump, w, unit way, bore, unitBore float64) {
	d := t.d
	flow, _ := p.sheet.best()
	run, touch := t.counterLays(w)
	first, next, rated := "element.out", "jets.in", 1.7
	switch t.family {
	case cLong: // in three of five an injector in the line itself: 2 to 14 kPa at its flow
		if d.in(0.6) {
			next = "ozone.in"
			t.lossPart("ozone", "ozone-injector", old, loss{flow, d.nine(2, 14), 2}, t.w.field(d), "")
			run("ozone.out", "jets.in", 400, 2000, 2)
		}
		t.counterJets("jets", counterNozzles(d, d.count(1, 2), d.nine(0.03, 0.25), p.sheet), "pool-inlet", false)
		touch("jets.out", "tub.return")
	case cLamp: // the lamp 0.5 to 5 kPa; the injector in a loop, 3 to 15 kPa at a third of the flow
		next = "lamp.in"
		t.lossPart("lamp", "uv-chamber", old, loss{flow, d.nine(0.5, 5), d.even(1.8, 2)}, t.w.field(d), "")
		t.teePart("ot1", old)
		t.teePart("ot2", old)
		run("lamp.out", "ot1.run-in", 200, 900, 1)
		run("ot1.run-out", "ot2.run-in", 200, 600, 0)
		t.lossPart("ozone", "ozone-injector", old, loss{flow / 3, d.nine(3, 15), 2}, t.w.field(d), "")
		run("ot1.branch", "ozone.in", 150, 500, 1)
		run("ozone.out", "ot2.branch", 150, 500, 1)
		run("ot2.run-out", "jets.in", 500, 2000, 2)
		t.counterJets("jets", counterNozzles(d, 1, d.nine(0.03, 0.25), p.sheet), "pool-inlet", false)
		touch("jets.out", "tub.return")
	case cBarrel, cPool:
		next, rated = "rt.run-in", []float64{3.1, 4.1}[d.IntN(2)]
		each, low, high, share := d.count(1, 2), 500.0, 2500.0, d.nine(0.03, 0.25)
		if t.family == cPool {
			first, rated = "filter.out", []float64{4.1, 5.8}[d.IntN(2)]
			low, high, share = 1000, 6000, d.nine(0.05, 0.3)
		}
		t.teePart("rt", old)
		j := counterNozzles(d, 2*each, share, p.sheet)
		j.count = each
		t.counterJets("jets", j, "pool-inlet", false)
		t.counterJets("eyes", j, "pool-inlet", false)
		run("rt.run-out", "jets.in", low, high, 3)
		run("rt.branch", "eyes.in", low, high, 3)
		touch("jets.out", "tub.return")
		touch("eyes.out", "tub.return2")
	case cPair:
		next, rated = "mt.run-in", []float64{3.1, 4.1, 5.8}[d.IntN(3)]
		t.teePart("mt", old)
		t.teePart("nt", old)
		each := d.count(3, 7)
		j := counterNozzles(d, 3*each, d.nine(0.45, 0.82), p.sheet)
		j.count = each
		for _, b := range [][3]string{{"jets", "mt.branch", "return"}, {"seats", "nt.branch", "seats"}, {"feet", "nt.run-out", "feet"}} {
			t.counterJets(b[0], j, "", true)
			run(b[1], b[0]+".in", 300, 1800, 2)
			touch(b[0]+".out", "tub."+b[2])
		}
		run("mt.run-out", "nt.run-in", 200, 1200, 1)
	default:
		next = "tub.return"
	}
	cut := w
	cut.of, cut.from, cut.to, cut.length, cut.elbows = removed, first, next, math.Round(d.nine(900, 4000)), d.count(1, 4)
	t.counterRun(cut)
	if t.family == cPair && d.in(0.75) {
		t.springBypass(bore)
	} else {
		t.counterThrottle(bore)
	}
	t.last = first
	line := w
	line.corrugated = false
	t.counterWork(line, unit, rated, unitBore)
	rest := w
	rest.of, rest.from, rest.to, rest.elbows = newWork, "t2.run-out", next, d.count(0, cut.elbows)
	rest.length = math.Round(cut.length * d.even(0.4, 0.9))
	t.counterRun(rest)
}
