package table

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/hydraulic/spread"
	"dryfit/graph/plan"
	"dryfit/graph/plan/advice"
	"dryfit/graph/rule"
	"dryfit/graph/sample"
	"dryfit/render/table/form"
	"dryfit/render/table/lists"
	"dryfit/render/tag"
)

// FlowText prints the summary, then every mode, before and after side by side.
func FlowText(p *plan.Plan, s form.Style) ([]byte, error) {
	out := append(SummaryBlocks(p, s), SureBlocks(p.Ranges, nil, s)...)
	if p.Advice != nil {
		out = append(out, adviceBlocks(p.Advice, s)...)
	}
	return form.Text(append(out, FlowBlocks(p, nil, s)...), s), nil
}

// SummaryBlocks says in words what every mode comes to.
func SummaryBlocks(p *plan.Plan, s form.Style) []form.Block {
	b := form.Block{Title: "In short"}
	for _, l := range InShort(p, s) {
		b.Lines = append(b.Lines, "  "+l)
	}
	for i, l := range append(SupposedLines(p, nil, s), supposedFirst(p, s)...) {
		if i > 0 {
			l = "  " + l
		}
		b.Lines = append(b.Lines, "  "+l)
	}
	if len(b.Lines) == 0 {
		return nil
	}
	return []form.Block{b}
}

// FlowBlocks lists what passes every part and run in every mode, what the pumps' head goes
// into, and what the numbers rest on. Titles call a mode by its words among names; nil: as the file
// does.
func FlowBlocks(p *plan.Plan, names *tag.Names, s form.Style) []form.Block {
	main := p.After
	if main == nil {
		main = p.Before
	}
	if main == nil {
		return nil
	}
	var out []form.Block
	for _, n := range main.NoAnswer {
		out = append(out, form.Block{Title: modeTitle(names, n.Mode), Lines: []string{"  no answer: " + s.Say(n.Why)}})
	}
	if len(main.Solutions) == 0 {
		return out
	}
	for i := range main.Solutions {
		sol := &main.Solutions[i]
		var before *hydraulic.Solution
		if main != p.Before {
			before = p.Before.Solution(sol.Mode.Name)
		}
		title := modeTitle(names, sol.Mode.Name)
		if p.Before == p.After || p.Before != nil && graph.SameWater(p.Before.Circuit, main.Circuit) {
			title += ", as it stands"
		} else {
			title += fmt.Sprintf(", %s the work", sol.Stage)
		}
		ranges := p.Ranges.Of(sol.Mode.Name, sol.Stage)
		parts := form.Block{Title: title, Grid: partsOfMode(ranges, p.AsSaid(), sol, before, s)}
		if past := ranges.PastWords(); past != "" {
			parts.Lines = append(parts.Lines, "  "+past)
		}
		out = append(out, parts, form.Block{Title: title + ": pipe", Grid: runsOfMode(sol, s)})
		out = append(out, lists.HeadBlocks(sol, names, s)...)
	}
	out = append(out, AssumedBlocks(p, s)...)
	return append(out, methodBlock(&main.Solutions[0], s))
}

func modeTitle(names *tag.Names, mode string) string {
	if names == nil {
		return "Mode " + mode
	}
	return quantity.Capital(names.Mode(mode))
}

// partsOfMode lists what passes every part: today, after the work as said, and its range. Units
// stand in the heads of the columns.
func partsOfMode(ranges *spread.ModeRanges, asSaid string, sol, before *hydraulic.Solution, s form.Style) *form.Grid {
	flow, pressure := s.FlowUnit(), s.PressureUnit()
	columns := []form.Column{{Head: "part"}, {Head: flow.Name, Right: true}, {Head: "drop " + pressure.Name, Right: true}, {Head: "", Widest: 56}}
	if ranges != nil {
		columns[1].Head = asSaid + ", " + flow.Name
		columns = slices.Insert(columns, 2, form.Column{Head: "middle", Right: true}, form.Column{Head: "nine in ten"})
	}
	if before != nil {
		columns = slices.Insert(columns, 1, form.Column{Head: "today", Right: true})
	}
	g := form.NewGrid(columns...)
	for i, f := range sol.Parts {
		row := []string{f.Part.ID}
		if before != nil {
			today := "-"
			if old := before.Part(f.Part.ID); old != nil {
				today = flow.Text(old.Flow)
			}
			row = append(row, today)
		}
		row = append(row, flow.Text(f.Flow))
		if ranges != nil {
			row = append(row, middleText(ranges.Parts[i], flow), rangeText(ranges.Parts[i], flow))
		}
		g.Add(append(row, pressure.Text(f.Drop), partWords(f, s))...)
	}
	return g
}

// rangeText prints a range of flows; nothing where there is none.
func rangeText(r spread.Range, u form.Unit) string {
	if r.High-r.Low < 1e-9 {
		return ""
	}
	return r.Words(u.Text)
}

// middleText prints the middle of the sample; nothing where there is no range.
func middleText(r spread.Range, u form.Unit) string {
	if r.High-r.Low < 1e-9 {
		return ""
	}
	return u.Text(r.Middle)
}

// noLevel marks a pressure of which the weight of the water above it is not known.
const noLevel = "+"

// runsOfMode lists what passes every run.
func runsOfMode(sol *hydraulic.Solution, s form.Style) *form.Grid {
	flow, pressure, speed, bore := s.FlowUnit(), s.PressureUnit(), s.SpeedUnit(), s.BoreUnit()
	g := form.NewGrid(form.Column{Head: "run"}, form.Column{Head: "size"}, form.Column{Head: "bore " + bore.Name, Right: true}, form.Column{Head: flow.Name, Right: true},
		form.Column{Head: speed.Name, Right: true}, form.Column{Head: "drop " + pressure.Name, Right: true},
		form.Column{Head: pressure.Name + " inside", Right: true}, form.Column{Head: "side"})
	for _, r := range sol.Runs {
		if !r.Bare && r.BoreMM == 0 {
			continue // an air line: no water is in it, and it was not reckoned with
		}
		side, limit := "", rule.PressureVelocity
		if r.Suction {
			side, limit = "suction", rule.SuctionVelocity
		}
		fast := ""
		if r.Velocity > limit {
			fast = "!"
		}
		if r.Bare {
			g.Add(r.Run.ID, r.Run.Size.String(), "", flow.Text(r.Flow), "", pressure.Text(r.Drop), "", side)
			continue
		}
		inside := pressure.Text(r.StaticPa)
		if !r.LevelKnown {
			inside += noLevel
		}
		g.Add(r.Run.ID, r.Run.Size.String(), bore.Text(r.BoreMM), flow.Text(r.Flow), fast+speed.Text(r.Velocity),
			pressure.Text(r.Drop), inside, side)
	}
	return g
}

// partWords says what else is worth knowing of a part.
func partWords(f hydraulic.PartFlow, s form.Style) string {
	switch f.Part.Kind {
	case graph.Pump:
		return pumpWords(f, s)
	case graph.CheckValve:
		return s.Say(f.CheckWords(advice.StateWords(f.State)))
	case graph.HeatPump:
		inside := s.Pressure(f.StaticPa) + " at its inlet"
		if !f.LevelKnown {
			inside += ", its level not counted"
		}
		switch {
		case f.State == hydraulic.NoFlow || f.Idle():
			return f.State + "; " + inside
		case f.RiseK > 0:
			return fmt.Sprintf("water rises %s; %s", s.Rise(f.RiseK), inside)
		}
		return inside
	}
	return f.State
}

func pumpWords(f hydraulic.PartFlow, s form.Style) string {
	if f.State == "off" {
		return "off"
	}
	shut := "shut-off " + s.Pressure(f.ShutOffPa)
	if f.ShutOffExtrapolated {
		shut += " (extrapolated)"
	}
	if f.GreatestPa > f.ShutOffPa {
		shut += ", at most " + s.Pressure(f.GreatestPa) + " (its curve rises)"
	}
	words := []string{f.State, "head " + s.Head(f.HeadM), shut}
	if f.PowerW > 0 {
		words = append(words, quantity.Format(f.PowerW, quantity.Power, s.Units))
	}
	if f.NPSHKnown && f.Part.Pump != nil && len(f.Part.Pump.NPSH) > 0 {
		words = append(words, "NPSH available "+s.Head(f.NPSHAvailableM))
	}
	return strings.Join(words, ", ")
}

// surest is how many of the unknowns worth measuring are printed.
const surest = 5

// MeasureFirst says that something is to be measured before anything is cut, and what: where a
// judged promise that nobody has accepted is held in too few of the ways the unknowns could
// lie, or none can be made of the unit's flow and that is far from sure; else "".
func MeasureFirst(r *spread.Ranges, names *tag.Names, s form.Style) string {
	if r == nil {
		return ""
	}
	p := worstPromise(r)
	if p == nil || p.Sure() >= spread.MeasureFirstBelow {
		return unpromised(r, names, s)
	}
	reading, what := r.Settles(p)
	if reading == "" {
		return ""
	}
	return fmt.Sprintf("MEASURE FIRST: %s. %s: %s: %s; what moves it most is %s.", s.Say(reading), quantity.Capital(modeWords(names, p.Mode)), promiseText(s, p), s.Say(p.Held()), s.Say(what))
}

// unpromised says what to measure first where nobody says what a unit needs, so that nothing is
// promised of its flow, and one unknown alone moves that by more than a tenth; else "".
func unpromised(r *spread.Ranges, names *tag.Names, s form.Style) string {
	promised := map[string]bool{}
	for _, p := range r.Promises {
		if p.Kind == spread.LeastFlow || p.Kind == spread.MostFlow {
			promised[p.Part] = true
		}
	}
	var most *spread.Influence
	unit, share := "", spread.HarmfulGuess
	for i := range r.MeasureFirst {
		f := &r.MeasureFirst[i]
		for at, moves := range f.UnitIn { // in any order: the greatest, of equals the first unit
			if !promised[at.Unit] && f.Reading != "" && (moves > share || moves == share && most == f && at.Unit < unit) {
				most, unit, share = f, at.Unit, moves
			}
		}
	}
	if most == nil {
		return ""
	}
	who := "the unit"
	if r.Unit != "" {
		who = oneOf(unit, names)
	}
	return fmt.Sprintf("MEASURE FIRST: %s. What %s needs is not known: its sheet says it. What moves its flow most is %s, by %s %% either way.",
		s.Say(most.Reading), who, most.Said(), form.Fixed(100*share, 0))
}

// oneOf is one of several units by what it is called among names; nil: by its id in quotes, as a file
// speaks of it. "" where it is the only one.
func oneOf(id string, names *tag.Names) string {
	switch {
	case id == "":
		return ""
	case names == nil:
		return strconv.Quote(id)
	}
	return names.Tag(id)
}

// promiseText words a promise; how a spring stands is no order.
func promiseText(s form.Style, p *spread.Promise) string {
	if p.Kind != spread.CheckState {
		return s.Say(p.Text)
	}
	state, _ := strings.CutPrefix(s.Say(p.Text), p.Part+" is ")
	return fmt.Sprintf("%q: %s", p.Part, advice.StateWords(state))
}

// worstPromise returns the judged promise that is kept least, but of what is settled already; nil where
// none is made.
func worstPromise(r *spread.Ranges) *spread.Promise {
	var worst *spread.Promise
	for i := range r.Promises {
		if p := &r.Promises[i]; p.Judged() && p.Accepted == "" && !r.Settled(p) && (worst == nil || p.Sure() < worst.Sure()) {
			worst = p
		}
	}
	return worst
}

// enoughKnown reports whether no reading would change what is done: every judged promise is kept as often
// as it has to be, is accepted or is settled already, and nothing moves a flow by more than a tenth.
func enoughKnown(r *spread.Ranges) bool {
	worst := worstPromise(r)
	return len(r.Promises) > 0 && (worst == nil || worst.Sure() >= spread.WarnBelow) &&
		!slices.ContainsFunc(r.MeasureFirst, func(f spread.Influence) bool { return f.Effect > spread.HarmfulGuess || f.Harm() > spread.HarmfulGuess })
}

// modeWords is a mode in a sentence: by its words among names; nil: as the file calls it.
func modeWords(names *tag.Names, mode string) string {
	if names == nil {
		return "mode " + mode
	}
	return names.Mode(mode)
}

// AcceptedLines says which promises are taken on as they are, and why; modes are called as in
// FlowBlocks.
func AcceptedLines(r *spread.Ranges, names *tag.Names, s form.Style) []string {
	if r == nil {
		return nil
	}
	var out []string
	for i := range r.Promises {
		if p := &r.Promises[i]; p.Judged() && p.Sure() < spread.WarnBelow && p.Accepted != "" {
			out = append(out, fmt.Sprintf("Accepted as it is, %s: %s, is %s. The reason given: %s.", modeWords(names, p.Mode), promiseText(s, p), s.Say(p.Held()), strings.TrimSuffix(p.Accepted, ".")))
		}
	}
	return out
}

// samplesOf is how many samples were solved: "1021", or "500 of 1021" where that is not all.
func samplesOf(r *spread.Ranges) string {
	if r.Samples < sample.Size {
		return fmt.Sprintf("%d of %d", r.Samples, sample.Size)
	}
	return fmt.Sprint(r.Samples)
}

// firstLines say what to measure first and by what, and what then; or that nothing has to be.
func firstLines(r *spread.Ranges, names *tag.Names, s form.Style) (out []string) {
	enough := enoughKnown(r)
	for i, f := range r.MeasureFirst[:min(surest, len(r.MeasureFirst))] {
		lead := "  measure this first"
		switch {
		case i > 0:
			lead = "  then"
		case enough:
			lead = "  nothing has to be measured first; what is left that moves most"
		}
		out = append(out, fmt.Sprintf("%s: %s: it moves %s by ±%s %% (%s)", lead, f.Said(), f.Moves.Of(oneOf(f.UnitID, names)), form.Fixed(f.Effect*100, 0), strings.TrimPrefix(modeWords(names, f.Mode), "mode ")))
		if i == 0 && !enough && f.Reading != "" {
			out = append(out, "    by "+s.Say(f.Reading))
		}
	}
	return out
}

// SureBlocks says how sure the answers are, and what to measure first; modes are called as in
// FlowBlocks.
func SureBlocks(r *spread.Ranges, names *tag.Names, s form.Style) []form.Block {
	if r == nil || len(r.Promises) == 0 && len(r.MeasureFirst) == 0 {
		return nil
	}
	b := form.Block{Title: fmt.Sprintf("How sure (%s samples of what is not known exactly; nine in ten lie in the ranges)", samplesOf(r))}
	if r.Narrowed() {
		b.Title = fmt.Sprintf("How sure (%d samples of what is not known exactly, those of %d that fit what was read; nine in ten lie in the ranges)", r.Samples, r.Tried)
	}
	if r.Samples < sample.Size && !r.Narrowed() {
		b.Lines = append(b.Lines, fmt.Sprintf("  %s samples solved: the circuit is too large for all of them", samplesOf(r)))
	}
	if r.Moved < r.Unknowns && !r.Narrowed() {
		b.Lines = append(b.Lines, fmt.Sprintf("  what to measure first is sought among %d of %d numbers that may be off: those of the pipes and parts that take most of the pumps' power", r.Moved, r.Unknowns))
	}
	if first := MeasureFirst(r, names, s); first != "" {
		b.Lines = append(b.Lines, first)
	}
	b.Lines = append(b.Lines, readLines(r, names, s)...)
	b.Lines = append(b.Lines, AcceptedLines(r, names, s)...)
	b.Lines = append(b.Lines, setLines(r.Set, oneOf(r.Unit, names), names, s)...)
	if len(r.Promises) > 0 {
		b.Grid = form.NewGrid(form.Column{Head: "mode"}, form.Column{Head: "promise", Widest: 70}, form.Column{Head: "held in, of 100 ways the unknowns could lie", Right: true, Widest: 22}, form.Column{Head: "samples", Right: true})
	}
	for i := range r.Promises {
		p := &r.Promises[i]
		mode := p.Mode
		if names != nil {
			mode = quantity.Capital(names.Mode(mode))
		}
		if i > 0 && p.Mode == r.Promises[i-1].Mode {
			mode = "" // said above
		}
		text, samples := promiseText(s, p), fmt.Sprintf("%d of %d", p.Kept, p.Of)
		if p.SetOf > 0 {
			text += ", once the throttle is set by its reading"
			samples = fmt.Sprintf("%d of %d", p.SetKept, p.SetOf)
		}
		b.Grid.Add(mode, text, p.Of100(), samples)
	}
	b.Lines = append(b.Lines, firstLines(r, names, s)...)
	for _, f := range r.MeasureFirst[:min(surest, len(r.MeasureFirst))] {
		if until := r.UntilSet(f.Moves, f.UnitID); until != "" {
			b.Lines = append(b.Lines, "    "+f.Moves.Of(oneOf(f.UnitID, names))+" is moved so far only"+strings.TrimPrefix(s.Say(until), ","))
			break
		}
	}
	if r.Unsolved > 0 {
		b.Lines = append(b.Lines, fmt.Sprintf("  %d samples had no answer and are left out", r.Unsolved))
	}
	return []form.Block{b}
}
