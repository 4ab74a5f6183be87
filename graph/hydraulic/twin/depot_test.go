package twin

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
//   dividing branch 0.95 (1-q)^2 + 1.3 q^2 (1 - 0.9 r^0.5) + 0.8 q (1-q),
//   dividing run 0.03 (1-q)^2 + 0.35 q^2 - 0.2 q (1-q),
//   joining branch -0.92 (1-q)^2 + q^2 (1.2 - r^0.5) + q (1-q),
//   joining run 0.03 (1-q)^2 + q^2 (0.62 - r^0.5) + q (1-q),
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
//   What is fitted is not what the sheet draws. Made: flow N(1, 4 %) and head
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
