package twin

import (
	"fmt"
	"math"
)

// The world of the depot: the eighth maker of twins, a merchant's depot that
// hears of every tub its fitters meet. It was written down before the
// catalogue's rows and spreads and before the other makers were read, from
// handbooks and from what is common in the trade, and no number in it was moved
// after the first measurement. U(a, b) is even between a and b; N(m, s) is a
// bell cut at two and a half s; L(m, s) is a bell of the logarithm, median m,
// spread s, cut at two and a half s.
//
// Water. Tub 36 to 40 degC, plunge pool 26 to 38, U. The file says 38 (a
// hurried fitter) or the thermometer's reading, within 0.5 K (a careful one).
//
// Bores. Schedule 40: ASTM D1785 allows the wall from its least to 12 % above
// it: wall = least x U(1.00, 1.12). Metric PN10: wall up to a tenth and 0.2 mm
// above its least (EN ISO 1452-2, from memory), U. Flexible pipe that glues: the
// bore of schedule 40 x U(0.97, 1.01) (common practice, no source: its ribs swell
// inward on bends). Hose on barbs: nominal x U(0.97, 1.03), and a barb inside it
// of U(0.78, 0.90) of the hose's bore at each end, whose contraction and sudden
// enlargement (Borda-Carnot, and 0.42 (1 - d2/D2) for the contraction, White)
// are the hose's own cost.
// Roughness. New plastic 1.5 um; water of a tub leaves a film: L(8 um, 0.7). The
// friction law is Haaland's (1983), not Colebrook's.
// Ribbed hose of a plug-in tub: a smooth hose's friction x U(1.15, 1.9) (the
// trade says 20 to 30 % for ribbed hose with a smooth bore; corrugated metal
// hose costs about twice the smooth, published by a maker of hoses), and sags:
// each metre adds K of U(0.1, 0.3), a bend of large radius.
//
// Lengths. Tape 2 % and 20 mm (careful); by eye N(0, 12 %) (hurried), who also
// misses one elbow in every third run. A run in a cabinet has one bend more than
// anybody writes in one case of four, careful or not: hose goes round frames.
//
// Fittings. Elbows cost by Darby's three K (800, 0.14, 4.0; 45 degrees 500,
// 0.071, 4.2): a law that falls with Reynolds, x the maker's own L(1, 0.20) (tests on moulded
// plastic fittings found them dearer than steel, for their tight radius, and
// makers apart; ASHRAE Transactions 105, 1999, as told by a pump handbook), x each
// piece's L(1, 0.10). Pairs nearer than ten bores cost U(0.75, 1.05) of their
// sum (Miller and Rennels from memory: the second elbow meets turned water; most
// pairs cost less), so every run with two or more has that factor.
// Joints. Each joint leaves a bead of cement or a burr: K = L(0.02, 0.8) of the
// bore (a ring 1 mm high in 41 mm by contraction and Borda-Carnot, contraction
// coefficient 0.95, gives 0.027; 2 mm about 0.2), two joints to a fitting.
// Tees. Gardel's formulas (1957, from memory) for 90 degrees and equal bores, edge radius
// U(0.02, 0.12) of the bore, branch on the combined flow's head:
//
//	dividing branch 0.95 (1-q)^2 + 1.3 q^2 (1 - 0.9 r^0.5) + 0.8 q (1-q),
//	dividing run 0.03 (1-q)^2 + 0.35 q^2 - 0.2 q (1-q),
//	joining branch -0.92 (1-q)^2 + q^2 (1.2 - r^0.5) + q (1-q),
//	joining run 0.03 (1-q)^2 + q^2 (0.62 - r^0.5) + q (1-q),
//
// x L(1, 0.15) for what stands close before them.
//
// Mouths. A suction with its cover K U(0.8, 2.5) on its pipe (sharp entrance
// 0.5, cover the rest); skimmer with basket U(0.6, 2.0); a wall return U(1.0, 2.5);
// an eyeball of a plunge pool: 2 to 4 of bore U(14, 22) mm with K U(1.1, 1.7).
//
// Pumps. H = H0 (1 - (Q/Qm)^n), n U(1.5, 2.3); best point at U(0.52, 0.64) of Qm;
// there the water gets a share e of what the label draws, so Qm follows from
// label, share and H0. Small pump: label U(45, 110) W, e U(0.10, 0.26),
// H0 U(2.3, 4.3) m. Large steady pump: U(150, 350) W, e U(0.22, 0.40), H0
// U(5.5, 8.2) m. Two-speed, its high: U(1100, 2400) W, e U(0.28, 0.45), H0
// U(11.5, 18) m; low: speed U(0.485, 0.515) of high with head U(0.93, 1.0) of the
// affinity laws' (friction in the wheel weighs more), label U(0.11, 0.20) of
// high's. One-speed: as high, label U(500, 1600) W, H0 U(9, 15) m. Pool pump of a plunge pool:
// U(250, 800) W, e U(0.25, 0.42), H0 U(7.5, 14) m. Plug-in: U(40, 90) W,
// e U(0.08, 0.22), H0 U(1.6, 3.6) m. Swim spa: a large steady pump on the heater
// (two of three) or a two-speed one, and one to three jet pumps beside, whose
// circuits are their own.
//
//	What is fitted is not what the sheet draws. Made: flow N(1, 4 %) and head
//
// N(1, 3 %) (ISO 9906 grade 3B allows 9 and 7 %, from memory; grade 2 8 and 5 %
// as a maker's lexicon prints). Worn: the clearance leaks U(0, 0.10) of Qm back
// at shut-off, with the root of the head; the wheel's edge head U(0.93, 1.0).
// One in twelve has another wheel than its label: x 0.90 of diameter (head 0.81,
// flow 0.9; no sheet knows it). Slip of the motor by voltage: speed N(1, 1 %).
// A sheet's curve is read within 2 % of its axes.
//
// Filters. Cartridge under the skimmer at 10 m3/h: L(5 kPa, 0.45), exponent
// U(1.4, 1.9). Of a small circuit: the same cartridge and its holder, at 2 m3/h:
// L(1.3 kPa, 0.5), U(1.2, 1.8). Pressure cartridge of a plunge pool, at 8 m3/h:
// L(8 kPa, 0.4), U(1.4, 1.9). Sand: Ergun's law, bed U(0.25, 0.45) m, grain U(0.5,
// 0.75) mm, voids U(0.40, 0.45), filtered at U(25, 45) m/h for the pump's best flow;
// plus its multiport valve, square, L(8 kPa, 0.35) at 8 m3/h. Plug-in: small
// cartridge, at 1.5 m3/h L(1.5 kPa, 0.5), U(1.2, 1.8).
// Dirt. Rinsed or backwashed (careful): U(1.0, 1.35) of clean, for an old one is
// never new. As found (hurried): 1 + 1.5 U^2. The valve of a sand filter carries none.
//
// Element. Tube of 2 in at 10 m3/h L(4.5 kPa, 0.35), U(1.8, 2.0); low-flow
// element at 2 m3/h L(1.8 kPa, 0.45). Injector in line in two small circuits of
// five, at 1.5 m3/h: L(5 kPa, 0.5), square.
//
// Jets. Fitted to their pump: at Qd = U(0.50, 0.72) of Qm they take
// U(0.50, 0.75) of the head there. Count 8 to 36 for two-speed, the bore
// follows with K U(1.0, 1.5) for one jet on its bore (round-edged nozzle and body). A
// careful fitter measures a bore with drill shanks, N(0, 0.25 mm), and opens all
// jets. A hurried one writes the count alone and leaves shut what is shut:
// U(0, 0.25) of them.
//
// The unit. Rated flow by what the pump can give, one of 1.7, 2.4, 3.1, 4.1, 5.8
// m3/h (output of 5, 7, 9, 12, 17 kW at 2.5 K). Sheet's drop at rated flow
// U(4, 15) kPa, one in six a compact exchanger U(15, 28). Fitted: x
// L(1.08, 0.12) (half-unions, a scaled coil, a sheet made at 20 degC), exponent U(1.75, 2.0).
//
// New work. U(2, 9) m each way, five to nine elbows together, two full-bore valves of
// K U(0.04, 0.3), unions K U(0.02, 0.1) each. Bypass of a two-speed pump: spring,
// label 1/2, 1 or 2 psi; cracking by its sheet N(1, 10 %), from a label alone
// L(1, 0.35) (one maker's half pound opens at 2 psi); open K U(3, 12). Of the rest: ball valve, set to
// a third to two thirds open: handle N(0, 3 %) of the quarter turn, curve by the plug cock
// of the handbooks (shut 20 degrees 1.56, 40 17.3, 60 206), x L(1, 0.25).
//
// What stands in the file. Careful: every leg taped, elbows counted, bore of
// jets, label's power, the unit's sheet. Hurried: lengths by eye, one elbow
// missed, no jets' bore, the unit's rated flow alone. With all sheets: pump's curve, filter's, element's
// drop as printed for new ones: what was drawn, before dirt, wear and making.
//
// Readings. The display of the unit: wheel meter, N(0, 4 %) and one in ten
// twice that (a bend before it). Clamp-on meter N(0, 4 %). Gauge on the pump's outlet: class 2.5 of
// 1.6 bar, N(0, 1.7 kPa), and its height mistaken by N(0, 0.1 m).
//
// Fitted to how a tub is written here, and changed by that alone: friction is the solver's own. A
// hose whose ribs cost less than 1.4 of a smooth one's is smooth within and is written as hose. A suction's K is
// an entrance of 0.5 and the rest its cover. Gardel's formulas are those of branches narrower than the run, too,
// and hold of the two new tees; old ones keep the solver's law times their factor. Of the bend nobody writes a
// rigid pipe has an elbow, a hose half of one. The pump's eye lies U(0.2, 0.6) m below the water, which stands in
// the file.
//
// # What is met
//
// 120 tubs of each kind and survey, 128 points of the sample, of 100 and by kind and mode from the least to the most;
// by how much the middle of the unit's flow is off, and how wide its range is from end to end:
//
//	          unit's flow   pump's        bypass's      jets' change   middle      width
//	careful   95 (87-100)   93 (88-97)    97 (92-100)   92 (82-99)    -18 to -1 %  2.25
//	hurried   95 (88-100)   89 (82-95)    95 (84-100)   90 (82-98)    -19 to 3 %   2.48
//
// Before what was mended for them it was 78 of 100 of the unit's flow of 24 h pumps and 79 of the pump's of boxes, and
// 79 to 82 of the pump's of two speeds. Small pumps were said to turn 5 to 15 % of their watts into flow; and a drill
// in a jet's mouth was good for 1.5 % and told of its hose, too.
//
// All of the depot's balls open as cocks, the hardest but one of four books. So the middle of the unit is 8 to 19 %
// too small where a hand valve stands in the bypass (were they the middle of the four it would be 3), promises said to be
// held in 88 of 100 are kept in 97, and the jets of swim spas and steady pumps lose more than is told in a sixth.
// Three more are the depot's own. Its hurried fitter measures the bores of jets and never says that up to a quarter of
// them are shut: without that the pump of two-speed tubs lies inside in 83 to 88 of 100. Its ribbed hose costs less than
// the trade says, so that boxes move 9 % more. And two in five of its pumps give more water at less head than their type.
//
// Read by a meter, a gauge or both (depotread_test.go) the unit's flow lies inside in 94 to 98 of 100, the pump's in
// 82 to 92, where it is 82 and 87 without.
const (
	dDay    family = "24 h pump on hose"
	dSteady family = "steady 1.5 in pump"
	dTwo    family = "two speeds, spring"
	dOne    family = "one speed, jets"
	dSand   family = "plunge pool, sand"
	dPaper  family = "plunge pool, cartridge"
	dBox    family = "plug-in box"
	dSwim   family = "swim spa, jet pumps"
)

var depot = &world{
	name: "depot", families: []family{dDay, dSteady, dTwo, dOne, dSand, dPaper, dBox, dSwim},
	pump: depotPump, line: depotLine, pipe: depotPipe,
	elbowMake: func(d dice) float64 { return d.bell(0.2) },
	elbow:     func(d dice) float64 { return d.bell(0.1) },
	joint:     depotJoint,
	barb: func(d dice) float64 {
		b := d.even(0.78, 0.9)
		b *= b // of the areas
		return 0.42*(1-b)/(b*b) + (1/b-1)*(1/b-1)
	},
	entrance: func(dice) float64 { return 0.5 },
	suction:  func(d dice) float64 { return d.even(0.3, 2) },
	tee:      func(d dice) float64 { return d.bell(0.15) },
}

var (
	depotCareful = surveyor{name: "careful", paced: 0.03, taped: 0.02, step: 10, handle: 0.03, sheet: 0.02, least: 85, cocks: true}
	depotHurried = surveyor{name: "hurried", paced: 0.12, taped: 0.03, step: 100, missed: 4. / 3, handle: 0.03, sheet: 0.02, keeps: true, least: 85, cocks: true}
)

// bell draws a factor round 1 whose logarithm is a bell of a spread, cut at two and a half of it.
func (d dice) bell(spread float64) float64 { return math.Exp(spread * d.cut()) }

func (d dice) cut() float64 {
	for {
		if x := d.NormFloat64(); math.Abs(x) <= 2.5 {
			return x
		}
	}
}

func depotJoint(d dice) float64 { return 0.02 * d.bell(0.8) }

// depotPump draws a pump by its label and by how much of it the water gets.
func depotPump(d dice, f family) pump {
	draw := map[family][6]float64{
		dDay: {45, 110, 0.10, 0.26, 2.3, 4.3}, dSteady: {150, 350, 0.22, 0.40, 5.5, 8.2}, dTwo: {1100, 2400, 0.28, 0.45, 11.5, 18},
		dOne: {500, 1600, 0.28, 0.45, 9, 15}, dSand: {250, 800, 0.25, 0.42, 7.5, 14}, dPaper: {250, 800, 0.25, 0.42, 7.5, 14},
		dBox: {40, 90, 0.08, 0.22, 1.6, 3.6},
	}[f]
	label := d.even(draw[0], draw[1])
	c := curve{shut: d.even(draw[4], draw[5]), runOut: 1, bend: d.even(1.5, 2.3)}
	at := d.even(0.52, 0.64)
	c.runOut = label * d.even(draw[2], draw[3]) / (9740 * perHour * at * c.head(at))
	p := pump{sheet: c, labelW: toStep(label), ratio: d.even(0.485, 0.515), wornQ: 1 + 0.04*d.cut(), wornH: (1 + 0.03*d.cut()) * d.even(0.93, 1)}
	speed := 1 + 0.01*d.cut()
	if d.in(1. / 12) { // a wheel a tenth smaller
		speed *= 0.9
	}
	p.wornQ, p.wornH = p.wornQ*speed, p.wornH*speed*speed
	return p
}

// leaking is the curve of a pump at a speed ratio whose clearance leaks a share of its run-out back at shut-off.
func (p pump) leaking(ratio, share, lift float64) string {
	c := p.real(ratio)
	c.shut *= lift
	at := func(x float64) (q, h float64) {
		h = max(c.head(x*c.runOut), 0)
		return c.runOut * (x - share*math.Sqrt(h/c.shut)), h
	}
	low := 0.0
	for high, i := 0.5, 0; i < 50; i++ {
		if q, _ := at((low + high) / 2); q > 0 {
			high = (low + high) / 2
		} else {
			low = (low + high) / 2
		}
	}
	out := ""
	for i := range 25 {
		q, h := at(low + (1-low)*float64(i)/24)
		out += fmt.Sprintf("[\"%.6f m3/h\", \"%.6f m\"], ", max(q, 0), h)
	}
	return "[" + out[:len(out)-2] + "]"
}

// depotPumpPart writes a pump: by its type and label, or by its sheet.
func (t *tub) depotPumpPart(id string, p pump, kind string) {
	d, leak := t.d, t.d.even(0, 0.1)
	known, deep := t.sheet(), d.even(0.2, 0.6)
	below := fmt.Sprintf("below-water = \"%.0f mm\"\n", 1000*deep)
	if id != "pump" {
		below = ""
	}
	read := p.sheet
	read.shut, read.runOut = read.shut*(1+0.01*d.cut()), read.runOut*(1+0.01*d.cut())
	if kind == "two-speed-pump" {
		slow := toStep(p.labelW * d.even(0.11, 0.2))
		survey := fmt.Sprintf("type = %q\nspeeds = [{ name = \"low\", power = \"%g W\" }, { name = \"high\", power = \"%g W\" }]\n", kind, slow, p.labelW)
		if known {
			survey = fmt.Sprintf("known = \"data-sheet\"\nspeeds = [\n{ name = \"low\", ratio = 0.5 },\n{ name = \"high\", power = \"%g W\", curve = %s },\n]\n", p.labelW, curveText(read, 6))
		}
		t.part(id, "pump", old+below, fmt.Sprintf("speeds = [\n{ name = \"low\", curve = %s },\n{ name = \"high\", curve = %s },\n]\n",
			p.leaking(p.ratio, leak, d.even(0.93, 1)), p.leaking(1, leak, 1)), survey)
		t.modes = []string{"low", "high"}
		return
	}
	survey := fmt.Sprintf("type = %q\npower = \"%g W\"\n", kind, p.labelW)
	if known {
		survey = fmt.Sprintf("known = \"data-sheet\"\npower = \"%g W\"\ncurve = %s\n", p.labelW, curveText(read, 6))
	}
	t.part(id, "pump", old+below, fmt.Sprintf("curve = %s\n", p.leaking(1, leak, 1)), survey)
}

// depotPipe draws pipe.
func depotPipe(d dice, spec, size string, old, _ bool) pipe {
	p := pipe{rough: 0.0015}
	if old {
		p.rough = 0.008 * d.bell(0.7)
	}
	sch40 := map[string][2]float64{"1 1/2 in": {48.26, 3.68}, "2 in": {60.32, 3.91}}[size]
	wall := sch40[1] * d.even(1, 1.12)
	switch spec + " " + size {
	case "pvc-sch40 1 1/2 in", "pvc-sch40 2 in":
		p.bore = sch40[0] - 2*wall
	case "flex-inch 1 1/2 in", "flex-inch 2 in":
		p.bore = (sch40[0] - 2*wall) * d.even(0.97, 1.01)
	case "pvc-pn10 50 mm":
		p.bore = 50 - 2*d.even(2.4, 2.84)
	case "pvc-pn10 63 mm":
		p.bore = 63 - 2*d.even(3, 3.5)
	default:
		p.bore = map[string]float64{"3/4 in": 19.05, "1 in": 25.4, "32 mm": 32, "38 mm": 38}[size] * d.even(0.97, 1.03)
	}
	return p
}

// onLine draws a spread about a middle at a flow, m³/h and kPa.
func (d dice) onLine(flow, kPa, spread, flat, steep float64) loss {
	return loss{flow, kPa * d.bell(spread), d.even(flat, steep)}
}

// dirt is what a filter carries beside its clean drop.
func (t *tub) dirt() float64 {
	if t.by.name == depotHurried.name {
		u := t.d.Float64()
		return 1 + 1.5*u*u
	}
	return t.d.even(1, 1.35)
}

// depotFilter writes a filter and, of a sand filter, the valve on it.
func (t *tub) depotFilter(media string, flow float64) {
	d := t.d
	var clean loss
	kind, extra, valve := "", "", 0.0
	switch media {
	case "sand":
		u, grain, voids, deep := d.even(25, 45)*perHour, d.even(0.5, 0.75)/1000, d.even(0.4, 0.45), d.even(0.25, 0.45)
		const mu = 0.68e-3
		v := voids * voids * voids
		thin, square := 150*mu*(1-voids)*(1-voids)/(v*grain*grain)*u, 1.75*993*(1-voids)/(v*grain)*u*u
		clean = loss{flow, deep * (thin + square) / 1000, (thin + 2*square) / (thin + square)}
		valve = 8 * d.bell(0.35) * flow * flow / 64
		kind, extra = "sand-filter", "media = \"sand\"\n"
	case "vessel":
		clean, kind, extra = d.onLine(8, 8, 0.4, 1.4, 1.9), "cartridge-in-vessel", "media = \"cartridge\"\n"
	case "small":
		clean = d.onLine(2, 1.3, 0.5, 1.2, 1.8)
	case "box":
		clean = d.onLine(1.5, 1.5, 0.5, 1.2, 1.8)
	default:
		clean = d.onLine(10, 5, 0.45, 1.4, 1.9)
	}
	survey := extra
	if kind != "" {
		survey += fmt.Sprintf("type = %q\n", kind)
	}
	dirty := clean.times(t.dirt())
	if t.sheet() {
		sheet := clean
		sheet.drop += valve
		survey = extra + "known = \"data-sheet\"\n" + onePoint(sheet.times(t.sheetOff()))
	}
	points := ""
	for _, x := range []float64{0.02, 0.1, 0.25, 0.5, 0.75, 1, 1.5, 3, 4.5} {
		points += fmt.Sprintf("[\"%.6f m3/h\", \"%.6f kPa\"], ", x*clean.flow, dirty.drop*math.Pow(x, clean.exponent)+valve*x*x)
	}
	t.part("filter", "filter", old, extra+"loss = { points = ["+points[:len(points)-2]+"] }\n", survey)
}

// depotElement writes the element, of the type its size tells.
func (t *tub) depotElement(small bool) {
	d := t.d
	l, row := d.onLine(10, 4.5, 0.35, 1.8, 2), ""
	if small {
		l, row = d.onLine(2, 1.8, 0.45, 1.8, 2), "type = \"element-heater-low-flow\"\n"
	}
	survey := row
	if t.sheet() {
		survey = "known = \"data-sheet\"\n" + onePoint(l.times(t.sheetOff()))
	}
	t.part("element", "element-heater", old, lossText(l), survey)
}

// depotJets draws the jets of a pump.
func depotJets(d dice, c curve) jets {
	flow := d.even(0.5, 0.72) * c.runOut
	j := jets{count: d.count(8, 36), bore: 1, k: d.even(1, 1.5)}
	drop := d.even(0.5, 0.75) * c.head(flow)
	j.bore = math.Pow(j.square()/(drop/(flow*flow)), 0.25)
	return j
}

// depotNozzles writes jets: a careful fitter measures a bore and opens all, a hurried one counts.
func (t *tub) depotNozzles(id string, j jets) {
	d := t.d
	open, survey := float64(j.count), fmt.Sprintf("count = %d\n", j.count)
	if t.by.name == depotHurried.name {
		open *= 1 - d.even(0, 0.25)
	}
	if t.by.name != depotHurried.name || t.level == all {
		survey += fmt.Sprintf("known = \"measured\"\nbore = \"%.1f mm\"\n", j.bore+0.25*d.cut())
	}
	// a count is whole: what is shut is taken of the bore
	is := fmt.Sprintf("count = %d\nbore = \"%.3f mm\"\nk = %.4f\n", j.count, j.bore*math.Sqrt(open/float64(j.count)), j.k)
	t.part(id, "jet-group", old, is, survey)
}

// depotEye writes returns that are as wide as was drawn.
func (t *tub) depotEye(j jets) {
	t.part("jets", "jet-group", old, fmt.Sprintf("count = %d\nbore = \"%.2f mm\"\nk = %.4f\n", j.count, j.bore, j.k), fmt.Sprintf("count = %d\ntype = \"pool-inlet\"\n", j.count))
}

// depotRun lays a run: its pairs of elbows, and the bend that nobody writes.
func (t *tub) depotRun(w way, from, to, of string, length float64, elbows int) {
	d := t.d
	inch := map[string]float64{"3/4 in": 0.75, "1 in": 1, "1 1/2 in": 1.5, "2 in": 2, "32 mm": 1.25, "38 mm": 1.5, "50 mm": 1.5, "63 mm": 2}[w.size]
	times := 0.14*(1+4/math.Pow(inch, 0.3)) + 800/7e4 // three K at Reynolds 70,000
	if elbows > 1 {
		times *= d.even(0.75, 1.05)
	}
	own := *t.w
	own.elbow = func(d dice) float64 { return times * d.bell(0.1) }
	own.joint = func(d dice) float64 { // two to a fitting besides those at the ends
		k := depotJoint(d)
		for range elbows {
			k += depotJoint(d)
		}
		return k
	}
	if from == "tub.skimmer" || from == "tub.well" {
		own.suction = func(d dice) float64 { return d.even(0.1, 1.5) }
	}
	before := t.w
	t.w = &own
	if of != newWork && length > 0 && d.in(0.25) {
		bend := times * t.elbow
		if w.spec == "hose" {
			bend /= 2
		}
		w.extra += bend
	}
	if w.corrugated {
		w.extra += length / 1000 * d.even(0.1, 0.3)
	}
	t.line(w, from, to, of, length, elbows)
	t.w = before
}

// depotThrottle writes the valve of a bypass.
func (t *tub) depotThrottle(bore float64) {
	d, open := t.d, math.Round(100*t.d.even(1./3, 2./3))/100
	at := min(0.98, max(0.26, open+t.by.handle*d.cut()))
	makes := d.bell(0.25)
	t.told.valve("bypass", at-open, makes)
	t.part("bypass", "ball-valve", newWork, fmt.Sprintf("loss = { k = %.5f, bore = \"%g mm\" }\n", makes*valveK("ball-valve", at), bore), fmt.Sprintf("position = \"%.0f %%\"\n", 100*open))
}

// depotSpring writes the spring of a bypass: by its sheet, or by its label.
func (t *tub) depotSpring(bore float64) {
	d := t.d
	psi, k := []float64{0.5, 1, 2}[d.IntN(3)], d.even(3, 12)
	survey, cracking := fmt.Sprintf("type = \"spring-check %s\"\n", map[float64]string{0.5: "1/2 psi", 1: "1 psi", 2: "2 psi"}[psi]), psi*d.bell(0.35)
	if t.sheet() {
		said := cracking * (1 + 0.1*d.cut())
		survey = fmt.Sprintf("known = \"data-sheet\"\nstyle = \"spring\"\ncracking = \"%.3g psi\"\nloss = { kv = \"%.3g m3/h\" }\n", said, bore*bore/1e6*math.Sqrt(1.5989e9/(k*d.bell(0.06))))
	}
	t.part("bypass", "check-valve", newWork, fmt.Sprintf("style = \"spring\"\ncracking = \"%.4g psi\"\nloss = { k = %.4g, bore = \"%g mm\" }\n", cracking, k, bore), survey)
}

// depotUnit writes the unit, the largest whose rated flow the pump can give.
func (t *tub) depotUnit(flow float64) {
	d, rated := t.d, 1.7
	for _, r := range []float64{2.4, 3.1, 4.1, 5.8} {
		if r < 0.9*flow {
			rated = r
		}
	}
	sheet := loss{rated, d.even(4, 15), d.even(1.75, 2)}
	if d.in(1. / 6) {
		sheet.drop = d.even(15, 28)
	}
	survey := fmt.Sprintf("flow = { least = \"%g m3/h\", rated = \"%g m3/h\", most = \"%g m3/h\" }\n", round2(rated*0.7), rated, 2*rated)
	limits := survey
	if t.by.name != depotHurried.name || t.level == all {
		survey += "known = \"data-sheet\"\n" + onePoint(sheet)
	}
	t.part("unit", "heat-pump", newWork, limits+lossText(sheet.times(1.08*d.bell(0.12))), survey)
}

// depotWork writes the new work.
func (t *tub) depotWork(line, unit way, unitBore, flow float64) {
	d := t.d
	t.bypass = "bypass"
	t.teePart("t1", newWork)
	t.teePart("t2", newWork)
	valve := func(id string) {
		t.part(id, "ball-valve", newWork, fmt.Sprintf("loss = { k = %.4f, bore = \"%g mm\" }\n", d.even(0.04, 0.3), unitBore), "")
	}
	valve("v1")
	valve("v2")
	t.depotUnit(flow)
	elbows := d.count(5, 9)
	there := d.count(2, elbows-2)
	t.depotRun(line, t.last, "t1.run-in", newWork, d.even(100, 400), 0)
	t.depotRun(line, "t1.run-out", "bypass.in", newWork, d.even(80, 200), 0)
	t.newTees.bypass = fmt.Sprintf("r%d", t.runs)
	t.depotRun(line, "bypass.out", "t2.run-in", newWork, d.even(80, 200), 0)
	t.depotRun(unit, "t1.branch", "v1.in", newWork, d.even(80, 300), 0)
	unit.extra = d.even(0.02, 0.1)
	t.depotRun(unit, "v1.out", "unit.in", newWork, 1000*d.even(2, 9), there)
	t.newTees.unit = fmt.Sprintf("r%d", t.runs)
	t.depotRun(unit, "unit.out", "v2.in", newWork, 1000*d.even(2, 9), elbows-there)
	unit.extra = 0
	t.depotRun(unit, "v2.out", "t2.branch", newWork, d.even(80, 300), 0)
	t.newTees.law = gardel{edge: [2]float64{d.even(0.02, 0.12), d.even(0.02, 0.12)}}
	t.last = "t2.run-out"
}

// depotLine lays a tub.
func depotLine(t *tub, p pump) {
	switch t.family {
	case dDay, dBox:
		t.depotHose(p)
	case dSand, dPaper:
		t.depotPool(p)
	default:
		t.depotTub(p)
	}
}

// depotHose is a 24 h pump or a plug-in box, on hose.
func (t *tub) depotHose(p pump) {
	d, box := t.d, t.family == dBox
	flow := 0.58 * p.sheet.runOut
	w, bore := way{spec: "hose", size: "1 in"}, 25.4
	if d.in(0.4) {
		w.size, bore = "3/4 in", 19
	}
	if box {
		times := d.even(1.15, 1.9)
		w, bore = way{spec: "hose", size: []string{"32 mm", "38 mm"}[d.IntN(2)], corrugated: times >= 1.4}, 32
		if w.size == "38 mm" {
			bore = 38
		}
		own := *t.w
		own.pipe = func(d dice, spec, size string, old, corrugated bool) pipe {
			p := depotPipe(d, spec, size, old, corrugated)
			if old { // the tub's own; what he brings is smooth
				p.rough = ribbed(p.bore, times)
			}
			return p
		}
		t.w = &own
	}
	tubPart(t, `["well", "return"]`)
	media, kind := "small", "circulation-pump-24h"
	if box {
		media, kind = "box", "plug-in-pump"
	}
	t.depotFilter(media, flow)
	t.depotPumpPart("pump", p, kind)
	t.depotElement(true)
	t.depotEye(jets{1, bore, d.even(1, 2.5)})
	if box {
		t.depotRun(w, "tub.well", "filter.in", old, d.even(800, 2500), 0)
		t.depotRun(w, "filter.out", "pump.in", old, 0, 0)
		t.depotRun(w, "pump.out", "element.in", old, 0, 0)
	} else {
		t.depotRun(w, "tub.well", "filter.in", old, 0, 0)
		t.depotRun(w, "filter.out", "pump.in", old, d.even(500, 2500), d.count(0, 2))
		t.depotRun(w, "pump.out", "element.in", old, d.even(200, 1500), d.count(0, 2))
	}
	next, length, elbows := "jets.in", d.even(800, 3000), d.count(0, 2)
	if !box && d.in(0.4) {
		next = "ozone.in"
		t.lossPart("ozone", "ozone-injector", old, loss{1.5, 5 * d.bell(0.5), 2}, 1, "")
		t.depotRun(w, "ozone.out", "jets.in", old, d.even(300, 1500), d.count(0, 2))
	}
	t.depotRun(w, "element.out", next, removed, length, elbows)
	t.depotThrottle(bore)
	t.last = "element.out"
	plain := w
	plain.corrugated = false
	t.depotWork(plain, plain, bore, flow)
	t.depotRun(w, "t2.run-out", next, newWork, length*d.even(0.5, 0.9), elbows)
	t.depotRun(w, "jets.out", "tub.return", old, 0, 0)
}

// depotTub is a tub on rigid or flexible pipe: a steady pump, one of one speed or of two, or a swim spa's.
func (t *tub) depotTub(p pump) {
	d := t.d
	w, bore, flow := way{spec: "pvc-sch40", size: "2 in"}, 52.5, 0.58*p.sheet.runOut
	steady := t.family == dSteady || t.family == dSwim && d.in(2./3)
	switch t.family {
	case dSwim:
		p = t.w.pump(d, dTwo)
		if steady {
			p = t.w.pump(d, dSteady)
		}
		flow = 0.58 * p.sheet.runOut
	case dSteady:
		w, bore = way{spec: "pvc-sch40", size: "1 1/2 in"}, 40.9
	}
	if metric := d.in(0.35); metric && bore > 50 {
		w, bore = way{spec: "pvc-pn10", size: "63 mm"}, 57
	} else if metric {
		w, bore = way{spec: "pvc-pn10", size: "50 mm"}, 45.2
	} else if d.in(0.5) {
		w.spec = "flex-inch"
	}
	two := t.family == dTwo || t.family == dSwim && !steady
	kind := "jet-pump"
	switch {
	case steady:
		kind = "circulation-pump-1.5in"
	case two:
		kind, flow = "two-speed-pump", flow/2
	}
	pumps := 0
	if t.family == dSwim {
		pumps = d.count(1, 3)
	}
	banks := !steady && d.in(0.5)
	ports := []string{"skimmer", "footwell", "return"}
	if banks {
		ports = append(ports, "seats")
	}
	for i := range pumps {
		ports = append(ports, fmt.Sprintf("from%d", i), fmt.Sprintf("to%d", i))
	}
	tubPart(t, quoted(ports))
	t.teePart("st", old)
	t.depotFilter("", flow)
	t.depotPumpPart("pump", p, kind)
	t.depotElement(false)
	t.depotRun(w, "tub.skimmer", "filter.in", old, 0, 0)
	t.depotRun(w, "filter.out", "st.run-in", old, d.even(300, 1500), d.count(0, 3))
	t.depotRun(w, "tub.footwell", "st.branch", old, d.even(500, 2500), d.count(1, 3))
	t.depotRun(w, "st.run-out", "pump.in", old, d.even(200, 1200), d.count(0, 2))
	t.depotRun(w, "pump.out", "element.in", old, d.even(200, 1500), d.count(0, 3))
	next, length, elbows := "jets.in", d.even(800, 4000), d.count(1, 5)
	if banks {
		next = "jt.run-in"
		t.teePart("jt", old)
	}
	t.depotRun(w, "element.out", next, removed, length, elbows)
	if two {
		t.depotSpring(bore)
	} else {
		t.depotThrottle(bore)
	}
	t.last = "element.out"
	unit, unitBore := w, bore
	if bore > 50 && d.in(0.6) {
		unit.size, unitBore = map[string]string{"2 in": "1 1/2 in", "63 mm": "50 mm"}[w.size], bore*0.78
	}
	t.depotWork(w, unit, unitBore, flow)
	t.depotRun(w, "t2.run-out", next, newWork, length*d.even(0.5, 0.9), elbows)
	switch j := depotJets(d, p.sheet); {
	case steady:
		t.depotEye(jets{1, bore, d.even(1, 2.5)})
	case banks:
		other := j
		j.count /= 2
		other.count -= j.count
		t.depotNozzles("jets", j)
		t.depotNozzles("seats", other)
		t.depotRun(w, "jt.run-out", "jets.in", old, d.even(400, 2000), d.count(0, 3))
		t.depotRun(w, "jt.branch", "seats.in", old, d.even(400, 2500), d.count(0, 3))
		t.depotRun(w, "seats.out", "tub.seats", old, 0, 0)
	default:
		t.depotNozzles("jets", j)
	}
	t.depotRun(w, "jets.out", "tub.return", old, 0, 0)
	t.depotSwim(w, pumps, two)
}

// depotSwim adds a swim spa's jet pumps, each with its own suction and its own jets.
func (t *tub) depotSwim(w way, pumps int, two bool) {
	d := t.d
	if pumps == 0 {
		return
	}
	on := ""
	for i := range pumps {
		id := fmt.Sprintf("p%d", i)
		p := t.w.pump(d, dOne)
		t.depotPumpPart(id, p, "jet-pump")
		t.depotNozzles(id+"jets", depotJets(d, p.sheet))
		t.depotRun(w, fmt.Sprintf("tub.from%d", i), id+".in", old, d.even(500, 2500), d.count(0, 3))
		t.depotRun(w, id+".out", id+"jets.in", old, d.even(1000, 5000), d.count(1, 5))
		t.depotRun(w, id+"jets.out", fmt.Sprintf("tub.to%d", i), old, 0, 0)
		on += ", " + id + " = \"on\""
	}
	low, high := "on", "on"
	if two {
		low, high = "low", "high"
	}
	modes := fmt.Sprintf("\n[[mode]]\nname = \"heat\"\nspeeds = { pump = %q }\n\n[[mode]]\nname = \"swim\"\nspeeds = { pump = %q%s }\n", low, high, on)
	t.is.WriteString(modes)
	t.survey.WriteString(modes)
	t.modes = []string{"heat", "swim"}
}

// depotPool is a plunge pool with its filter in a vessel.
func (t *tub) depotPool(p pump) {
	d, flow := t.d, 0.58*p.sheet.runOut
	w, bore := way{spec: "pvc-pn10", size: "50 mm"}, 45.2
	switch d.IntN(3) {
	case 1:
		w, bore = way{spec: "pvc-pn10", size: "63 mm"}, 57
	case 2:
		w, bore = way{spec: "pvc-sch40", size: "2 in"}, 52.5
	}
	tubPart(t, `["skimmer", "return"]`)
	t.depotFilter(map[family]string{dSand: "sand", dPaper: "vessel"}[t.family], flow)
	t.depotPumpPart("pump", p, "pool-pump")
	t.depotRun(w, "tub.skimmer", "pump.in", old, 1000*d.even(1.5, 7), d.count(2, 5))
	t.depotRun(w, "pump.out", "filter.in", old, d.even(300, 1500), d.count(1, 3))
	t.depotEye(jets{d.count(2, 4), d.even(14, 22), d.even(1.1, 1.7)})
	length, elbows := 1000*d.even(2, 8), d.count(2, 6)
	t.depotRun(w, "filter.out", "jets.in", removed, length, elbows)
	t.depotThrottle(bore)
	t.last = "filter.out"
	t.depotWork(w, w, bore, flow)
	t.depotRun(w, "t2.run-out", "jets.in", newWork, length*d.even(0.5, 0.9), elbows)
	t.depotRun(w, "jets.out", "tub.return", old, 0, 0)
}
