package plan

import (
	"math"
	"slices"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/hydraulic/spread"
	"dryfit/graph/plan/advice"
	"dryfit/graph/plan/stage"
	"dryfit/graph/route"
	"dryfit/graph/settle"
	"dryfit/graph/stream"
)

// InPlace returns the job with a unit of the catalogue in its unit's place, by its row's name, all
// else as it stands, solved in the modes named, or in all; a mode without an answer is left out. A
// new valve in the bypass is set for that unit: it was worked out for the job's own, and is set by
// what the unit reads. A new spring that nobody asked for by name or pressure is chosen for it, as for
// the job's own. It judges nothing and lists nothing. Nil where the job has no unit.
func (p *Plan) InPlace(row string, modes ...string) *Plan {
	if p.After == nil || p.After.Layout == nil {
		return nil
	}
	c := p.After.Layout.Circuit
	unit := c.TheUnit()
	at := slices.IndexFunc(c.Parts, func(q *graph.Part) bool { return unit != nil && q.ID == unit.ID })
	if at < 0 {
		return nil
	}
	other, part := *c, *c.Parts[at]
	volts := 0.0
	if unit.Unit != nil {
		volts = unit.Unit.VoltageV // the supply stays
	}
	part.Type, part.Loss, part.Unit, part.Known = row, nil, &graph.UnitData{VoltageV: volts}, graph.Assumed
	other.Parts = slices.Clone(c.Parts)
	other.Parts[at], other.Fit = &part, c.Fit.Without(part.ID)
	p.setFor(&other, part.ID)
	lay := p.layoutOf(&other)
	after := &stage.Stage{Circuit: &other, Layout: lay}
	for _, m := range other.AllModes() {
		if len(modes) > 0 && !slices.Contains(modes, m.Name) {
			continue
		}
		if sol, err := spread.Solve(lay, m, graph.After); err == nil {
			after.Solutions = append(after.Solutions, *sol)
		}
	}
	return &Plan{Asked: p.Asked, Circuit: &other, Before: p.Before, After: after}
}

// layoutOf is the layout after the work with a part of another make or setting in it.
func (p *Plan) layoutOf(c *graph.Circuit) *route.Layout {
	lay := p.After.Layout.As(c)
	lay.Stage = p.After.Layout.Stage.With(c)
	return lay
}

// setFor sets the valve in the bypass for the unit that stands in a circuit now, as the search does for
// the job's own: shut where the unit gets no more than its rated flow so, else to the Kv that gives it.
// A valve that was there, or stands as somebody read its handle, stays.
func (p *Plan) setFor(c *graph.Circuit, unit string) {
	branch, _ := p.After.Layout.Stage.Branch()
	if branch == nil || branch.Element() == nil {
		return
	}
	valve := branch.Element().ID
	at := slices.IndexFunc(c.Parts, func(q *graph.Part) bool { return q.ID == valve })
	if at < 0 || !c.Parts[at].New() {
		return
	}
	if set := p.After.Layout.Stage.Part(valve); p.choseSpring() && set.Kind == graph.CheckValve && !set.IsSwing() {
		p.springFor(c, branch, at)
		return
	}
	if !c.Parts[at].Kind.IsHandValve() {
		return
	}
	data := c.Parts[at].Valve
	if data == nil || data.Kv <= 0 && c.Parts[at].Opening() > 0 {
		return
	}
	set := func(d graph.ValveData) *route.Layout {
		v := *c.Parts[at]
		v.Valve = &d
		c.Parts[at] = &v
		return p.layoutOf(c)
	}
	lay := set(graph.ValveData{PositionSet: true})
	promise := advice.PromiseOf(lay.Stage.Part(unit))
	want := promise.Wanted()
	least := math.Inf(1)
	for _, m := range c.AllModes() {
		if !branch.FedIn(m) {
			continue
		}
		if sol, err := spread.Solve(lay, m, graph.After); err == nil {
			least = min(least, math.Abs(sol.Part(unit).Flow))
		}
	}
	if want == 0 || least <= want || math.IsInf(least, 1) {
		return
	}
	lay = set(graph.ValveData{Position: 1, Kv: 1}) // any: it is set below
	of, _ := lay.Stage.Branch()
	if of == nil {
		return
	}
	set(graph.ValveData{Position: 1, Kv: advice.NewThrottle(lay, of, valve).Setting(promise)})
}

// choseSpring reports whether the spring in the bypass is the tool's own choice, so that it would choose
// another for another unit.
func (p *Plan) choseSpring() bool {
	r := p.Asked.Retrofit
	return p.Proposal != nil && r != nil && (r.Spring == "" || r.Spring == "auto") && r.SpringPa <= 0
}

// springFor puts the spring into the bypass, whose element is part at of a circuit, that serves the unit
// best which stands there now.
func (p *Plan) springFor(c *graph.Circuit, branch *stream.UnitBranch, at int) {
	put := func(row catalog.Row) *route.Layout {
		spring := *c.Parts[at]
		spring.Type, spring.Check = row.Name, &graph.CheckData{Style: settle.Spring}
		c.Parts[at] = &spring
		return p.layoutOf(c)
	}
	if row, ok := advice.New(c, branch, p.Before, p.layoutOf(c).Stage).Spring(put); ok {
		put(row)
	}
}
