package table

import (
	"cmp"
	"fmt"
	"slices"

	"dryfit/graph/hydraulic"
	"dryfit/graph/plan"
)

// assumedValue is a value nobody gave, with what it moves.
type assumedValue struct {
	Shown
	most *hydraulic.Influence // of what is not known of its part, that which moves most; nil: nothing worth saying
}

// assumedOf returns the values of the circuit with the work built in that nobody gave: those
// first whose parts move most.
func assumedOf(p *plan.Plan) []assumedValue {
	if p.After == nil || p.After.Layout == nil {
		return nil
	}
	most := map[string]*hydraulic.Influence{}
	if p.Ranges != nil {
		for i := range p.Ranges.MeasureFirst { // what matters most comes first
			if f := &p.Ranges.MeasureFirst[i]; most[f.Part] == nil {
				most[f.Part] = f
			}
		}
	}
	var out []assumedValue
	for k, v := range p.After.Layout.Stage.Assumed() {
		one := assumedValue{Shown: Shown{k, v}}
		if v.High > v.Low {
			one.most = most[k.Of]
		}
		out = append(out, one)
	}
	effect := func(v *assumedValue) float64 {
		if v.most == nil {
			return 0
		}
		return v.most.Effect
	}
	slices.SortStableFunc(out, func(a, b assumedValue) int { return cmp.Compare(effect(&b), effect(&a)) })
	return out
}

// moves says what a value moves: "the unit's flow by 4 %".
func (v *assumedValue) moves() string {
	if v.most == nil {
		return ""
	}
	return fmt.Sprintf("%s by %.0f %%", v.most.Moves, 100*v.most.Effect)
}

// assumedBlock lists what nobody gave.
func assumedBlock(p *plan.Plan, s Style) []Block {
	values := assumedOf(p)
	if len(values) == 0 {
		return nil
	}
	g := newGrid(column{head: "value", widest: 36}, column{head: "assumed", widest: 30}, column{head: "may be", widest: 24}, column{head: "moves", widest: 26}, column{head: "from", widest: 40})
	for i := range values {
		v := &values[i]
		g.add(v.String(), v.words(s.Units), v.bounds(s.Units), v.moves(), v.from())
	}
	return []Block{{Title: "Assumed, for nobody gave it", Grid: g}}
}

type assumedJSON struct {
	What   string `json:"what"`
	Value  string `json:"value"`
	Source string `json:"source"`
	Moves  string `json:"moves"`
}

func assumedList(p *plan.Plan, s Style) []assumedJSON {
	out := []assumedJSON{}
	for _, v := range assumedOf(p) {
		out = append(out, assumedJSON{v.String(), v.words(s.Units), v.from(), v.moves()})
	}
	return out
}
