package rule

import (
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic/laws"
	"dryfit/graph/settle"
)

// shutOff is what a speed of a pump gives at no flow, as flows are worked out with.
type shutOff struct {
	laws.ShutOff
	speed string
	metre float64 // Pa of a metre of the water
}

// pa is its shut-off pressure.
func (s shutOff) pa() float64 { return s.HeadM * s.metre }

// greatestPa is the most it puts on its line, Pa: more than at shut-off where its curve rises.
func (s shutOff) greatestPa() float64 { return s.GreatestM * s.metre }

// words names it: "shut-off 1.49 bar", and how that is known where it is in no list.
func (s shutOff) words() quantity.Text {
	pa := quantity.Pressure.Of(s.greatestPa())
	switch {
	case s.GreatestM > s.HeadM:
		return graph.Say("greatest pressure %s (its curve rises)", pa)
	case s.Extrapolated:
		return graph.Say("shut-off %s (extrapolated: its curve starts above no flow)", pa)
	}
	return graph.Say("shut-off %s", pa)
}

// shutOffs returns those of a pump's speeds whose curve is known, in their order.
func shutOffs(pump *settle.Part, water settle.Water) []shutOff {
	return shutOffsBy(pump, water, (*settle.Part).ShutOffAt)
}

// shutOffsBy is shutOffs as at has them.
func shutOffsBy(pump *settle.Part, water settle.Water, at func(p *settle.Part, speed int, density float64) (laws.ShutOff, bool)) []shutOff {
	var out []shutOff
	for i, s := range pump.Speeds.V {
		if off, ok := at(pump, i, water.Density.V); ok {
			out = append(out, shutOff{ShutOff: off, speed: s.Name, metre: water.Metre()})
		}
	}
	return out
}

// weakestShutOff returns the least of the shut-off pressures of a pump's speeds.
func weakestShutOff(pump *settle.Part, water settle.Water) (weakest shutOff, ok bool) {
	for _, s := range shutOffs(pump, water) {
		if !ok || s.HeadM < weakest.HeadM {
			weakest, ok = s, true
		}
	}
	return weakest, ok
}

// strongestShutOff returns the one of a pump's speeds that puts most on its line; as described, where what was
// read has it less: a flow that was read may as well be less by what stands in the water's way, and what
// has to stand the pump is not to be let off by that.
func strongestShutOff(pump *settle.Part, water settle.Water) (strongest shutOff, ok bool) {
	return strongestOf(pump, water, func(string) bool { return true })
}

// strongestAt is strongestShutOff at one speed; of one whose curve is not known it is that of them all. It is zero
// where no curve is known.
func strongestAt(pump *settle.Part, water settle.Water, speed string) shutOff {
	off, ok := strongestOf(pump, water, func(s string) bool { return s == speed })
	if !ok {
		off, _ = strongestShutOff(pump, water)
	}
	return off
}

// strongestOf is strongestShutOff of some of a pump's speeds.
func strongestOf(pump *settle.Part, water settle.Water, among func(speed string) bool) (strongest shutOff, ok bool) {
	for _, s := range append(shutOffs(pump, water), shutOffsBy(pump, water, (*settle.Part).ShutOffDescribed)...) {
		if among(s.speed) && (!ok || s.GreatestM > strongest.GreatestM) {
			strongest, ok = s, true
		}
	}
	return strongest, ok
}

// SlowAndFast returns the names of the speeds of a pump with the least and the greatest
// shut-off head; the first and the last where no curve is known, "" where it has one.
func SlowAndFast(pump *settle.Part, water settle.Water) (slow, fast string) {
	speeds := pump.Speeds.V
	if len(speeds) < 2 {
		return "", ""
	}
	slow, fast = speeds[0].Name, speeds[len(speeds)-1].Name
	if s, ok := weakestShutOff(pump, water); ok {
		slow = s.speed
	}
	if s, ok := strongestShutOff(pump, water); ok {
		fast = s.speed
	}
	return slow, fast
}
