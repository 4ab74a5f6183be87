package laws

import (
	"dryfit/graph"
	"dryfit/graph/hydraulic/formula"
)

// ShutOff is what a pump gives at no flow at one of its speeds.
type ShutOff struct {
	HeadM     float64 // m of the water pumped
	GreatestM float64 // m, the highest point of its curve: above HeadM where the curve rises
	// Extrapolated tells that the curve starts above no flow: HeadM is then that of the
	// parabola on from its first point.
	Extrapolated bool
}

// ShutOffAt returns the shut-off head of a speed (index) of a pump in water of a density in
// kg/m³, as its flow is worked out with. A speed given by its ratio follows the affinity law,
// the square of the ratio. It is false where no curve is known.
func ShutOffAt(speeds []graph.Speed, speed int, density float64) (ShutOff, bool) {
	c, err := SpeedCurve(speeds, speed, density)
	if c == nil || err != nil {
		return ShutOff{}, false
	}
	return ShutOff{HeadM: c.ShutOff(), GreatestM: c.Greatest(), Extrapolated: c.First() > 0}, c.ShutOff() > 0
}

// SpeedCurve returns the curve of a speed: its own, or that of the first speed that has one by
// the ratio of the speeds. It is nil where neither is known.
func SpeedCurve(speeds []graph.Speed, at int, density float64) (*PumpCurve, error) {
	if at < 0 || at >= len(speeds) {
		return nil, nil
	}
	from, ratio := speeds[at].Curve, 1.0
	if len(from) == 0 {
		if ratio = speeds[at].Ratio; ratio <= 0 {
			return nil, nil
		}
		base := graph.BaseSpeed(speeds)
		if base < 0 {
			return nil, nil
		}
		from = speeds[base].Curve
	}
	q, h := make([]float64, len(from)), make([]float64, len(from))
	for i, c := range from {
		q[i], h[i], _ = formula.Affinity(ratio, c.Flow, c.Head.Head(density), 0)
	}
	return NewPumpCurve(q, h)
}
