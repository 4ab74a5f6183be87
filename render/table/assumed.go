package table

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic/spread"
	"dryfit/graph/plan"
	"dryfit/graph/settle"
	"dryfit/render/table/form"
)

// assumedValue is a value used that nobody gave.
type assumedValue struct {
	what, value, bounds, from string
	moves                     *spread.Influence // nil: no flow
	hangs                     string            // on it, where that is no flow
}

// assumedOf returns every value of the circuit with the work built in that was used and that
// nobody gave: those first that move the unit's or the jets' flow most, then the pump's head;
// last, in the order of the walk, those that move no flow, and how deep lies what nothing says.
func assumedOf(p *plan.Plan, s form.Style) []assumedValue {
	if p.After == nil || p.After.Layout == nil {
		return nil
	}
	stage := p.After.Layout.Stage
	settled := map[settle.Key]*Shown{}
	var order []settle.Key
	for k, v := range stage.Values() {
		settled[k] = &Shown{k, v}
		order = append(order, k)
	}
	var out []assumedValue
	told := map[settle.Key]bool{}
	pumps := map[string]bool{} // whose curve is a guess that is told with its shut-off head
	if p.Ranges != nil {
		for i := range p.Ranges.Moves {
			f := &p.Ranges.Moves[i]
			told[f.Key] = true
			if f.Given {
				continue
			}
			one := usedOf(f, settled[f.Key], s)
			one.moves = f
			if part := stage.Part(f.Part); part != nil && part.Kind == graph.Pump {
				pumps[f.Part] = true
			}
			out = append(out, one)
		}
	}
	slices.SortStableFunc(out, func(a, b assumedValue) int { return spread.CompareHarm(a.moves, b.moves) })
	for _, k := range order {
		if v := settled[k]; v.How == settle.Assumed && !told[k] && !(pumps[k.Of] && strings.HasPrefix(k.What, "shut-off head")) {
			out = append(out, assumedValue{what: v.String(), value: v.words(s.Units), bounds: v.bounds(s.Units), from: v.from(s.Units)})
		}
	}
	return append(out, levelTaken(p, s)...)
}

// levelTaken is how deep what decides a promise of a pressure is taken to lie where nothing says it, or
// no measure ties it to what does.
func levelTaken(p *plan.Plan, s form.Style) []assumedValue {
	if p.Ranges == nil {
		return nil
	}
	var of []string
	for _, m := range p.Ranges.Promises {
		if name := fmt.Sprintf("%q", m.Level); m.Level != "" && !slices.Contains(of, name) {
			of = append(of, name)
		}
	}
	const hangs = "what the pump and the water above it put on the unit and the pipe"
	var out []assumedValue
	if len(of) > 0 {
		f := spread.Level()
		one := usedOf(&f, nil, s)
		one.what, one.hangs = "how deep below the water lies "+strings.Join(of, ", "), hangs
		out = append(out, one)
	}
	levels, told := p.After.Layout.Levels(), map[string]bool{}
	for _, m := range p.Ranges.Promises {
		if m.Kind != spread.UnitPressure && m.Kind != spread.PipePressure || told[m.Part] {
			continue
		}
		told[m.Part] = true
		var mm float64
		var by []*graph.Part
		if part := p.After.Circuit.Part(m.Part); part != nil {
			mm, by = levels.Loose(part)
		} else if i := slices.IndexFunc(p.After.Circuit.Runs, func(r *graph.Run) bool { return r.ID == m.Part }); i >= 0 {
			mm, by = levels.LooseRun(i)
		}
		if mm == 0 {
			continue
		}
		names := make([]string, len(by))
		for i, p := range by {
			names[i] = fmt.Sprintf("%q", p.ID)
		}
		out = append(out, assumedValue{what: fmt.Sprintf("how deep %q lies past %s", m.Part, strings.Join(names, ", ")), value: "as it is drawn", hangs: hangs,
			bounds: "±" + s.Length(mm), from: "judgement: no measure ties their ports together, which differ in height by as much as their bodies are high"})
	}
	return out
}

// usedOf words what was used for an unknown: settled is the value it was, nil where none is.
func usedOf(f *spread.Influence, settled *Shown, s form.Style) assumedValue {
	one := assumedValue{what: f.Said(), value: s.Say(f.Value), bounds: spanText(f, s.Units), from: s.Say(f.Source)}
	if settled != nil {
		one.from = settled.from(s.Units)
		if one.value == "" {
			one.value = settled.words(s.Units)
		}
	}
	if one.from == "" && f.Given {
		one.from = "the description"
	}
	if taken := takenText(f); taken != "" {
		one.value += ", taken " + taken
		var by []string
		for _, pos := range f.By {
			by = append(by, pos.String())
		}
		if one.from != "" {
			one.from += "; "
		}
		one.from += "fitted to what was read at " + strings.Join(by, ", ")
	}
	return one
}

// takenText says as what a number is taken by what was read; "" where as described, to what is printed.
func takenText(f *spread.Influence) string {
	switch v := f.Taken; {
	case v == nil:
		return ""
	case !f.Adds:
		return unlike(form.Fixed(*v, 2), "1.00", " times")
	case f.Number == settle.ExponentNumber, f.Number == settle.OpeningNumber:
		return unlike(fmt.Sprintf("%+.2f", *v), "+0.00", " of its power")
	case f.Number == settle.PositionNumber:
		return unlike(fmt.Sprintf("%+.0f", 100**v), "+0", " points off")
	default:
		return unlike(fmt.Sprintf("with K %+.2f", *v), "with K +0.00", " more")
	}
}

// unlike is a number and its words; "" where it prints as nothing does.
func unlike(v, nothing, words string) string {
	if v == nothing || v == strings.Replace(nothing, "+", "-", 1) {
		return ""
	}
	return v + words
}

// spanText says how far a number may be off: by a share of it, or by what is added.
func spanText(f *spread.Influence, units quantity.System) string {
	low, high := f.Span.Low, f.Span.High
	switch {
	case !f.Adds:
		return fmt.Sprintf("%+.0f to %+.0f %%", 100*low, 100*high)
	case f.Number == settle.ExponentNumber, f.Number == settle.OpeningNumber:
		return fmt.Sprintf("power %+.2f to %+.2f", low, high)
	case f.Number == settle.DepthNumber:
		return quantity.Head.Of(low).In(units) + " to " + quantity.Head.Of(high).In(units)
	case f.Number == settle.PositionNumber:
		return fmt.Sprintf("%+.0f to %+.0f points", 100*low, 100*high)
	}
	return fmt.Sprintf("K %+.2f to %+.2f", low, high)
}

// share prints by how much something moves, %; "" where it moves by less than half a per cent.
func share(v float64) string {
	if v < 0.005 {
		return ""
	}
	return form.Fixed(100*v, 0)
}

// words says what a value moves, or what hangs on it: "the unit's flow by 12 %, the jets' by 4 %, the pump's head by 3 %".
func (v *assumedValue) words() string {
	if v.moves == nil {
		return v.hangs
	}
	var out []string
	for _, m := range []struct {
		what string
		by   float64
	}{{spread.UnitsFlow.Of(v.moves.OneOf()), v.moves.Unit}, {spread.JetsFlow.String(), v.moves.Jets}, {"the pump's head", v.moves.Head}} {
		if by := share(m.by); by != "" {
			out = append(out, m.what+" by "+by+" %")
		}
	}
	return strings.Join(out, ", ")
}

// AssumedBlocks lists what was used that nobody gave, with its source and by how much it moves
// the unit's flow, the jets' and the pump's head either way.
func AssumedBlocks(p *plan.Plan, s form.Style) []form.Block {
	values := assumedOf(p, s)
	if len(values) == 0 {
		return nil
	}
	columns := []form.Column{{Head: "value", Widest: 36}, {Head: "assumed", Widest: 30}, {Head: "may be", Widest: 24}}
	moving := p.Ranges != nil
	if moving {
		columns = append(columns, form.Column{Head: "unit ±%", Right: true}, form.Column{Head: "jets ±%", Right: true}, form.Column{Head: "head ±%", Right: true})
	}
	var small, untried []*assumedValue
	g := form.NewGrid(append(columns, form.Column{Head: "from", Widest: 40})...)
	for i := range values {
		v := &values[i]
		if v.moves != nil && v.moves.Untried {
			untried = append(untried, v)
			continue
		}
		if v.moves != nil && share(max(v.moves.Harm(), v.moves.Jets, v.moves.Head)) == "" {
			small = append(small, v)
			continue
		}
		row := []string{v.what, v.value, v.bounds}
		switch {
		case moving && v.moves != nil:
			row = append(row, share(v.moves.Unit), share(v.moves.Jets), share(v.moves.Head))
		case moving:
			row = append(row, "", "", "")
		}
		g.Add(append(row, v.from)...)
	}
	first := "  What moves the unit's or the jets' flow most comes first."
	if moving && p.Ranges.Unit != "" {
		first = "  What moves a unit's or the jets' flow most comes first; of the units it is the one that each moves most."
	}
	b := form.Block{Title: "Used, though nobody gave it", Lines: []string{first}, Grid: g}
	if len(small) > 0 {
		b.Lines = append(b.Lines, "  By less than half a per cent each, so that they stand here alone: "+listed(small)+".")
	}
	if len(untried) > 0 {
		b.Lines = append(b.Lines, fmt.Sprintf("  The circuit is too large to try every one by itself. Not tried were these %d, of the pipes and parts that take least of the pumps' power: %s.", len(untried), listed(untried)))
	}
	return []form.Block{b}
}

// mostListed is how many of one wording are named: of a circuit of hundreds of pipes nobody reads on.
const mostListed = 12

// listed names values, of many that differ by their part or pipe alone the first and how many more
// there are; JSON has all.
func listed(values []*assumedValue) string {
	of := func(v *assumedValue) string { return strings.Replace(v.what, fmt.Sprintf("%q", v.moves.Part), "", 1) }
	count, told := map[string]int{}, map[string]int{}
	for _, v := range values {
		count[of(v)]++
	}
	var out []string
	for _, v := range values {
		wording := of(v)
		told[wording]++
		switch more := count[wording] - mostListed; {
		case told[wording] <= mostListed:
			out = append(out, v.what)
		case told[wording] == mostListed+1:
			out = append(out, fmt.Sprintf("%s%d more", wording, more))
		}
	}
	return strings.Join(out, ", ")
}

type assumedJSON struct {
	What   string   `json:"what"`
	Value  string   `json:"value"`
	MayBe  string   `json:"may_be,omitempty"`
	Source string   `json:"source"`
	Moves  string   `json:"moves"`
	UnitID string   `json:"unit_id,omitempty"` // of several units, whose flow it moves so
	Unit   *float64 `json:"unit_percent,omitempty"`
	Jets   *float64 `json:"jets_percent,omitempty"`
	Head   *float64 `json:"head_percent,omitempty"`
}

func assumedList(p *plan.Plan, s form.Style) []assumedJSON {
	out := []assumedJSON{}
	for _, v := range assumedOf(p, s) {
		one := assumedJSON{What: v.what, Value: v.value, MayBe: v.bounds, Source: v.from, Moves: v.words()}
		if f := v.moves; f != nil {
			one.UnitID = f.UnitID
			one.Unit, one.Jets, one.Head = form.Ptr(form.Round(100*f.Unit, 2)), form.Ptr(form.Round(100*f.Jets, 2)), form.Ptr(form.Round(100*f.Head, 2))
		}
		out = append(out, one)
	}
	return out
}
