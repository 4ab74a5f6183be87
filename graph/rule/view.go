package rule

import (
	"cmp"
	"fmt"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/settle"
	"dryfit/graph/stream"
)

// view is what many rules ask of the same circuit, worked out once.
type view struct {
	c        *graph.Circuit // after the work; as described where there is no such stage
	set      *settle.Stage  // the same with every value settled
	net      *stream.Net
	branches []branch
	job      bool         // there is new work
	levels   route.Levels // how far things lie below the water
	runAt    map[string]int
}

// branch is one unit that water comes to, with what lies up and down the water from it.
type branch struct {
	*stream.UnitBranch
	problem  string // why it has no bypass; ""
	up, down *stream.Reach
}

func newView(in *Input) *view {
	v := &view{c: in.After}
	if v.c == nil {
		v.c = in.Circuit
	}
	switch {
	case in.Settled != nil && in.Settled.Circuit == v.c:
		v.set = in.Settled
	case in.Layout != nil && in.Layout.Circuit == v.c:
		v.set = in.Layout.Stage
	default:
		v.set = settle.Of(v.c)
	}
	v.net = v.set.Net()
	v.levels, v.runAt = in.Layout.Levels(), make(map[string]int, len(v.c.Runs))
	for i, r := range v.c.Runs {
		v.runAt[r.ID] = i
	}
	for _, b := range v.set.Branches() {
		v.branches = append(v.branches, branch{UnitBranch: b.UnitBranch, problem: b.Problem, up: v.net.Upstream(b.Unit), down: v.net.Downstream(b.Unit)})
	}
	for _, p := range v.c.Parts {
		v.job = v.job || (p.New() && p.Kind != graph.Tub)
	}
	for _, r := range v.c.Runs {
		v.job = v.job || r.New()
	}
	return v
}

// ask returns the view of the input, which Apply has worked out.
func (in *Input) ask() *view {
	if in.view == nil {
		return newView(in)
	}
	return in.view
}

// key returns the place of a key of a part, or the part's where it was not written.
func key(p *graph.Part, name string) graph.Pos { return or(p.KeyPos[name], p.Pos) }

// runKey returns the place of a key of a run, or the run's.
func runKey(r *graph.Run, name string) graph.Pos { return or(r.KeyPos[name], r.Pos) }

func or(a, b graph.Pos) graph.Pos {
	if a.IsValid() {
		return a
	}
	return b
}

// here says where a part is, for the other half of a problem.
func here(p *graph.Part) graph.Related {
	return graph.Related{Pos: p.Pos, Message: graph.Say("%s %q is here", p.Kind, p.ID)}
}

// hereRun says where a run is.
func hereRun(r *graph.Run) graph.Related {
	return graph.Related{Pos: r.Pos, Message: graph.Say("run %q is here", r.Said())}
}

// names lists ids in words: `"a"`, `"a" and "b"`, `"a", "b" and 3 more`.
func names[T any](list []T, id func(T) string) string {
	const most = 4
	var words []string
	for _, x := range list {
		words = append(words, fmt.Sprintf("%q", id(x)))
	}
	if len(words) > most {
		words = append(words[:most-1:most-1], fmt.Sprintf("%d more", len(list)-most+1))
	}
	return quantity.Listed(words, "and")
}

func partNames(list []*graph.Part) string {
	return names(list, func(p *graph.Part) string { return p.ID })
}

func runNames(list []*graph.Run) string {
	return names(list, func(r *graph.Run) string { return r.Said() })
}

// length, flow, … are amounts of a finding; about is a length in round numbers, for a rule of thumb.
func (v *view) about(mm float64) quantity.Amount    { return quantity.Length.About(mm) }
func (v *view) length(mm float64) quantity.Amount   { return quantity.Length.Of(mm) }
func (v *view) flow(q float64) quantity.Amount      { return quantity.Flow.Of(q) }
func (v *view) flowLimit(q float64) quantity.Amount { return quantity.Flow.Limit(q) }
func (v *view) pressure(pa float64) quantity.Amount { return quantity.Pressure.Of(pa) }
func (v *view) head(m float64) quantity.Amount      { return quantity.Head.Of(m) }
func (v *view) celsius(t float64) quantity.Amount   { return quantity.Temperature.Of(t) }
func (v *view) kelvin(k float64) quantity.Amount    { return quantity.TemperatureDifference.Of(k) }
func (v *view) velocity(ms float64) quantity.Amount { return quantity.Velocity.Of(ms) }

// firstPos returns the place of whichever of two comes first in the file.
func firstPos(a, b graph.Pos) graph.Pos {
	if !a.IsValid() || (b.IsValid() && cmp.Or(cmp.Compare(b.Line, a.Line), cmp.Compare(b.Column, a.Column)) < 0) {
		return b
	}
	return a
}

// part returns what was settled of a part.
func (v *view) part(p *graph.Part) *settle.Part { return v.set.Part(p.ID) }

// run returns what was settled of a run.
func (v *view) run(r *graph.Run) *settle.Run { return v.set.Run(r.ID) }

// waterC returns the water's temperature, °C.
func (v *view) waterC() float64 { return v.set.Water.TemperatureC.V }
