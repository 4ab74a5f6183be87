package practice

import "dryfit/catalog/quantity"

// Jointing says how the joints of this job are made.
func Jointing() []Sentence {
	return []Sentence{
		{
			Name:   "read-the-print",
			When:   func(j *Job) bool { return j.Cement && j.JoinsOld && j.OldPipe == "" },
			Say:    always("Read the print on the old pipe before anything is opened: PVC-U, flexible PVC, ABS or CPVC. Each wants a cement of its own; the wrong one lets go when it is warm."),
			Source: common,
		},
		{
			Name: "old-pipe-other",
			When: func(j *Job) bool { return j.Cement && j.JoinsOld && (j.OldPipe == "abs" || j.OldPipe == "cpvc") },
			Say: func(j *Job) quantity.Text {
				return "The old pipe is " + materialWords(j.OldPipe) + " and the new PVC-U: the joints at the cuts are mechanical (a union or coupling with seals), or made with a cement that is rated for just this pair and allowed by the local code; PVC cement alone does not hold it."
			},
			Source: common,
		},
		{
			Name:   "cement-inch",
			When:   func(j *Job) bool { return j.Cement && j.Inch },
			Tells:  []Act{QuarterTurn},
			Say:    always("Inch sockets: primer as the tin says on both, cement on the pipe, in the socket, on the pipe again; push home with a quarter turn while it is wet, hold 30 to 60 s, longer in the cold; wipe the bead."),
			Source: "solvent cement makers' guides for tapered sockets (ASTM D2855, from memory)",
		},
		{
			Name:   "cement-metric",
			When:   func(j *Job) bool { return j.Cement && j.Metric },
			Say:    always("Metric PVC-U sockets: cleaner as the tin says on both, cement evenly along both, push straight home at once without turning, hold 30 to 60 s, longer in the cold; wipe the bead."),
			Source: "solvent cement makers' guides for close-fitting sockets (from memory)",
		},
		{
			Name:   "cement-flexible",
			When:   func(j *Job) bool { return j.Cement && j.Flexible },
			Say:    always("Flexible PVC: a cement rated for flexible pipe, no twist and no pull on the joint afterwards, and no cleaner left standing on it: it softens."),
			Source: common,
		},
		{
			Name:   "threads",
			When:   func(j *Job) bool { return j.Threads },
			Say:    always("Plastic threads: PTFE tape, no paste, by hand and one turn more; no metal male into a plastic female."),
			Source: memory,
		},
		{
			Name:   "barbs",
			When:   func(j *Job) bool { return j.Barbs },
			Say:    always("Hoses: warm, pushed home without a twist, with as many clips each as the steps say; of two the screws on opposite sides."),
			Source: common,
		},
		{
			Name:   "seals",
			When:   func(j *Job) bool { return j.UnionNuts },
			Say:    always("Union seals: clean, in their groove, silicone grease only (mineral grease swells them), nuts by hand and a little more; nip them up again when the line is hot."),
			Source: common,
		},
		{
			Name: "cure",
			When: func(j *Job) bool { return j.Cement && j.Hold != "" },
			Say: func(j *Job) quantity.Text {
				return quantity.Say("No water and no power before the cure is over: %s, or what the tin says where that is longer.", j.Hold)
			},
			Source: common + "; the cement's tin is the authority",
		},
		{
			Name: "air-the-cabinet",
			When: func(j *Job) bool { return j.Cement },
			Say: func(j *Job) quantity.Text {
				switch {
				case j.PlugIn:
					return "Glue in the open air; nothing that sparks near the work before the smell is gone."
				case j.NoCabinet:
					return "Air the shed, cellar or pit the plant stands in; nothing that sparks in it before the smell is gone."
				}
				return "Air the cabinet; nothing that sparks in it before the smell is gone."
			},
			Source: common,
		},
	}
}

// OldJoints says which of the joints that follow are not made as the steps call them.
func OldJoints() []Sentence {
	return []Sentence{{
		Name: "old-joints-not-glued",
		When: func(j *Job) bool { return j.JoinsOld && j.Cement && (j.OldPipe == "abs" || j.OldPipe == "cpvc") },
		Say: func(j *Job) quantity.Text {
			return "Where a step below says glue at the old pipe, which is " + materialWords(j.OldPipe) + ", the joint is made as the section on joints says, and not with PVC cement."
		},
		Source: "solvent cement makers' guides agree; no standard",
	}}
}

func materialWords(m string) quantity.Text {
	switch m {
	case "abs":
		return "ABS"
	case "cpvc":
		return "CPVC"
	case "flexible-pvc":
		return "flexible PVC"
	}
	return "PVC-U"
}

// Insulation says what new pipe outside wants.
func Insulation() []Sentence {
	return []Sentence{
		{
			Name: "insulate",
			When: func(j *Job) bool { return j.Outdoors },
			Say: func(j *Job) quantity.Text {
				thick := quantity.Say("%s", far(19))
				if j.MayFreeze() {
					thick = quantity.Say("%s to %s", far(25), far(32))
				}
				return "Insulate the new pipe outside, valves and unions too, with closed cell of " + thick + " under a jacket that stands the sun; handles and tags stay in reach."
			},
			Names:  func(*Job) []string { return []string{"insulation"} },
			Source: memory,
		},
		{
			Name:   "cold-pipe-sweats",
			When:   func(j *Job) bool { return j.Unit != nil && j.Cold },
			Say:    always("Cold pipe sweats: insulate all the new pipe, indoors too, with closed cell whose seams and ends are glued, so that no air comes to the pipe; what drips all the same stays clear of everything electric."),
			Names:  func(*Job) []string { return []string{"insulation"} },
			Source: common,
		},
		{
			Name: "clips",
			When: func(j *Job) bool { return j.Pieces },
			Say: func(j *Job) quantity.Text {
				text := quantity.Text("Clip the pipes so that they can slide, ")
				if j.Valves {
					text += "carry valves on clips of their own, "
				}
				return text + "and let level pipe rise or fall steadily, 1 in 100."
			},
			Source: common,
		},
		{
			Name:   "wall-passage",
			When:   func(j *Job) bool { return j.Wall },
			Say:    always("Through a wall each pipe has a sleeve, sealed soft at both ends and falling outwards, so that it can move and nothing runs in."),
			Source: common,
		},
	}
}
