package plan

import (
	"maps"
	"math"
	"slices"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/hydraulic/formula"
	"dryfit/graph/hydraulic/spread"
	"dryfit/graph/settle"
)

// Aim is what a throttle in a unit's bypass is set by: the readings to reach in one mode. The
// way of the handle is where to begin, and no more.
type Aim struct {
	Valve, Unit string // ids
	Mode        string // the mode it is set in: the one in which the unit gets least
	Several     bool   // there are other modes in which the unit runs
	Flow        float64
	DropPa      float64 // between a gauge before the unit and one after it; 0 where the unit's loss is a guess
	Rises       []Rise  // where ratings are given, the coldest air first, at most three; in air between two in proportion
}

// Rise is by how much the water warms in the unit at full output in some air.
type Rise struct{ AirC, K float64 }

// mostRises is how many rises are told.
const mostRises = 3

// AimOf returns what a hand valve is set by; false for one that stands open or shut in every
// mode, or in no unit's bypass.
func (p *Plan) AimOf(valve string) (Aim, bool) {
	if p.After == nil || p.After.Layout == nil {
		return Aim{}, false
	}
	part := p.After.Circuit.Part(valve)
	if part == nil || !part.Kind.IsHandValve() {
		return Aim{}, false
	}
	for _, b := range p.After.Layout.Stage.Branches() {
		if !slices.Contains(b.BypassParts, part) {
			continue
		}
		best, found, modes := Aim{}, false, 0
		for i := range p.After.Solutions {
			s := &p.After.Solutions[i]
			unit := s.Part(b.Unit.ID)
			if unit == nil || unit.Idle() || math.Abs(unit.Flow) < hydraulic.Standing || !throttles(part, s) {
				continue
			}
			modes++
			if found && math.Abs(unit.Flow) >= best.Flow*(1-hydraulic.Alike) { // of modes that give it the same the first
				continue
			}
			found = true
			best = Aim{Valve: valve, Unit: b.Unit.ID, Mode: s.Mode.Name, Flow: math.Abs(unit.Flow)}
			if u := p.After.Layout.Stage.Part(b.Unit.ID); u != nil {
				best.Rises = p.Rises(b.Unit.ID, s.Mode.Name)
				if u.Loss.How != settle.Assumed {
					best.DropPa = math.Abs(unit.Drop)
				}
			}
		}
		best.Several = modes > 1
		return best, found
	}
	return Aim{}, false
}

// Rises are by how much the water warms in a unit in a mode after the work, where its sheet gives ratings, as
// an Aim has them; none of water that is kept cold, and of a unit that stands, though another pump's water passes it.
func (p *Plan) Rises(unit, mode string) []Rise {
	if p.After == nil || p.After.Layout == nil || p.After.Layout.Stage.KeptCold() {
		return nil
	}
	u := p.After.Layout.Stage.Part(unit)
	for i := range p.After.Solutions {
		s := &p.After.Solutions[i]
		if f := s.Part(unit); u != nil && s.Mode.Name == mode && f != nil && !f.Idle() && hydraulic.Passing(f.Flow) != 0 {
			return rises(u, s)
		}
	}
	return nil
}

// throttles reports whether a hand valve stands between open and shut in a solution.
func throttles(p *graph.Part, s *hydraulic.Solution) bool {
	f := s.Part(p.ID)
	return f != nil && f.State != "shut" && f.State != "open"
}

// rises are by how much the water warms at the airs of the unit's ratings: of several at one air
// that in water nearest to the tub's. Of more airs than are told, the coldest, the warmest and those
// nearest to the middle between them: the day's air lies between two, wherever it is rated. Nothing
// is set by what the catalogue says of a size.
func rises(u *settle.Part, s *hydraulic.Solution) []Rise {
	if !u.BySheet() {
		return nil
	}
	off := func(r graph.Rating) float64 { return math.Abs(r.WaterC - s.Water.TemperatureC) }
	nearest := map[float64]graph.Rating{}
	for _, r := range u.Ratings.V {
		if have, ok := nearest[r.AirC]; r.OutputW > 0 && (!ok || off(r) < off(have)) {
			nearest[r.AirC] = r
		}
	}
	airs := slices.Sorted(maps.Keys(nearest))
	for len(airs) > mostRises {
		middle, worst := (airs[0]+airs[len(airs)-1])/2, 1
		for i := 1; i < len(airs)-1; i++ {
			if math.Abs(airs[i]-middle) > math.Abs(airs[worst]-middle) {
				worst = i
			}
		}
		airs = slices.Delete(airs, worst, worst+1)
	}
	var out []Rise
	for _, air := range airs {
		out = append(out, Rise{air, formula.TemperatureRise(s.Water, nearest[air].OutputW, math.Abs(s.Part(u.ID).Flow))})
	}
	return out
}

// throttle is the hand valve in the unit's bypass that is set by a reading, for of it only the Kv was
// worked out, and no handle shows a Kv; nil where there is none. One that stood there before stands
// as it is.
func (p *Plan) throttle() *spread.Setting {
	for _, a := range p.toBeSet() {
		if a.Unit == p.unitID() {
			return &spread.Setting{Valve: a.Valve, Mode: a.Mode, Flow: a.Flow}
		}
	}
	return nil
}

// toBeSet are the new hand valves of which only a Kv was worked out, and what each is set by.
func (p *Plan) toBeSet() (out []Aim) {
	for _, v := range p.After.Circuit.Parts {
		if v.Existing || v.Valve == nil || v.Valve.Kv <= 0 {
			continue
		}
		if a, ok := p.AimOf(v.ID); ok {
			out = append(out, a)
		}
	}
	return out
}
