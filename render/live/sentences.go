package live

// sentences explain the numbers that stand in no column: what the answer beside the drawings says,
// and, by the section they stand in, sentences, lists and what is written on the drawings.
var sentences = []Explanation{
	{`^(what a mode comes to|section (side-answer|chapter-(answer|performance|owner|record|faults|as-built)))$`, "What a mode comes to",
		"flows: at every junction what comes in goes out, and round every loop the heads of the pumps and of the losses add up to nothing; less than today: 1 - after / before; a rise: P / (ρ · c · Q)",
		"every curve, drop, length and position of the circuit, before and after the work; what the unit asks for, from its sheet; The numbers behind it has all of them", "conservation of mass and energy, solved by Newton's method over the whole circuit at once; Darcy-Weisbach, Crane TP-410 (2009)"},
	{`^how a check stands$`, "How a check stands", "shut while the pressure across it is below what opens it; open, it costs that and its own loss; the margin is what is still missing",
		"the pressure at which it opens, the flow past the unit", "the solution of the mode; a check of the catalogue is a guess"},
	{`^where pump and circuit meet$`, "Where pump and circuit meet", "the pump makes at its flow just the head the circuit asks for: thick its curve at each speed, thin what the circuit asks after the work, dashed today",
		"the pump's curve; the circuit solved with the pump's head times a factor, from nothing to three times", "the same solution; curves between their points by a shape-preserving cubic"},
	{`^section side-turn$`, "What can be turned", "each stands at what the file says, or at what is taken for it; its ends are what is usual, or how far a guess may be off", "the file; the spreads of what was assumed", "the table of spreads: common practice, no source"},
	{`^section cut$`, "Whether the work goes in", "room = straight pipe between the sockets at its ends; needed = the parts that go in, stop to stop, the nipples between them and the depths of the sockets; X1 and X2 are measured from the face named",
		"the legs of the old pipe; lengths, take-offs and socket depths of the parts (a guess wants measuring)", "geometry; ISO 264 and ASTM D2467 for take-offs"},
	{`^section (head|begin|form)$`, "What the file says", "as it is written", "the file; each key says what it means, and what is taken where it is left open", "the file"},
	{`^section (findings|chapter-findings)$`, "What a rule found", "each rule compares what there is with what is asked for; its name stands beside it", "the circuit, its geometry and its flows", "`dryfit check --explain NAME` gives the rule's own"},
	{`^section chapter-(cautions|electric)$`, "What draws and what protects", "I = P / (U · cos φ); what can run together is added; the loss in the cable is its resistance times that", "powers, voltage, starting currents and [[supply]]; what nobody gave is assumed and named", "for the electrician to check (IEC 60364, from memory)"},
	{`^section chapter-element$`, "Set points", "the element at least 2 K below the unit, so that it stays off while the unit holds the tub; none above 40 °C", "set points, interlock and what the unit can be set to", "common practice, no source; 40 °C: EN 17125 (from memory)"},
	{`^section chapter-(work|cuts|joints)$`, "Lengths, joints and their order", "cut = centre to centre less the take-offs of both ends; an order is one in which every joint can still be pushed home", "the legs, the fittings' take-offs and depths, what can be drawn back", "geometry; ISO 264 and ASTM D2467"},
	{`^section chapter-(bring|valves)$`, "What is needed", "counted over the new work; consumables by the joints and sizes, tools by what is cut and joined", "the proposed circuit, [[stock]], the catalogue", "the rows' own sources; quantities of consumables: common practice, no source"},
	{`^section chapter-heat$`, "Heat and money", "lost: U·A·ΔT through cover and shell, evaporation from open water, pipes; gained: what the unit gives at the air of each hour; a year is its hours added up, times the tariff",
		"[water], [cover], [shell], [use], [climate], [tariff], the unit's ratings, the pump's power; what nobody gave is assumed and listed", "balance of heat; evaporation by Carrier's equation in the ASHRAE handbook's form"},
	{`^section chapter-frost$`, "Frost", "what holds water is emptied where the air goes below freezing; volumes are bores times lengths", "the new pipe outside, the site's coldest air", "common practice, no source"},
	{`^section chapter-flow$`, "The numbers behind it", "every part and run of every mode as it was solved, and what the result stands on", "the whole description; what was assumed is listed with its source", "Darcy-Weisbach with Colebrook-White, Crane TP-410 (2009); ranges from a fixed sample"},
	{`^section drawing-`, "What is drawn", "places and lengths from the legs, flows from the solution of the mode named on the sheet; a part, a pipe or a piece that is clicked says its own", "the circuit as it is laid out and solved", "geometry and the solution"},
}
