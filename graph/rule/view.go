package rule

import (
	"cmp"
	"fmt"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/settle"
	"dryfit/graph/stream"
)

// view is what many rules ask of the same circuit, worked out once.
type view struct {
	c        *graph.Circuit // after the work; as described where there is no such stage
	set      *settle.Stage  // the same with every value settled
	net      *stream.Net
	branches []branch
	system   quantity.System
	job      bool // there is new work
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
	if v.c.Job.Units == "inch" {
		v.system = quantity.InchSystem
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
	return graph.Related{Pos: p.Pos, Message: fmt.Sprintf("%s %q is here", p.Kind, p.ID)}
}

// hereRun says where a run is.
func hereRun(r *graph.Run) graph.Related {
	return graph.Related{Pos: r.Pos, Message: fmt.Sprintf("run %q is here", r.ID)}
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
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

func partNames(list []*graph.Part) string {
	return names(list, func(p *graph.Part) string { return p.ID })
}

func runNames(list []*graph.Run) string {
	return names(list, func(r *graph.Run) string { return r.ID })
}

// length, flow, … print a value in the job's units.
func (v *view) length(mm float64) string { return quantity.Format(mm, quantity.Length, v.system) }
func (v *view) flow(q float64) string    { return quantity.Format(q, quantity.Flow, v.system) }

// flows prints two flows so that they can be told apart: where the usual form prints both
// alike, with three decimals.
func (v *view) flows(got, limit float64) (a, b string) {
	if a, b = v.flow(got), v.flow(limit); a != b || got == limit {
		return a, b
	}
	form, per := "%.3f m3/h", 3600.0
	if v.system == quantity.InchSystem {
		form, per = "%.3f gpm", 60/3.785411784e-3
	}
	return fmt.Sprintf(form, got*per), fmt.Sprintf(form, limit*per)
}

func (v *view) pressure(pa float64) string {
	return quantity.Format(pa, quantity.Pressure, v.system)
}
func (v *view) head(m float64) string { return quantity.Format(m, quantity.Head, v.system) }
func (v *view) celsius(t float64) string {
	return quantity.Format(t, quantity.Temperature, v.system)
}
func (v *view) kelvin(k float64) string {
	return quantity.Format(k, quantity.TemperatureDifference, v.system)
}

// velocity prints m/s, or ft/s where the job is in inch.
func (v *view) velocity(ms float64) string {
	if v.system == quantity.InchSystem {
		return fmt.Sprintf("%.1f ft/s", ms/0.3048)
	}
	return fmt.Sprintf("%.2f m/s", ms)
}

// count prints "1 speed", "2 speeds".
func count(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}

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
