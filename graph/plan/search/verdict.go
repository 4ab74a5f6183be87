package search

import (
	"math"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/plan/advice"
	"dryfit/graph/retrofit"
	"dryfit/graph/route"
	"dryfit/graph/rule"
)

// Verdict is what was found of one place for the cut.
type Verdict struct {
	Rank    int
	Place   retrofit.Place
	Verdict string // "best", "possible", "possible if", "ruled out", "measure first", "not looked at"
	Reasons []Reason
	Mend    []quantity.Text // what would make a ruled-out place possible
	Next    quantity.Text   // what to measure or decide where nothing that was tried does; ""
	Summary quantity.Text   // flows there, in words
}

// Reason is one reason for a verdict.
type Reason struct {
	Rule     string
	Text     quantity.Text
	Pos      graph.Pos
	Severity graph.Severity
	Of       []string // ids of the parts it is about, as the finding says it
}

// verdicts tells what was found of every place, in rank order.
func (s *search) verdicts() []Verdict {
	out := make([]Verdict, len(s.trials))
	for i, t := range s.trials {
		out[i] = s.verdict(t)
		out[i].Rank = i + 1
		if i > 0 {
			out[i].Next = "" // said of the nearest alone
		}
		if out[i].Verdict == "possible" && i == 0 {
			out[i].Verdict = "best"
		}
	}
	return out
}

// verdict tells what was found of one place.
func (s *search) verdict(t *trial) Verdict {
	v := Verdict{Place: t.place}
	switch standing := t.standing(); {
	case standing == 0:
		v.Verdict = "possible"
		if _, ok := t.place.Deciding(); ok {
			v.Verdict = "possible if"
		}
		v.Reasons = append(s.merits(t), reasons(t.findings, graph.Warning)...)
		v.Summary = s.summary(t)
	case standing == 1 && !t.place.MeasureFirst:
		v.Verdict = "not looked at"
		v.Reasons = []Reason{{Rule: "cut", Pos: s.posOf(t), Severity: graph.Note,
			Text: graph.Say("there is room, but %d runs are too many for all the rules to be tried at every place; write it as cut in [retrofit] to have it worked out", len(s.asked.Runs))}}
	case standing == 1:
		v.Verdict = "measure first"
		text := graph.Say("%s is known only by its length, %s: whether a straight stretch of %s is in it can't be told", t.place.Run, s.length(t.place.RoomMM), s.length(t.place.NeededMM))
		if t.place.RoomMM < t.place.NeededMM {
			text = graph.Say("%s is known only by its length, %s: only if it is longer than that, and straight, are the %s in it which the work needs", t.place.Run, s.length(t.place.RoomMM), s.length(t.place.NeededMM))
		}
		v.Reasons = []Reason{{Rule: "cut", Pos: s.posOf(t), Severity: graph.Note, Text: text}}
		v.Mend = []quantity.Text{graph.Say("measure its legs and write them: legs = [\"right %s\", …]", quantity.Length.About(450))}
	default:
		v.Verdict = "ruled out"
		v.Reasons = reasons(t.findings, graph.Error)
		v.Mend = s.mend(t)
		v.Next, _ = s.next(t, v.Mend)
	}
	called := func(text quantity.Text) quantity.Text { return route.Unwritten(s.asked, text) }
	if t.proposal != nil {
		var lay *route.Layout
		if t.stage != nil {
			lay = t.stage.Layout
		}
		called = route.CalledIn(t.proposal.Circuit.At(graph.After), lay).Text
	}
	for i := range v.Reasons {
		v.Reasons[i].Text = called(v.Reasons[i].Text)
	}
	return v
}

// reasons are the findings of at least a severity, the heavier first as they come.
func reasons(ds []graph.Diagnostic, least graph.Severity) []Reason {
	var out []Reason
	for _, d := range graph.SortDiagnostics(ds) {
		if d.Severity >= least && !rule.SaysAnywhere(d.Rule) {
			out = append(out, Reason{Rule: d.Rule, Text: d.Message, Pos: d.Pos, Severity: d.Severity, Of: d.Of})
		}
	}
	return out
}

// merits are the reasons for a place, as a fitter would give them.
func (s *search) merits(t *trial) []Reason {
	pos := s.posOf(t)
	var out []Reason
	add := func(rule, format string, args ...any) {
		out = append(out, Reason{Rule: rule, Text: graph.Say(format, args...), Pos: pos, Severity: graph.Note})
	}
	word := "pipe"
	if r := s.asked.Run(t.place.Run); r != nil {
		word = r.Spec.Word()
	}
	add("room", "%s of straight %s, %s needed: %s to spare", s.length(t.place.RoomMM), word, s.length(t.place.NeededMM), s.length(t.place.RoomMM-t.place.NeededMM))
	if text := t.place.OnlyIf(); text != "" {
		add("room", "%s", text)
	}
	if t.untried {
		add("flow", "neither laid out nor solved: others come before it; ask for it with cut to have it worked out")
		return out
	}
	if branch, _ := t.stage.Layout.Stage.Branch(); branch != nil && branch.Pump != nil {
		net := t.stage.Layout.Stage.Net()
		text := graph.Say("on the line of the pump that heats, %q, after it", branch.Pump.ID)
		if len(branch.Beside) > 0 {
			text = graph.Say("on the line that %s feed, after them", pumpWords(branch.Feeds()))
		}
		if e := net.Upstream(branch.Unit).First(graph.ElementHeater); e != nil {
			text += graph.Say(" and after the element heater %q", e.ID)
		}
		if d := net.Downstream(branch.Unit).First(graph.DiverterValve, graph.Manifold, graph.JetGroup); d != nil {
			text += graph.Say(", before %s %q", d.Kind, d.ID)
		}
		add("line", "%s", text)
	}
	if p := t.proposal; p.Second != nil {
		first, second := p.Second.Cuts()
		add("parallel", "in parallel with the unit that is there; the second tee goes into %s, cut at %s and %s from the %s", p.Second.Where(), s.length(first), s.length(quantity.Beyond(first, second-first, quantity.SystemOf(s.asked.Job.Units))), p.Second.Datum)
	}
	if t.place.WantedMM > 0 {
		short := slices.ContainsFunc(t.findings, func(d graph.Diagnostic) bool { return d.Rule == "check-straight-length" })
		switch {
		case t.place.StraightMM >= t.place.WantedMM:
			add("straight", "%s of straight pipe before the check, enough for the %s it wants", s.length(t.place.StraightMM), s.length(t.place.WantedMM))
		case short:
			add("straight", "%s of straight pipe before the check, less than the %s it wants", s.length(t.place.StraightMM), s.length(t.place.WantedMM))
		default: // the rule looks past the end of the leg
			add("straight", "%s of straight pipe before the check on this leg, and no pump or bend known of within the %s it wants", s.length(t.place.StraightMM), s.length(t.place.WantedMM))
		}
	}
	if t.assembly != nil && t.assembly.OK {
		add("assembly", "every joint can be made, in %d steps", len(t.assembly.Steps))
	}
	return out
}

// posOf is where the description speaks of a place: its leg, else its run.
func (s *search) posOf(t *trial) graph.Pos {
	r := s.asked.Run(t.place.Run)
	if r == nil {
		return s.asked.Retrofit.Pos
	}
	if k := t.place.Leg; k >= 1 && k <= len(r.Legs) && r.Legs[k-1].Pos.IsValid() {
		return r.Legs[k-1].Pos
	}
	return r.Pos
}

// summary says what the unit gets and the jets lose there, in words.
func (s *search) summary(t *trial) quantity.Text {
	if !t.solved {
		return ""
	}
	who := quantity.Text("the unit")
	if len(t.stage.Circuit.Units()) > 1 {
		who = graph.Say("%q", t.unit)
	}
	var modes []quantity.Text
	told, rest := toldModes(t.unitFlows, t.besides)
	for _, f := range told {
		text := graph.Say("%s: %s gets %s", f.mode, who, quantity.Flow.Of(f.flow))
		if f.bypass != "" {
			text += graph.Say(", bypass %s", bypassState(f))
		}
		if pct := math.Round(100 * f.jets); pct != 0 {
			word := "less"
			if pct < 0 {
				word, pct = "more", -pct
			}
			text += graph.Say(", the jets %.0f %% %s than today", pct, word)
		}
		text += s.besideWords(t, f.mode)
		modes = append(modes, text)
	}
	if len(rest) > 0 {
		modes = append(modes, s.restWords(t, rest, who))
	}
	c := t.proposal.Choice
	switch {
	case c.Spring != "":
		modes = append(modes, quantity.Text(c.Spring))
	case c.Shut:
		modes = append(modes, "bypass valve shut in use")
	case c.ThrottleKv > 0:
		modes = append(modes, setBy(t.unitFlows, who))
	}
	return quantity.Join(modes, "; ")
}

// besideWords says what the other units get in a mode, where the work changes it, and what they got.
func (s *search) besideWords(t *trial, mode string) quantity.Text {
	var out quantity.Text
	for _, f := range t.besides {
		if f.mode != mode || s.same(f) {
			continue
		}
		out += graph.Say(", %q %s", f.id, quantity.Flow.Of(f.now))
		if f.old {
			out += graph.Say(" instead of %s today", quantity.Flow.Of(f.was))
		}
		if f.taken(f.least) {
			out += graph.Say(", less than its least %s", quantity.Flow.Limit(f.least))
		}
	}
	return out
}

// same reports whether another unit gets what it got, as it is printed.
func (s *search) same(f besideFlow) bool {
	units := quantity.SystemOf(s.asked.Job.Units)
	return f.old && graph.Say("%s", quantity.Flow.Of(f.now)).In(units) == graph.Say("%s", quantity.Flow.Of(f.was)).In(units)
}

// restWords says what the unit gets in the modes that are not told one by one, and the others where the
// work changes it in one of them.
func (s *search) restWords(t *trial, rest []unitFlow, who quantity.Text) quantity.Text {
	type span struct {
		id               string
		low, high, least float64
		short            int  // modes in which the work takes its least
		changed          bool // it gets something else in one of them than it got
	}
	own := span{low: rest[0].flow, high: rest[0].flow}
	for _, f := range rest {
		own.low, own.high = min(own.low, f.flow), max(own.high, f.flow)
	}
	var others []span
	for _, f := range t.besides {
		if !slices.ContainsFunc(rest, func(u unitFlow) bool { return u.mode == f.mode }) {
			continue
		}
		i := slices.IndexFunc(others, func(o span) bool { return o.id == f.id })
		if i < 0 {
			i = len(others)
			others = append(others, span{id: f.id, low: f.now, high: f.now, least: f.least})
		}
		o := &others[i]
		o.low, o.high, o.changed = min(o.low, f.now), max(o.high, f.now), o.changed || !s.same(f)
		if f.taken(f.least) {
			o.short++
		}
	}
	out := graph.Say("%d further modes: %s gets %s to %s", len(rest), who, quantity.Flow.Of(own.low), quantity.Flow.Of(own.high))
	for _, o := range others {
		if !o.changed {
			continue
		}
		out += graph.Say(", %q %s to %s", o.id, quantity.Flow.Of(o.low), quantity.Flow.Of(o.high))
		if o.short > 0 {
			out += graph.Say(", in %d of them less than its least %s", o.short, quantity.Flow.Limit(o.least))
		}
	}
	return out
}

// mostTold is how many modes are told one by one: more are read by nobody. Judgement, no source.
const mostTold = 8

// toldModes are the modes wanted that are told one by one, and the rest of them: of many the first, those
// in which the unit gets least and most, that in which the jets lose most, and that in which another unit
// is left with the smallest share of its least flow.
func toldModes(flows []unitFlow, besides []besideFlow) (told, rest []unitFlow) {
	var wanted []unitFlow
	for _, f := range flows {
		if f.wanted {
			wanted = append(wanted, f)
		}
	}
	if len(wanted) <= mostTold {
		return wanted, nil
	}
	least, most, jets := 0, 0, 0
	for i, f := range wanted {
		if f.flow < wanted[least].flow {
			least = i
		}
		if f.flow > wanted[most].flow {
			most = i
		}
		if f.jets > wanted[jets].jets {
			jets = i
		}
	}
	taken, share := "", 1.
	for i := range besides {
		if f := &besides[i]; f.taken(f.least) && f.now < share*f.least {
			taken, share = f.mode, f.now/f.least
		}
	}
	for i, f := range wanted {
		if i == 0 || i == least || i == most || i == jets || f.mode == taken {
			told = append(told, f)
		} else {
			rest = append(rest, f)
		}
	}
	return told, rest
}

// setBy says by what the throttle in the bypass is set: the unit's flow, in the mode in which it is
// least.
func setBy(flows []unitFlow, who quantity.Text) quantity.Text {
	var least *unitFlow
	modes := 0
	for i := range flows {
		if f := &flows[i]; f.wanted && f.flow > 0 {
			modes++
			if least == nil || f.flow < least.flow*(1-hydraulic.Alike) { // of modes that give it the same the first
				least = f
			}
		}
	}
	switch {
	case least == nil:
		return "bypass valve throttled"
	case modes == 1:
		return graph.Say("bypass valve set until %s gets %s", who, quantity.Flow.Of(least.flow))
	}
	return graph.Say("bypass valve set until %s gets %s in mode %s", who, quantity.Flow.Of(least.flow), least.mode)
}

func (s *search) length(mm float64) quantity.Amount { return quantity.Length.Of(mm) }

// bypassState says how the bypass element stands: a spring by itself, a valve by hand.
func bypassState(f unitFlow) string {
	text := f.bypass
	if f.spring {
		text = advice.StateWords(f.bypass)
	}
	if f.chatters {
		text += " and about to chatter"
	}
	return text
}
