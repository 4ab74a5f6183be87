package twin

import (
	"fmt"
	"math"
)

// What tubs are like to somebody who keeps a bench of what he took out of them: pumps run on a
// bucket and two gauges, nozzles under a calliper, cartridges on a scale. He thinks of a tub as one
// line with things on it that may be there or not: a second opening, a filter before or after the
// pump, a lamp, an injector, banks of jets, a slice valve somebody left a little in, a second pump.
// Written down before a tub was drawn with it; from memory of handbooks and fitters' notes, or
// common practice, no source.
//
// It differs from the other three in labels (what the motor draws at its heaviest, rounded up to the
// next size; what the shaft gives; amps times volts, which a motor's power factor makes too much), in
// motors of two sorts for small pumps and of one that gets better with size for large ones, in jets
// that hang on hoses of their own with a few turned in, in sheets read off a printed curve at four
// points, and in what is left old: half a millimetre of lime, elbows by twos, a valve not quite open.
const (
	b24      family = "bench 24 h pump"
	bLamp    family = "bench 24 h pump, lamp and ozone"
	bFrame   family = "bench 48-frame pump"
	bOne     family = "bench one speed"
	bTwo     family = "bench two speeds"
	bSand    family = "bench pool, sand"
	bPaper   family = "bench pool, cartridge"
	bSwim    family = "bench swim spa"
	bPlug    family = "bench plug-in"
	bBoth    family = "bench two pumps"
	bOneTurn family = "bench one speed, diverter"
)

// benchCareful and benchHurried survey them. A careful one tapes what he can reach and guesses behind
// foam to an eighth; even he can't tell a label of the shaft, one in twelve. A hurried one goes by eye to
// a fifth, misses an elbow in every third old run, and counts one jet too few one time in ten.
var (
	benchCareful = surveyor{name: "careful", paced: 0.12, taped: 0.015, step: 50, missed: 0.7, handle: 0.03, sheet: 0.04, shaft: 1. / 12, grime: 1, least: 85}
	benchHurried = surveyor{name: "hurried", paced: 0.2, taped: 0.03, step: 100, missed: 1.2, skips: 0.06, handle: 0.04, sheet: 0.06, shaft: 0.15, miscount: 0.1, grime: 1.1, keeps: true, least: 85}
)

var bench = &world{
	name:     "bench",
	families: []family{b24, bLamp, bFrame, bOne, bOneTurn, bTwo, bSand, bPaper, bSwim, bPlug, bBoth},
	pump:     benchPump,
	filter: func(d dice, sand bool, flow float64) (loss, float64) {
		dirt := d.nine(1, 1.9) // weeks since it was hosed
		if sand {
			return loss{flow, d.nine(10, 35), d.peak(1.1, 1.4, 1.8)}, d.nine(0.97, 1.5)
		}
		return loss{flow, d.nine(1, 5), d.peak(1.2, 1.6, 1.95)}, dirt
	},
	element:  func(d dice, flow float64) loss { return loss{flow, d.nine(1, 3), d.peak(1.7, 1.9, 2)} },
	injector: func(d dice, flow float64) loss { return loss{flow, d.nine(2, 11), 2} },
	field:    func(d dice) float64 { return d.nine(0.93, 1.22) },
	unit: func(d dice, rated float64) (loss, float64) {
		return loss{rated, d.nine(4, 20), d.peak(1.7, 1.88, 2)}, d.nine(0.95, 1.25)
	},
	jets: benchJets,
	pipe: func(d dice, spec, size string, old, corrugated bool) pipe {
		p := drawPipe(d, spec, size, old, corrugated)
		if old && d.in(0.08) {
			p.bore, p.rough = p.bore-2*d.even(0.3, 0.7), max(p.rough, d.even(0.03, 0.15))
		}
		return p
	},
	spring: func(d dice, psi float64) (float64, float64) {
		if psi < 1 && d.in(0.12) {
			return psi * d.even(2, 4), d.nine(3, 11)
		}
		return psi * d.nine(0.65, 1.6), d.nine(3, 11)
	},
	elbowMake: func(d dice) float64 { return d.nine(0.42, 0.85) },
	elbow:     func(d dice) float64 { return d.off(0.12) },
	joint:     func(d dice) float64 { return d.nine(0.015, 0.12) },
	barb:      func(d dice) float64 { return d.nine(0.22, 1) },
	entrance:  func(d dice) float64 { return d.even(0.4, 0.8) },
	suction:   func(d dice) float64 { return d.nine(0.5, 2.4) },
	tee:       func(d dice) float64 { return d.nine(0.75, 1.35) },
	valve:     func(d dice) float64 { return d.nine(0.7, 1.45) },
	line:      benchLine,
}

// benchPump draws a pump as it stood on the bench.
//
// 24 h pumps shut off at 2.4 to 4.1 m and run out at 1.7 to 4.2 m³/h, with a magnet rotor (8 to 15 %
// from wire to water) in six of ten, else shaded poles (5 to 9); 48-frame circulation pumps at 5.8 to
// 8.4 and 7.5 to 13, 20 to 38 %; pumps of one speed at 10 to 15.5 and 15 to 28; of two at 12 to 18 and 19
// to 37; pool pumps at 9.5 to 16 and 11.5 to 24; swim spas' at 13 to 18 and 23 to 40; the box of a plug-in
// tub at 2 to 4.5 and 2 to 4.3, 5 to 14 %. Motors of half a kilowatt and more make 25 to 43 % of their
// watts into flow, a tenth of that more for twice the size. In use 0.84 to 1.06 of the sheet's head,
// 0.94 to 1.03 of its flow.
func benchPump(d dice, f family) pump {
	var shut, out, eta [2]float64
	switch f {
	case b24, bLamp:
		shut, out, eta = [2]float64{2.4, 4.1}, [2]float64{1.7, 4.2}, [2]float64{0.05, 0.09}
		if d.in(0.6) {
			eta = [2]float64{0.08, 0.15}
		}
	case bFrame, bBoth:
		shut, out, eta = [2]float64{5.8, 8.4}, [2]float64{7.5, 13}, [2]float64{0.2, 0.38}
	case bOne, bOneTurn:
		shut, out, eta = [2]float64{10, 15.5}, [2]float64{15, 28}, [2]float64{0.25, 0.43}
	case bTwo:
		shut, out, eta = [2]float64{12, 18}, [2]float64{19, 37}, [2]float64{0.25, 0.43}
	case bSand, bPaper:
		shut, out, eta = [2]float64{9.5, 16}, [2]float64{11.5, 24}, [2]float64{0.25, 0.43}
	case bSwim:
		shut, out, eta = [2]float64{13, 18}, [2]float64{23, 40}, [2]float64{0.25, 0.43}
	default:
		shut, out, eta = [2]float64{2, 4.5}, [2]float64{2, 4.3}, [2]float64{0.05, 0.14}
	}
	nine := func(of [2]float64) float64 { return d.nine(of[0], of[1]) }
	c := curve{shut: nine(shut), runOut: nine(out), bend: d.even(1.6, 2.6), slope: d.even(0, 0.35)}
	_, water := c.best()
	makes := nine(eta)
	if eta[1] > 0.4 {
		makes *= math.Pow(water/400, 0.14) // of 400 W of water power
	}
	return pump{sheet: c, labelW: water / makes * d.even(1, 1.1), ratio: d.even(0.475, 0.51),
		wornH: d.peak(0.84, 0.965, 1.06), wornQ: d.peak(0.94, 0.985, 1.03)}
}

// benchLabel is what is read as the pump's watts: what the motor draws at its heaviest, of the shaft, or
// amps times volts, one time in eight, of a motor with a power factor of 0.8 to 0.97.
func benchLabel(t *tub, p pump) float64 {
	switch x := t.d.Float64(); {
	case x < t.by.shaft:
		return toStep(t.d.even(0.65, 0.8) * p.labelW)
	case x < t.by.shaft+0.12:
		return toStep(p.labelW / t.d.even(0.8, 0.97))
	}
	return toStep(p.labelW)
}

// benchJets draws jets by their nozzles: 7 to 26 that take 0.45 to 0.82 of the head at the best flow of
// their pump, hoses and manifold among it; the eyes of a pool or a circulation line 0.04 to 0.3.
func benchJets(d dice, f family, c curve) jets {
	flow, _ := c.best()
	var j jets
	share := d.nine(0.45, 0.82)
	switch f {
	case bTwo, bSwim, bOne, bOneTurn:
		j.count = d.count(8, 26)
		if f == bOne || f == bOneTurn {
			j.count = d.count(7, 16)
		}
	case bSand, bPaper:
		j.count, share = d.count(1, 4), d.nine(0.05, 0.32)
	default:
		j.count, share = d.count(1, 2), d.nine(0.04, 0.3)
	}
	j.k, j.bore = d.nine(0.9, 1.5), 1
	j.bore = min(54, math.Round(2*math.Pow(j.square()/(share*c.head(flow)/(flow*flow)), 0.25))/2) // no wider than the pipe behind it
	return j
}

// benchJetsPart writes jets. The nozzles are drawn with what brings the water to them in their share
// of the head: that is taken off what a gauge in the nozzle or a jet's sheet says, 2 to 25 % of the
// whole; one tub in four has a jet in ten turned in.
func (t *tub) benchJetsPart(id string, j jets, kind string, onHoses bool) {
	d := t.d
	nozzle := j
	if onHoses {
		nozzle.bore *= math.Pow(1+d.nine(0.02, 0.25), 0.25)
		if d.in(0.25) {
			nozzle.bore *= 1 / math.Sqrt(d.even(0.9, 1))
		}
	}
	counted := j.count
	if t.by.miscount > 0 && j.count > 4 && d.in(t.by.miscount) {
		counted--
	}
	survey := fmt.Sprintf("count = %d\n", counted)
	if kind != "" {
		survey += fmt.Sprintf("type = %q\n", kind)
	}
	if t.sheet() {
		if d.in(0.5) {
			survey += fmt.Sprintf("known = \"data-sheet\"\nbore = \"%.1f mm\"\n", nozzle.bore*d.off(0.02))
		} else {
			nozzle.count = 1
			q := math.Sqrt(8 / nozzle.square())
			survey += fmt.Sprintf("known = \"data-sheet\"\nrated = { flow = \"%.4g m3/h\", drop = \"%.4g kPa\" }\n", q, 8*9.74*t.sheetOff()*t.sheetOff())
		}
	}
	t.part(id, "jet-group", old, fmt.Sprintf("count = %d\nbore = \"%g mm\"\nk = %.4f\n", j.count, j.bore, j.k), survey)
}

// benchPumpPart writes a pump of one speed or two; of a sheet four points read off its printed curve.
func (t *tub) benchPumpPart(id string, p pump, kind string, two bool) {
	known, watts := t.sheet(), benchLabel(t, p)
	read := p.sheet
	read.shut *= t.d.off(0.015)
	read.runOut *= t.d.off(0.015)
	var is, survey string
	switch {
	case two:
		is = fmt.Sprintf("speeds = [\n{ name = \"low\", curve = %s },\n{ name = \"high\", curve = %s },\n]\n", curveText(p.real(p.ratio), 24), curveText(p.real(1), 24))
		if p.labelW > 1400 && kind == "" {
			kind = "two-speed-pump-large"
		} else if kind == "" {
			kind = "two-speed-pump"
		}
		survey = fmt.Sprintf("type = %q\nspeeds = [{ name = \"low\" }, { name = \"high\", power = \"%g W\" }]\n", kind, watts)
		if known {
			survey = fmt.Sprintf("known = \"data-sheet\"\nspeeds = [\n{ name = \"low\", ratio = 0.5 },\n{ name = \"high\", power = \"%g W\", curve = %s },\n]\n", watts, curveText(read, 4))
		}
	default:
		is = fmt.Sprintf("curve = %s\n", curveText(p.real(1), 24))
		survey = fmt.Sprintf("type = %q\npower = \"%g W\"\n", kind, watts)
		if known {
			survey = fmt.Sprintf("known = \"data-sheet\"\npower = \"%g W\"\ncurve = %s\n", watts, curveText(read, 4))
		}
	}
	if id == "two" { // stands while the heater's pump runs alone
		is = fmt.Sprintf("loss = { k = %.3f, bore = \"50 mm\" }\n", t.d.even(4, 25)) + is
	}
	t.part(id, "pump", old, is, survey)
}

// kit is what stands in one of his tubs.
type kit struct {
	pump, eye   string // types in the catalogue; eye "": jets
	line, unit  way
	bore        float64 // of the line's valves, mm
	rated       []float64
	span        float64 // of lengths, as of a tub of four seats
	half        bool    // filter and heater are for low speed, whatever the pump has
	hose        bool
	footwell    bool // a second opening
	pressure    bool // the filter comes after the pump
	spring, two bool // a spring in the bypass; two speeds
}

// benchKit draws what stands in a tub of a family.
func benchKit(d dice, f family) kit {
	k := kit{line: way{spec: "pvc-sch40", size: "2 in"}, unit: way{spec: "pvc-sch40", size: "1 1/2 in"}, bore: 52,
		rated: []float64{3.1, 4.1}, span: 1, footwell: d.in(0.7), pressure: d.in(0.4)}
	switch f {
	case b24, bLamp:
		k.pump, k.eye, k.hose, k.rated, k.footwell, k.pressure = "circulation-pump-24h", "pool-inlet", true, []float64{1.7}, d.in(0.3), false
		k.line, k.bore = way{spec: "hose", size: "1 in"}, 25
		k.unit = k.line
		if d.in(0.35) {
			k.line.size, k.bore = "3/4 in", 19
		}
	case bPlug:
		k.pump, k.eye, k.hose, k.rated, k.footwell, k.pressure = "plug-in-pump", "pool-inlet", true, []float64{1.7}, false, false
		k.line, k.bore = way{spec: "hose", size: "32 mm", corrugated: d.in(0.5)}, d.even(25, 27.4)
		if d.in(0.5) {
			k.line.size, k.bore = "38 mm", d.even(32, 36)
		}
		k.unit = way{spec: "hose", size: k.line.size}
	case bFrame, bBoth:
		k.pump, k.eye = "circulation-pump-1.5in", "pool-inlet"
		k.line, k.bore = way{spec: []string{"pvc-sch40", "flex-inch"}[d.IntN(2)], size: "1 1/2 in"}, 40
		k.unit = k.line
	case bOne, bOneTurn:
		k.pump, k.half = "jet-pump", true
		if d.in(0.4) {
			k.line, k.unit, k.bore = way{spec: "pvc-pn10", size: "63 mm"}, way{spec: "pvc-pn10", size: "50 mm"}, 56
		}
	case bTwo:
		k.two, k.half, k.spring = true, true, d.in(0.8)
		k.line.spec = []string{"pvc-sch40", "flex-inch"}[d.IntN(2)]
	case bSwim:
		k.pump, k.two, k.half, k.spring, k.span, k.rated = "two-speed-pump-large", true, true, true, 1.8, []float64{4.1, 5.8}
	case bSand, bPaper:
		k.pump, k.eye, k.rated, k.span, k.footwell, k.pressure = "pool-pump", "pool-inlet", []float64{4.1, 5.8}, 2.5, d.in(0.3), true
		k.line, k.bore = way{spec: "pvc-pn10", size: "50 mm"}, 45
		if d.in(0.5) {
			k.line, k.bore = way{spec: "pvc-pn10", size: "63 mm"}, 56
		}
		k.unit = k.line
	}
	return k
}

// benchLine lays a tub of his out: one line, and what may be on it.
func benchLine(t *tub, p pump) {
	d, f := t.d, t.family
	k := benchKit(d, f)
	w, bore, span := k.line, k.bore, k.span
	flow, _ := p.sheet.best()
	chosen := flow // by which filter and heater are chosen
	if k.half {
		chosen /= 2
	}
	second := f == bBoth || f == bSwim
	ports := []string{"skimmer", "return"}
	for i, has := range []bool{k.footwell, f == bOneTurn || f == bTwo && d.in(0.4), second, second} {
		if has {
			ports = append(ports, []string{"footwell", "seats", "jetsuction", "jetreturn"}[i])
		}
	}
	banked := len(ports) > 2 && (ports[2] == "seats" || len(ports) > 3 && ports[3] == "seats")
	tubPart(t, quoted(ports))
	run := func(from, to, of string, low, high float64, most int) {
		t.line(w, from, to, of, d.nine(low*span, high*span), d.count(0, most))
	}
	media, row := "", ""
	switch f {
	case bSand:
		media, row = "media = \"sand\"\n", "type = \"sand-filter\"\n"
	case bPaper:
		media, row = "media = \"cartridge\"\n", "type = \"cartridge-in-vessel\"\n"
	}
	filter, dirt := t.drawFilter(f == bSand, chosen)
	if f == bPaper {
		filter.drop *= d.even(1.5, 3)
	}
	survey := media + row
	if t.sheet() {
		survey = media + "known = \"data-sheet\"\n" + onePoint(filter.times(t.sheetOff()))
	}
	t.part("filter", "filter", old, media+lossText(filter.times(dirt)), survey)
	t.benchPumpPart("pump", p, k.pump, k.two)
	element := t.w.element(d, chosen)
	survey = ""
	if f == b24 || f == bLamp {
		survey = "type = \"element-heater-low-flow\"\n"
	}
	if t.sheet() {
		survey = "known = \"data-sheet\"\n" + onePoint(element.times(t.sheetOff()))
	}
	t.part("element", "element-heater", old, lossText(element.times(t.w.field(d))), survey)
	// from the openings to the pump
	at := "tub.skimmer"
	if f == b24 || f == bLamp {
		t.line(w, at, "filter.in", old, 0, 0) // in its well
		at = "filter.out"
	} else if !k.pressure {
		run(at, "filter.in", old, 300, 1500, 3)
		at = "filter.out"
	}
	if k.footwell {
		t.teePart("st", old)
		run(at, "st.run-in", old, 200, 1000, 2)
		run("tub.footwell", "st.branch", old, 500, 2200, 3)
		at = "st.run-out"
	}
	run(at, "pump.in", old, 300, 1500, 2)
	at = "pump.out"
	if k.pressure {
		run(at, "filter.in", old, 300, 1500, 3)
		at = "filter.out"
	}
	if d.in(0.12) && !k.hose { // a slice valve, a little in
		t.valveOf(old, "slice", "gate-valve", bore, math.Round(100*d.even(0.6, 0.95))/100)
		run(at, "slice.in", old, 100, 300, 0)
		at = "slice.out"
	}
	run(at, "element.in", old, 250, 1300, 2)
	// the line that is cut
	next := "jets.in"
	if f == bLamp {
		t.lossPart("lamp", "uv-chamber", old, loss{flow, d.nine(0.5, 4), d.even(1.8, 2)}, t.w.field(d), "")
		t.lossPart("ozone", "ozone-injector", old, t.w.injector(d, flow), t.w.field(d), "")
		next = "lamp.in"
		run("lamp.out", "ozone.in", old, 150, 600, 1)
		run("ozone.out", "jets.in", old, 400, 1500, 2)
	}
	if banked {
		next = "div.in"
	}
	low, high := 900*span, 3500*span
	length, elbows := math.Round(d.nine(low, high)), d.count(1, 4)
	t.line(w, "element.out", next, removed, length, elbows)
	if k.spring {
		t.springBypass(bore)
	} else {
		t.throttle(bore)
	}
	t.last = "element.out"
	line := w
	line.corrugated = false
	t.assembly(line, k.unit, k.rated[d.IntN(len(k.rated))], min(bore, map[string]float64{"1 in": 25, "32 mm": bore, "38 mm": bore, "1 1/2 in": 40, "50 mm": 45, "63 mm": 56}[k.unit.size]))
	t.line(w, "t2.run-out", next, newWork, length*d.even(0.45, 0.9), elbows)
	j := t.w.jets(d, f, p.sheet)
	if banked {
		t.benchBanks(w, bore, j)
	} else {
		t.benchJetsPart("jets", j, k.eye, k.eye == "")
	}
	t.line(w, "jets.out", "tub.return", old, 0, 0)
	if second {
		t.benchSecond()
	}
}

// benchBanks writes two banks behind a diverter that stands anywhere from a third to all the way open
// to the second.
func (t *tub) benchBanks(w way, bore float64, j jets) {
	d := t.d
	a, b := j, j
	a.count = max(1, j.count*d.count(35, 65)/100)
	b.count = max(1, j.count-a.count)
	body, turned := d.nine(0.8, 3), d.even(0.35, 1)
	full := windowK(body, 1)
	share := math.Sqrt(full / windowK(body, min(1, max(0.15, turned+2*t.by.handle*d.NormFloat64()))))
	is := fmt.Sprintf("ports = [\"in\", \"a\", \"b\"]\nloss = { k = %.4f, bore = \"%g mm\" }\nways = { b = \"%.3f %%\" }\n", full, bore, 100*share)
	t.part("div", "diverter-valve", old, is, fmt.Sprintf("ports = [\"in\", \"a\", \"b\"]\nways = { b = \"%.0f %%\" }\n", 10*math.Round(10*turned)))
	t.line(w, "div.a", "jets.in", old, d.nine(400, 1800), d.count(0, 3))
	t.line(w, "div.b", "seats.in", old, d.nine(400, 2200), d.count(0, 3))
	t.benchJetsPart("jets", a, "", true)
	t.benchJetsPart("seats", b, "", true)
	t.line(w, "seats.out", "tub.seats", old, 0, 0)
}

// benchSecond writes a pump for jets with a suction and jets of its own.
func (t *tub) benchSecond() {
	d := t.d
	w := way{spec: "pvc-sch40", size: "2 in"}
	p := t.w.pump(d, bTwo)
	t.benchPumpPart("two", p, "jet-pump", false)
	t.benchJetsPart("more", t.w.jets(d, bTwo, p.sheet), "", true)
	t.line(w, "tub.jetsuction", "two.in", old, d.nine(500, 2000), d.count(0, 3))
	t.line(w, "two.out", "more.in", old, d.nine(800, 3500), d.count(1, 5))
	t.line(w, "more.out", "tub.jetreturn", old, 0, 0)
	first, last := "on", "on"
	if t.family == bSwim {
		first, last = "low", "high"
	}
	modes := fmt.Sprintf("\n[[mode]]\nname = %q\nspeeds = { pump = %q }\n\n[[mode]]\nname = \"swim\"\nspeeds = { pump = %q, two = \"on\" }\n", first, first, last)
	t.is.WriteString(modes)
	t.survey.WriteString(modes)
}

func quoted(names []string) string {
	out := ""
	for i, n := range names {
		if i > 0 {
			out += ", "
		}
		out += fmt.Sprintf("%q", n)
	}
	return "[" + out + "]"
}
