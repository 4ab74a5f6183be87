package job

import (
	"math"

	"dryfit/graph/heat"
)

// Fit is the job's unit held against its tub, its supply and the year, without ranges.
type Fit struct {
	Sized
	RatingsAssumed bool
	FullLoadA      float64
	StartingA      float64
	FuseA          float64       // 0: not known
	OverA          float64       // what runs together with it, above what its circuit bears; 0: within, or not known
	Year           *heat.Account // nil: no climate
	Priced         bool          // Year has a cost
}

// Fit holds the job's unit against its tub; false where there is none.
func (a *Account) Fit(weather *heat.Weather) (Fit, bool) {
	s, unit := a.scene, a.in.Unit
	if s.planned == nil {
		return Fit{}, false
	}
	f := Fit{Sized: a.sized(s, *s.own(), a.need(s, unit.Least.V)), RatingsAssumed: !unit.BySheet(), FuseA: unit.Fuse.V}
	for _, sup := range a.supplies {
		for _, l := range sup.Loads {
			if l.ID != unit.ID {
				continue
			}
			f.FullLoadA, f.StartingA = l.RunningA, l.StartA
			for _, set := range sup.Together {
				f.OverA = math.Max(f.OverA, math.Max(set.OverA, set.OverLong))
			}
		}
	}
	if weather != nil {
		f.Year, f.Priced = heat.Year(&s.tub, s.planned, weather, s.tariff), s.tariff.Known
	}
	return f, true
}
