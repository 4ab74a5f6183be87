package practice

import "dryfit/catalog/quantity"

// Beforehand says what is done before the day of the work.
func Beforehand() []Sentence {
	return []Sentence{
		{
			Name: "check-parts",
			Say: func(j *Job) quantity.Text {
				if !j.Marked {
					return "Check the parts against the parts list."
				}
				return "Check the parts against the parts list; measure every part marked * and correct the description if it differs: the cut list changes with it."
			},
			Source: common,
		},
		{
			Name:   "calliper",
			When:   func(j *Job) bool { return j.Cuts },
			Say:    always("Measure the old pipe's outside diameter once more at the cut, with a calliper."),
			Source: common,
		},
		{
			Name:   "prove-the-bar",
			When:   func(j *Job) bool { return j.Bands },
			Say:    always("Print drawings.pdf at 100 % and prove the bar on the sheet of the saw bands with a rule: its length stands beside it."),
			Source: common,
		},
	}
}

// DryFit says how new pipe is put together dry.
func DryFit() []Sentence {
	return []Sentence{
		{
			Name: "cut-to-list",
			When: func(j *Job) bool { return j.Pieces },
			Say: func(j *Job) quantity.Text {
				pieces := quantity.Text("Cut the new pieces to the cut list")
				if j.Bench {
					pieces = "Cut the other new pieces to the cut list"
				}
				if j.Over {
					pieces += ", what is marked ^ over its length as it says there"
				}
				if j.OnSite {
					pieces += ", what is marked + not before it is measured in its place"
				}
				return pieces + j.CutEnds()
			},
			Source: common,
		},
		{
			Name:   "angles-only",
			When:   func(j *Job) bool { return j.Cement && j.Inch },
			Say:    always("Dry-fit for angles only. A tapered socket grips dry at a third to two thirds of its depth, so a length taken from a dry fit comes out short: the cut list counts from stop to stop."),
			Source: "tapered sockets of ASTM D2466 and D2467 (from memory)",
		},
		{
			Name:   "dry-to-the-stop",
			When:   func(j *Job) bool { return j.Cement && !j.Inch },
			Say:    always("Dry-fit to prove the angles. A metric socket may let the pipe in to its stop dry, or hold it short: the cut list counts from stop to stop."),
			Source: common,
		},
		{
			Name: "mark-joints",
			When: func(j *Job) bool { return j.Cement },
			Say: func(j *Job) quantity.Text {
				return quantity.Say("Mark across every joint which way it points, mark the insertion depth, and a second mark further back, for %s wipes off the first.", j.wipe())
			},
			Source: common,
		},
	}
}

// CutEnds is what is done to the ends of a piece that is cut: a hose has no burrs, and nothing but pipe
// that is cemented is chamfered.
func (j *Job) CutEnds() quantity.Text {
	pipe := quantity.Text("burrs off")
	if j.NewHose {
		pipe += " the pipe"
	}
	switch {
	case j.Cement && j.NewHose:
		pipe += " and its cemented ends chamfered"
	case j.Cement:
		pipe += ", chamfered"
	}
	return ": square, " + pipe + ", each with its number on it."
}
