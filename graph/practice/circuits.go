package practice

import (
	"slices"

	"dryfit/catalog/quantity"
)

// Fed is what the description says of the circuit that a unit hangs on. The zero value: nothing.
type Fed struct {
	Said    bool     // a supply is described that feeds it
	Way     string   // "plug", "fused-spur", "own-circuit"; "": not said
	Sharers []string // everything else on it that draws current, by tag, in order
	RatingA float64  // 0: not said
}

// Own reports whether the unit is said to have a circuit to itself.
func (f Fed) Own() bool { return f.Said && f.Way == "own-circuit" && len(f.Sharers) == 0 }

// open reports whether nothing is said that speaks against a circuit of its own, nor for it.
func (f Fed) open() bool { return !f.Said || f.Way == "" && len(f.Sharers) == 0 }

// ownCircuits reports whether every unit is said to have a circuit to itself.
func (j *Job) ownCircuits() bool {
	return !slices.ContainsFunc(j.units(), func(u *Unit) bool { return !u.Fed.Own() })
}

// sharesCircuit reports whether a unit is said to hang on one circuit with something else.
func (j *Job) sharesCircuit() bool {
	return slices.ContainsFunc(j.units(), func(u *Unit) bool { return len(u.Fed.Sharers) > 0 })
}

// circuits says which unit has a circuit of its own, which wants one, and on what each hangs as
// described: never what the description contradicts.
func (j *Job) circuits() quantity.Text {
	const wanted = " a circuit of its own from the distribution board"
	var own, open []string
	var text quantity.Text
	told := map[string]bool{}
	for _, u := range j.units() {
		switch f := u.Fed; {
		case f.Own():
			own = append(own, u.ID)
		case f.open():
			open = append(open, u.ID)
		case !told[u.ID]:
			on := slices.Concat([]string{u.ID}, f.Sharers)
			for _, id := range on {
				told[id] = true // those on one circuit are told together
			}
			text += f.described(j, on) + " A unit wants" + wanted + ": the electrician decides whether this stays. "
		}
	}
	if len(own) > 0 {
		text += j.eachOf(own, " has", " have") + wanted + ", as described. "
	}
	if len(open) > 0 {
		text += j.eachOf(open, " wants", " want") + wanted + ". "
	}
	return text + "Never from the tub's box, a plug, a socket or an extension lead, unless its sheet says that it is sold with a plug and the socket is its own."
}

// described says what hangs on the circuit, and by what it is joined.
func (f Fed) described(j *Job, on []string) quantity.Text {
	way := map[string]quantity.Text{"plug": "plug", "fused-spur": "fused spur"}[f.Way]
	if way == "" {
		way = "circuit"
	}
	if f.RatingA > 0 {
		way += quantity.Say(" of %s", quantity.Current.Of(f.RatingA))
	}
	if len(on) == 1 {
		who := quantity.Text(on[0])
		if !j.several() {
			who = "the unit"
		}
		return "As described, " + who + " hangs on a " + way + "."
	}
	return "As described, " + and(on...) + " hang on one " + way + "."
}

// eachOf begins a sentence about some of the units: all of them, or those alone that are named.
func (j *Job) eachOf(ids []string, one, many quantity.Text) quantity.Text {
	switch {
	case !j.several():
		return "The unit" + one
	case len(ids) == len(j.units()):
		return "Each unit, " + and(ids...) + "," + one
	case len(ids) == 1:
		return quantity.Text(ids[0]) + one
	}
	return and(ids...) + " each" + many
}
