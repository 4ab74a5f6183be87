package spread

import (
	"slices"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/route"
)

// Build is hydraulic.Build of the case that is taken: as described, or where what was read contradicts
// that, with the values of what may be off that come to it (graph.Fit). All that is asked of a circuit is
// asked of this model; only what a sample or "as described" is made of begins from the other.
func Build(lay *route.Layout, mode graph.Mode, stage graph.Stage) (*hydraulic.Model, error) {
	model, err := hydraulic.Build(lay, mode, stage)
	if err != nil || !lay.Circuit.Fit.Changes() {
		return model, err
	}
	p := &hydraulic.Perturb{}
	all := unknowns([]*hydraulic.Model{model})
	for k := range all {
		if u := &all[k]; u.taken != nil {
			u.set(model, p, *u.taken)
		}
	}
	described(model, all, p)
	model.Take(p)
	return model, nil
}

// described does to pumps and jets what a number does that none of their unknowns is called by, for they are
// described by other keys than when it was fitted.
func described(m *hydraulic.Model, all []unknown, p *hydraulic.Perturb) {
	live := map[string]bool{}
	for i := range all {
		live[all[i].part] = true
	}
	fit := m.Layout.Circuit.Fit
	for i := range fit.Values {
		v := &fit.Values[i]
		if slices.ContainsFunc(all, func(u unknown) bool { return u.what == v.What && u.part == v.Part }) {
			continue
		}
		for _, e := range v.Does {
			if live[e.Part] {
				timesPart(m, &p.Loss, e.Part, e.Loss)
				timesPart(m, &p.Flow, e.Part, e.Flow)
				timesPart(m, &p.Speed, e.Part, e.Speed)
			}
		}
	}
}

// Solve is hydraulic.Solve of the case that is taken.
func Solve(lay *route.Layout, mode graph.Mode, stage graph.Stage) (*hydraulic.Solution, error) {
	return SolveNear(lay, mode, stage, nil)
}

// SolveNear is hydraulic.SolveNear of the case that is taken.
func SolveNear(lay *route.Layout, mode graph.Mode, stage graph.Stage, near *hydraulic.Solution) (*hydraulic.Solution, error) {
	model, err := Build(lay, mode, stage)
	if err != nil {
		return nil, err
	}
	model.Near(near)
	return model.Solve(nil)
}

// takenBy has an unknown be what it is by what was read.
func (u *unknown) takenBy(fit *graph.Fit) {
	if v, ok := fit.Value(u.what, u.part); ok {
		u.taken, u.by = &v, fit.By()
	}
}

// takenAs is its value in the case that is taken.
func (u *unknown) takenAs() float64 {
	if u.taken != nil {
		return *u.taken
	}
	return u.asDescribed()
}
