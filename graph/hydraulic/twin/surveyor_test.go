package twin

// A surveyor is how what a tub is gets into its description. All of it common practice, no
// source; each was written down before a single tub was drawn with it.
type surveyor struct {
	name string
	// A length paced or guessed behind foam, and one by tape: what two in three are off by, and
	// by how much all are too short. step is what he rounds a guess to, mm.
	paced, short, taped, step float64
	// missed is how many elbows of the old work he does not list, in the mean of the whole; skips
	// is the share of old runs of which he counts none at all.
	missed, skips float64
	handle        float64 // what two in three handles are off by, as a share of their way
	sheet         float64 // what two in three sheets are off the part in hand, before it is fitted and used
	shaft         float64 // share of labels that give the power at the shaft, 0.7 of what the motor draws
	miscount      float64 // share of jet groups counted one too few, where there are more than four
	grime         float64 // factor on the dirt of the filter in use
	over          float64 // share of old runs with elbows of which he lists one too many
	// The share of old runs whose bore he writes, what two in three such are off by, mm, and the share in
	// which he writes the nominal size for it.
	bores, boreOff, nominal float64
	// keeps tells that what is left of the line that is cut stays old pipe with its own elbows in
	// the description, as a plan from the tool's own cut has it; else it is drawn as new.
	keeps bool
	// leans tells that the middle is not judged: his maker's valves open by three books, of which the
	// catalogue's is one end, and the middle of one can't be that of all; nor each family by itself.
	leans bool
	// cocks tells that the middle is not judged: all balls of his maker's open as cocks, of four books the hardest but one.
	cocks bool
	// The share of plates in horsepower, in amps, and that nobody can read; of lines taken for the other family of
	// pipe; of checks with a spring written as a flap; of tubs whose pump's flow is read before anything is cut.
	hp, amps, bleached, mistakes, miscalls, reads float64
	least                                         float64 // of 100 of his tubs should have the truth inside: the ranges are for a careful survey
}

var (
	// careful fills the description in at the tub, over half a day: lengths behind foam off by a
	// seventh, by tape two in a hundred; one elbow in the whole old work is missed, or two, or
	// none; a handle is set to three in a hundred of its turn. A maker's sheet is his good sample
	// in his laboratory.
	careful = surveyor{name: "careful", paced: 0.13, taped: 0.02, step: 50, missed: 0.8, handle: 0.03, sheet: 0.05, grime: 1, least: 85}

	// hurried writes it at home from photographs: lengths by eye against a known part, to a
	// quarter of a metre, a twentieth short because pipe that runs away from the eye looks
	// shorter; every ninth old run is a line without bends to him, and of the others he misses
	// as many as a careful one. One label in five is the shaft's power. With ten jets and more he
	// counts one too few now and then. Nobody cleaned the filter before he read its sheet. What is
	// left of the line after the cut keeps its own pipe and elbows, for the tool cut it.
	hurried = surveyor{name: "hurried", paced: 0.16, short: 0.05, taped: 0.03, step: 250, missed: 0.8, skips: 0.11, handle: 0.04,
		sheet: 0.06, shaft: 0.2, miscount: 0.15, grime: 1.1, keeps: true, least: 85}
)

// left is what a run that is cut was: the rest of it is the same pipe.
type left struct {
	id     string
	of     pipe
	elbows []float64 // K of each
	listed int       // elbows in the description
}
