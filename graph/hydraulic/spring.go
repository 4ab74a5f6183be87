package hydraulic

import (
	"math"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/stream"
)

// Spring is the pressure at which a check is taken to open, and between what it may, Pa: nine in
// ten of its kind, its sheet or its measurement. All 0 where no spring holds it shut.
type Spring struct{ Pa, LowPa, HighPa float64 }

// spring is where the part opens at its settled spread; nothing of a swing check.
func (v *view) spring(m *ModelPart) Spring {
	if m.Set == nil || m.Swing || m.Check == nil {
		return Spring{}
	}
	at, span := v.pa*m.Check.Cracking, m.Set.Cracking.Span
	return Spring{at, at * (1 + span.Low), at * (1 + span.High)}
}

// Margin is how far a check is from its other state as a figure with the digits that mean
// something, and whether it means anything: not where its spring alone, stronger than taken where
// it is open and weaker where it is shut, may be off by as much. Where that is more than a
// twentieth of it the figure is a rule of thumb: one digit.
func (s Spring) Margin(pa float64, state string) (a quantity.Amount, means bool) {
	off := s.HighPa - s.Pa
	if state == "shut" {
		off = s.Pa - s.LowPa
	}
	switch {
	case !(pa > off) || s.HighPa == 0:
		return quantity.Amount{}, false
	case off > pa/20:
		return quantity.Pressure.About(pa), true
	}
	return quantity.Pressure.Of(pa), true
}

// Between says between what the spring may open.
func (s Spring) Between() quantity.Text {
	return graph.Say("its spring may open at %s to %s", quantity.Pressure.Of(s.LowPa), quantity.Pressure.Of(s.HighPa))
}

// CheckWords says how a check stands, in which words is the caller's, and how far that is from its
// other state.
func (f *PartFlow) CheckWords(state string) quantity.Text {
	chatter := quantity.Text("")
	if f.Chatters() {
		chatter = ": it will chatter"
	}
	a, means := f.Spring.Margin(f.MarginPa, f.State)
	switch {
	case f.Spring == Spring{}:
		return quantity.Text(state)
	case !means && chatter != "":
		return graph.Say("%s, about to chatter; %s", state, f.Spring.Between())
	case !means:
		return graph.Say("%s; %s", state, f.Spring.Between())
	case f.State != "shut":
		return graph.Say("%s; shuts after %s less%s", state, a, chatter)
	case f.MarginFlow > 0 && !math.IsInf(f.MarginFlow, 0):
		more := quantity.Flow.Of(f.MarginFlow)
		more.Grain = a.Grain
		return graph.Say("%s; opens after %s more, or %s more past it%s", state, a, more, chatter)
	}
	return graph.Say("%s; opens after %s more%s", state, a, chatter)
}

// chatterShare is the share of its cracking pressure within which a spring check that is
// about to open or to shut chatters. Common practice, no source.
const chatterShare = 0.1

// Chatters reports whether the part is a spring check that stands so near to its other state
// that it will chatter: less than a tenth of its cracking pressure away.
func (f *PartFlow) Chatters() bool {
	if f.Part.Kind != graph.CheckValve {
		return false
	}
	switch f.State {
	case "shut":
		crack := f.Drop + f.MarginPa
		return f.Drop > 0 && f.MarginPa < chatterShare*crack
	case "lifting":
		return f.MarginPa < chatterShare*(f.Drop-f.MarginPa)
	}
	return false
}

// pressedBy returns a running pump that moves water and makes more head than another, which runs too and moves
// none, where their water meets behind a check that it holds shut; nil where no check stands so.
func (s *Solution) pressedBy(net *stream.Net, pump *graph.Part) *PartFlow {
	of := s.Part(pump.ID)
	isPump := func(p *graph.Part) bool { return p.Kind == graph.Pump }
	var behind []*stream.Reach // the checks of the pump that stand so
	for _, p := range net.DownstreamUntil(pump, isPump).Parts {
		if f := s.Part(p.ID); f != nil && p.Kind == graph.CheckValve && f.State == "shut" && f.Drop < 0 {
			behind = append(behind, net.DownstreamUntil(p, isPump))
		}
	}
	if of == nil || len(behind) == 0 {
		return nil
	}
	for i := range s.Parts {
		p := &s.Parts[i]
		if p.Part.Kind != graph.Pump || p.Flow <= Standing || p.HeadM <= of.HeadM {
			continue
		}
		for _, its := range net.DownstreamUntil(p.Part, isPump).Parts {
			if slices.ContainsFunc(behind, func(r *stream.Reach) bool { return r.HasPart(its.ID) }) {
				return p
			}
		}
	}
	return nil
}

// HeldBy returns the check whose spring a pump that runs does not lift, so that no water passes it: the
// one that has most of the pump's pressure across it, and opens at more; nil where there is none, as
// where hand valves shut every way.
func (s *Solution) HeldBy(pump string) *PartFlow {
	of := s.Part(pump)
	if of == nil || of.State == "off" || math.Abs(of.Flow) > Standing {
		return nil
	}
	var held *PartFlow
	most := -of.Drop / 2
	for i := range s.Parts {
		p := &s.Parts[i]
		if p.State == "shut" && p.Spring.Pa > p.Drop && p.Drop > most {
			held, most = p, p.Drop
		}
	}
	return held
}
