package rule

import (
	"cmp"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/settle"
	"dryfit/graph/stream"
)

// load is the most a pump can put on what it presses on, with those before it that run at the same time.
type load struct {
	off    shutOff
	pump   *settle.Part
	before *load // what comes to its inlet from a pump before it in one line, at the most; nil: the tub's water alone
	on     *stream.Pressed
}

// greatestPa is what it puts on things level with the water, Pa.
func (l *load) greatestPa() float64 {
	if l == nil {
		return 0
	}
	return l.off.greatestPa() + l.before.greatestPa()
}

// headM is the same in m of the water.
func (l *load) headM() float64 { return l.greatestPa() / l.off.metre }

// at returns the pressure it puts on what lies so far below the water (mm), Pa.
func (l *load) at(belowMM float64) float64 { return l.greatestPa() + l.static(belowMM) }

// static is the water's own part of it.
func (l *load) static(belowMM float64) float64 { return max(0, belowMM) / 1000 * l.off.metre }

// words says what it is made up of.
func (l *load) words(belowMM float64) quantity.Text {
	words := l.off.words() + graph.Say(" of pump %q", l.pump.ID)
	for b := l.before; b != nil; b = b.before {
		words += quantity.Text(", ") + b.off.words() + graph.Say(" of pump %q before it", b.pump.ID)
	}
	if static := l.static(belowMM); static > 0 {
		words += graph.Say(" and %s of water above it", quantity.Pressure.Of(static))
	}
	return words
}

// loadsOf are what the pumps of a stage can put on what they press on, the most first: of each pump what it comes to
// alone at the strongest of its speeds, or, where that is more, at its speed in a mode with those before it that run
// then. A pump whose curve is not known puts nothing on its line that could be told.
func loadsOf(set *settle.Stage) []*load {
	var most []*load
	for _, pump := range set.Circuit.Pumps() {
		if off, ok := strongestShutOff(set.Part(pump.ID), set.Water); ok {
			most = append(most, &load{off: off, pump: set.Part(pump.ID), on: set.Net().Pressed(pump)})
		}
	}
	for _, m := range set.Circuit.AllModes() {
		run, at := make([]*load, 0, len(most)), make(map[*load]int, len(most))
		for i, l := range most {
			if speed := m.Speeds[l.pump.ID]; speed != "" {
				one := &load{off: strongestAt(l.pump, set.Water, speed), pump: l.pump, on: l.on}
				run, at[one] = append(run, one), i
			}
		}
		chain(run)
		for _, l := range run {
			if l.greatestPa() > most[at[l]].greatestPa() {
				most[at[l]] = l
			}
		}
	}
	mostFirst(most)
	return most
}

// mostFirst orders loads by what they come to.
func mostFirst(loads []*load) {
	slices.SortStableFunc(loads, func(a, b *load) int { return cmp.Compare(b.greatestPa(), a.greatestPa()) })
}

// chain finds, of each load of pumps that run together, the greatest of those that come to its inlet.
func chain(loads []*load) {
	const open, done = 1, 2
	state := make([]int, len(loads))
	var settle func(i int)
	settle = func(i int) {
		state[i] = open
		for k, a := range loads {
			if k == i || !slices.Contains(a.on.Into, loads[i].pump.Part) {
				continue
			}
			if state[k] == 0 {
				settle(k)
			}
			if state[k] == done && a.greatestPa() > loads[i].before.greatestPa() { // not one that it comes round to itself
				loads[i].before = a
			}
		}
		state[i] = done
	}
	for i := range loads {
		if state[i] == 0 {
			settle(i)
		}
	}
}

// GreatestPressure returns the most that the line of a pump can see, Pa: the greatest that this pump or one that
// presses on its line puts on what lies as deep as its eye. It is false where no curve is known.
func GreatestPressure(set *settle.Stage, pump *graph.Part) (pa float64, ok bool) {
	for _, l := range loadsOf(set) {
		if l.pump.Part == pump || l.on.HasPart(pump.ID) {
			return l.at(set.Part(pump.ID).Below.V), true
		}
	}
	return 0, false
}
