package practice

import (
	"slices"

	"dryfit/catalog/quantity"
)

// units are all the units that have water, in the order of their tags: the job's own and those
// beside it.
func (j *Job) units() []*Unit {
	var out []*Unit
	if j.Unit != nil {
		out = append(out, j.Unit)
	}
	for i := range j.Fellows {
		out = append(out, &j.Fellows[i])
	}
	slices.SortStableFunc(out, func(a, b *Unit) int { return Compare(a.ID, b.ID) })
	return out
}

// several reports whether there is more than one unit: each then goes by its own name.
func (j *Job) several() bool { return j.Unit != nil && len(j.Fellows) > 0 }

// unitsCalled are the names of all units.
func (j *Job) unitsCalled() quantity.Text {
	var names []string
	for _, u := range j.units() {
		names = append(names, u.ID)
	}
	return and(names...)
}

// theUnit is the unit, or the units where there are several.
func (j *Job) theUnit() quantity.Text {
	if j.several() {
		return "the units"
	}
	return "the unit"
}

// thisUnit is the unit the job is about: by its name where there are several.
func (j *Job) thisUnit() quantity.Text {
	if j.several() {
		return quantity.Text(j.Unit.ID)
	}
	return "the unit"
}

// SetDown calls the units this work sets down: the unit, or by name where there are several;
// of a job that sets none down it is the unit the job is about. many says there is more than one.
func (j *Job) SetDown() (called quantity.Text, many bool) {
	names := named(j.newUnits())
	if !j.several() || len(names) == 0 {
		return j.thisUnit(), false
	}
	return and(names...), len(names) > 1
}

// newUnits are the units this work sets down.
func (j *Job) newUnits() []*Unit { return j.unitsThat(func(u *Unit) bool { return u.New }) }

func (j *Job) unitsThat(want func(*Unit) bool) []*Unit {
	var out []*Unit
	for _, u := range j.units() {
		if want(u) {
			out = append(out, u)
		}
	}
	return out
}

// at are the units at a level of the water; of several only those the work sets down, for the
// others have their water.
func (j *Job) at(l Level) []*Unit {
	list := j.newUnits()
	if !j.several() || len(list) == 0 {
		list = nil
		if j.Unit != nil {
			list = []*Unit{j.Unit}
		}
	}
	var out []*Unit
	for _, u := range list {
		if u.Level == l {
			out = append(out, u)
		}
	}
	return out
}

// stand begins a sentence about the units at a level: "HP1 and HP2 stand".
func (j *Job) stand(l Level) quantity.Text {
	list := j.at(l)
	if len(list) > 1 {
		return quantity.Capital(j.called(list)) + " stand"
	}
	return quantity.Capital(j.called(list)) + " stands"
}

// oneOrEach is one wording where a sentence speaks of one unit, another where of several.
func oneOrEach(of []*Unit, one, each quantity.Text) quantity.Text {
	if len(of) > 1 {
		return each
	}
	return one
}

// burning are the units whose refrigerant burns, unread those of which nobody said what it is.
func (j *Job) burning() []*Unit { return j.unitsThat(func(u *Unit) bool { return u.Flammable }) }

func (j *Job) unread() []*Unit { return j.unitsThat(func(u *Unit) bool { return u.Refrigerant == "" }) }

func named(list []*Unit) []string {
	var names []string
	for _, u := range list {
		names = append(names, u.ID)
	}
	return names
}

// called are some of the units by name, or the unit where there is only one.
func (j *Job) called(list []*Unit) quantity.Text {
	if !j.several() {
		return "the unit"
	}
	return and(named(list)...)
}

// OfUnits is one wording where there is one unit, another where there are several.
func (j *Job) OfUnits(one, several string) string {
	return string(j.ofUnits(quantity.Text(one), quantity.Text(several)))
}

// ofUnits is one wording where there is one unit, another where there are several.
func (j *Job) ofUnits(one, several quantity.Text) quantity.Text {
	if j.several() {
		return several
	}
	return one
}

// off is that they are switched off.
func (j *Job) off() quantity.Text {
	if j.several() {
		return "units off"
	}
	return "unit off"
}

// setPoints says what each unit is set to, most °C at the most: "unit 38 °C", or "HP1 38 °C, HP2 36 °C".
func (j *Job) setPoints(most float64) quantity.Text {
	if !j.several() {
		return quantity.Say("unit %s", quantity.Temperature.Of(min(j.setPoint(), most)))
	}
	var text quantity.Text
	for i, u := range j.units() {
		if i > 0 {
			text += ", "
		}
		text += quantity.Say("%s %s", u.ID, quantity.Temperature.Of(min(j.setOf(u), most)))
	}
	return text
}

// setsBetween is the lowest and the highest that a unit is set to, °C: an element that helps stands below all
// of them, a controller that calls for them above all.
func (j *Job) setsBetween() (lowest, highest float64) {
	lowest, highest = j.setPoint(), j.setPoint()
	for _, u := range j.units() {
		lowest, highest = min(lowest, j.setOf(u)), max(highest, j.setOf(u))
	}
	return lowest, highest
}

// leastAirs says below which air each unit does not heat, "" for one whose sheet is silent.
func (j *Job) leastAirs() quantity.Text {
	var text quantity.Text
	for i, u := range j.units() {
		if i > 0 {
			text += ", "
		}
		if u.LeastAir.Known {
			text += quantity.Say("%s %s", u.ID, quantity.Temperature.Of(u.LeastAir.C))
		} else {
			text += quantity.Text(u.ID + " as its sheet says")
		}
	}
	return text
}

// unlimited are the names of the units no high limit is said to stop.
func (j *Job) unlimited() []string {
	var names []string
	for _, u := range j.units() {
		if u.StopsAtHighLimit == nil || !*u.StopsAtHighLimit {
			names = append(names, u.ID)
		}
	}
	return names
}

// switchesOneByOne says how the flow switch of each unit is tried, with a way past them open.
func (j *Job) switchesOneByOne() quantity.Text {
	text := quantity.Text("Try each unit's flow switch by itself, the others running")
	open := j.Shut && len(j.Bypass) > 0
	if open {
		text += "; open " + and(j.Bypass...) + " first"
	}
	for _, s := range j.Switches {
		text += quantity.Say("; %s: shut %s slowly, %s must stop", s.Unit, and(s.Valves...), s.Unit)
		if s.Shared {
			text += " (what shares that pipe stops too)"
		}
		text += ", open it again at once"
	}
	if open {
		text += "; then shut " + and(j.Bypass...) + " again"
	}
	return text + "."
}

// Switch is what a unit's flow switch is tried by: the hand valves on its way that no other
// unit hangs on; where it has none, those it shares.
type Switch struct {
	Unit   string
	Valves []string
	Shared bool
}
