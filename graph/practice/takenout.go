package practice

import (
	"strings"

	"dryfit/catalog/quantity"
)

// Out is a part of equipment that is taken out.
type Out struct {
	Name    string // on paper: "SX1 salt cell"
	Wired   bool   // it has a supply or a control cable, and is neither a unit nor an element
	Treats  bool   // it treated the water
	Element bool   // it is an element heater
	Instead string // what new one of its kind comes, on paper; "" for none
}

// TakenOut is what somebody who did not do the work has to know of what is gone.
func TakenOut() []Sentence {
	out := func(keep func(Out) bool) func(*Job) []string {
		return func(j *Job) []string {
			var names []string
			for _, o := range j.Out {
				if keep(o) {
					names = append(names, o.Name)
				}
			}
			return names
		}
	}
	forGood := out(func(o Out) bool { return o.Instead == "" })
	replaced := out(func(o Out) bool { return o.Instead != "" })
	wired := out(func(o Out) bool { return o.Wired })
	elements := out(func(o Out) bool { return o.Element })
	treat := out(func(o Out) bool { return o.Treats && o.Instead == "" })
	has := func(list func(*Job) []string) func(*Job) bool {
		return func(j *Job) bool { return len(list(j)) > 0 }
	}
	return []Sentence{
		{Name: "what-is-gone", When: has(forGood), Say: func(j *Job) quantity.Text {
			return quantity.Say("Taken out and not put back: %s.", and(forGood(j)...))
		}, For: Owner, Source: common},
		{Name: "what-is-replaced", When: has(replaced), Say: func(j *Job) quantity.Text {
			var said []string
			for _, o := range j.Out {
				if o.Instead != "" {
					said = append(said, o.Name+", by "+o.Instead)
				}
			}
			return quantity.Say("Taken out and replaced: %s.", quantity.Text(strings.Join(said, "; ")))
		}, For: Owner, Source: common},
		{Name: "treats-no-more", When: has(treat), Say: func(j *Job) quantity.Text {
			return quantity.Say("The water is no longer treated by %s: settle with the fitter how it is disinfected from now on, before anybody bathes.", and(treat(j)...))
		}, For: Fitter | Owner, Source: common},
		{Name: "wired-off", When: has(wired), Say: func(j *Job) quantity.Text {
			return quantity.Say("%s: isolated, proved dead, the cable taken off and its end made safe or taken back, before it is taken out of the pipe; what the controller then misses is settled with its maker.", and(wired(j)...))
		}, For: Fitter | Electrician, Source: electricStandards},
		{Name: "element-gone", When: has(elements), Say: func(j *Job) quantity.Text {
			return quantity.Say("%s: its leads are taken off at the controller by the electrician and made safe; no controller goes on feeding an element that is not in the water.", and(elements(j)...))
		}, For: Fitter | Electrician, Source: electricStandards},
	}
}
