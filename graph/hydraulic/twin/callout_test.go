package twin

import (
	"fmt"
	"math"
	"strings"
)

// The seventh maker is called out: to tubs whose heat pump has stopped with a flow fault, and to those where
// one is wanted. He knows a pump by the water it moves and the watts it takes, a line by what he found in it.
// Written down before the spreads were looked at and before a tub was drawn with it; the widths of the table of
// the trade that the handbook's maker has too, else from memory where a book is named, common practice without
// a source where none is.
//
// What no other has: plates in horsepower, plates in amps, plates the sun has bleached; a drive that shows what
// it takes at each speed; a valve or a pipe called by the wrong name; tees and hose tails of one make through a
// tub; returns that are no narrower than their pipe; something caught in the eye of a pump; a reading of the
// pump's flow before anything is cut, of some tubs.
const (
	kDay    family = "24 h pump, called out"
	kSteady family = "steady pump"
	kTwo    family = "two-speed, two banks"
	kDrive  family = "plunge pool on a drive"
	kBox    family = "small plug-in"
	kSwim   family = "swim spa, two pumps"
)

var callout = &world{
	name: "callout", families: []family{kDay, kSteady, kTwo, kDrive, kBox, kSwim},
	pump: calloutPump, line: calloutLine, pipe: calloutPipe,
	// Lime and film: none to a quarter. A sheet's bench has no unions, so never less.
	field: func(d dice) float64 { return d.even(1, 1.25) },
	// Coils in shells 4 to 16 kPa at rated flow, compact ones, one in four now, 12 to 30. In the line: 3 % less to a
	// quarter more; a flow switch's paddle or a strainer before it, in one of five, up to 15 % more again.
	unit: func(d dice, rated float64) (loss, float64) {
		sheet := loss{rated, d.nine(4, 16), d.even(1.7, 2)}
		if d.in(0.25) {
			sheet.drop = d.even(12, 30)
		}
		field := d.even(0.97, 1.25)
		if d.in(0.2) {
			field *= d.even(1, 1.15)
		}
		return sheet, field
	},
	element: func(d dice, flow float64) loss { return loss{flow, d.nine(0.8, 3.2), d.even(1.8, 2)} }, // 1 to 3 kPa at low speed
	// Moulded elbows with a sharp inside 0.55 to 0.95 on their bore; of those that are counted as elbows one in
	// ten is a sweep or a 45.
	elbowMake: func(d dice) float64 { return d.nine(0.55, 0.95) },
	elbow: func(d dice) float64 {
		k := d.off(0.08)
		if d.in(0.1) {
			k *= 0.5
		}
		return k
	},
	joint:    func(d dice) float64 { return d.nine(0.02, 0.12) }, // cement's bead and the saw's burr
	entrance: func(d dice) float64 { return d.even(0.4, 0.8) },
	suction:  func(d dice) float64 { return d.nine(0.5, 2.5) }, // a cover and its sump
	// A spring opens within a third of its label, a half-pound one in seven at two to four times that.
	spring: func(d dice, psi float64) (float64, float64) {
		if psi < 1 && d.in(1./7) {
			return psi * d.even(2, 4), d.nine(2.5, 10)
		}
		return psi * d.nine(0.67, 1.45), d.nine(2.5, 10)
	},
	typed: 0.08,
}

// calloutCareful comes for the day with a calliper and a tape, and of one tub in three reads the pump's flow with a
// meter clamped on. calloutHurried has a quarter of an hour before the next call: a foot is his step, and one
// line in twelve he takes for the other family of pipe, a check of any kind he writes as a flap.
//
// What is asked of both was settled before they were measured: 85, as of the first four makers.
var (
	calloutCareful = surveyor{name: "careful", paced: 0.12, taped: 0.02, step: 100, missed: 0.6, handle: 0.03, sheet: 0.05, grime: 1, over: 0.06,
		least: 85, hp: 0.06, amps: 0.12, bleached: 0.06, reads: 1. / 3}
	calloutHurried = surveyor{name: "hurried", paced: 0.18, short: 0.05, taped: 0.03, step: 300, missed: 1, skips: 0.08, handle: 0.05, sheet: 0.07,
		miscount: 0.12, grime: 1.12, keeps: true, least: 85, hp: 0.12, amps: 0.15, bleached: 0.14, mistakes: 1. / 12, miscalls: 0.3}
)

// calloutPump draws a pump by the water it gives at its best and by its shut-off head: 24 h pumps 1.2 to 3 m³/h, shut
// off at 2.5 to 4 m; 1.5 in ones 4.5 to 8.5 and 6 to 8; two-speed ones 13 to 26 and 12 to 18; pool pumps on a drive
// 8 to 19 and 12 to 18 at full speed; boxes 0.9 to 2.2 and 2 to 4.5. Wire to water at its best, a shaded pole or a
// wet rotor 6 to 14 %, a 48 frame 20 to 36, a 56 frame 28 to 45, one of permanent magnets 36 to 54.
//
// Of its sheet it gives 3 % more or less by its make (ISO 9906 grade 2 allows 5 of head and 8 of flow) and up to 13 %
// less of head and 7 of flow by its age; in one of 25 hair or a cartridge's fleece sits in its eye, 8 to 25 % of flow.
func calloutPump(d dice, f family) pump {
	draw := map[family][6]float64{
		kDay: {2.5, 4, 1.2, 3, 0.06, 0.14}, kSteady: {6, 8, 4.5, 8.5, 0.2, 0.36}, kTwo: {12, 18, 13, 26, 0.28, 0.45},
		kDrive: {12, 18, 8, 19, 0.36, 0.54}, kBox: {2, 4.5, 0.9, 2.2, 0.06, 0.14}, kSwim: {12, 18, 13, 26, 0.28, 0.45},
	}[f]
	c := curve{shut: d.nine(draw[0], draw[1]), runOut: 1, bend: d.even(1.6, 2.5), slope: d.even(0, 0.3)}
	share, _ := c.best()
	c.runOut = d.nine(draw[2], draw[3]) / share
	_, water := c.best()
	age := d.Float64()
	p := pump{sheet: c, labelW: water / d.nine(draw[4], draw[5]), ratio: d.even(0.485, 0.515),
		wornH: d.off(0.03) * (1 - 0.13*age), wornQ: d.off(0.03) * (1 - 0.07*age)}
	if d.in(0.04) {
		p.wornQ *= d.even(0.75, 0.92)
	}
	return p
}

// calloutPlate is what a plate says of a pump's power, as he writes it; "" where it can't be read. Of a plate in
// horsepower: what the shaft gives, 0.62 to 0.8 of what it draws, in steps of a quarter, and up to four tenths more
// for "special duty". In amps, at 230 V, to a tenth: the motor's power factor is 0.75 to 0.95.
func (t *tub) calloutPlate(w float64) string {
	d := t.d
	switch x := d.Float64(); {
	case x < t.by.bleached:
		return ""
	case x < t.by.bleached+t.by.hp && w > 500:
		return fmt.Sprintf("power = \"%g hp\"", max(0.5, math.Round(4*w/745.7*d.even(0.62, 0.8)*d.even(1, 1.4))/4))
	case x < t.by.bleached+t.by.hp+t.by.amps:
		return fmt.Sprintf("amps = \"%.1f A\", volts = \"230 V\"", max(0.1, w/d.even(0.75, 0.95)/230))
	}
	return fmt.Sprintf("power = \"%g W\"", toStep(w))
}

// calloutPumpPart writes a pump of one speed, two, or a drive's three. Low speed lifts up to 5 % less than its law.
// A drive stands at what it shows: two speeds of 0.4 to 0.55 and 0.65 to 0.8, and all of it. It shows the watts it
// takes there: 0.8 to 1 of its plate's, by a power of speed of 2.6 to 2.9, and 8 to 20 for itself.
func (t *tub) calloutPumpPart(id string, p pump, kind string) {
	d := t.d
	known, plate := t.sheet(), t.calloutPlate(p.labelW)
	read := p.sheet
	read.shut, read.runOut = read.shut*d.off(0.012), read.runOut*d.off(0.012)
	power := func(says string) string {
		if says == "" {
			return ""
		}
		return ", " + says
	}
	switch {
	case kind == "pool-pump-variable":
		names, ratios := []string{"night", "heat", "full"}, []float64{math.Round(100*d.even(0.4, 0.55)) / 100, math.Round(100*d.even(0.65, 0.8)) / 100, 1}
		takes, steep, own := p.labelW*d.even(0.8, 1), d.even(2.6, 2.9), d.even(8, 20)
		var is, labels, sheets string
		for i, name := range names {
			is += fmt.Sprintf("{ name = %q, curve = %s },\n", name, curveText(p.real(ratios[i]), 24))
			shows := fmt.Sprintf("power = \"%g W\"", toStep(takes*math.Pow(ratios[i], steep)+own))
			if i == len(names)-1 {
				labels += fmt.Sprintf("{ name = %q%s },\n", name, power(plate))
				sheets += fmt.Sprintf("{ name = %q%s, curve = %s },\n", name, power(plate), curveText(read, 5))
				continue
			}
			labels += fmt.Sprintf("{ name = %q, ratio = %g%s },\n", name, ratios[i], power(shows))
			sheets += fmt.Sprintf("{ name = %q, ratio = %g },\n", name, ratios[i])
		}
		survey := fmt.Sprintf("type = %q\nspeeds = [\n%s]\n", kind, labels)
		if known {
			survey = fmt.Sprintf("known = \"data-sheet\"\nspeeds = [\n%s]\n", sheets)
		}
		t.part(id, "pump", old, fmt.Sprintf("speeds = [\n%s]\n", is), survey)
		t.modes = names
	case kind == "two-speed-pump":
		low := p.real(p.ratio)
		low.shut *= d.even(0.95, 1)
		slow := ""
		if d.in(0.5) && plate != "" { // the second line of the plate: a fifth or a sixth of the first
			slow = power(fmt.Sprintf("power = \"%g W\"", toStep(p.labelW*d.even(0.15, 0.22))))
		}
		survey := fmt.Sprintf("type = %q\nspeeds = [{ name = \"low\"%s }, { name = \"high\"%s }]\n", kind, slow, power(plate))
		if known {
			survey = fmt.Sprintf("known = \"data-sheet\"\nspeeds = [\n{ name = \"low\", ratio = 0.5 },\n{ name = \"high\"%s, curve = %s },\n]\n", power(plate), curveText(read, 5))
		}
		t.part(id, "pump", old, fmt.Sprintf("speeds = [\n{ name = \"low\", curve = %s },\n{ name = \"high\", curve = %s },\n]\n", curveText(low, 24), curveText(p.real(1), 24)), survey)
		t.modes = []string{"low", "high"}
	default:
		is := fmt.Sprintf("curve = %s\n", curveText(p.real(1), 24))
		if id == "two" { // stands while the heater's pump runs alone
			is = fmt.Sprintf("loss = { k = %.3f, bore = \"50 mm\" }\n", d.even(4, 25)) + is
		}
		survey := fmt.Sprintf("type = %q\n", kind)
		if plate != "" {
			survey += strings.ReplaceAll(plate, ", ", "\n") + "\n"
		}
		if known {
			survey = fmt.Sprintf("known = \"data-sheet\"\ncurve = %s\n", curveText(read, 5))
			if plate != "" {
				survey += strings.ReplaceAll(plate, ", ", "\n") + "\n"
			}
		}
		t.part(id, "pump", old, is, survey)
	}
}

// calloutPipe draws pipe: rigid by its standard's walls (drawPipe); flexible pipe a tenth to two fifths more
// friction than smooth; hose 2 % of its bore, ribbed hose 1.6 to 3.6 times a smooth one's.
func calloutPipe(d dice, spec, size string, old, corrugated bool) pipe {
	p := drawPipe(d, spec, size, old, corrugated)
	switch {
	case corrugated:
		p.rough = ribbed(p.bore, d.nine(1.6, 3.6))
	case len(spec) > 4 && spec[:4] == "flex":
		p.rough = ribbed(p.bore, d.even(1.1, 1.4))
	}
	return p
}

// calloutFilter writes a filter. Paper 1 to 5 kPa at the flow it was chosen for, in a vessel 1.5 to 2.6 times that; sand
// and its valve 8 to 30. Since it was washed: a sixth more in the mean, to double.
func (t *tub) calloutFilter(media, row string, flow float64) {
	d := t.d
	sheet, dirt := loss{flow, d.nine(1, 5), d.even(1.25, 1.85)}, min(2, 1+0.17*d.ExpFloat64())
	extra := ""
	switch media {
	case "sand":
		sheet, extra = loss{flow, d.nine(8, 30), d.even(1.2, 1.7)}, "media = \"sand\"\n"
	case "cartridge":
		sheet.drop, extra = sheet.drop*d.even(1.5, 2.6), "media = \"cartridge\"\n"
	}
	survey := extra
	if row != "" {
		survey += fmt.Sprintf("type = %q\n", row)
	}
	if t.sheet() {
		survey = extra + "known = \"data-sheet\"\n" + onePoint(sheet.times(t.sheetOff()))
	}
	t.part("filter", "filter", old, extra+lossText(sheet.times(dirt*t.by.grime)), survey)
}

// calloutValve writes a ball valve of the new work: anywhere, by its make, between the cock of the books
// (valveK) and the diagram that a maker of plastic ones prints (of its Kv 5, 20, 45, 75 % at 30, 45, 60 and 75°).
func (t *tub) calloutValve(id string, bore, open float64) {
	d := t.d
	full := d.nine(0.08, 0.4)
	if open == 1 {
		t.part(id, "ball-valve", newWork, fmt.Sprintf("loss = { k = %.4f, bore = \"%g mm\" }\n", full, bore), "")
		return
	}
	at := min(0.98, max(0.26, open+t.by.handle*d.NormFloat64()))
	kv := [][2]float64{{30, 0.05}, {45, 0.2}, {60, 0.45}, {75, 0.75}, {90, 1}}
	i, turned := 0, max(30, 90*at)
	for i < len(kv)-2 && turned > kv[i+1][0] {
		i++
	}
	share := kv[i][1] * math.Pow(kv[i+1][1]/kv[i][1], (turned-kv[i][0])/(kv[i+1][0]-kv[i][0]))
	printed, side := full/(share*share), d.Float64()
	k := math.Pow(valveK("ball-valve", at), side) * math.Pow(printed, 1-side) * d.off(0.1)
	t.told.valve(id, at-open, k/valveK("ball-valve", at))
	t.part(id, "ball-valve", newWork, fmt.Sprintf("loss = { k = %.5f, bore = \"%g mm\" }\n", k, bore), fmt.Sprintf("position = \"%.0f %%\"\n", 100*open))
}

// calloutThrottle writes the bypass of a line of one speed: shut in two fifths, else by tenths or thirds of its way.
func (t *tub) calloutThrottle(bore float64) {
	if t.d.in(0.4) {
		t.part("bypass", "ball-valve", newWork, "position = \"shut\"\n", "position = \"shut\"\n")
		return
	}
	t.calloutValve("bypass", bore, []float64{1. / 3, 0.4, 0.5, 0.5, 0.6, 2. / 3}[t.d.IntN(6)])
}

// calloutSpring writes a spring in the bypass; by its sheet in those that have one.
func (t *tub) calloutSpring(bore float64) {
	d := t.d
	psi := []float64{0.5, 1, 2, 2}[d.IntN(4)]
	cracking, k := t.w.spring(d, psi)
	survey := fmt.Sprintf("type = \"spring-check %s\"\n", map[float64]string{0.5: "1/2 psi", 1: "1 psi", 2: "2 psi"}[psi])
	if t.sheet() {
		kv := bore * bore / 1e6 * math.Sqrt(1.5989e9/(k*d.off(0.07)))
		survey = fmt.Sprintf("known = \"data-sheet\"\nstyle = \"spring\"\ncracking = \"%.3g psi\"\nloss = { kv = \"%.3g m3/h\" }\n", cracking*d.off(0.1), kv)
	}
	t.part("bypass", "check-valve", newWork, fmt.Sprintf("style = \"spring\"\ncracking = \"%.4g psi\"\nloss = { k = %.4g, bore = \"%g mm\" }\n", cracking, k, bore), survey)
}

// calloutEyes draws returns: in half no narrower than the pipe, K 1 to 1.7 with their bend; else eyes that the water
// leaves at 1 to 3.5 m/s (a tub) or 1.5 to 5 (a pool), by a rounded mouth.
func calloutEyes(d dice, count int, flow, pipe, slow, fast float64) jets {
	if d.in(0.5) {
		return jets{count, pipe, d.even(1, 1.7)}
	}
	bore := 1000 * math.Sqrt(4/math.Pi*flow/float64(count)*perHour/d.nine(slow, fast))
	return jets{count, min(pipe, math.Round(bore)), d.nine(0.95, 1.4)}
}

// calloutNozzles draws jets: 45 to 105 kPa at the best flow, no more than three quarters of the head there.
func calloutNozzles(d dice, count int, c curve) jets {
	flow, _ := c.best()
	j := jets{count: count, bore: 1, k: d.nine(0.9, 1.5)}
	drop := min(d.nine(45, 105)/9.74, 0.75*c.head(flow))
	j.bore = math.Round(10*math.Pow(j.square()/(drop/(flow*flow)), 0.25)) / 10
	return j
}

// calloutJets writes jets: counted; with a sheet by a drill in the nozzle, or a jet's flow at 12 psi.
func (t *tub) calloutJets(id string, j jets, kind string) {
	t.countedJets(id, j, kind, 0.5, 12*6.895, "12 psi")
}

// calloutWork writes the new work from the port the line has come to.
func (t *tub) calloutWork(line, unit way, unitBore, low, high, rated float64) {
	d := t.d
	t.bypass = "bypass"
	t.teePart("t1", newWork)
	t.teePart("t2", newWork)
	t.line(line, t.last, "t1.run-in", newWork, d.even(100, 500), 0)
	t.line(line, "t1.run-out", "bypass.in", newWork, d.even(80, 250), 0)
	t.line(line, "bypass.out", "t2.run-in", newWork, d.even(80, 250), 0)
	t.calloutValve("v1", unitBore, 1)
	t.calloutValve("v2", unitBore, 1)
	t.unitPart(rated)
	each, most := d.nine(low, high), 6
	if unit.spec == "hose" {
		most = 3
	}
	t.line(unit, "t1.branch", "v1.in", newWork, d.even(80, 300), 0)
	unit.extra = d.nine(0.05, 0.35) // the unit's own union
	t.line(unit, "v1.out", "unit.in", newWork, each, d.count(1, most))
	t.line(unit, "unit.out", "v2.in", newWork, each*d.even(0.9, 1.1), d.count(1, most))
	unit.extra = 0
	t.line(unit, "v2.out", "t2.branch", newWork, d.even(80, 300), 0)
	t.last = "t2.run-out"
}

// calloutLine lays a tub. Its tees are of one make, and so are its hose tails: 0.74 to 0.9 as wide as the hose, in by
// a mouth of 0.2 to 0.6 of a sharp one's loss, out by Borda.
func calloutLine(t *tub, p pump) {
	d := t.d
	w := *t.w
	tees, b := d.off(0.18), d.even(0.74, 0.9)
	w.tee = func(d dice) float64 { return tees * d.off(0.08) }
	barb := d.even(0.2, 0.6)*(1-b*b)/math.Pow(b, 4) + d.even(0.7, 1)*math.Pow(1/(b*b)-1, 2)
	w.barb = func(d dice) float64 { return barb * d.off(0.1) }
	t.w = &w
	switch t.family {
	case kDay, kBox:
		t.calloutHose(p)
	case kDrive:
		t.calloutPool(p)
	default:
		t.calloutTub(p)
	}
}

// calloutHose is a 24 h pump on hose, its ozone in line in two of five; or a plug-in tub's box.
func (t *tub) calloutHose(p pump) {
	d := t.d
	flow, _ := p.sheet.best()
	w, bore, ports, pump := way{spec: "hose", size: "1 in"}, 25., `["well", "return"]`, "circulation-pump-24h"
	box := t.family == kBox
	switch {
	case box:
		// 32 and 38 mm hose, ribbed in two of three; its new valves on tails, bored a size smaller in a third
		w, bore, pump = way{spec: "hose", size: "32 mm", corrugated: d.in(2. / 3)}, 30, "plug-in-pump"
		if d.in(0.5) {
			w.size, bore = "38 mm", 36
		}
		if d.in(1. / 3) {
			bore *= 0.8
		}
	case d.in(0.3):
		w.size, bore = "3/4 in", 19
	}
	tubPart(t, ports)
	t.calloutFilter("", "", flow)
	t.calloutPumpPart("pump", p, pump)
	element := t.w.element(d, flow)
	row := ""
	if !box {
		row = "type = \"element-heater-low-flow\"\n"
	}
	survey := row
	if t.sheet() {
		survey = "known = \"data-sheet\"\n" + onePoint(element.times(t.sheetOff()))
	}
	t.part("element", "element-heater", old, lossText(element.times(t.w.field(d))), survey)
	if box {
		t.line(w, "tub.well", "filter.in", old, d.nine(600, 2000), 0)
		t.line(w, "filter.out", "pump.in", old, 0, 0)
		t.line(w, "pump.out", "element.in", old, 0, 0)
	} else {
		t.line(w, "tub.well", "filter.in", old, 0, 0)
		t.line(w, "filter.out", "pump.in", old, d.nine(500, 2200), d.count(0, 2))
		t.line(w, "pump.out", "element.in", old, d.nine(300, 1500), d.count(0, 2))
	}
	next, length, elbows := "tub.return", d.nine(700, 2800), d.count(0, 3)
	if !box {
		next = "jets.in"
		if d.in(0.4) { // 2 to 12 kPa, which such a line can bear
			next = "ozone.in"
			t.lossPart("ozone", "ozone-injector", old, loss{flow, d.nine(2, 12), 2}, t.w.field(d), "")
			t.line(w, "ozone.out", "jets.in", old, d.nine(400, 1800), d.count(0, 2))
		}
		t.calloutJets("jets", calloutEyes(d, d.count(1, 2), flow, bore, 1, 3.5), "pool-inlet")
	}
	t.line(w, "element.out", next, removed, length, elbows)
	t.calloutThrottle(bore)
	t.last = "element.out"
	plain := w
	plain.corrugated = false
	unit := plain
	if !box {
		unit.size = "1 in"
	}
	t.calloutWork(plain, unit, map[string]float64{"1 in": 25, "32 mm": bore, "38 mm": bore}[unit.size], 1500, 7000, 1.7)
	t.line(w, "t2.run-out", next, newWork, length*d.even(0.45, 0.9), elbows)
	if !box {
		t.line(w, "jets.out", "tub.return", old, 0, 0)
	}
}

// mistaken is a way that he takes for the other family of pipe.
func (t *tub) mistaken(w way) way {
	if !t.d.in(t.by.mistakes) {
		return w
	}
	other := map[string][2]string{
		"pvc-sch40 1 1/2 in": {"pvc-pn10", "50 mm"}, "pvc-sch40 2 in": {"pvc-pn10", "63 mm"}, "flex-inch 1 1/2 in": {"flex-metric", "50 mm"},
		"pvc-pn10 50 mm": {"pvc-sch40", "1 1/2 in"}, "pvc-pn10 63 mm": {"pvc-sch40", "2 in"},
	}
	w.as, w.asSize = other[w.spec+" "+w.size][0], other[w.spec+" "+w.size][1]
	return w
}

// calloutTub is a steady pump on 1-1/2 in or 50 mm, a two-speed one with two banks on 2 in or 63 mm, or the same in a
// swim spa, twice as long, with a second pump for jets of its own.
func (t *tub) calloutTub(p pump) {
	d, steady, swim := t.d, t.family == kSteady, t.family == kSwim
	flow, _ := p.sheet.best()
	w, bore, span, chosen := way{spec: "pvc-sch40", size: "2 in"}, 52., 1., flow/2
	unit, unitBore := way{spec: "pvc-sch40", size: "1 1/2 in"}, 40.
	if d.in(0.4) {
		w, bore, unit, unitBore = way{spec: "pvc-pn10", size: "63 mm"}, 56, way{spec: "pvc-pn10", size: "50 mm"}, 45
	}
	if steady {
		chosen, w, bore = flow, unit, unitBore
		if w.spec == "pvc-sch40" && d.in(0.5) {
			w.spec = "flex-inch"
		}
		unit = w
	}
	if swim {
		span = 2
	}
	w = t.mistaken(w)
	unit.as, unit.asSize = "", ""
	if w.as != "" {
		unit = t.as(unit)
	}
	ports := []string{"skimmer", "footwell", "return", "seats"}
	if swim {
		ports = append(ports, "jetsuction", "jetreturn")
	}
	tubPart(t, quoted(ports))
	t.teePart("st", old)
	t.calloutFilter("", "", chosen)
	kind := "two-speed-pump"
	if steady {
		kind = "circulation-pump-1.5in"
	}
	t.calloutPumpPart("pump", p, kind)
	t.lossPart("element", "element-heater", old, t.w.element(d, chosen), t.w.field(d), "")
	t.line(w, "tub.skimmer", "filter.in", old, d.nine(300, 1500)*span, d.count(1, 3))
	t.line(w, "filter.out", "st.run-in", old, d.nine(200, 900)*span, d.count(0, 2))
	t.line(w, "tub.footwell", "st.branch", old, d.nine(500, 2200)*span, d.count(1, 3))
	t.line(w, "st.run-out", "pump.in", old, d.nine(300, 1300), d.count(0, 2))
	t.line(w, "pump.out", "element.in", old, d.nine(300, 1500), d.count(1, 3))
	a, eye := calloutNozzles(d, d.count(12, 26), p.sheet), ""
	if steady {
		a, eye = calloutEyes(d, 2, flow, bore, 1, 3.5), "pool-inlet"
	}
	b := a
	a.count = max(1, a.count*d.count(35, 65)/100)
	b.count = max(1, b.count-a.count)
	t.teePart("jt", old)
	length, elbows := d.nine(900, 3500)*span, d.count(1, 5)
	t.line(w, "element.out", "jt.run-in", removed, length, elbows)
	if steady {
		t.calloutThrottle(bore)
	} else {
		t.calloutSpring(bore)
	}
	t.last = "element.out"
	t.calloutWork(w, unit, unitBore, 2000, 9000, []float64{3.1, 4.1, 5.8}[d.IntN(3)])
	t.line(w, "t2.run-out", "jt.run-in", newWork, length*d.even(0.45, 0.9), elbows)
	t.calloutJets("jets", a, eye)
	t.calloutJets("seats", b, eye)
	t.line(w, "jt.run-out", "jets.in", old, d.nine(400, 2000)*span, d.count(0, 3))
	t.line(w, "jt.branch", "seats.in", old, d.nine(400, 2200)*span, d.count(0, 3))
	t.line(w, "jets.out", "tub.return", old, 0, 0)
	t.line(w, "seats.out", "tub.seats", old, 0, 0)
	if swim {
		second := t.w.pump(d, kSwim)
		t.calloutPumpPart("two", second, "jet-pump")
		t.calloutJets("more", calloutNozzles(d, d.count(3, 8), second.sheet), "")
		t.line(w, "tub.jetsuction", "two.in", old, d.nine(500, 2500), d.count(0, 3))
		t.line(w, "two.out", "more.in", old, d.nine(1500, 5000), d.count(1, 5))
		t.line(w, "more.out", "tub.jetreturn", old, 0, 0)
		modes := "\n[[mode]]\nname = \"low\"\nspeeds = { pump = \"low\" }\n\n[[mode]]\nname = \"swim\"\nspeeds = { pump = \"high\", two = \"on\" }\n"
		t.is.WriteString(modes)
		t.survey.WriteString(modes)
	}
}

// as is a way of the family that the line was taken for.
func (t *tub) as(w way) way {
	by := *t
	by.by.mistakes = 1
	return by.mistaken(w)
}

// calloutPool is a plunge pool whose pump a drive turns. A check stands before its inlets in half: a flap, 1 to 2.5 on
// its bore, or with a spring or a lifting disc, 3 to 8.
func (t *tub) calloutPool(p pump) {
	d := t.d
	flow, _ := p.sheet.best()
	chosen := flow * d.even(0.5, 0.8) // it is turned down, and all else was chosen for that
	w, bore := way{spec: "pvc-pn10", size: "50 mm"}, 45.
	switch d.IntN(3) {
	case 1:
		w, bore = way{spec: "pvc-pn10", size: "63 mm"}, 56
	case 2:
		w, bore = way{spec: "pvc-sch40", size: "2 in"}, 52
	}
	unit := w
	w = t.mistaken(w)
	if w.as != "" {
		unit = t.as(unit)
	}
	tubPart(t, `["skimmer", "return"]`)
	media, row := "sand", "sand-filter"
	if d.in(0.5) {
		media, row = "cartridge", "cartridge-in-vessel"
	}
	t.calloutFilter(media, row, chosen)
	t.calloutPumpPart("pump", p, "pool-pump-variable")
	t.line(w, "tub.skimmer", "pump.in", old, d.nine(1500, 7000), d.count(2, 5))
	t.line(w, "pump.out", "filter.in", old, d.nine(400, 1600), d.count(1, 3))
	next := "jets.in"
	if d.in(0.5) {
		next = "check.in"
		k, style := d.even(1, 2.5), "swing"
		is := fmt.Sprintf("style = \"swing\"\nloss = { k = %.3f, bore = \"%g mm\" }\n", k, bore)
		if d.in(0.5) {
			is = fmt.Sprintf("style = \"spring\"\ncracking = \"%.3f psi\"\nloss = { k = %.3f, bore = \"%g mm\" }\n", d.nine(0.3, 0.8), d.nine(3, 8), bore)
			if !d.in(t.by.miscalls) {
				style = "spring"
			}
		}
		survey := fmt.Sprintf("style = %q\n", style)
		if style == "spring" {
			survey = "type = \"spring-check 1/2 psi\"\n"
		}
		t.part("check", "check-valve", old, is, survey)
		t.line(w, "check.out", "jets.in", old, d.nine(300, 2500), d.count(0, 3))
	}
	t.calloutJets("jets", calloutEyes(d, d.count(2, 3), chosen, bore, 1.5, 5), "pool-inlet")
	length, elbows := d.nine(1500, 8000), d.count(2, 6)
	t.line(w, "filter.out", next, removed, length, elbows)
	if d.in(0.5) {
		t.calloutSpring(bore)
	} else {
		t.calloutThrottle(bore)
	}
	t.last = "filter.out"
	t.calloutWork(w, unit, bore, 2000, 11000, []float64{4.1, 5.8}[d.IntN(2)])
	t.line(w, "t2.run-out", next, newWork, length*d.even(0.5, 0.9), elbows)
	t.line(w, "jets.out", "tub.return", old, 0, 0)
}
