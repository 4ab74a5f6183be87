package search

import (
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan/advice"
	"dryfit/graph/retrofit"
	"dryfit/graph/stream"
)

// The rules that say that the unit gets too little, or that it will with a dirty filter, and
// that it gets too much.
const (
	leastFlowRule = "unit-least-flow"
	lineStands    = "heater-line-flows"
	dirtyRule     = "least-flow-when-dirty"
	mostFlowRule  = "unit-most-flow"
)

// starved returns the trial whose pump gives the unit too little and that has no other fault:
// the one chosen, or, where no place can take the unit, the nearest to one.
func (s *search) starved(chosen *trial) *trial {
	tooLittle := func(t *trial) bool {
		found := func(rule string) bool {
			return slices.ContainsFunc(t.errors(), func(d graph.Diagnostic) bool { return d.Rule == rule })
		}
		return t.solved && found(leastFlowRule) && !found(lineStands) // of water that stands no pump or unit helps
	}
	if chosen != nil {
		if tooLittle(chosen) {
			return chosen
		}
		return nil
	}
	for _, t := range s.trials {
		if tooLittle(t) && !slices.ContainsFunc(t.errors(), func(d graph.Diagnostic) bool { return d.Rule != leastFlowRule }) {
			return t
		}
	}
	return nil
}

// compare works out what else could be done where the pump of the unit's line gives it too
// little: the unit on the line of another pump, a larger circulation pump, a smaller unit.
// Each is the circuit solved again; the flows are in the words.
func (s *search) compare(t *trial) []graph.Diagnostic {
	after := t.stage.Circuit
	branch, _ := t.stage.Layout.Stage.Branch()
	if !branch.Whole() {
		return nil
	}
	a := advice.New(after, branch, s.before, t.stage.Layout.Stage)
	var out []graph.Diagnostic
	note := func(message, hint quantity.Text) {
		out = append(out, graph.Diagnostic{Pos: s.asked.Retrofit.Pos, Rule: "retrofit", Severity: graph.Note, Message: message, Hint: hint})
	}
	if best, ok := a.BestFor(after, branch.Constant()); ok && best.Keeps {
		if e := branch.Element(); e != nil && e.Existing {
			note(graph.Say("bypass %q, which is there, takes the water that %q wants; with another setting or spring in it, %s", e.ID, branch.Unit.ID, advice.EffectWords(best)),
				"what it is set to now was for what stands there now: set it anew with the second unit, by what the units read")
			return out
		}
		note(graph.Say("the bypass takes the water that %q wants; with another in it, %s", branch.Unit.ID, advice.EffectWords(best)),
			"leave bypass and spring to the tool, or write that one")
		s.instead = "leave bypass and spring to the tool: another bypass keeps the unit's flow"
		return out
	}
	most := a.Try(after, advice.ThrottleElement(0))
	note(graph.Say("%q asks for %s or more; the line of %s gives it %s at the least with the bypass shut",
		branch.Unit.ID, quantity.Flow.Limit(a.Unit.Least), pumpWords(branch.Feeds()), quantity.Flow.Of(advice.LeastFlow(most))),
		"what else could be done is worked out below it, with the flows")
	ways := slices.Concat([]advice.Remedy{a.ShorterWay(), a.LargerPump(), a.SmallerUnit()}, s.otherLines(branch.Pump)) // jet pumps last: a rule bars their lines
	for i, way := range ways {
		verdict := "would do"
		switch {
		case way.Works && way.Attended:
			verdict = "would do while somebody stands by"
		case !way.Works:
			verdict = "would not do"
		}
		note(graph.Say("%d of %d compared, %s, %s: %s", i+1, len(ways), way.What, verdict, way.Effect), "")
		if way.Works && s.instead == "" {
			s.instead = graph.Say("%s, %s: %s", way.What, verdict, way.Effect)
		}
	}
	if s.instead == "" {
		s.instead = "nothing does: decide with the owner on another unit, or on a pump and a line of its own for it"
	}
	return out
}

// otherLines works out the unit on the line of each other pump, where that can be cut or might
// be once it is measured.
func (s *search) otherLines(not *graph.Part) []advice.Remedy {
	var out []advice.Remedy
	net := s.before.Layout.Stage.Net()
	for _, pump := range s.before.Circuit.Pumps() {
		if pump.ID == not.ID {
			continue
		}
		what := graph.Say("%q on the line of pump %q", s.asked.Retrofit.Unit, pump.ID)
		place, ok := s.placeOn(net.Downstream(pump))
		if !ok {
			out = append(out, advice.Remedy{What: what, Effect: "no straight of its pipe before the jets has the length for the work"})
			continue
		}
		out = append(out, s.onLine(what, pump, place))
	}
	return out
}

// placeOn returns the place with most room in a reach that nothing bars but that another pump
// heats today; one to be measured first where no measured one has room.
func (s *search) placeOn(reach *stream.Reach) (retrofit.Place, bool) {
	var best retrofit.Place
	found := false
	for _, t := range s.trials {
		bars := func(d graph.Diagnostic) bool { return d.Severity == graph.Error && d.Rule != "unit-on-heater-line" }
		if !reach.HasRun(t.place.Run) || t.place.TooShort() || t.place.RoomMM < t.place.NeededMM || slices.ContainsFunc(t.findings, bars) {
			continue
		}
		better := !found || best.MeasureFirst && !t.place.MeasureFirst ||
			best.MeasureFirst == t.place.MeasureFirst && t.place.RoomMM > best.RoomMM
		if better {
			best, found = t.place, true
		}
	}
	return best, found
}

// pumpWords names the pumps of a line: pump "a"; pumps "a" and "b".
func pumpWords(pumps []*graph.Part) quantity.Text {
	if len(pumps) == 1 {
		return graph.Say("pump %q", pumps[0].ID)
	}
	words := make([]string, len(pumps))
	for i, p := range pumps {
		words[i] = graph.Say("%q", p.ID).String()
	}
	return graph.Say("pumps %s", strings.Join(words, " and "))
}

// onLine solves the unit at a place of another pump's line with its best bypass.
func (s *search) onLine(what quantity.Text, pump *graph.Part, place retrofit.Place) advice.Remedy {
	other := &search{asked: s.asked, before: s.before, site: s.site}
	where := place.Where()
	if place.MeasureFirst {
		other.site, other.before = straightened(s.asked, place)
		place.Leg, place.MeasureFirst = 1, false
		where += ", taken as one straight: measure it first"
	}
	what += graph.Say(" (%s)", where)
	choice := retrofit.Choice{Bypass: "valve"}
	if len(pump.SpeedNames()) > 1 {
		choice.Bypass = "spring"
	}
	other.before.Solve(graph.Before)
	t := &trial{}
	t.build(other.site, s.asked.Retrofit.Unit, place, choice)
	other.fitBypass(t, choice)
	r := advice.Remedy{What: what, Works: t.promise().Keeps(t.outcome()), Effect: other.summary(t), Attended: true}
	r.Effect += "; not unattended: jet pumps time out, the unit heats only while that pump runs, and the rule unit-on-heater-line bars it"
	if p := other.before.Layout.Stage.Part(pump.ID).LeastPower(); p.Known {
		r.Effect += graph.Say(", which takes %s", quantity.Power.Of(p.V))
	}
	return r
}
