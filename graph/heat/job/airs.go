package job

import (
	"math"

	"dryfit/graph/heat"
)

// AtAir is the tub, its water held, and what heats it, in air of one temperature.
type AtAir struct {
	AirC     float64
	Hours    int     // of the climate's year, within half a degree of it
	Colder   int     // of that year below it
	LosesW   float64 // cover on, less the pump's own heat
	OpenW    float64 // on top, while the cover is off
	GivesW   float64 // by the units at full speed, while they run; 0: they stand, or make no water so hot
	MayRun   float64 // share of the day in which it may run; 0: all of it
	ElementW float64 // by the element beside it
}

// Share is the part of the time that the unit runs to hold the tub, cover on; above 1: it does
// not. +Inf where it stands.
func (a AtAir) Share() float64 {
	if a.GivesW <= 0 {
		return math.Inf(1)
	}
	return math.Max(0, a.LosesW) / a.GivesW
}

// Cools reports whether the tub cools there although the unit works as long as it may.
func (a AtAir) Cools() bool {
	return a.MayRun <= 0 && a.Share() > 1 || a.MayRun > 0 && a.Share() > a.MayRun
}

// Where the airs begin and end that are looked at, °C: at the least from mild frost, at the
// most as far as there is any air to speak of.
const (
	airsFromC, airsToC       = -8.0, 20.0
	airsLeastC, airsWarmestC = -40.0, 40.0
)

// airs goes through the air degree by degree, and by every ten of Fahrenheit's: from the coldest that is asked for or that the
// climate has, or where the unit stops, to the warmest; and works out the coldest asked for as it is,
// which need be no whole degree.
func (b *builder) airs(s *scene, r *Report) {
	if s.planned == nil {
		return
	}
	low, high := math.Min(airsFromC, math.Floor(s.designC)-2), airsToC
	for _, u := range s.planned.Units {
		if u.Unit.HasLeast {
			low = math.Min(low, math.Floor(u.Unit.LeastAirC)-2)
		}
	}
	var counts map[int]int
	var hours []heat.Air
	if w := b.more.Weather; w != nil {
		counts, hours = map[int]int{}, w.Hours
		for _, a := range hours {
			counts[int(math.Round(a.TempC))]++
			low, high = math.Min(low, math.Floor(a.TempC)), math.Max(high, math.Ceil(a.TempC))
		}
	}
	need, wind := b.need(s, 0), meanWind(b.more.Weather)
	at := func(c float64) AtAir {
		need.DesignC = c
		at := AtAir{AirC: c, MayRun: need.MayRun}
		var beside []float64
		if at.GivesW, beside, at.LosesW = heat.Held(&s.tub, s.planned.Units, need); !s.own().Unit.Makes(s.tub.SetC) {
			at.GivesW = 0
		}
		for _, w := range beside {
			at.GivesW += w
		}
		at.OpenW = s.tub.Bathing(s.tub.SetC, heat.Air{TempC: c, Humidity: s.humid, Wind: wind}).Total()
		at.ElementW = s.planned.Beside(at.GivesW)
		for _, h := range hours {
			if h.TempC < c {
				at.Colder++
			}
		}
		return at
	}
	for c := math.Max(low, airsLeastC); c <= math.Min(high, airsWarmestC); c++ {
		r.Airs = append(r.Airs, at(c))
		r.Airs[len(r.Airs)-1].Hours = counts[int(c)]
	}
	for f := 10 * math.Ceil((math.Max(low, airsLeastC)*1.8+32)/10-1e-9); f <= math.Min(high, airsWarmestC)*1.8+32+1e-9; f += 10 {
		r.AirsF = append(r.AirsF, at((f-32)/1.8))
	}
	design := at(s.designC)
	r.Asked = &design
}
