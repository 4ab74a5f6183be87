package heat

import (
	"math"
	"slices"
)

// Need is what a unit has to do for a tub.
type Need struct {
	DesignC   float64 // coldest air at which the tub is held
	Humidity  float64 // 0 to 1
	WithinH   float64 // hours from the fill to the set point; 0: not asked
	HeatUpC   float64 // air while it heats up
	LeastM3s  float64 // the first unit asks for
	PumpHeatW float64 // heat of the pump, as a mean over the day
	PumpFullW float64 // heat of the pump while it runs, as it does while the tub heats up
	MayRun    float64 // share of the day in which the unit may heat the held tub; 0: all of it
}

// mayRun is the share of the day in which the unit may heat.
func (n *Need) mayRun() float64 {
	if n.MayRun <= 0 {
		return 1
	}
	return n.MayRun
}

// Sized is how a unit meets a need.
type Sized struct {
	Hold, Time, Flow, Water bool    // held at the design air, heated up in time, fed, hot enough
	HeldW, LostW            float64 // output of all, while they run, and loss at the design air
	Hours                   float64 // of heating up; +Inf: never
	HoldsC                  float64 // coldest air
	HoldsKnown              bool
}

// OK reports whether the unit does all of it.
func (s Sized) OK() bool { return s.Hold && s.Time && s.Flow && s.Water }

// lossAt returns what the unit has to make up with the cover on in air of a temperature [W].
func lossAt(tub *Tub, need Need) func(airC float64) float64 {
	return func(airC float64) float64 {
		air := Air{TempC: airC, Humidity: need.Humidity}
		return tub.Standing(tub.SetC, air) + tub.used(tub.SetC, air, 0).total() - need.PumpHeatW
	}
}

// Gives returns what each of some units gives and takes, while all run, in air of a temperature with the tub's
// water at waterC: nothing where it heats no water so hot, or stands.
func Gives(tub *Tub, units []Served, air Air, waterC float64) []Working {
	return bankOf(units, tub.SetC).told(air, waterC, func(u *banked) bool { return u.heats(waterC, tub.SetC) })
}

// Held returns what the first of some units gives while it runs, what the others do, and the tub's loss, all in
// the design air [W]. The first is told for water it does not make too: how much it would be.
func Held(tub *Tub, units []Served, need Need) (own float64, beside []float64, lostW float64) {
	b, out := bankOf(units, tub.SetC), make([]figure, len(units))
	b.work(Air{TempC: need.DesignC, Humidity: need.Humidity}, tub.SetC, func(u *banked) bool { return u.Served.Unit == units[0].Unit || u.Makes(tub.SetC) }, out)
	for _, w := range out[1:] {
		beside = append(beside, w.outputW)
	}
	return out[0].outputW, beside, lossAt(tub, need)(need.DesignC)
}

// Size holds a unit against what the tub needs of it, together with those beside it: the first of the units.
func Size(tub *Tub, units []Served, need Need) Sized {
	loss := lossAt(tub, need)
	s := Sized{Water: units[0].Unit.Makes(tub.SetC), Flow: units[0].FlowM3s >= need.LeastM3s}
	own, beside, lost := Held(tub, units, need)
	s.LostW = lost
	if s.Water || len(beside) == 0 {
		s.HeldW = own
	}
	for _, w := range beside {
		s.HeldW += w
	}
	if s.Water || len(beside) > 0 { // else it holds it in no air
		s.Hold = need.mayRun()*s.HeldW >= s.LostW
		s.HoldsC, s.HoldsKnown = bankOf(Alike(units), tub.SetC).holdsDownTo(need.Humidity, func(airC float64) float64 { return loss(airC) / need.mayRun() })
	}
	s.Hours = math.Inf(1)
	plant, air := &Plant{Units: units, PumpW: need.PumpFullW, PumpHeat: 1}, Air{TempC: need.HeatUpC, Humidity: need.Humidity}
	// in air that stays as it is, water that would not get warmer at its set point never comes there
	if up := warming(tub, plant, func(float64) Air { return air }, tub.FillC); up.FromC >= up.ToC || up.Power(up.ToC, 0) > up.Loss(up.ToC, 0) {
		if done := up.Run(); done.Reached {
			s.Hours = done.Hours
		}
	}
	s.Time = need.WithinH <= 0 || s.Hours <= need.WithinH
	return s
}

// Alike are units all set to one temperature: as a timer sets them, and as they run in water that falls below
// what any of them is set to.
func Alike(units []Served) []Served {
	out := slices.Clone(units)
	for i := range out {
		out[i].BelowK = 0
	}
	return out
}

// WarmThrough follows the tub, cover on, from a temperature to its set point, heated by the plant and by
// its pump's own heat, in air that changes with the seconds since it began. An element with a
// set point of its own helps up to that and no further, and the unit up to the hottest water it makes.
func WarmThrough(tub *Tub, p *Plant, air func(seconds float64) Air, fromC float64) Warmed {
	return warming(tub, p, air, fromC).Run()
}

// warming is what WarmThrough runs.
func warming(tub *Tub, p *Plant, air func(seconds float64) Air, fromC float64) Warming {
	skin := tub.UA()
	output := func(float64, float64) float64 { return 0 }
	if len(p.Units) > 0 {
		b, each := bankOf(p.Units, tub.SetC), make([]figure, len(p.Units))
		var water, when, last float64 // power and the element ask for the same moment
		asked := false
		output = func(waterC, seconds float64) float64 {
			if !asked || waterC != water || seconds != when {
				water, when, asked = waterC, seconds, true
				last = b.heating(air(seconds), waterC, each)
			}
			return last
		}
	}
	return Warming{Capacity: tub.Capacity(), FromC: fromC, ToC: tub.SetC,
		Power: func(waterC, seconds float64) float64 { return p.PumpW*p.PumpHeat + output(waterC, seconds) },
		Element: func(waterC, seconds float64) float64 {
			return p.BesideAt(output(waterC, seconds), waterC)
		},
		Loss: func(waterC, seconds float64) float64 {
			a := air(seconds)
			loss := tub.standing(skin, waterC, a)
			if tub.AirM3s > 0 {
				loss += Blown(tub.AirM3s, waterC, tub.Around(a))
			}
			return loss
		},
	}
}
