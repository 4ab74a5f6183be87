package heat

import (
	"errors"
	"math"
)

// Wall is a part of a tub's skin: its cover, its walls, its floor.
type Wall struct {
	AreaM2     float64
	Resistance float64 // m² K/W, surface films in it
}

// UA returns what the wall loses for each kelvin [W/K].
func (w Wall) UA() float64 { return w.AreaM2 / w.Resistance }

// TubUA returns the usual standing loss of an insulated tub [W/K] of a volume [m³]: what the
// first published limit for factory-made tubs allowed.
//
//	5 V^(2/3) W with V in US gallons, at 102 °F in the water and 60 °F outside
//
// Of 27 tubs measured in 2012 a third lost more; an inflatable one loses half as much again,
// a good one half.
//
// Source: California Code of Regulations, title 20, section 1605.3(g), 2006.
func TubUA(volumeM3 float64) float64 {
	const gallon, difference = 3.785411784e-3, (102 - 60) / 1.8
	return 5 * math.Pow(volumeM3/gallon, 2.0/3) / difference
}

// StandingUA returns the loss for each kelvin [W/K] of a tub that takes powerW to stay at
// waterC in air of airC.
func StandingUA(powerW, waterC, airC float64) float64 { return powerW / (waterC - airC) }

// A Fall is a tub that cooled with its heating off and its cover on.
type Fall struct {
	FromC, ToC float64
	Seconds    float64
	AirC       float64 // mean over the time
	HeatW      float64 // what still went into the water: a pump that ran
}

// Errors of Fall.UA.
var (
	errFallRises = errors.New("the water has to cool: the first temperature above the second, both above the air")
	errFallHeat  = errors.New("with that heat going in the water could not have cooled so far")
)

// UA returns the loss for each kelvin [W/K] that explains the fall of a mass with capacity
// [J/K]: the solution of
//
//	t1 = T + (t0 - T) exp(-UA s/C),   T = ta + heat/UA
//
// in closed form without heat, by bisection with it.
func (f Fall) UA(capacity float64) (float64, error) {
	if !(f.FromC > f.ToC && f.ToC > f.AirC && f.Seconds > 0) {
		return 0, errFallRises
	}
	ua := capacity / f.Seconds * math.Log((f.FromC-f.AirC)/(f.ToC-f.AirC))
	if f.HeatW <= 0 {
		return ua, nil
	}
	end := func(ua float64) float64 {
		rest := f.AirC + f.HeatW/ua
		return rest + (f.FromC-rest)*math.Exp(-ua*f.Seconds/capacity)
	}
	low, high := ua, ua+f.HeatW/(f.ToC-f.AirC)+1e-9
	if !(end(high) <= f.ToC) {
		return 0, errFallHeat
	}
	for range 200 {
		if mid := (low + high) / 2; end(mid) > f.ToC {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2, nil
}

// UARange returns the range of UA [W/K] that two readings, each off by up to plusMinus K, allow of a mass
// with capacity [J/K]: from 0, where the water may not have cooled at all; to +Inf, where it may have
// come down to the air, or, with the heat that went in, farther than any loss explains. Of a fall that
// UA gives no answer to it says nothing.
func (f Fall) UARange(capacity, plusMinus float64) (low, high float64) {
	at := func(d, otherwise float64) float64 {
		g := f
		g.FromC, g.ToC = f.FromC+d, f.ToC-d
		ua, err := g.UA(capacity)
		if err != nil {
			return otherwise
		}
		return ua
	}
	return at(-plusMinus, 0), at(plusMinus, math.Inf(1))
}
