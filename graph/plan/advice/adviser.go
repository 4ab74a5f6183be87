package advice

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/hydraulic/spread"
	"dryfit/graph/plan/stage"
	"dryfit/graph/route"
	"dryfit/graph/route/laying"
	"dryfit/graph/rule"
	"dryfit/graph/settle"
	"dryfit/graph/stream"
)

// adviser holds what every comparison needs.
type adviser struct {
	circuit *graph.Circuit
	settled *settle.Stage // of the circuit: what a changed one has in common with it is not settled again
	branch  *stream.UnitBranch
	before  *stage.Stage
	Unit    Promise
}

// New returns the adviser of a unit's branch in a circuit: settled is its stage, before
// what stands today, nil where that is not known.
func New(c *graph.Circuit, branch *stream.UnitBranch, before *stage.Stage, settled *settle.Stage) *adviser {
	return &adviser{circuit: c, settled: settled, branch: branch, before: before, Unit: PromiseOf(settled.Part(branch.Unit.ID))}
}

// Compare solves every choice and picks one; where none keeps the promise it works out the
// remedies.
func (a *adviser) Compare() *Comparison {
	out := &Comparison{Pump: a.branch.Pump.ID, Constant: a.branch.Constant(), Today: a.before != nil, Jets: hasJets(a.circuit), Best: -1, Asked: a.Unit.Asked()}
	out.Choices = a.choices(a.circuit)
	for i := range out.Choices {
		out.Choices[i].Unfit = !preferred(out.Choices[i], out.Constant)
	}
	for i, c := range out.Choices {
		if c.Keeps && preferred(c, out.Constant) && (out.Best < 0 || a.better(c, out.Choices[out.Best], out.Constant)) {
			out.Best = i
		}
	}
	for i := range out.Choices {
		out.Choices[i].Why = a.why(out, i)
	}
	out.Why = a.conclusion(out)
	if out.Best < 0 {
		out.Remedies = a.remedies()
	}
	return out
}

// hasJets reports whether a circuit has jets at all; a plunge pool has none.
func hasJets(c *graph.Circuit) bool {
	return len(c.OfKind(graph.JetGroup)) > 0
}

// preferred reports whether a choice is one to advise: a throttle splits both speeds of a
// pump in nearly the same ratio, and a spring has nothing to do on a constant pump; either
// is compared, neither is named.
func preferred(c BypassChoice, constant bool) bool { return (c.Spring == "") == constant }

// choices solves every element in a circuit that has the adviser's branch.
func (a *adviser) choices(c *graph.Circuit) []BypassChoice {
	var out []BypassChoice
	for _, row := range c.Catalog.Springs() {
		one := a.Try(c, springElement(row))
		one.Name, one.Spring = quantity.Text(row.Name), row.Name
		out = append(out, one)
	}
	shut := a.Try(c, ThrottleElement(0))
	out = append(out, a.throttle(c, shut))
	shut.Name = "bypass valve shut: all through the unit"
	return append(out, shut)
}

// Try solves a circuit with one element in every mode in which a pump of the unit's runs.
func (a *adviser) Try(c *graph.Circuit, element graph.Part) BypassChoice {
	var out BypassChoice
	changed := withElement(c, a.branchIn(c), element)
	if changed == nil {
		return out
	}
	lay := a.lay(changed)
	for _, mode := range changed.AllModes() {
		if !a.branch.FedIn(mode) {
			continue
		}
		out.Modes = append(out.Modes, a.solve(lay, mode))
	}
	a.weigh(&out)
	if out.Keeps {
		out.Dirty = a.tooDirty(lay)
		out.Keeps = out.Dirty == nil
	}
	return out
}

// Spring returns the row of the spring with which the unit is served best, each put into its bypass in
// turn, the weakest first: as the search for the place of the cut chooses. False where none has an answer.
func (a *adviser) Spring(put func(catalog.Row) *route.Layout) (best catalog.Row, ok bool) {
	var with BypassChoice
	for _, row := range a.circuit.Catalog.Springs() {
		lay, one := put(row), BypassChoice{}
		for _, mode := range lay.Circuit.AllModes() {
			if a.branch.FedIn(mode) {
				one.Modes = append(one.Modes, a.solve(lay, mode))
			}
		}
		if !ok || a.better(one, with, false) {
			best, with, ok = row, one, true
		}
	}
	return best, ok
}

// tooDirty is the mode in which the unit gets too little with a dirty filter, and half of the jets
// turned down: what keeps the promise on a clean one alone is ruled out by least-flow-when-dirty.
func (a *adviser) tooDirty(lay *route.Layout) *ChoiceMode {
	for _, mode := range lay.Circuit.AllModes() {
		bad, ok := stage.BadDay(mode)
		if !ok || a.Unit.Least == 0 || !a.branch.FedIn(mode) {
			continue
		}
		if m := a.solve(lay, bad); m.Error == "" && m.UnitFlow < a.Unit.Least {
			return &m
		}
	}
	return nil
}

// branchIn finds the branch again in a circuit that was changed.
func (a *adviser) branchIn(c *graph.Circuit) *stream.UnitBranch {
	if c == a.circuit {
		return a.branch
	}
	branch, _ := stream.NewNet(c).TheBranch()
	return cmp.Or(branch, a.branch)
}

// lay lays out a changed circuit.
func (a *adviser) lay(c *graph.Circuit) *route.Layout { return laying.OfStage(a.settled.With(c)) }

func (a *adviser) solve(lay *route.Layout, mode graph.Mode) ChoiceMode {
	out := ChoiceMode{Mode: mode.Name}
	sol, err := spread.Solve(lay, mode, graph.After)
	if err != nil {
		out.Error = quantity.OfError(err)
		return out
	}
	if unit := sol.Part(a.branch.Unit.ID); unit != nil {
		out.UnitFlow, out.RiseK = unit.Flow, unit.RiseK
	}
	if branch, _ := lay.Stage.Branch(); branch != nil && branch.Element() != nil {
		if e := sol.Part(branch.Element().ID); e != nil {
			out.BypassFlow, out.State, out.MarginPa, out.Spring, out.Chatters = e.Flow, e.State, e.MarginPa, e.Spring, e.Chatters()
		}
	}
	_, out.PumpFlow = rule.LineFlow(lay.Stage.Net(), sol, a.branch)
	if before := a.before.Solution(mode.Name); before != nil {
		out.JetsChange = -stage.JetsLost(sol, []hydraulic.Solution{*before})
	}
	return out
}

// weigh says whether a choice keeps the promise.
func (a *adviser) weigh(c *BypassChoice) {
	p, o := a.Unit, outcomeOf(*c)
	c.Keeps, c.Rated = p.Keeps(o), p.KeepsRated(o)
}

// outcomeOf is what a choice comes to, for promise.order.
func outcomeOf(c BypassChoice) Outcome {
	var o Outcome
	for _, m := range c.Modes {
		if m.Error != "" {
			o.Failed++
			continue
		}
		if m.Chatters {
			o.Chatters++
		}
		o.Unit, o.Pump, o.JetsShare = append(o.Unit, m.UnitFlow), append(o.Pump, m.PumpFlow), append(o.JetsShare, -m.JetsChange)
	}
	return o
}

// better reports whether c is to be preferred to d.
func (a *adviser) better(c, d BypassChoice, constant bool) bool {
	return a.Unit.Order(outcomeOf(c), outcomeOf(d), constant) < 0
}

// LeastFlow is the least the unit gets with a bypass in the modes its pump runs in, m³/s.
func LeastFlow(c BypassChoice) float64 { return outcomeOf(c).Low() }

// throttle tries the bypass valve at its setting; it stays shut where in some mode the unit gets no more
// than its rated flow so, which shut, the choice of a valve that is, tells.
func (a *adviser) throttle(c *graph.Circuit, shut BypassChoice) BypassChoice {
	want := a.Unit.Wanted()
	if want == 0 || LeastFlow(shut) <= want {
		shut.Name = a.staysShut(shut)
		return shut
	}
	changed := withElement(c, a.branchIn(c), ThrottleElement(1)) // any Kv: it is set below
	if changed == nil {
		return BypassChoice{}
	}
	lay := a.lay(changed)
	found, _ := lay.Stage.Branch()
	branch := cmp.Or(found, a.branch)
	kv := NewThrottle(lay, branch, branch.Element().ID).Setting(a.Unit)
	out := a.Try(c, ThrottleElement(kv))
	out.Kv = kv
	out.Name = graph.Say("throttle valve, %s", quantity.Kv.Of(kv))
	return out
}

// staysShut names the throttle that stays shut, and why: by the mode in which the unit gets least, where it
// gets more in others.
func (a *adviser) staysShut(shut BypassChoice) quantity.Text {
	name, of := quantity.Text("throttle valve: stays shut"), quantity.Text("rated")
	switch {
	case a.Unit.Wanted() == 0:
		return name + " until the unit's rated flow is known"
	case a.Unit.Rated == 0:
		of = "least"
	}
	where := ""
	if mostFlow(shut) > a.Unit.Wanted() {
		least := slices.MinFunc(shut.Modes, func(x, y ChoiceMode) int {
			return cmp.Or(quantity.CompareBool(x.Error != "", y.Error != ""), cmp.Compare(x.UnitFlow, y.UnitFlow))
		})
		where = " in mode " + least.Mode
	}
	return name + graph.Say(", the unit gets no more than its %s flow even so%s", of, where)
}

// why says what is wrong with a choice, or what it costs more than the best.
func (a *adviser) why(all *Comparison, i int) quantity.Text {
	c := all.Choices[i]
	for _, m := range c.Modes {
		switch {
		case m.Error != "":
			return graph.Say("%s: %s", m.Mode, m.Error)
		case m.UnitFlow < a.Unit.Least:
			return graph.Say("%s: the unit gets %s, less than its least, %s", m.Mode, quantity.Flow.Of(m.UnitFlow), quantity.Flow.Limit(a.Unit.Least))
		case a.Unit.Most > 0 && m.UnitFlow > a.Unit.Most:
			return graph.Say("%s: the unit gets %s, more than its most, %s", m.Mode, quantity.Flow.Of(m.UnitFlow), quantity.Flow.Limit(a.Unit.Most))
		}
	}
	if c.Dirty != nil {
		day := quantity.Text("with a dirty filter")
		if all.Jets {
			day += " and half of the jets turned down"
		}
		return graph.Say("%s: %s the unit gets %s, less than its least, %s", c.Dirty.Mode, day, quantity.Flow.Of(c.Dirty.UnitFlow), quantity.Flow.Limit(a.Unit.Least))
	}
	if all.Best < 0 || i == all.Best || !all.Asked { // of what nobody asks nothing is better or worse
		return ""
	}
	best := all.Choices[all.Best]
	switch {
	case !preferred(c, all.Constant) && !all.Constant:
		return "keeps the promise, but its split is fixed: " + splitWords(c)
	case !preferred(c, all.Constant):
		return "keeps the promise, but on a pump of one speed a valve can be set to the flow that is wanted"
	case best.Rated && !c.Rated, a.Unit.nearlyRated(outcomeOf(best)) && !a.Unit.nearlyRated(outcomeOf(c)):
		return graph.Say("keeps the promise too, but the unit gets %s at the least, under its rated %s", quantity.Flow.Of(LeastFlow(c)), quantity.Flow.Limit(a.Unit.Rated))
	case all.Constant:
		return graph.Say("keeps the promise too, but the unit gets %s, further from its rated %s", quantity.Flow.Of(LeastFlow(c)), quantity.Flow.Limit(a.Unit.Rated))
	}
	if m := chatteringIn(c); outcomeOf(best).Chatters < outcomeOf(c).Chatters {
		text := graph.Say("keeps the promise too, but will chatter: at %s it stands less than a tenth of its cracking pressure from changing", m)
		if less := chatteringIn(best); less != "" {
			text += graph.Say("; %s does so at %s only", best.Name, less)
		}
		return text
	}
	if spare := outcomeOf(c).sparesJets() && outcomeOf(best).sparesJets(); spare && a.Unit.short(outcomeOf(c)) > a.Unit.short(outcomeOf(best)) {
		m := shortest(c)
		return graph.Say("keeps the promise too, but leaves the unit shorter of its rated %s: %s at %s", quantity.Flow.Limit(a.Unit.Rated), quantity.Flow.Of(m.UnitFlow), m.Mode)
	}
	words := jetsWords
	if !all.Today || !all.Jets {
		words = pumpWords
	}
	return "keeps the promise too, but costs more: " + words(c) + ", against " + words(best)
}

// shortest is the mode in which a choice gives the unit least.
func shortest(c BypassChoice) ChoiceMode {
	return slices.MinFunc(c.Modes, func(a, b ChoiceMode) int { return cmp.Compare(a.UnitFlow, b.UnitFlow) })
}

// splitWords says what share of the water the unit gets in each mode.
func splitWords(c BypassChoice) quantity.Text {
	text := quantity.Text("the unit takes")
	for i, m := range c.Modes {
		if i > 0 {
			text += ","
		}
		if m.PumpFlow > 0 {
			text += graph.Say(" %.0f %% at %s", 100*m.UnitFlow/m.PumpFlow, m.Mode)
		}
	}
	return text
}

func jetsWords(c BypassChoice) quantity.Text {
	text := quantity.Text("jets")
	for i, m := range c.Modes {
		if i > 0 {
			text += ","
		}
		if math.Abs(m.JetsChange) < noJets {
			text += graph.Say(" as today at %s", m.Mode)
			continue
		}
		text += graph.Say(" %+.1f %% at %s", 100*m.JetsChange, m.Mode)
	}
	return text
}

// pumpWords says what the pump moves in each mode.
func pumpWords(c BypassChoice) quantity.Text {
	text := quantity.Text("the pump moves")
	for i, m := range c.Modes {
		if i > 0 {
			text += ","
		}
		text += graph.Say(" %s at %s", quantity.Flow.Of(m.PumpFlow), m.Mode)
	}
	return text
}

// conclusion names the choice to take.
func (a *adviser) conclusion(all *Comparison) quantity.Text {
	if all.Best < 0 {
		text := quantity.Text("no bypass element keeps the unit's flow between its least and its most at every speed")
		if slices.ContainsFunc(all.Choices, func(c BypassChoice) bool { return c.Dirty != nil }) {
			text += ", and its least with a dirty filter too"
		}
		return text
	}
	best := all.Choices[all.Best]
	text := graph.Say("take %s: ", best.Name)
	for i, m := range best.Modes {
		if i > 0 {
			text += "; "
		}
		text += graph.Say("%s: the unit gets %s", m.Mode, quantity.Flow.Of(m.UnitFlow))
		if m.State != "" {
			state := m.State
			if best.Spring != "" {
				state = StateWords(state)
			}
			text += graph.Say(", bypass %s", state)
		}
	}
	if best.Kv > 0 {
		text += "; it is set by that flow, on the unit's display or by a meter"
	}
	switch {
	case best.Rated || a.Unit.Rated <= 0:
	case a.Unit.Least > 0 && LeastFlow(best) >= a.Unit.Least:
		text += graph.Say(" (under its rated %s, above its least %s)", quantity.Flow.Limit(a.Unit.Rated), quantity.Flow.Limit(a.Unit.Least))
	default:
		text += graph.Say(" (under its rated %s)", quantity.Flow.Limit(a.Unit.Rated))
	}
	if !all.Asked && a.Unit.Usual > 0 {
		text += graph.Say("; what the unit asks for is not known: chosen by the %s that is usual for such a unit", quantity.Flow.Of(a.Unit.Usual))
	}
	if i := weakest(all); i >= 0 && !all.Constant {
		text += "; the weakest spring that keeps " + a.flowWord()
		if i != all.Best {
			text += " is " + all.Choices[i].Name + ", which costs more"
		}
	}
	if m := chatteringIn(best); m != "" {
		text += graph.Say("; at %s it will chatter, less than a tenth of its cracking pressure from changing", m)
	}
	if shut, ok := a.shutDoes(all); ok {
		text += graph.Say("; simpler is the bypass shut: the unit then gets %s, within its most of %s", quantity.Flow.Of(mostFlow(shut)), quantity.Flow.Limit(a.Unit.Most))
		if all.Today && all.Jets {
			text += " (" + jetsWords(shut) + ")"
		}
	}
	return text
}

// flowWord names the flow that elements are chosen by.
func (a *adviser) flowWord() quantity.Text {
	if a.Unit.Rated > 0 {
		return "the rated flow"
	}
	return "that"
}

// chatteringIn names the modes in which a choice's spring will chatter; "": in none.
func chatteringIn(c BypassChoice) string {
	var modes []string
	for _, m := range c.Modes {
		if m.Chatters {
			modes = append(modes, m.Mode)
		}
	}
	return strings.Join(modes, " and at ")
}

// shutDoes returns the choice of a bypass that stands shut, where a throttle is advised and
// the unit may have all the water.
func (a *adviser) shutDoes(all *Comparison) (BypassChoice, bool) {
	shut := all.Choices[len(all.Choices)-1]
	return shut, all.Constant && a.Unit.Most > 0 && shut.Spring == "" && shut.Kv == 0 && shut.Keeps && all.Best != len(all.Choices)-1
}

// mostFlow is the most a choice gives the unit in any mode, m³/s.
func mostFlow(c BypassChoice) float64 {
	most := 0.0
	for _, m := range c.Modes {
		most = max(most, m.UnitFlow)
	}
	return most
}

// StateWords says how a check stands, so that nobody takes it for an order: a check that lifts
// is part open, and works by itself.
func StateWords(state string) string {
	switch state {
	case "lifting":
		return "spring part open"
	case "shut":
		return "spring shut"
	}
	return state
}

// weakest returns the weakest spring that keeps the unit at its rated flow, or -1. The choices
// come with the weakest spring first.
func weakest(all *Comparison) int {
	return slices.IndexFunc(all.Choices, func(c BypassChoice) bool { return c.Spring != "" && c.Keeps && c.Rated })
}
