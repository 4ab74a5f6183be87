package practice

import "dryfit/catalog/quantity"

// What the water gets after the work, mg/l of free chlorine, and its pH. Source: HSG282
// (from memory); the hour and the dose after handling are common practice.
const (
	handledChlorine = 5
	bathingLow      = 3
	bathingHigh     = 5
)

// Hygiene says how the handled pipe is disinfected.
func Hygiene() []Sentence {
	return []Sentence{
		{
			Name:  "disinfect-branch",
			When:  hasUnit,
			Names: func(j *Job) []string { return j.Isolators() },
			Say: func(j *Job) quantity.Text {
				open := quantity.Text("The unit's branch open")
				if j.isolated() {
					open = and(j.Isolators()...) + " open"
				}
				return quantity.Say("Disinfect what was handled: %s, %s, circulate with about %d mg/l of free chlorine (or the limit in %s sheet, where that is lower) for an hour.", open, j.off(), handledChlorine, j.ofUnits("the unit's", "a unit's"))
			},
			For: Fitter, Source: "HSG282 (from memory); the hour " + common,
		},
		{
			Name: "disinfect-pipe",
			When: func(j *Job) bool { return j.Unit == nil },
			Say: func(*Job) quantity.Text {
				return quantity.Say("Disinfect what was handled: circulate with about %d mg/l of free chlorine for an hour.", handledChlorine)
			},
			For: Fitter, Source: "HSG282 (from memory)",
		},
		{
			Name: "bathe-again",
			Say: func(*Job) quantity.Text {
				return quantity.Say("Nobody bathes before free chlorine is back at %d to %d mg/l and pH at 7.0 to 7.6. With bromine or another disinfectant the maker's figures count.", bathingLow, bathingHigh)
			},
			For: Fitter | Owner, Source: "HSG282 (from memory)",
		},
		{
			Name:  "shock-isolated",
			When:  func(j *Job) bool { return j.Unit != nil && j.isolated() },
			Names: func(j *Job) []string { return j.Isolators() },
			Say: func(j *Job) quantity.Text {
				return quantity.Say("A higher dose than that is given only with the %s and %s shut, and the line is flushed down to bathing strength before they are opened again.", j.off(), and(j.Isolators()...))
			},
			For: Fitter | Owner, Source: "heat pump manuals; " + common,
		},
		{
			Name: "let-tubs",
			Say:  always("Let, hotel and commercial tubs fall under local law on legionella (in the UK HSG282): the responsible person is told of the change of pipework."),
			For:  Fitter | Owner, Source: "HSG282 (from memory)",
		},
	}
}
