package rule

import (
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/settle"
)

// pascalsPerMetre turns a head into a pressure where pressures are compared with ratings:
// the conventional 9806.65 Pa for a metre of water, 1 % above that of warm water. Source:
// ISO 80000-4, conventional millimetre of water (from memory).
const pascalsPerMetre = 9806.65

// shutOffPa returns the greatest pressure of one speed of a pump, Pa: at no flow, as the flow
// is worked out with, or where its curve rises the highest point. A speed given by ratio
// follows the affinity law, the square of the ratio. It is false where no curve is known.
func shutOffPa(speeds []graph.Speed, speed int) (float64, bool) {
	if speed >= len(speeds) {
		return 0, false
	}
	s := speeds[speed]
	from, factor := s.Curve, 1.0
	if len(from) == 0 {
		factor = s.Ratio * s.Ratio
		for _, other := range speeds {
			if len(other.Curve) > 0 {
				from = other.Curve
				break
			}
		}
	}
	var q, pa []float64
	most := 0.0
	for _, p := range from {
		v := p.Head.Value
		if p.Head.IsHead {
			v *= pascalsPerMetre
		}
		q, pa, most = append(q, p.Flow), append(pa, v), max(most, v)
	}
	if c, err := hydraulic.NewPumpCurve(q, pa); err == nil {
		most = max(most, c.ShutOff())
	}
	return most * factor, most > 0
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
