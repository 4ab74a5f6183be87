package twin

import (
	"fmt"
	"math"
	"strings"
)

// level is how much of a tub is known.
type level string

const (
	labels level = "labels only" // what can be read and counted without a sheet; lengths guessed
	some   level = "some sheets" // of each part it is a toss-up whether there is a sheet
	all    level = "all sheets"  // and every length taped
)

var levels = []level{labels, some, all}

// tub is one made-up tub: its description as it is and as the fitter writes it, and what a
// description can't say of the first.
type tub struct {
	w      *world
	family family
	level  level
	is     strings.Builder
	survey strings.Builder
	k      map[string]float64 // of runs, on their bore: elbows, joints, barbs, ends
	tee    map[string]float64 // of tees: factor on the handbook's loss
	bypass string             // id of what the bypass goes through; "" none
	modes  []string
	far    bool // the unit is a long way off

	d     dice
	elbow float64 // K of an elbow of the make that was at hand
	last  string  // port the next run starts from
	by    surveyor
	cut   left
	runs  int
	told  told

	newTees newTees
}

const (
	old     = "existing = true\n"
	removed = "existing = true\nremoved = true\n"
	newWork = ""
)

func (t *tub) part(id, kind, of, is, survey string) {
	head := fmt.Sprintf("\n[[part]]\nid = %q\nkind = %q\n%s", id, kind, of)
	t.is.WriteString(head + is + "\n")
	t.survey.WriteString(head + survey + "\n")
}

// sheet is a toss whether a part has a sheet.
func (t *tub) sheet() bool { return t.level == all || t.level == some && t.d.in(0.5) }

// part with a loss that may be known by its sheet: field is its factor on the sheet.
func (t *tub) lossPart(id, kind, of string, sheet loss, field float64, extra string) {
	is := lossText(sheet.times(field))
	survey := ""
	if t.sheet() {
		survey = "known = \"data-sheet\"\n" + onePoint(sheet.times(t.sheetOff()))
	}
	t.part(id, kind, of, extra+is, extra+survey)
}

func onePoint(l loss) string {
	return fmt.Sprintf("loss = { flow = \"%.4g m3/h\", drop = \"%.4g kPa\" }\n", l.flow, l.drop)
}

// lossText is a loss as a table fine enough for its exponent.
func lossText(l loss) string {
	var points []string
	for _, x := range []float64{0.02, 0.1, 0.4, 1, 3, 4.5} {
		points = append(points, fmt.Sprintf("[\"%.6f m3/h\", \"%.6f kPa\"]", l.flow*x, l.drop*math.Pow(x, l.exponent)))
	}
	return "loss = { points = [" + strings.Join(points, ", ") + "] }\n"
}

func curveText(c curve, points int) string {
	var out []string
	for i := 0; i <= points; i++ {
		q := c.runOut * float64(i) / float64(points)
		out = append(out, fmt.Sprintf("[\"%.6f m3/h\", \"%.6f m\"]", q, max(c.head(q), 0)))
	}
	return "[" + strings.Join(out, ", ") + "]"
}

// way is pipe to the next port.
type way struct {
	to         string
	spec, size string
	of         string
	length     float64 // mm; 0: the parts touch
	elbows     int
	corrugated bool
	ends       int     // barbs
	extra      float64 // K besides
	as, asSize string  // what it is taken for; "": what it is
	from       string  // "": where the last run ended, on the other side of the part
}

// pipe lays a run. New work is measured by tape; old by tape where all is known, else guessed.
func (t *tub) pipe(w way) {
	d := t.d
	t.runs++
	id := fmt.Sprintf("r%d", t.runs)
	if w.from == "" {
		w.from = t.last
	}
	rest := t.by.keeps && w.from == "t2.run-out" && t.cut.id != ""
	if rest {
		w.of = fmt.Sprintf("existing = true\nremains-of = %q\n", t.cut.id)
	}
	isOld := w.of != newWork
	p := t.w.pipe(d, w.spec, w.size, isOld, w.corrugated)
	var each []float64
	for range w.elbows {
		each = append(each, t.elbow*t.w.elbow(d))
	}
	if rest {
		p, each = t.cut.of, t.cut.elbows[:min(w.elbows, len(t.cut.elbows))]
	}
	k := w.extra
	for _, e := range each {
		k += e
	}
	length := w.length
	if length > 0 {
		joints := 0.0
		for range 2 + int(length/3000) {
			joints += t.w.joint(d)
		}
		t.told.joints(isOld, joints, w.spec == "hose")
		k += joints
	}
	for range w.ends {
		k += t.told.barb(isOld, t.w.barb(d))
	}
	if strings.HasPrefix(w.from, "tub.") {
		k += t.told.cover(t.w.entrance(d) + t.w.suction(d))
	}
	if strings.HasPrefix(w.to, "tub.") && length > 0 {
		k++
	}
	t.k[id] = k
	head := fmt.Sprintf("\n[[run]]\nid = %q\nfrom = %q\nto = %q\nspec = %q\nsize = %q\n%s", id, w.from, w.to, w.spec, w.size, w.of)
	is := max(length, 1) // what has no length is not sampled, and has ends all the same
	fmt.Fprintf(&t.is, "%slength = \"%.1f mm\"\nbore = \"%.4f mm\"\nroughness = \"%.5f mm\"\n", head, is, p.bore, p.rough)
	said, known := length, ""
	switch {
	case length == 0:
	case !isOld || t.level == all:
		said = math.Round(length*d.off(t.by.taped)/10) * 10
		known = "known = \"measured\"\n"
	default:
		said = max(t.by.step, math.Round(length*(1-t.by.short)*d.off(t.by.paced)/t.by.step)*t.by.step)
	}
	if w.as != "" {
		head = strings.Replace(head, fmt.Sprintf("spec = %q\nsize = %q", w.spec, w.size), fmt.Sprintf("spec = %q\nsize = %q", w.as, w.asSize), 1)
	}
	if w.corrugated { // he feels inside
		head = strings.Replace(head, `spec = "hose"`, `spec = "hose-corrugated"`, 1)
	}
	fmt.Fprintf(&t.survey, "%slength = \"%.0f mm\"\n%s", head, said, known)
	elbows := w.elbows
	if isOld && length > 0 {
		elbows = max(0, elbows-d.few(t.by.missed/4))
		if t.by.skips > 0 && d.in(t.by.skips) {
			elbows = 0
		}
	}
	if rest { // the cut lists what was listed of the line, and loses none of it
		elbows = min(w.elbows, t.cut.listed)
	}
	if w.of == removed {
		t.cut = left{id, p, each, elbows}
	}
	t.told.elbows(id, each, elbows)
	if elbows > 0 {
		fmt.Fprintf(&t.survey, "fittings = { elbow-90 = %d }\n", elbows)
	}
	if id, port, _ := strings.Cut(w.to, "."); port == "in" {
		t.last = id + ".out"
	}
}

// newTub draws a tub of a family and surveys it to a level.
func newTub(w *world, f family, l level, by surveyor, seed uint64) *tub {
	t := &tub{w: w, by: by, family: f, level: l, k: map[string]float64{}, tee: map[string]float64{}, d: newDice(seed), modes: []string{"on"}}
	t.elbow = t.w.elbowMake(t.d)
	fmt.Fprintf(&t.is, "[water]\ntemperature = \"%.1f °C\"\n", t.d.even(36, 40))
	t.survey.WriteString("[water]\ntemperature = \"38 °C\"\n")
	p := t.w.pump(t.d, f)
	if w.line != nil {
		w.line(t, p)
		return t
	}
	switch f {
	case small, smallUV:
		t.smallLine(p)
	case large:
		t.largeLine(p)
	case twin2, banks, throttle, imported, wetEnd:
		t.twoSpeedLine(p)
	case plunge, variable:
		t.plungeLine(p)
	case swimSpa:
		t.swimSpaLine(p)
	case side:
		t.sideLine(p)
	case roof:
		t.roofLine(p)
	case diverted:
		t.divertedLine(p)
	default:
		t.plugInLine(p)
	}
	return t
}

// drawFilter draws a filter, as dirty as whoever surveys it leaves it.
func (t *tub) drawFilter(sand bool, flow float64) (sheet loss, dirt float64) {
	sheet, dirt = t.w.filter(t.d, sand, flow)
	return sheet, dirt * t.by.grime
}

// sheetOff is by what factor a sheet is off the part in hand.
func (t *tub) sheetOff() float64 { return t.d.off(t.by.sheet) }

// label is the watts on a pump's label: of what it draws, or now and then of its shaft.
func (t *tub) label(p pump) float64 {
	if t.by.shaft > 0 && t.d.in(t.by.shaft) {
		return toStep(0.7 * p.labelW)
	}
	return p.labelW
}

// pumpPart writes a pump; kinds is the catalogue's type for it.
func (t *tub) pumpPart(p pump, kind string) {
	of := old
	known := t.sheet()
	p.labelW = t.label(p)
	if t.family == variable {
		t.variablePump(p, known)
		return
	}
	if t.twoSpeed() {
		is := fmt.Sprintf("speeds = [\n{ name = \"low\", curve = %s },\n{ name = \"high\", curve = %s },\n]\n",
			curveText(p.real(p.ratio), 24), curveText(p.real(1), 24))
		survey := fmt.Sprintf("type = %q\nspeeds = [{ name = \"low\", power = \"%g W\" }, { name = \"high\", power = \"%g W\" }]\n", kind, math.Round(p.labelW*0.18), p.labelW)
		if known {
			survey = fmt.Sprintf("known = \"data-sheet\"\nspeeds = [\n{ name = \"low\", ratio = 0.5 },\n{ name = \"high\", power = \"%g W\", curve = %s },\n]\n", p.labelW, curveText(p.sheet, 6))
		}
		t.part("pump", "pump", of, is, survey)
		t.modes = []string{"low", "high"}
		return
	}
	is := fmt.Sprintf("curve = %s\n", curveText(p.real(1), 24))
	survey := fmt.Sprintf("type = %q\npower = \"%g W\"\n", kind, p.labelW)
	if known {
		survey = fmt.Sprintf("known = \"data-sheet\"\npower = \"%g W\"\ncurve = %s\n", p.labelW, curveText(p.sheet, 6))
	}
	t.part("pump", "pump", of, is, survey)
}

// twoSpeed reports whether the heater's pump has two speeds.
func (t *tub) twoSpeed() bool {
	switch t.family {
	case twin2, banks, throttle, imported, wetEnd, diverted:
		return true
	}
	return false
}

// kindOf is the type a two-speed pump is taken for by the watts on its label.
func (t *tub) kindOf(p pump) string {
	if p.labelW > 1450 {
		return "two-speed-pump-large"
	}
	return "two-speed-pump-small"
}

// variablePump writes a pump whose drive shows its speed: 0.4 and 0.65 of the full one, true to
// a hundredth. Watts at a lower speed by the cube, half as much again for its motor.
func (t *tub) variablePump(p pump, known bool) {
	names, ratios := []string{"low", "middle", "high"}, []float64{0.4, 0.65, 1}
	var is, labels, sheets []string
	for i, name := range names {
		r := ratios[i]
		if r < 1 {
			r *= t.d.even(0.99, 1.01)
		}
		is = append(is, fmt.Sprintf("{ name = %q, curve = %s }", name, curveText(p.real(r), 24)))
		watts := toStep(min(1, 1.5*math.Pow(ratios[i], 3)) * p.labelW)
		labels = append(labels, fmt.Sprintf("{ name = %q, power = \"%g W\" }", name, watts))
		if ratios[i] < 1 {
			sheets = append(sheets, fmt.Sprintf("{ name = %q, ratio = %g }", name, ratios[i]))
		} else {
			sheets = append(sheets, fmt.Sprintf("{ name = %q, power = \"%g W\", curve = %s }", name, p.labelW, curveText(p.sheet, 6)))
		}
	}
	survey := "type = \"pool-pump-variable\"\nspeeds = [" + strings.Join(labels, ", ") + "]\n"
	if known {
		survey = "known = \"data-sheet\"\nspeeds = [" + strings.Join(sheets, ", ") + "]\n"
	}
	t.part("pump", "pump", old, "speeds = ["+strings.Join(is, ", ")+"]\n", survey)
	t.modes = names
}

// jetsPart writes the jets: counted, the nozzle measured with a gauge, or by a sheet.
func (t *tub) jetsPart(j jets, kind string) { t.jetsNamed("jets", j, kind) }

func (t *tub) jetsNamed(id string, j jets, kind string) {
	is := fmt.Sprintf("count = %d\nbore = \"%g mm\"\nk = %.4f\n", j.count, j.bore, j.k)
	counted := j.count
	if t.by.miscount > 0 && j.count > 4 && t.d.in(t.by.miscount) {
		counted--
	}
	survey := fmt.Sprintf("count = %d\n", counted)
	if kind != "" {
		survey += fmt.Sprintf("type = %q\n", kind)
	}
	if t.sheet() {
		if t.d.in(0.5) {
			survey += fmt.Sprintf("known = \"data-sheet\"\nbore = \"%.1f mm\"\n", j.bore*t.d.off(0.02))
		} else {
			one := j
			one.count = 1
			q := math.Sqrt(8 / one.square()) // at 8 m
			survey += fmt.Sprintf("known = \"data-sheet\"\nrated = { flow = \"%.4g m3/h\", drop = \"%.4g kPa\" }\n", q, 8*9.74*t.sheetOff()*t.sheetOff())
		}
	}
	t.part(id, "jet-group", old, is, survey)
}

// unitPart writes the unit, rated for a flow in m³/h.
func (t *tub) unitPart(rated float64) {
	sheet, field := t.w.unit(t.d, rated)
	if kW := map[float64]string{1.7: "5 kW", 3.1: "9 kW", 4.1: "12 kW", 5.8: "17 kW"}[rated]; t.w.typed > 0 && t.level != all && t.d.in(t.w.typed) {
		t.part("unit", "heat-pump", newWork, lossText(sheet.times(field)), fmt.Sprintf("type = \"heat-pump %s\"\n", kW))
		return
	}
	limits := fmt.Sprintf("flow = { least = \"%g m3/h\", rated = \"%g m3/h\", most = \"%g m3/h\" }\n", round2(rated*0.7), rated, 2*rated)
	t.lossPart("unit", "heat-pump", newWork, sheet, field, limits)
}

func round2(x float64) float64 { return math.Round(x*100) / 100 }

// valve writes a hand valve of a bore (mm) on a pipe, set to a share open.
func (t *tub) valve(id, kind string, bore, open float64) { t.valveOf(newWork, id, kind, bore, open) }

func (t *tub) valveOf(of, id, kind string, bore, open float64) {
	at := 1.0
	if open < 1 {
		at = min(0.98, max(0.26, open+t.by.handle*t.d.NormFloat64()))
	}
	k := valveK(kind, at) * t.w.valve(t.d)
	t.told.valve(id, at-open, k/valveK(kind, at))
	if open == 1 {
		k = t.d.nine(0.04, 0.3)
	}
	is := fmt.Sprintf("loss = { k = %.5f, bore = \"%g mm\" }\n", k, bore)
	survey := ""
	if open < 1 {
		survey = fmt.Sprintf("position = \"%.0f %%\"\n", 100*open)
	}
	t.part(id, kind, of, is, survey)
}

// teePart writes a tee.
func (t *tub) teePart(id, of string) {
	t.part(id, "tee", of, "", "")
	t.tee[id] = t.told.note("the handbook's loss of tees", t.w.tee(t.d))
}

// assembly writes the unit with its two pipes between two new tees in the line: from the
// port the line has come to, on to t2.run-out. The bypass is written before.
func (t *tub) assembly(line, unit way, rated, pipeBore float64) {
	d := t.d
	barbs := 0
	if line.spec == "hose" {
		barbs = 2
	}
	stub := func(from, to string) {
		w := line
		w.of, w.from, w.to, w.length, w.elbows, w.ends = newWork, from, to, math.Round(d.even(80, 200)), 0, barbs // hose sits on barbs, however short
		t.pipe(w)
	}
	t.teePart("t1", newWork)
	t.teePart("t2", newWork)
	in := line
	in.of, in.to, in.length, in.elbows, in.ends = newWork, "t1.run-in", math.Round(d.even(100, 500)), 0, barbs
	t.pipe(in)
	t.bypass = "bypass"
	stub("t1.run-out", "bypass.in")
	stub("bypass.out", "t2.run-in")
	t.valve("v1", "ball-valve", pipeBore, 1)
	t.valve("v2", "ball-valve", pipeBore, 1)
	t.unitPart(rated)
	stub("t1.branch", "v1.in")
	each, elbows := math.Round(d.nine(1500, 8000)), d.count(2, 5)
	if t.far {
		each, elbows = math.Round(d.nine(7000, 20000)), d.count(5, 10)
	}
	unit.of, unit.length, unit.elbows, unit.extra = newWork, each, elbows, d.nine(0.05, 0.4) // unions at the unit
	if unit.spec == "hose" {
		unit.ends = 2
	}
	unit.from, unit.to = "v1.out", "unit.in"
	t.pipe(unit)
	unit.from, unit.to, unit.length = "unit.out", "v2.in", math.Round(each*d.even(0.9, 1.15))
	t.pipe(unit)
	stub("v2.out", "t2.branch")
	t.last = "t2.run-out"
}

// throttle writes the valve in the bypass of a single-speed line: shut in four of ten, else
// between a third and two thirds open.
func (t *tub) throttle(bore float64) {
	if t.d.in(0.4) {
		t.part("bypass", "ball-valve", newWork, "position = \"shut\"\n", "position = \"shut\"\n")
		return
	}
	t.valve("bypass", "ball-valve", bore, math.Round(100*t.d.even(0.36, 0.65))/100)
}

func tubPart(t *tub, ports string) {
	t.part("tub", "tub", "", "ports = "+ports+"\nloss = \"none\"\n", "ports = "+ports+"\n")
}

// smallLine is a small circulation pump: a cartridge in its well, hose of 3/4 or 1 in on
// barbs, a low-flow heater, in half of them an ozone injector in line, one or two returns.
func (t *tub) smallLine(p pump) {
	d := t.d
	flow, _ := p.sheet.best()
	size := []string{"3/4 in", "1 in", "1 in"}[d.IntN(3)]
	bore := map[string]float64{"3/4 in": 19, "1 in": 25}[size]
	hose := way{spec: "hose", size: size, of: old}
	tubPart(t, `["well", "return"]`)
	filter, dirt := t.drawFilter(false, flow)
	t.lossPart("filter", "filter", old, filter, dirt, "")
	t.pumpPart(p, "circulation-pump-24h")
	t.lossPart("element", "element-heater", old, t.w.element(d, flow), t.w.field(d), "")
	t.pipe(way{from: "tub.well", to: "filter.in", spec: hose.spec, size: size, of: old})
	run := func(to string, length float64, elbows int) {
		w := hose
		w.to, w.length, w.elbows, w.ends = to, math.Round(length), elbows, 2
		t.pipe(w)
	}
	run("pump.in", d.nine(500, 2000), d.count(0, 2))
	run("element.in", d.nine(300, 1500), d.count(0, 2))
	ozone := d.in(0.5)
	if t.family == smallUV { // a lamp in its chamber, 0.5 to 4 kPa at the flow of its line
		t.lossPart("ozone", "uv-chamber", old, loss{flow, d.nine(0.5, 4), d.even(1.8, 2)}, t.w.field(d), "")
		ozone = true
	} else if ozone {
		t.lossPart("ozone", "ozone-injector", old, t.w.injector(d, flow), t.w.field(d), "")
	}
	t.jetsPart(t.w.jets(d, t.family, p.sheet), "pool-inlet")
	length, elbows := d.nine(800, 3000), d.count(1, 3)
	next := "jets.in"
	if ozone {
		next = "ozone.in"
	}
	t.pipe(way{from: "element.out", to: next, spec: "hose", size: size, of: removed, length: math.Round(length), elbows: elbows, ends: 2})
	t.throttle(bore)
	t.last = "element.out"
	t.assembly(hose, way{spec: "hose", size: "1 in"}, 1.7, bore)
	t.pipe(way{from: "t2.run-out", to: next, spec: "hose", size: size, of: newWork, length: math.Round(length * d.even(0.4, 0.8)), elbows: elbows, ends: 2})
	if ozone {
		t.pipe(way{from: "ozone.out", to: "jets.in", spec: "hose", size: size, of: old, length: math.Round(d.nine(400, 1500)), elbows: d.count(0, 2), ends: 2})
	}
	t.pipe(way{from: "jets.out", to: "tub.return", spec: "hose", size: size, of: old})
}

// largeLine is a 1.5 in circulation pump on rigid or flexible pipe.
func (t *tub) largeLine(p pump) {
	d := t.d
	flow, _ := p.sheet.best()
	spec, size, bore := "pvc-sch40", "1 1/2 in", 40.0
	switch d.IntN(3) {
	case 1:
		spec = "flex-inch"
	case 2:
		spec, size, bore = "pvc-pn10", "50 mm", 45
	}
	line := way{spec: spec, size: size, of: old}
	tubPart(t, `["skimmer", "return"]`)
	filter, dirt := t.drawFilter(false, flow)
	t.lossPart("filter", "filter", old, filter, dirt, "")
	t.pumpPart(p, "circulation-pump-1.5in")
	t.lossPart("element", "element-heater", old, t.w.element(d, flow), t.w.field(d), "")
	run := func(from, to, of string, length float64, elbows int) {
		w := line
		w.from, w.to, w.of, w.length, w.elbows = from, to, of, math.Round(length), elbows
		t.pipe(w)
	}
	run("tub.skimmer", "filter.in", old, d.nine(300, 1500), d.count(1, 3))
	run("filter.out", "pump.in", old, d.nine(400, 1500), d.count(0, 2))
	run("pump.out", "element.in", old, d.nine(300, 1500), d.count(1, 3))
	t.jetsPart(t.w.jets(d, large, p.sheet), "pool-inlet")
	length, elbows := d.nine(1000, 4000), d.count(2, 5)
	run("element.out", "jets.in", removed, length, elbows)
	t.throttle(bore)
	t.last = "element.out"
	t.assembly(line, way{spec: spec, size: size}, []float64{3.1, 4.1}[d.IntN(2)], bore)
	run("t2.run-out", "jets.in", newWork, length*d.even(0.5, 0.9), elbows)
	run("jets.out", "tub.return", old, 0, 0)
}

// twoSpeedLine is a two-speed pump on 2 in with a spring in the bypass.
func (t *tub) twoSpeedLine(p pump) {
	d := t.d
	flow, _ := p.sheet.best()
	flow /= 2
	spec, size, bore := "pvc-sch40", "2 in", 52.0
	switch d.IntN(3) {
	case 1:
		spec = "flex-inch"
	case 2:
		spec, size, bore = "pvc-pn10", "63 mm", 56
	}
	if t.family == imported {
		spec, size, bore = "pvc-pn10", "50 mm", 45
		if d.in(0.4) {
			spec, bore = "flex-metric", 42
		}
	}
	line := way{spec: spec, size: size, of: old}
	if t.family == banks {
		tubPart(t, `["skimmer", "footwell", "return", "seats"]`)
	} else {
		tubPart(t, `["skimmer", "footwell", "return"]`)
	}
	t.teePart("st", old)
	filter, dirt := t.drawFilter(false, flow)
	t.lossPart("filter", "filter", old, filter, dirt, "")
	t.pumpPart(p, t.kindOf(p))
	t.lossPart("element", "element-heater", old, t.w.element(d, flow), t.w.field(d), "")
	run := func(from, to, of string, length float64, elbows int) {
		w := line
		w.from, w.to, w.of, w.length, w.elbows = from, to, of, math.Round(length), elbows
		t.pipe(w)
	}
	run("tub.skimmer", "st.run-in", old, d.nine(300, 1500), d.count(1, 3))
	run("tub.footwell", "st.branch", old, d.nine(500, 2500), d.count(1, 3))
	if d.in(0.6) { // the cartridge on the suction side
		run("st.run-out", "filter.in", old, d.nine(200, 800), d.count(0, 1))
		run("filter.out", "pump.in", old, d.nine(300, 1200), d.count(0, 2))
		run("pump.out", "element.in", old, d.nine(300, 1500), d.count(1, 3))
	} else {
		run("st.run-out", "pump.in", old, d.nine(400, 1500), d.count(0, 2))
		run("pump.out", "filter.in", old, d.nine(300, 1500), d.count(1, 3))
		run("filter.out", "element.in", old, d.nine(300, 1000), d.count(0, 2))
	}
	j, next := t.w.jets(d, t.family, p.sheet), "jets.in"
	if t.family == banks {
		next = "jt.run-in"
		t.teePart("jt", old)
		a, b := j, j
		a.count = max(1, j.count*d.count(35, 65)/100)
		b.count = max(1, j.count-a.count)
		t.jetsNamed("jets", a, "")
		t.jetsNamed("seats", b, "")
		run("jt.run-out", "jets.in", old, d.nine(500, 2000), d.count(0, 3))
		run("jt.branch", "seats.in", old, d.nine(500, 2500), d.count(1, 3))
		run("seats.out", "tub.seats", old, 0, 0)
	} else {
		t.jetsPart(j, "")
	}
	length, elbows := d.nine(1000, 4000), d.count(2, 5)
	run("element.out", next, removed, length, elbows)
	if t.family == throttle {
		t.valve("bypass", "ball-valve", bore, math.Round(100*d.even(0.45, 0.7))/100)
	} else {
		t.springBypass(bore)
	}
	t.last = "element.out"
	unitSize, unitSpec := "1 1/2 in", spec
	if spec == "pvc-pn10" || spec == "flex-metric" {
		unitSize = "50 mm"
	}
	t.assembly(line, way{spec: unitSpec, size: unitSize}, []float64{3.1, 4.1}[d.IntN(2)], bore*0.79)
	run("t2.run-out", next, newWork, length*d.even(0.5, 0.9), elbows)
	run("jets.out", "tub.return", old, 0, 0)
}

// springBypass writes a spring check in the bypass.
func (t *tub) springBypass(bore float64) {
	d := t.d
	psi := []float64{0.5, 1, 2, 2}[d.IntN(4)]
	cracking, k := t.w.spring(d, psi)
	name := map[float64]string{0.5: "1/2 psi", 1: "1 psi", 2: "2 psi"}[psi]
	survey := fmt.Sprintf("type = \"spring-check %s\"\n", name)
	if t.sheet() {
		kv := bore * bore / 1e6 * math.Sqrt(1.5989e9/(k*d.off(0.06)))
		survey = fmt.Sprintf("known = \"data-sheet\"\nstyle = \"spring\"\ncracking = \"%.3g psi\"\nloss = { kv = \"%.3g m3/h\" }\n", cracking*d.off(0.08), kv)
	}
	t.part("bypass", "check-valve", newWork, fmt.Sprintf("style = \"spring\"\ncracking = \"%.4g psi\"\nloss = { k = %.4g, bore = \"%g mm\" }\n", cracking, k, bore), survey)
}

// plungeLine is a pool pump with a filter in its vessel and inlets.
func (t *tub) plungeLine(p pump) {
	d := t.d
	flow, _ := p.sheet.best()
	spec, size, bore := "pvc-pn10", "63 mm", 56.0
	switch d.IntN(3) {
	case 1:
		size, bore = "50 mm", 45
	case 2:
		spec, size, bore = "pvc-sch40", "2 in", 52
	}
	line := way{spec: spec, size: size, of: old}
	tubPart(t, `["skimmer", "return"]`)
	sand := d.in(0.5)
	media := ""
	if sand {
		media = "media = \"sand\"\n"
	}
	filter, dirt := t.drawFilter(sand, flow)
	if !sand {
		filter.drop *= d.even(1.5, 3) // in a vessel, with its own ports
	}
	t.lossPart("filter", "filter", old, filter, dirt, media)
	t.pumpPart(p, "pool-pump")
	run := func(from, to, of string, length float64, elbows int) {
		w := line
		w.from, w.to, w.of, w.length, w.elbows = from, to, of, math.Round(length), elbows
		t.pipe(w)
	}
	run("tub.skimmer", "pump.in", old, d.nine(1500, 6000), d.count(2, 4))
	run("pump.out", "filter.in", old, d.nine(400, 1500), d.count(1, 3))
	t.jetsPart(t.w.jets(d, t.family, p.sheet), "pool-inlet")
	next := "jets.in"
	if t.family == variable { // a salt cell, 2 to 10 kPa at the flow of its line
		t.lossPart("cell", "salt-cell", old, loss{flow, d.nine(2, 10), d.even(1.8, 2)}, t.w.field(d), "")
		next = "cell.in"
		run("cell.out", "jets.in", old, d.nine(500, 3000), d.count(1, 4))
	}
	length, elbows := d.nine(2000, 8000), d.count(3, 7)
	run("filter.out", next, removed, length, elbows)
	if t.family == variable {
		t.springBypass(bore)
	} else {
		t.throttle(bore)
	}
	t.last = "filter.out"
	unitSize := size
	if d.in(0.5) && spec == "pvc-pn10" {
		unitSize = "50 mm"
	}
	t.assembly(line, way{spec: spec, size: unitSize}, []float64{4.1, 5.8}[d.IntN(2)], bore)
	run("t2.run-out", next, newWork, length*d.even(0.6, 0.95), elbows)
	run("jets.out", "tub.return", old, 0, 0)
}

// plugInLine is an inflatable with a box: a cartridge at its wall or in the box, two hoses of
// 32 or 38 mm, corrugated in six of ten, and the unit in one of them. A valve on such hose is bought
// for the pipe that its hose tails glue into, 32 or 40 mm: bored from the DN of that (25, 32) to the
// bore of the pipe (EN ISO 1452 PN 16, from memory), and never as wide as the hose.
func (t *tub) plugInLine(p pump) {
	d := t.d
	flow, _ := p.sheet.best()
	size := []string{"32 mm", "38 mm"}[d.IntN(2)]
	bore := d.even(25, 27.4)
	if size == "38 mm" {
		bore = d.even(32, 36)
	}
	ribs := d.in(0.6)
	hose := way{spec: "hose", size: size, of: old, corrugated: ribs}
	tubPart(t, `["suction", "return"]`)
	filter, dirt := t.drawFilter(false, flow)
	t.lossPart("filter", "filter", old, filter, dirt, "")
	t.pumpPart(p, "plug-in-pump")
	t.lossPart("element", "element-heater", old, t.w.element(d, flow), t.w.field(d), "")
	w := hose
	w.from, w.to, w.length, w.ends = "tub.suction", "filter.in", math.Round(d.nine(600, 2000)), 2
	t.pipe(w)
	t.pipe(way{from: "filter.out", to: "pump.in", spec: "hose", size: size, of: old})
	t.pipe(way{from: "pump.out", to: "element.in", spec: "hose", size: size, of: old})
	length := math.Round(d.nine(600, 2000))
	w = hose
	w.from, w.to, w.length, w.ends, w.of = "element.out", "tub.return", length, 2, removed
	t.pipe(w)
	t.throttle(bore)
	t.last = "element.out"
	plain := hose
	plain.corrugated = false
	t.assembly(plain, way{spec: "hose", size: size}, 1.7, bore)
	w = hose
	w.from, w.to, w.length, w.ends, w.of = "t2.run-out", "tub.return", length, 2, newWork
	t.pipe(w)
}

// countedJets writes jets as they were counted. Where a sheet is at hand they are known by their bore, of those of
// no kind in a share of tubs, which a drill told; else by the flow of one at a drop, kPa, written as the sheet has it.
func (t *tub) countedJets(id string, j jets, kind string, drilled, kPa float64, drop string) {
	d := t.d
	counted := j.count
	if j.count > 4 && d.in(t.by.miscount) {
		counted--
	}
	survey := fmt.Sprintf("count = %d\n", counted)
	if kind != "" {
		survey += fmt.Sprintf("type = %q\n", kind)
	}
	if t.sheet() {
		if kind != "" || d.in(drilled) {
			survey += fmt.Sprintf("known = \"data-sheet\"\nbore = \"%.1f mm\"\n", j.bore+0.3*d.NormFloat64())
		} else {
			one := j
			one.count = 1
			survey += fmt.Sprintf("known = \"data-sheet\"\nrated = { flow = \"%.3g m3/h\", drop = %q }\n", math.Sqrt(kPa/9.74/one.square())*t.sheetOff(), drop)
		}
	}
	t.part(id, "jet-group", old, fmt.Sprintf("count = %d\nbore = \"%.2f mm\"\nk = %.4f\n", j.count, j.bore, j.k), survey)
}
