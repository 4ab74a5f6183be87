package job

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/heat"
)

// plugLongA is what many makers let a plug of 13 A carry for hours, A. Source: from memory.
const plugLongA = 10

// says puts what a circuit of the supply asks of the electrician into sentences: what has to be kept
// apart or wants a circuit of its own, what hours on a plug mean, what a start asks for, and what
// is not judged because nobody said it.
func (b *builder) says(from *graph.Supply, s *Supply) []quantity.Text {
	if len(s.Together) == 0 {
		return nil
	}
	var out []quantity.Text
	worst := s.Together[0]
	limit := s.RatingA
	if s.LongA > 0 {
		limit = s.LongA
	}
	if limit > 0 && worst.RunningA > limit {
		s.Apart = b.apart(s, worst, limit)
		out = append(out, s.Apart)
	}
	if s.Plug {
		out = append(out, plugWords(s, worst))
	}
	if s.OnOneOfThree(worst) {
		_, one := catalog.Phases(s.VoltageV)
		out = append(out, graph.Say("taken to have three phases: pumps, blower and element stand at %s, and all of them are counted on one phase; shared out, or between two phases or on all three, each bears less", quantity.Voltage.Of(one)))
	}
	if s.RatingA <= 0 {
		return out
	}
	starts := s.GreatestStart()
	if starts.WithStart > s.RatingA && starts.WithStart > 1.2*starts.RunningA {
		out = append(out, graph.Say("%s for a moment at a start: what trips has to bear it, by its curve; a soft starter halves it", quantity.Current.Of(starts.WithStart)))
	}
	if !from.Continuous.Set {
		out = append(out, "how much of the rating may run for hours is not said (continuous): all of it is taken; in North America it is 80 % (NEC, from memory)")
	}
	if !from.Impedance.Set {
		out = append(out, "the dip at a start is not judged: the supply's impedance is not said")
	}
	return out
}

// apart says what has to be kept from running with the rest, or to get a circuit of its own, so that
// a circuit bears what is left: the element first, then what draws least of those that do.
func (b *builder) apart(s *Supply, worst heat.Set, limit float64) quantity.Text {
	amps := map[string]float64{}
	for _, l := range s.Loads {
		amps[l.ID] = l.RunningA
	}
	element := func(id string) bool {
		part, _ := s.Part(id)
		p := b.in.Stage.Circuit.Part(part)
		return p != nil && p.Kind == graph.ElementHeater
	}
	var alone []string
	best := ""
	for _, id := range worst.IDs {
		if amps[id] > limit {
			alone = append(alone, id)
		}
		if worst.RunningA-amps[id] > limit {
			continue
		}
		if best == "" || element(id) && !element(best) || element(id) == element(best) && amps[id] < amps[best] {
			best = id
		}
	}
	switch {
	case len(worst.IDs) == 1:
		return graph.Say("%s draws more than the circuit bears, %s: it wants one of a higher rating with cable for it, or what draws less", s.Called(alone), quantity.Current.Of(limit))
	case len(alone) == 1:
		return graph.Say("%s draws more than the circuit bears, %s, by itself: it wants a circuit of its own", s.Called(alone), quantity.Current.Of(limit))
	case len(alone) > 1:
		return graph.Say("%s each draw more than the circuit bears, %s: each wants a circuit of its own", s.Called(alone), quantity.Current.Of(limit))
	case best != "":
		rest := slices.DeleteFunc(slices.Clone(worst.IDs), func(id string) bool { return id == best })
		if b.heats(s, best) && slices.ContainsFunc(rest, func(id string) bool { return b.heats(s, id) }) {
			return graph.Say("the circuit bears %s: %s on a circuit of its own; kept by an interlock from running with %s the unit would not heat", quantity.Current.Of(limit), s.Called([]string{best}), s.Called(rest))
		}
		return graph.Say("the circuit bears %s: %s kept by an interlock, or by the controller's low-power mode, from running with %s, or on a circuit of its own", quantity.Current.Of(limit), s.Called([]string{best}), s.Called(rest))
	}
	return graph.Say("the circuit bears %s: it has to be divided, or all but one of them interlocked", quantity.Current.Of(limit))
}

// heats reports whether the unit can't heat without a load: the unit itself, and its pump at the speed that heats.
func (b *builder) heats(s *Supply, id string) bool {
	part, speed := s.Part(id)
	h := b.in.Heating
	return b.in.Unit != nil && part == b.in.Unit.ID || h.Pump != nil && part == h.Pump.ID && (speed == "" || speed == h.Speed)
}

// Part returns the part that a load of the circuit is of, and the speed at which it draws that; "" of
// what runs at one speed.
func (s *Supply) Part(id string) (part, speed string) {
	for _, l := range s.Loads {
		if l.ID == id {
			return l.Part, l.Speed
		}
	}
	return id, ""
}

// Called words loads of the circuit, each by the id of its part and its speed.
func (s *Supply) Called(ids []string) quantity.Text {
	words := make([]string, len(ids))
	for i, id := range ids {
		part, speed := s.Part(id)
		words[i] = strconv.Quote(part)
		if speed != "" {
			words[i] += " (" + speed + ")"
		}
	}
	return quantity.Text(quantity.Listed(words, "and"))
}

// plugWords says what the heaviest of a plug's loads means for hours.
func plugWords(s *Supply, worst heat.Set) quantity.Text {
	watts := graph.Say("%s at %s are %s", quantity.Power.Of(s.watts(worst)), quantity.Voltage.Of(s.VoltageV), quantity.Current.Of(worst.RunningA))
	switch {
	case s.RatingA > 0 && worst.RunningA > s.RatingA:
		return graph.Say("%s, more than the plug's %s; no plug carries that for hours: a fused spur or a circuit of its own", watts, quantity.Current.Of(s.RatingA))
	case worst.RunningA > plugLongA:
		return graph.Say("%s: on a plug nothing else may hang; plug and socket run hot over hours, and many makers allow %d A (from memory): better a fused spur or a circuit of its own", watts, plugLongA)
	}
	return graph.Say("%s on a plug: nothing else on its socket, and no extension lead", watts)
}

// watts is what a set draws, as volts times amperes: on one phase what that stands at, on all three √3 times the
// voltage between two of them, be the supply taken to have three or not.
func (s *Supply) watts(set heat.Set) float64 {
	_, one := catalog.Phases(s.VoltageV)
	onOne := s.onOnePhase(set)
	return one*onOne + math.Sqrt(3)*s.VoltageV*(set.RunningA-onOne)
}

// GreatestStart is of what may run together the set with the most current while one of it
// starts, which is not always the one that runs heaviest. There must be one.
func (s *Supply) GreatestStart() heat.Set {
	return slices.MaxFunc(s.Together, func(x, y heat.Set) int { return cmp.Compare(x.WithStart, y.WithStart) })
}
