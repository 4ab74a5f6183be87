package plan

import (
	"slices"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/retrofit"
	"dryfit/graph/settle"
	"dryfit/graph/stream"
)

// leastFlowRule is the rule that says that the unit gets too little.
const leastFlowRule = "unit-least-flow"

// starved returns the trial whose pump gives the unit too little and that has no other fault:
// the one chosen, or, where no place can take the unit, the nearest to one.
func (s *search) starved(chosen *trial) *trial {
	tooLittle := func(t *trial) bool {
		return t.solved && slices.ContainsFunc(t.errors(), func(d graph.Diagnostic) bool { return d.Rule == leastFlowRule })
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
	if branch == nil || branch.Unit.Unit == nil || branch.Pump == nil || branch.TeeIn == nil {
		return nil
	}
	a := &adviser{circuit: after, branch: branch, before: s.before, unit: promiseOf(t.stage.Layout.Stage.Part(branch.Unit.ID))}
	var out []graph.Diagnostic
	note := func(message, hint quantity.Text) {
		out = append(out, graph.Diagnostic{Pos: s.asked.Retrofit.Pos, Rule: "retrofit", Severity: graph.Note, Message: message, Hint: hint})
	}
	if best, ok := a.bestFor(after, len(branch.Pump.SpeedNames()) < 2); ok && best.Keeps {
		note(graph.Say("the bypass takes the water that %q wants; with another in it, %s", branch.Unit.ID, effectWords(best)),
			"leave bypass and spring to the tool, or write that one")
		return out
	}
	most := a.try(after, throttleElement(0))
	note(graph.Say("%q asks for %s or more; the line of pump %q gives it %s at the least with the bypass shut",
		branch.Unit.ID, flowText(a.unit.least), branch.Pump.ID, flowText(leastFlow(most))),
		"what else could be done is worked out below it, with the flows")
	ways := slices.Concat([]hydraulic.Remedy{a.largerPump(), a.smallerUnit()}, s.otherLines(branch.Pump)) // jet pumps last: a rule bars their lines
	for i, way := range ways {
		verdict := "would do"
		switch {
		case way.Works && way.Attended:
			verdict = "would do while somebody stands by"
		case !way.Works:
			verdict = "would not do"
		}
		note(graph.Say("%d of %d compared, %s, %s: %s", i+1, len(ways), way.What, verdict, way.Effect), "")
	}
	return out
}

// otherLines works out the unit on the line of each other pump, where that can be cut or might
// be once it is measured.
func (s *search) otherLines(not *graph.Part) []hydraulic.Remedy {
	var out []hydraulic.Remedy
	net := s.before.Layout.Stage.Net()
	for _, pump := range s.before.Circuit.Pumps() {
		if pump.ID == not.ID {
			continue
		}
		what := graph.Say("%q on the line of pump %q", s.asked.Retrofit.Unit, pump.ID)
		place, ok := s.placeOn(net.Downstream(pump))
		if !ok {
			out = append(out, hydraulic.Remedy{What: what, Effect: "no straight of its pipe before the jets has the length for the work"})
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

// onLine solves the unit at a place of another pump's line with its best bypass.
func (s *search) onLine(what quantity.Text, pump *graph.Part, place retrofit.Place) hydraulic.Remedy {
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
	other.before.solve(graph.Before)
	t := &trial{}
	if !t.build(other.site, s.asked.Retrofit.Unit, place, choice) {
		return hydraulic.Remedy{What: what, Effect: "nothing can be built there"}
	}
	other.fitBypass(t, choice)
	r := hydraulic.Remedy{What: what, Works: t.promise().keeps(t.outcome()), Effect: other.summary(t), Attended: true}
	r.Effect += "; not unattended: jet pumps time out, the unit heats only while that pump runs, and the rule unit-on-heater-line bars it"
	if p := powerOf(pump); p > 0 {
		r.Effect += graph.Say(", which takes %s", quantity.Power.Of(p))
	}
	return r
}

// powerOf is the least electric power of a pump's speeds, W; 0 where none is known.
func powerOf(pump *graph.Part) float64 {
	least := 0.0
	if pump.Pump != nil {
		for _, s := range pump.Pump.Speeds {
			if s.PowerW > 0 && (least == 0 || s.PowerW < least) {
				least = s.PowerW
			}
		}
	}
	return least
}

// largerPump works out a circulation pump of the catalogue in place of the one there: the
// first that does, of those with one speed in the order of the catalogue, else the one that
// comes nearest.
func (a *adviser) largerPump() hydraulic.Remedy {
	best := hydraulic.Remedy{What: "a larger circulation pump", Effect: "none in the catalogue"}
	low := -1.0
	for _, row := range a.circuit.Catalog.Rows() {
		if row.Kind != string(graph.Pump) || len(row.Speeds) > 1 || row.Style == "plug-in" {
			continue
		}
		c := withPump(a.circuit, a.branch.Pump, []graph.Speed{speedOf(row)})
		choice, ok := a.bestFor(c, true)
		if !ok {
			continue
		}
		r := hydraulic.Remedy{What: graph.Say("a larger circulation pump in place of %q, like %s", a.branch.Pump.ID, row.Name),
			Works: choice.Keeps, Effect: effectWords(choice)}
		if r.Works {
			return r
		}
		if flow := leastFlow(choice); flow > low {
			best, low = r, flow
		}
	}
	return best
}

// smallerUnit works out the largest unit of the catalogue that the line can feed.
func (a *adviser) smallerUnit() hydraulic.Remedy {
	var rows []catalog.Row
	for _, row := range a.circuit.Catalog.Rows() {
		if row.Kind == string(graph.HeatPump) && row.Least > 0 && row.Least < a.unit.least {
			rows = append(rows, row)
		}
	}
	slices.SortStableFunc(rows, func(x, y catalog.Row) int {
		if x.Least > y.Least {
			return -1
		}
		return 1
	})
	out := hydraulic.Remedy{What: "a smaller unit", Effect: "none in the catalogue"}
	for _, row := range rows {
		c := withUnit(a.circuit, a.branch.Unit, row)
		set := settle.Of(c)
		other := &adviser{circuit: c, before: a.before, unit: promiseOf(set.Part(a.branch.Unit.ID))}
		if other.branch, _ = set.Branch(); other.branch == nil {
			continue
		}
		choice, ok := other.bestFor(c, len(other.branch.Pump.SpeedNames()) < 2)
		if !ok {
			continue
		}
		out = hydraulic.Remedy{Works: choice.Keeps, Effect: effectWords(choice),
			What: graph.Say("a smaller unit, like %s (least %s, rated %s)", row.Name, flowText(row.Least), flowText(row.Rated))}
		if choice.Keeps {
			return out
		}
	}
	return out
}

// withUnit returns the circuit with the unit replaced by one of the catalogue, of the same
// ports.
func withUnit(c *graph.Circuit, unit *graph.Part, row catalog.Row) *graph.Circuit {
	out := *c
	out.Parts = slices.Clone(c.Parts)
	other := *unit
	other.Type, other.Loss, other.Known = row.Name, nil, graph.Assumed
	other.Unit = &graph.UnitData{Least: row.Least, Rated: row.Rated, Most: row.Most, PortsSize: settle.UnitPorts(c.Catalog, unit).V}
	out.Parts[slices.Index(out.Parts, unit)] = &other
	return &out
}
