package table

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/hydraulic/spread"
	"dryfit/graph/plan"
	"dryfit/graph/rule"
)

// FlowText prints the summary, then every mode, before and after side by side.
func FlowText(p *plan.Plan, s Style) ([]byte, error) {
	out := append(SummaryBlocks(p, s), SureBlocks(p.Ranges, s)...)
	if p.Advice != nil {
		out = append(out, adviceBlocks(p.Advice, s)...)
	}
	return Text(append(out, FlowBlocks(p, s)...), s), nil
}

// SummaryBlocks says in words what every mode comes to.
func SummaryBlocks(p *plan.Plan, s Style) []Block {
	b := Block{Title: "In short"}
	for _, l := range SummaryLines(p, s) {
		b.Lines = append(b.Lines, "  "+l)
	}
	if len(b.Lines) == 0 {
		return nil
	}
	return []Block{b}
}

// FlowBlocks lists what passes every part and run in every mode, what the pumps' head goes
// into, and what the numbers rest on.
func FlowBlocks(p *plan.Plan, s Style) []Block {
	main := p.After
	if main == nil {
		main = p.Before
	}
	if main == nil {
		return nil
	}
	var out []Block
	for _, n := range main.NoAnswer {
		out = append(out, Block{Title: "Mode " + n.Mode, Lines: []string{"  no answer: " + s.say(n.Why)}})
	}
	if len(main.Solutions) == 0 {
		return out
	}
	for i := range main.Solutions {
		sol := &main.Solutions[i]
		var before *hydraulic.Solution
		if main != p.Before {
			before = plan.SolutionOf(p.Before, sol.Mode.Name)
		}
		title := fmt.Sprintf("Mode %s, %s the work", sol.Mode.Name, sol.Stage)
		out = append(out, Block{Title: title, Grid: partsOfMode(p.Ranges.Of(sol.Mode.Name, sol.Stage), sol, before, s)},
			Block{Title: title + ": pipe", Grid: runsOfMode(sol, s)})
		out = append(out, headBlocks(sol, s)...)
	}
	out = append(out, AssumedBlocks(p, s)...)
	return append(out, methodBlock(&main.Solutions[0], s))
}

// partsOfMode lists what passes every part: today, after the work, and its range. Units
// stand in the heads of the columns.
func partsOfMode(ranges *spread.ModeRanges, sol, before *hydraulic.Solution, s Style) *Grid {
	flow, pressure := s.flowUnit(), s.pressureUnit()
	columns := []column{{head: "part"}, {head: flow.name, right: true}, {head: "drop " + pressure.name, right: true}, {head: "", widest: 56}}
	if ranges != nil {
		columns[1].head = "as described, " + flow.name
		columns = slices.Insert(columns, 2, column{head: "middle", right: true}, column{head: "nine in ten"})
	}
	if before != nil {
		columns = slices.Insert(columns, 1, column{head: "today", right: true})
	}
	g := newGrid(columns...)
	for i, f := range sol.Parts {
		row := []string{f.Part.ID}
		if before != nil {
			today := "-"
			if old := before.Part(f.Part.ID); old != nil {
				today = flow.text(old.Flow)
			}
			row = append(row, today)
		}
		row = append(row, flow.text(f.Flow))
		if ranges != nil {
			row = append(row, middleText(ranges.Parts[i], flow), rangeText(ranges.Parts[i], flow))
		}
		g.add(append(row, pressure.text(f.Drop), partWords(f, s))...)
	}
	return g
}

// rangeText prints a range of flows; nothing where there is none.
func rangeText(r spread.Range, u unit) string {
	if r.High-r.Low < 1e-9 {
		return ""
	}
	low, high := u.text(r.Low), u.text(r.High)
	switch {
	case r.OpenLow && r.OpenHigh:
		return "under " + low + " to over " + high + ", past the curve"
	case r.OpenHigh:
		return low + " to over " + high + ", past the curve"
	case r.OpenLow:
		return "under " + low + " to " + high + ", past the curve"
	}
	return low + " to " + high
}

// middleText prints the middle of the sample; nothing where there is no range.
func middleText(r spread.Range, u unit) string {
	if r.High-r.Low < 1e-9 {
		return ""
	}
	return u.text(r.Middle)
}

// noLevel marks a pressure of which the weight of the water above it is not known.
const noLevel = "+"

// runsOfMode lists what passes every run.
func runsOfMode(sol *hydraulic.Solution, s Style) *Grid {
	flow, pressure, speed, bore := s.flowUnit(), s.pressureUnit(), s.speedUnit(), s.boreUnit()
	g := newGrid(column{head: "run"}, column{head: "size"}, column{head: "bore " + bore.name, right: true}, column{head: flow.name, right: true},
		column{head: speed.name, right: true}, column{head: "drop " + pressure.name, right: true},
		column{head: pressure.name + " inside", right: true}, column{head: "side"})
	for _, r := range sol.Runs {
		side, limit := "", rule.PressureVelocity
		if r.Suction {
			side, limit = "suction", rule.SuctionVelocity
		}
		fast := ""
		if r.Velocity > limit {
			fast = "!"
		}
		if r.Bare {
			g.add(r.Run.ID, r.Run.Size.String(), "", flow.text(r.Flow), "", pressure.text(r.Drop), "", side)
			continue
		}
		inside := pressure.text(r.StaticPa)
		if !r.LevelKnown {
			inside += noLevel
		}
		g.add(r.Run.ID, r.Run.Size.String(), bore.text(r.BoreMM), flow.text(r.Flow), fast+speed.text(r.Velocity),
			pressure.text(r.Drop), inside, side)
	}
	return g
}

// partWords says what else is worth knowing of a part.
func partWords(f hydraulic.PartFlow, s Style) string {
	switch f.Part.Kind {
	case graph.Pump:
		return pumpWords(f, s)
	case graph.CheckValve:
		chatter := ""
		if f.Chatters() {
			chatter = ": it will chatter"
		}
		if f.State == "shut" {
			return fmt.Sprintf("shut; opens after %s more, or %s more past it", marginWords(s, f), s.flow(f.MarginFlow)) + chatter
		}
		return fmt.Sprintf("%s; shuts after %s less", stateWords(f.State), marginWords(s, f)) + chatter
	case graph.HeatPump:
		inside := s.pressure(f.StaticPa) + " at its inlet"
		if !f.LevelKnown {
			inside += ", its level not counted"
		}
		switch {
		case f.State == hydraulic.NoFlow:
			return hydraulic.NoFlow + "; " + inside
		case f.RiseK > 0:
			return fmt.Sprintf("water rises %s; %s", s.rise(f.RiseK), inside)
		}
		return inside
	}
	return f.State
}

// marginWords prints how far a check is from its other state, to the digits that mean something: a
// spring is known to a tenth of its cracking pressure at the best, so that steps are a tenth of
// that, and less than a step is said as at most one.
func marginWords(s Style, f hydraulic.PartFlow) string {
	cracking := f.Drop + f.MarginPa // shut: what is across it and what is missing
	if f.State != "shut" {
		cracking = f.Drop - f.MarginPa
	}
	known := max(cracking, f.MarginPa)
	if known < 10 {
		return "next to nothing"
	}
	step := 1.0 // Pa
	for i := 0; step*stepAfter(i) <= known/10; i++ {
		step *= stepAfter(i)
	}
	n := math.Round(f.MarginPa / step)
	if n < 1 {
		return "at most " + s.pressure(step)
	}
	return s.pressure(n * step)
}

// stepAfter makes of 1 the steps 2, 5, 10, 20, 50, …
func stepAfter(i int) float64 { return []float64{2, 2.5, 2}[i%3] }

func pumpWords(f hydraulic.PartFlow, s Style) string {
	if f.State == "off" {
		return "off"
	}
	shut := "shut-off " + s.pressure(f.ShutOffPa)
	if f.ShutOffExtrapolated {
		shut += " (extrapolated)"
	}
	words := []string{f.State, "head " + s.head(f.HeadM), shut}
	if f.PowerW > 0 {
		words = append(words, quantity.Format(f.PowerW, quantity.Power, s.Units))
	}
	if f.NPSHKnown && f.Part.Pump != nil && len(f.Part.Pump.NPSH) > 0 {
		words = append(words, "NPSH available "+s.head(f.NPSHAvailableM))
	}
	return strings.Join(words, ", ")
}

// surest is how many of the unknowns worth measuring are printed.
const surest = 5

// MeasureFirst says that something is to be measured before anything is cut, and what: where a
// judged promise is held in too few of the ways the unknowns could lie; else "".
func MeasureFirst(r *spread.Ranges, s Style) string {
	if r == nil || len(r.MeasureFirst) == 0 {
		return ""
	}
	p := worstPromise(r)
	if p == nil || p.Share >= spread.MeasureFirstBelow {
		return ""
	}
	f := r.MeasureFirst[0]
	return fmt.Sprintf("MEASURE FIRST: %s. Mode %s: %s: %s only; what moves it most is %s.", s.say(f.Reading), p.Mode, s.promise(p), s.say(p.Held()), What(f))
}

// What is what an unknown is of, with the id of its part in quotes: the papers put its name
// there, and nobody takes it for a word.
func What(f spread.Influence) string {
	if of, ok := strings.CutSuffix(f.What, " "+f.Part); ok && f.Part != "" {
		return fmt.Sprintf("%s %q", of, f.Part)
	}
	return f.What
}

// promise words a promise; how a spring stands is no order.
func (s Style) promise(p *spread.Promise) string {
	if p.Kind != spread.CheckState {
		return s.say(p.Text)
	}
	state, _ := strings.CutPrefix(s.say(p.Text), p.Part+" is ")
	return fmt.Sprintf("%q: %s", p.Part, stateWords(state))
}

// worstPromise returns the judged promise that is kept least; nil where none is made.
func worstPromise(r *spread.Ranges) *spread.Promise {
	var worst *spread.Promise
	for i := range r.Promises {
		if p := &r.Promises[i]; p.Judged() && (worst == nil || p.Share < worst.Share) {
			worst = p
		}
	}
	return worst
}

// SureBlocks says how sure the answers are, and what to measure first.
func SureBlocks(r *spread.Ranges, s Style) []Block {
	if r == nil || len(r.Promises) == 0 && len(r.MeasureFirst) == 0 {
		return nil
	}
	b := Block{Title: fmt.Sprintf("How sure (%d samples of what is not known exactly; nine in ten lie in the ranges)", r.Samples)}
	if first := MeasureFirst(r, s); first != "" {
		b.Lines = append(b.Lines, first)
	}
	if len(r.Promises) > 0 {
		b.Grid = newGrid(column{head: "mode"}, column{head: "promise", widest: 70}, column{head: "held in, of 100 ways the unknowns could lie", right: true, widest: 22})
	}
	for i := range r.Promises {
		p := &r.Promises[i]
		b.Grid.add(p.Mode, s.promise(p), fixed(p.Share*100, 0))
	}
	for i, f := range r.MeasureFirst[:min(surest, len(r.MeasureFirst))] {
		lead := "  measure this first"
		if i > 0 {
			lead = "  then"
		}
		b.Lines = append(b.Lines, fmt.Sprintf("%s: %s: it moves %s by ±%s %% (%s)", lead, What(f), f.Moves, fixed(f.Effect*100, 0), f.Mode))
	}
	if r.Unsolved > 0 {
		b.Lines = append(b.Lines, fmt.Sprintf("  %d samples had no answer and are left out", r.Unsolved))
	}
	return []Block{b}
}
