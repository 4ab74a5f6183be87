package rule

import (
	"dryfit/graph"
	"dryfit/graph/settle"
)

// pascalsPerMetre turns a head into a pressure where pressures are compared with ratings:
// the conventional 9806.65 Pa for a metre of water, 1 % above that of warm water. Source:
// ISO 80000-4, conventional millimetre of water (from memory).
const pascalsPerMetre = 9806.65

// shutOffPa returns the greatest pressure of one speed of a pump, Pa: the highest point of
// its curve. A speed given by ratio follows the affinity law, the square of the ratio. It
// is false where no curve is known.
func shutOffPa(speeds []graph.Speed, speed int) (float64, bool) {
	if speed >= len(speeds) {
		return 0, false
	}
	s := speeds[speed]
	curve, factor := s.Curve, 1.0
	if len(curve) == 0 {
		factor = s.Ratio * s.Ratio
		for _, other := range speeds {
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

// weakestShutOff returns the least of the shut-off pressures of a pump's speeds, Pa, and
// the speed's name.
func (v *view) weakestShutOff(pump *graph.Part) (pa float64, name string, ok bool) {
	speeds := v.part(pump).Speeds.V
	for i := range speeds {
		if s, known := shutOffPa(speeds, i); known && (!ok || s < pa) {
			pa, name, ok = s, speeds[i].Name, true
		}
	}
	return pa, name, ok
}

// SlowAndFast returns the names of the speeds of a pump with the least and the greatest
// shut-off pressure; the first and the last where no curve is known, "" where it has one.
func SlowAndFast(pump *settle.Part) (slow, fast string) {
	speeds := pump.Speeds.V
	if len(speeds) < 2 {
		return "", ""
	}
	slow, fast = speeds[0].Name, speeds[len(speeds)-1].Name
	least, most, first := 0.0, 0.0, true
	for i := range speeds {
		pa, known := shutOffPa(speeds, i)
		if !known {
			continue
		}
		if first || pa < least {
			slow, least = speeds[i].Name, pa
		}
		if first || pa > most {
			fast, most = speeds[i].Name, pa
		}
		first = false
	}
	return slow, fast
}

// strongestShutOff returns the greatest of the shut-off pressures of a pump's speeds, Pa.
func strongestShutOff(pump *settle.Part) (pa float64, ok bool) {
	for i := range pump.Speeds.V {
		if s, known := shutOffPa(pump.Speeds.V, i); known {
			pa, ok = max(pa, s), true
		}
	}
	return pa, ok
}
