// Package match holds every heat pump of the catalogue against a tub: in the place of the job's own
// unit, at the flows it would get there itself.
package match

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/heat/job"
	"dryfit/graph/hydraulic"
	"dryfit/graph/plan"
)

// Tub is one job and the units held against it, the best first.
type Tub struct {
	Job     graph.Job
	File    string
	AirC    float64 // coldest air the tub is to be held in
	WaterC  float64
	Cold    bool    // the water is kept cold: no heat pump suits by what it heats
	WithinH float64 // hours in which it is to be heated up; 0: not asked
	Units   []Unit
	LeftOut int  // rows beyond those that are looked at
	Read    bool // it goes by what was read at the tub, which contradicts the case as described

	placeless bool // no place for the cut was found: nothing flows through any unit
}

// Unit is one heat pump in the place of the job's own.
type Unit struct {
	Name               string
	This, Own          bool // the job's own; a row of the user's
	Least, Rated, Most float64
	Flows              []Flow   // at each mode in which it gets water
	dirty              []string // modes in which a dirty filter leaves it too little
	job.Fit
	Reasons []quantity.Text // why it does not suit
}

// Suits reports whether nothing speaks against the unit.
func (u *Unit) Suits() bool { return len(u.Reasons) == 0 }

// Flow is the water a unit gets in a mode, m³/s.
type Flow struct {
	Mode string
	M3s  float64
}

// mostRows bounds how many rows are looked at: each is solved at every speed and has a year.
const mostRows = 200

// Of holds the units of the catalogue against a job, which was planned with its flows. Problems
// are those of its weather; ok is false where the job has no unit in whose place another could
// stand.
func Of(p *plan.Plan) (tub *Tub, problems []graph.Diagnostic, ok bool) {
	if p.After == nil || p.After.Circuit.TheUnit() == nil {
		return nil, nil, false
	}
	weather, problems := plan.WeatherOf(p.Circuit.Climate)
	account := p.HeatAccount(job.Ask{})
	design := account.Design()
	tub = &Tub{Job: p.Circuit.Job, File: p.Circuit.File, AirC: design.AirC, WaterC: p.After.Layout.Stage.Water.TemperatureC.V, WithinH: p.Circuit.Site.HeatUpS.Or(0) / 3600}
	tub.Read = p.Circuit.Fit.Changes()
	tub.placeless = p.Asked.Retrofit != nil && p.Proposal == nil
	if tub.Cold = p.Circuit.Site.KeptCold(tub.WaterC); tub.Cold {
		weather = nil
	}
	hold := func(name string, q *plan.Plan) {
		u := Unit{Name: name}
		account := q.HeatAccount(job.Ask{})
		unit, _ := account.Heats()
		if u.Fit, ok = account.Fit(weather); !ok {
			return
		}
		if tub.Cold {
			u.HoldsKnown, u.Hours = false, math.Inf(1)
		}
		u.Least, u.Rated, u.Most = unit.Least.V, unit.Rated.V, unit.Most.V
		for i := range q.After.Solutions {
			sol := &q.After.Solutions[i]
			if f := sol.Part(unit.ID); f != nil && math.Abs(f.Flow) > hydraulic.Standing {
				u.Flows = append(u.Flows, Flow{sol.Mode.Name, math.Abs(f.Flow)})
			}
		}
		u.dirty = tooDirty(q, &u)
		u.Reasons = u.against(tub)
		if len(u.Flows) == 0 && tub.placeless {
			u.Reasons = append(u.Reasons, graph.Say("what it gets is not known: no place was found for %q; type = %q there shows it", unit.ID, name))
			if name == unit.ID {
				u.Reasons[len(u.Reasons)-1] = "no place for the cut was found for it"
			}
		}
		tub.Units = append(tub.Units, u)
	}
	hold(p.After.Circuit.TheUnit().ID, p)
	if len(tub.Units) > 0 {
		tub.Units[0].This = true
	}
	rows := job.UnitRows(p.After.Layout.Stage.Catalog())
	tub.LeftOut = max(0, len(rows)-mostRows)
	for _, row := range rows[:min(len(rows), mostRows)] {
		if row.Name == p.After.Circuit.TheUnit().Type {
			continue // the job's own, which stands there as the job has it
		}
		n := len(tub.Units)
		if hold(row.Name, p.InPlace(row.Name)); len(tub.Units) > n {
			tub.Units[n].Own = row.Own
		}
	}
	slices.SortStableFunc(tub.Units, better)
	return tub, problems, true
}

// tooDirty names the modes in which a unit gets its least flow with a clean filter, and less with a
// dirty one and half of the jets turned down, where there are some.
func tooDirty(q *plan.Plan, u *Unit) []string {
	branch, _ := q.After.Layout.Stage.Branch()
	if branch == nil || u.Least == 0 {
		return nil
	}
	after := *q.After
	after.SolveDirty(graph.After)
	var out []string
	for i := range after.Dirty {
		s := &after.Dirty[i]
		clean := slices.ContainsFunc(u.Flows, func(f Flow) bool { return f.Mode == s.Mode.Name && f.M3s >= u.Least })
		if f := s.Part(branch.Unit.ID); f != nil && clean && math.Abs(f.Flow) < u.Least {
			out = append(out, s.Mode.Name)
		}
	}
	return out
}

// against says what speaks against a unit.
func (u *Unit) against(tub *Tub) []quantity.Text {
	var out []quantity.Text
	if tub.Cold {
		out = append(out, graph.Say("heats, and water of %s wants cooling", quantity.Temperature.Of(tub.WaterC)))
	} else if !u.Hold {
		out = append(out, graph.Say("does not hold the tub in air of %s", quantity.Temperature.Of(tub.AirC)))
	}
	if !u.Time {
		if math.IsInf(u.Hours, 1) {
			out = append(out, "never heats the tub up")
		} else {
			out = append(out, graph.Say("takes %.1f h to heat it up, %.1f h are asked for", u.Hours, tub.WithinH))
		}
	}
	if !u.Water {
		out = append(out, graph.Say("makes no water of %s", quantity.Temperature.Of(tub.WaterC)))
	}
	if len(u.Flows) == 0 && !tub.placeless {
		out = append(out, "gets no water at any speed, as far as its flows have an answer")
	}
	var little, much []string
	for _, f := range u.Flows {
		switch {
		case u.Least > 0 && f.M3s < u.Least:
			little = append(little, f.Mode)
		case u.Most > 0 && f.M3s > u.Most:
			much = append(much, f.Mode)
		}
	}
	if little != nil {
		out = append(out, graph.Say("too little water (%s)", strings.Join(little, ", ")))
	}
	if much != nil {
		out = append(out, graph.Say("too much water (%s)", strings.Join(much, ", ")))
	}
	if u.dirty != nil {
		out = append(out, graph.Say("too little water with a dirty filter (%s)", strings.Join(u.dirty, ", ")))
	}
	if u.OverA > 0 {
		out = append(out, graph.Say("%.1f A more than its circuit bears", u.OverA))
	}
	return out
}

// better orders units: those that suit first, then what a year costs or takes, then the smaller.
func better(a, b Unit) int {
	suits := func(u Unit) int {
		if u.Suits() {
			return 0
		}
		return 1
	}
	year := func(u Unit) float64 {
		switch {
		case u.Year == nil:
			return 0
		case u.Priced:
			return u.Year.Cost
		}
		return u.Year.KWh
	}
	return cmp.Or(cmp.Compare(suits(a), suits(b)), cmp.Compare(year(a), year(b)), cmp.Compare(a.HeldW, b.HeldW), cmp.Compare(a.Name, b.Name))
}
