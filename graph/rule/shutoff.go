package rule

import "dryfit/graph"

// pascalsPerMetre turns a head into a pressure where pressures are compared with ratings:
// the conventional 9806.65 Pa for a metre of water, 1 % above that of warm water. Source:
// ISO 80000-4, conventional millimetre of water (from memory).
const pascalsPerMetre = 9806.65

// shutOffPa returns the greatest pressure of one speed of a pump, Pa: the highest point of
// its curve. A speed given by ratio follows the affinity law, the square of the ratio. It
// is false where no curve is known.
func shutOffPa(c *graph.Circuit, pump *graph.Part, speed int) (float64, bool) {
	if pump.Pump == nil || speed >= len(pump.Pump.Speeds) {
		return rowShutOff(c, pump, speed)
	}
	s := pump.Pump.Speeds[speed]
	curve, factor := s.Curve, 1.0
	if len(curve) == 0 {
		factor = s.Ratio * s.Ratio
		for _, other := range pump.Pump.Speeds {
			if len(other.Curve) > 0 {
				curve = other.Curve
				break
			}
		}
	}
	most := 0.0
	for _, p := range curve {
		pa := p.Head.Value
		if p.Head.IsHead {
			pa *= pascalsPerMetre
		}
		most = max(most, pa*factor)
	}
	return most, most > 0
}

// rowShutOff is shutOffPa of a pump whose speeds are those of its catalogue row.
func rowShutOff(c *graph.Circuit, pump *graph.Part, speed int) (float64, bool) {
	r := row(c, pump)
	curve := r.Curve
	if speed < len(r.Speeds) {
		curve = r.Speeds[speed].Curve
	}
	most := 0.0
	for _, p := range curve {
		most = max(most, p[1]*pascalsPerMetre)
	}
	return most, most > 0
}

// weakestShutOff returns the least of the shut-off pressures of a pump's speeds, Pa, and
// the speed's name.
func weakestShutOff(c *graph.Circuit, pump *graph.Part) (pa float64, name string, ok bool) {
	for i, speed := range pump.SpeedNames() {
		if s, known := shutOffPa(c, pump, i); known && (!ok || s < pa) {
			pa, name, ok = s, speed, true
		}
	}
	return pa, name, ok
}

// strongestShutOff returns the greatest of the shut-off pressures of a pump's speeds, Pa.
func strongestShutOff(c *graph.Circuit, pump *graph.Part) (pa float64, ok bool) {
	for i := range pump.SpeedNames() {
		if s, known := shutOffPa(c, pump, i); known {
			pa, ok = max(pa, s), true
		}
	}
	return pa, ok
}
