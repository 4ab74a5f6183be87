package settle

import (
	"math"

	"dryfit/catalog/quantity"
	"dryfit/catalog/tables"
	"dryfit/graph"
	"dryfit/graph/hydraulic/formula"
	"dryfit/graph/hydraulic/laws"
)

// settleSpeedPowers settles what a pump takes at each of its speeds, W: as described or its row's, by
// its ratio to a speed of which that is known, by its efficiency at its best flow, else as pumps of the
// catalogue take that give the water as much. Density is the water's, kg/m³.
func (s *Stage) settleSpeedPowers(out *Part, density float64) []Value {
	speeds := out.Speeds.V
	powers := make([]Value, len(speeds))
	for i := range speeds {
		powers[i] = out.powerSaid(i)
	}
	base := graph.BaseSpeed(speeds)
	settle := func(i int) {
		of, water := &speeds[i], bestPower(speeds, i, density)
		efficiency := out.EfficiencyAt(of.Name)
		switch {
		case powers[i].Known:
		case efficiency > 0 && water > 0:
			powers[i] = number(water/efficiency, quantity.Power, ofKeys(Key{out.ID, "efficiency"}, Key{out.ID, "curve"}))
		case of.Ratio > 0 && base >= 0 && base != i && powers[base].Known:
			powers[i] = bySlowing(powers[base], of.Ratio, speeds[base].Name)
		default:
			powers[i] = s.powerAlike(water, density)
		}
	}
	if base >= 0 {
		settle(base)
	}
	for i := range speeds {
		settle(i)
	}
	return powers
}

// powerSaid is what the description or the row of a pump says it takes at a speed; not known where
// neither does. The watts of its label are given, whatever its curve is of.
func (p *Part) powerSaid(speed int) Value {
	of := &p.Speeds.V[speed]
	if of.PowerW <= 0 {
		return Value{}
	}
	from := p.Speeds.Origin
	if at := firstPos(p.KeyPos, "power", "amps", "speeds"); at.IsValid() && !of.PowerTaken {
		from = given(at)
	}
	return number(of.PowerW, quantity.Power, from)
}

// bestPower is the most a speed of a pump gives the water, W; 0 where its curve is not known.
func bestPower(speeds []graph.Speed, speed int, density float64) float64 {
	curve, err := laws.SpeedCurve(speeds, speed, density)
	if curve == nil || err != nil {
		return 0
	}
	flow, head := curve.Best()
	return formula.HydraulicPower(density, flow, head)
}

// What a pump takes at a lower speed falls with a power of the speed: with the cube what it gives the
// water (affinity laws), more slowly what motor and seals waste. Nine in ten lie between the square
// and the cube. Common practice, no source; the catalogue's pumps of several speeds have 2.3 to 2.6.
const slowing, slowingLeast, slowingMost = 2.4, 2.0, 3.0

// bySlowing is what a pump takes at a share of the speed, of a name, at which it takes a power.
func bySlowing(of Value, ratio float64, name string) Value {
	v := number(of.V*math.Pow(ratio, slowing), quantity.Power,
		assumed(graph.Say("its power at %s by the speed ratio to the power %.1f; common practice, no source: between square and cube", name, slowing)))
	a, b := math.Pow(ratio, slowingMost-slowing)-1, math.Pow(ratio, slowingLeast-slowing)-1
	v.Low, v.High = min(a, b), max(a, b)
	return v
}

// powerAlike is what a pump takes that gives the water a power at its best: between the two pumps of
// the catalogue at their full speed that give next less and next more, in a straight line of the
// logarithms; beyond all of them with the efficiency of the last. How far it may be off is what pumps
// of one label may give, the other way round.
func (s *Stage) powerAlike(water, density float64) Value {
	type pump struct {
		gives, takes float64
		name         quantity.Text
	}
	var below, above pump
	for r := range s.cat.All() {
		if r.Kind != string(graph.Pump) || r.OwnsCurve() {
			continue
		}
		speeds := graph.SpeedsOf(*r)
		for i := range speeds {
			one := pump{bestPower(speeds, i, density), speeds[i].PowerW, quantity.Text(r.Name)}
			switch {
			case one.gives <= 0 || one.takes <= 0 || speeds[i].Ratio > 0:
			case one.gives <= water && one.gives > below.gives:
				below = one
			case one.gives > water && (above.gives == 0 || one.gives < above.gives):
				above = one
			}
		}
	}
	var v Value
	switch {
	case water <= 0 || below.gives == 0 && above.gives == 0:
		return Value{}
	case below.gives == 0:
		v = number(water*above.takes/above.gives, quantity.Power, assumed("as efficient as "+above.name))
	case above.gives == 0:
		v = number(water*below.takes/below.gives, quantity.Power, assumed("as efficient as "+below.name))
	default:
		share := math.Log(water/below.gives) / math.Log(above.gives/below.gives)
		v = number(below.takes*math.Pow(above.takes/below.takes, share), quantity.Power, assumed("by what it gives, between "+below.name+" and "+above.name))
	}
	class := tables.SpreadPumpLabel
	if v.V < smallPumpW {
		class = tables.SpreadSmallLabel
	}
	gives := spreadOf(class, graph.Assumed)
	v.Low, v.High = 1/(1+gives.High)-1, 1/(1+gives.Low)-1
	return v
}

// PowerAt is what a pump takes at the speed of a name; not known where it has none.
func (p *Part) PowerAt(name string) Value {
	for i := range p.Speeds.V {
		if p.Speeds.V[i].Name == name {
			return p.Powers[i]
		}
	}
	return Value{}
}

// EfficiencyAt is the efficiency, wire to water, by which what a pump takes at a speed follows from
// what it gives the water: that speed's, or of one given by its ratio that of the speed with the
// curve; 0 where its power is said, or neither is.
func (p *Part) EfficiencyAt(name string) float64 {
	base := graph.BaseSpeed(p.Speeds.V)
	for _, s := range p.Speeds.V {
		switch {
		case s.Name != name:
		case s.PowerW > 0:
			return 0
		case s.Efficiency > 0:
			return s.Efficiency
		case len(s.Curve) == 0 && s.Ratio > 0 && base >= 0 && p.Speeds.V[base].PowerW == 0:
			return p.Speeds.V[base].Efficiency
		}
	}
	return 0
}

// LeastPower is the least a pump takes at any of its speeds; not known where no speed's is, and where
// the one that takes least has it neither from the description nor from a row.
func (p *Part) LeastPower() Value {
	least := Value{}
	said := false
	for i, v := range p.Powers {
		if v.Known && (!least.Known || v.V < least.V) {
			least, said = v, p.Speeds.V[i].PowerW > 0
		}
	}
	if !said {
		return Value{}
	}
	return least
}
