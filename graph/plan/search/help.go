package search

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan/advice"
	"dryfit/graph/retrofit"
	"dryfit/graph/rule"
)

// help is one change that might make a ruled-out place possible: what to write, what it
// costs, and how it changes the circuit.
type help struct {
	kinds     []string // what it changes; there is no use in changing that twice
	say, cost quantity.Text
	fact      bool // not for the fitter to choose: it is so, or it is not
	dear      bool // to try: the pipes to the unit are looked for anew
	leg       int  // what the number of the place's leg is with it; 0: as it was
	apply     func(c *graph.Circuit)
}

// writing is a help that is one key of [retrofit].
func writing(key, value string, cost quantity.Text, apply func(r *graph.Retrofit)) help {
	return help{kinds: []string{key}, say: graph.Say("%s = %s in [retrofit]", key, value), cost: cost, apply: func(c *graph.Circuit) { apply(c.Retrofit) }}
}

// leaving is a help that takes a key of [retrofit] out.
func leaving(key string, cost quantity.Text, apply func(r *graph.Retrofit)) help {
	return help{kinds: []string{key}, say: graph.Say("leave out %s in [retrofit]", key), cost: cost, apply: func(c *graph.Circuit) { apply(c.Retrofit) }}
}

// forked is a copy of a circuit whose request and list of runs are its own.
func forked(c *graph.Circuit) *graph.Circuit {
	out, asked := *c, *c.Retrofit
	asked.ToUnit, asked.FromUnit = slices.Clone(asked.ToUnit), slices.Clone(asked.FromUnit)
	if c.Retrofit.Stand != nil {
		stand := *c.Retrofit.Stand
		asked.Stand = &stand
	}
	out.Retrofit, out.Runs = &asked, slices.Clone(c.Runs)
	return &out
}

// changeLeg changes a leg (from 1) of a run in a forked circuit.
func changeLeg(c *graph.Circuit, run string, leg int, change func(l *graph.Leg)) {
	for i, r := range c.Runs {
		if r.ID == run && leg >= 1 && leg <= len(r.Legs) {
			own := *r
			own.Legs = slices.Clone(r.Legs)
			change(&own.Legs[leg-1])
			c.Runs[i] = &own
		}
	}
}

// helps are the changes that speak to what rules a place out.
func (s *search) helps(t *trial) []help {
	rules := map[string]bool{}
	for _, d := range t.errors() {
		rules[d.Rule] = true
	}
	var out []help
	r := s.asked.Retrofit
	if rules["cut-room"] || t.place.TooShort() {
		out = append(out, s.roomHelps(t)...)
	}
	if rules["assembly"] {
		out = append(out, s.closingHelps(t)...)
	}
	out = append(out, s.placeHelps(t, rules)...)
	if rules["routing"] && len(r.AdaptorsKept) > 0 {
		out = append(out, leaving("adaptors-kept", "the new pipe goes straight in, or an adaptor is bought", func(r *graph.Retrofit) { r.AdaptorsKept = nil }))
	}
	if rules["retrofit"] || rules["clash"] || rules["routing"] {
		out = append(out, s.closeHelps(t)...)
		out = append(out, s.growHelps(t)...)
		out = append(out, s.ledHelps(t)...)
		out = append(out, s.standHelps(t, rules)...)
	}
	if given := r.Cut != nil && r.Cut.AtMM >= 0; (rules["clash"] || given && (rules["routing"] || rules["cut-room"])) && t.proposal != nil && !t.proposal.Unled {
		out = append(out, s.alongHelps(t)...)
	}
	if rules["check-before-feeder"] && r.FeederCheck != nil && !*r.FeederCheck {
		out = append(out, leaving("feeder-check", "a check valve, and its loss", func(r *graph.Retrofit) { r.FeederCheck = nil }))
	}
	return append(out, s.flowHelps(t, rules)...)
}

// roomHelps take less room, or find it.
func (s *search) roomHelps(t *trial) []help {
	out := s.oneLeg(t)
	r := s.asked.Retrofit
	for _, key := range s.site.Shorter(t.place, s.first(t.place)) {
		switch key {
		case "true-union":
			value, cost := "false", quantity.Text("the bypass valve can then not be taken out without cutting pipe")
			if r.TrueUnion != nil && !*r.TrueUnion {
				value, cost = "true", "a dearer valve"
			}
			out = append(out, writing("true-union", value, cost, func(r *graph.Retrofit) { v := value == "true"; r.TrueUnion = &v }))
		case "service-valve":
			out = append(out, leaving("service-valve", "less flow while the unit is shut off", func(r *graph.Retrofit) { r.ServiceValve = false }))
		case "bypass-size":
			out = append(out, leaving("bypass-size", "more loss in the bypass", func(r *graph.Retrofit) { r.BypassSize.Nominal, r.BypassSize.Metric = 0, false }))
		case "extra":
			out = append(out, leaving("extra", "no more straight pipe than there must be", func(r *graph.Retrofit) { r.ExtraMM = 0 }))
		}
	}
	if r.TrueUnion == nil || *r.TrueUnion {
		out = append(out, writing("slip-coupling", "true", "a joint more, or one at each cut", func(r *graph.Retrofit) { r.SlipCoupling = true }))
	}
	if r.SlipCoupling {
		out = append(out, leaving("slip-coupling", "the string is let in by play or unions", func(r *graph.Retrofit) { r.SlipCoupling = false }))
	}
	if short := t.place.NeededMM - t.place.RoomMM; short <= mostMeasuredMM {
		out = append(out, s.longer(t, math.Ceil(short)))
	}
	return out
}

// oneLeg writes the legs that lie in one line with the one that is cut as the one straight they are.
func (s *search) oneLeg(t *trial) []help {
	run := s.asked.Run(t.place.Run)
	if run == nil || t.place.Leg < 1 || t.place.Leg > len(run.Legs) {
		return nil
	}
	first, last := run.Straight(t.place.Leg)
	if first == last {
		return nil
	}
	return []help{{kinds: []string{"the leg"}, leg: first, cost: "nothing: no bend stands between them",
		say: graph.Say("write %s of run %q as one leg, \"%s\"", graph.LegsWords(first, last), run.Said(), run.OneLeg(first, last).Words()),
		apply: func(c *graph.Circuit) {
			for i, r := range c.Runs {
				if r.ID != run.ID {
					continue
				}
				own := *r
				own.Legs = slices.Concat(r.Legs[:first-1], []graph.Leg{r.OneLeg(first, last)}, r.Legs[last:])
				c.Runs[i] = &own
			}
			if cut := c.Retrofit.Cut; cut != nil && cut.Run == run.ID && cut.Leg > 0 {
				c.Retrofit.Cut = &graph.Cut{Run: run.ID, Leg: first, AtMM: -1, Pos: cut.Pos}
			}
		}}}
}

// mostMeasuredMM is how far a leg may be measured wrong: more is no slip of the tape, and
// asking to measure again helps nobody. Common practice, no source.
const mostMeasuredMM = 40

// longer takes the leg that is cut to have been measured too short.
func (s *search) longer(t *trial, mm float64) help {
	say := graph.Say("measure %s again: it is too short by so little that the tape may be wrong", s.legOf(t))
	run := s.asked.Run(t.place.Run)
	if run != nil && t.place.Leg >= 1 && t.place.Leg <= len(run.Legs) {
		l := run.Legs[t.place.Leg-1].Longer(mm, s.asked.Job.Units)
		mm = l.LengthMM() - run.Legs[t.place.Leg-1].LengthMM()
		say = graph.Say("measure %s again: as \"%s\" it would do", s.legOf(t), l.Words())
	}
	return help{kinds: []string{"the leg"}, say: say, cost: "nothing, if it is so long", fact: true, apply: func(c *graph.Circuit) {
		changeLeg(c, t.place.Run, t.place.Leg, func(l *graph.Leg) { l.By = l.By.Unit().Scale(l.LengthMM() + mm) })
	}}
}

// closingHelps let the last joint be made.
func (s *search) closingHelps(t *trial) []help {
	var out []help
	r := s.asked.Retrofit
	if r.TrueUnion != nil && !*r.TrueUnion {
		out = append(out, writing("true-union", "true", "a dearer valve, and its length", func(r *graph.Retrofit) { v := true; r.TrueUnion = &v }))
	}
	if !r.SlipCoupling {
		out = append(out, writing("slip-coupling", "true", "a joint more, or one at each cut, and its length", func(r *graph.Retrofit) { r.SlipCoupling = true }))
	}
	if len(t.place.Terms) > 0 {
		depth := t.place.Terms[0].MM
		for _, n := range []float64{1, 2, 3} {
			mm := s.even(n * depth)[0]
			if mm > t.place.PlayMM {
				out = append(out, s.fact(t, graph.Say("play = \"%s\"", quantity.Closely(mm)), "if its end can be drawn back so far", func(l *graph.Leg) { l.PlayMM = mm }))
			}
		}
	}
	return out
}

// fact is a help that says of the leg that is cut what only the person at the tub can see.
func (s *search) fact(t *trial, what quantity.Text, condition string, change func(l *graph.Leg)) help {
	kind, _, _ := strings.Cut(string(what), " = ")
	return help{kinds: []string{kind}, say: graph.Say("%s on %s", what, s.legOf(t)), cost: graph.Say("nothing, %s", condition), fact: true,
		apply: func(c *graph.Circuit) { changeLeg(c, t.place.Run, t.place.Leg, change) }}
}

// even rounds lengths up to ones a person would write in the units of the job: whole mm, or
// quarters of an inch.
func (s *search) even(mm ...float64) []float64 {
	out := make([]float64, len(mm))
	for i, v := range mm {
		out[i] = graph.RoundUp(v, s.asked.Job.Units)
	}
	return out
}

// placeHelps are about the surroundings of the cut.
func (s *search) placeHelps(t *trial, rules map[string]bool) []help {
	var out []help
	if rules["cut-reachable"] {
		yes := true
		out = append(out, s.fact(t, "reachable = true", "once a panel or the foam is off", func(l *graph.Leg) { l.Reachable = &yes }))
	}
	if rules["cut-clear-room"] {
		mm := s.even(100)[0]
		out = append(out, s.fact(t, graph.Say("clear = \"%s\"", quantity.Closely(mm)), "once what is in the way is moved", func(l *graph.Leg) { l.ClearMM = mm }))
	}
	return out
}

// alongHelps let the work in elsewhere along the same leg, where something stands in its way: at
// both ends of its room, and two thirds and one third along it.
func (s *search) alongHelps(t *trial) []help {
	p := &t.place
	var out []help
	for _, at := range s.alongLeg(p) {
		way := quantity.Text("nearer its start")
		if at > p.FromMM {
			way = "farther along it"
		}
		out = append(out, help{kinds: []string{"cut"}, dear: true,
			say:  graph.Say("cut = { run = \"%s\", leg = %d, at = \"%s\" } in [retrofit]", p.Run, p.Leg, quantity.Closely(at)),
			cost: graph.Say("nothing: the same leg is cut %s %s", s.length(math.Abs(at-p.FromMM)), way),
			apply: func(c *graph.Circuit) {
				c.Retrofit.Cut = &graph.Cut{Run: p.Run, Leg: p.Leg, AtMM: at, Pos: c.Retrofit.Pos}
			}})
	}
	return out
}

// alongLeg are the other first cut lines that are tried along the leg of a place, mm from its start.
func (s *search) alongLeg(p *retrofit.Place) []float64 {
	lies, _ := p.Lies()
	least, spare := p.FromMM-(lies-p.DatumMM), p.RoomMM-p.NeededMM // of the first cut line
	step := s.even(1)[0]
	var out []float64
	for _, share := range []float64{1, 0, 2. / 3, 1. / 3} {
		at := s.even(max(least, least+share*spare-step))[0]
		if at <= least+spare && math.Abs(at-p.FromMM) >= leastAlongMM {
			out = append(out, at)
		}
	}
	return out
}

// leastAlongMM is the least by which it is tried to cut elsewhere along a leg: less takes no
// fitting past what is in its way. Common practice, no source.
const leastAlongMM = 50

// legOf names the leg of a place as the user wrote it.
func (s *search) legOf(t *trial) quantity.Text {
	run := s.asked.Run(t.place.Run)
	if run == nil || t.place.Leg < 1 || t.place.Leg > len(run.Legs) {
		return quantity.Text(t.place.Where())
	}
	return userLeg(&run.Legs[t.place.Leg-1])
}

// userLeg names a leg of the description: "your leg front 300 mm, line 161".
func userLeg(l *graph.Leg) quantity.Text {
	if l.Pos.Line == 0 {
		return graph.Say("your leg %s", l.Quoted())
	}
	return graph.Say("your leg %s, line %d", l.Quoted(), l.Pos.Line)
}

// flowHelps leave to the tool what the request names and the water does not bear.
func (s *search) flowHelps(t *trial, rules map[string]bool) []help {
	r := s.asked.Retrofit
	little := rules[leastFlowRule] || rules[dirtyRule]
	flows := little || rules[mostFlowRule] || rules[lineStands] || rules["working-pressure"]
	sizes := rules["branch-not-below-ports"] || rules["line-not-narrowed"]
	var out []help
	if flows {
		out = append(out, s.setAnew(t)...)
	}
	if rules[lineStands] {
		out = append(out, s.opened(t)...)
	}
	if little && r.Size.IsZero() {
		if size, ok := s.wider(t); ok {
			out = append(out, writing("size", fmt.Sprintf("%q", size.String()), "larger pipe to the unit, and dearer valves", func(r *graph.Retrofit) { r.Size = size }))
		}
	}
	if rules[mostFlowRule] && r.BypassSize.IsZero() {
		if line := s.asked.Run(t.place.Run); line != nil {
			if size, ok := advice.NextSize(s.asked.Catalog, line.Spec, line.Size); ok {
				out = append(out, writing("bypass-size", fmt.Sprintf("%q", size.String()), "a larger bypass, and its length", func(r *graph.Retrofit) { r.BypassSize = size }))
			}
		}
	}
	if flows && (r.SpringPa > 0 || r.Spring != "" && r.Spring != "auto") {
		out = append(out, leaving("spring", "another spring than asked for", func(r *graph.Retrofit) { r.Spring, r.SpringPa = "", 0 }))
	}
	if (flows || rules["unit-has-bypass"]) && r.Bypass != "" && r.Bypass != "auto" {
		out = append(out, leaving("bypass", "another bypass than asked for", func(r *graph.Retrofit) { r.Bypass = "" }))
	}
	if (flows || sizes) && !r.Size.IsZero() {
		out = append(out, leaving("size", "larger pipe to the unit", func(r *graph.Retrofit) { r.Size.Nominal, r.Size.Metric = 0, false }))
	}
	if sizes && !r.BypassSize.IsZero() {
		out = append(out, leaving("bypass-size", "a larger bypass", func(r *graph.Retrofit) { r.BypassSize.Nominal, r.BypassSize.Metric = 0, false }))
	}
	return out
}

// opened opens the valves of the old line that stand shut in all modes.
func (s *search) opened(t *trial) []help {
	if t.stage == nil || t.stage.Layout == nil {
		return nil
	}
	branch, _ := t.stage.Layout.Stage.Branch()
	if branch == nil {
		return nil
	}
	var ids []string
	var say []quantity.Text
	for _, p := range rule.ShutInLine(graph.Mode{}, branch) {
		if valve := s.asked.Part(p.ID); valve != nil && valve.Existing {
			ids = append(ids, p.ID)
			say = append(say, graph.Say("%q", p.ID))
		}
	}
	if ids == nil {
		return nil
	}
	return []help{{kinds: []string{"position"}, fact: true, say: "position = \"open\" on " + quantity.Join(say, " and "), cost: "nothing, where it may be opened",
		apply: func(c *graph.Circuit) {
			c.Parts = slices.Clone(c.Parts)
			for i, p := range c.Parts {
				if slices.Contains(ids, p.ID) {
					own, valve := *p, *p.Valve
					valve.Position, valve.PositionSet = 1, true
					own.Valve, c.Parts[i] = &valve, &own
				}
			}
		}}}
}

// wider is the next larger size of the unit's pipes.
func (s *search) wider(t *trial) (catalog.Size, bool) {
	if t.stage == nil || t.stage.Layout == nil {
		return catalog.Size{}, false
	}
	branch, _ := t.stage.Layout.Stage.Branch()
	if branch == nil || len(branch.ToUnitRuns) == 0 {
		return catalog.Size{}, false
	}
	run := t.stage.Layout.Stage.Run(branch.ToUnitRuns[0].ID)
	if run == nil {
		return catalog.Size{}, false
	}
	return advice.NextSize(s.asked.Catalog, run.Spec, run.Size)
}

// setAnew sets the throttle that stands in the bypass already for the unit that comes to it: how it
// stands today was for what stands there today.
func (s *search) setAnew(t *trial) []help {
	if t.stage == nil || t.stage.Layout == nil {
		return nil
	}
	branch, _ := t.stage.Layout.Stage.Branch()
	if branch == nil || branch.Element() == nil {
		return nil
	}
	valve := s.asked.Part(branch.Element().ID)
	if valve == nil || !valve.Existing || !valve.Kind.IsHandValve() || valve.Valve == nil || valve.Valve.Kv <= 0 {
		return nil
	}
	kv := advice.NewThrottle(t.stage.Layout, branch, valve.ID).Setting(t.promise())
	if kv == valve.Valve.Kv {
		return nil
	}
	return []help{{kinds: []string{"kv of " + valve.ID}, cost: "the valve that is there set anew, by what the units read",
		say: graph.Say("kv = \"%g m3/h\" on %q, line %d", kv, valve.ID, valve.KeyPos["kv"].Line),
		apply: func(c *graph.Circuit) {
			c.Parts = slices.Clone(c.Parts)
			at := slices.IndexFunc(c.Parts, func(p *graph.Part) bool { return p.ID == valve.ID })
			own, data := *c.Parts[at], *c.Parts[at].Valve
			data.Kv, own.Valve = kv, &data
			c.Parts[at] = &own
		}}}
}
