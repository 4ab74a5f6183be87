package graph

import (
	"slices"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
)

// SpeedsOf returns the speeds of a pump's catalogue row; one called SpeedOn where the row
// has a single curve.
func SpeedsOf(row catalog.Row) []Speed {
	points := func(curve [][2]float64) []CurvePoint {
		var out []CurvePoint
		for _, p := range curve {
			out = append(out, CurvePoint{Flow: p[0], Head: Drop{Value: p[1], IsHead: true}})
		}
		return out
	}
	var out []Speed
	for _, s := range row.Speeds {
		out = append(out, Speed{Name: s.Name, PowerW: s.PowerW, Ratio: s.Ratio, Curve: points(s.Curve)})
	}
	if len(out) == 0 && len(row.Curve) > 0 {
		out = []Speed{{Name: SpeedOn, PowerW: row.PowerW, Curve: points(row.Curve)}}
	}
	return slices.Clip(out)
}

// BaseSpeed returns which of the speeds the ratios of the others are of: the first with a curve; -1 where
// none has one.
func BaseSpeed(speeds []Speed) int {
	return slices.IndexFunc(speeds, func(s Speed) bool { return len(s.Curve) > 0 })
}

// LabelWords is what the label of a pump says of its power, in a sentence.
func (p *PumpData) LabelWords() quantity.Text {
	for i := range p.Speeds {
		s := &p.Speeds[i]
		if s.PowerW != p.LabelW {
			continue
		}
		if s.ByPlate {
			return Say("%s at %s on its label, of which it draws %s", quantity.Current.Of(s.PlateA), quantity.Voltage.Of(s.PlateV), quantity.Power.Of(s.PowerW))
		}
		if s.ShaftW > 0 {
			return Say("%s at the shaft on its label, for which it draws %s", quantity.Power.Of(s.ShaftW), quantity.Power.Of(s.PowerW))
		}
	}
	return Say("%s on its label", quantity.Power.Of(p.LabelW))
}

// ByAmps reports whether the watts a pump is known by were made of the volts and amps on its plate, and nobody said
// its power factor.
func (p *PumpData) ByAmps() bool {
	return !p.Electric.PowerFactor.Set && slices.ContainsFunc(p.Speeds, func(s Speed) bool { return s.ByPlate && s.PowerW == p.LabelW })
}

// SpeedWords is a speed in a sentence: "low speed", "speed 2".
func SpeedWords(speed string) string {
	if speed != "" && speed[0] >= '0' && speed[0] <= '9' {
		return "speed " + speed
	}
	return speed + " speed"
}
