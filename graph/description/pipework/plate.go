package pipework

import (
	"math"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
)

// roundedUp is by how much the watts on a plate may lie over its volts times its amps, which are rounded.
const roundedUp = 1.1

// plateWatts works out what a pump draws at a speed whose plate says amps and volts and no watts. It finds one
// without the other, and watts that are more than the two can carry.
func plateWatts(r *field.Reader, p *graph.Part) {
	const write = `write both as on its plate: amps = "8.2 A", volts = "230 V"`
	_, amps := p.KeyPos["amps"]
	_, volts := p.KeyPos["volts"]
	for i := range p.Pump.Speeds {
		s := &p.Pump.Speeds[i]
		switch {
		case s.PlateA <= 0 && s.PlateV <= 0 || s.PlateA <= 0 && amps || s.PlateV <= 0 && volts: // refused where it stands
		case s.PlateV <= 0:
			r.Add(s.Pos, write, "the amps of %s say nothing of its power without the volts they are at", located.Said(p.ID))
		case s.PlateA <= 0:
			r.Add(s.Pos, write, "the volts of %s say nothing of its power without its amps", located.Said(p.ID))
		case s.PowerW <= 0:
			s.PowerW, s.ByPlate = catalog.DrawsAt(s.PlateV, s.PlateA, p.Pump.Electric.PowerFactor.Or(0), p.Pump.Electric.Phases), true
		default:
			if most := catalog.DrawsAt(s.PlateV, s.PlateA, 1, p.Pump.Electric.Phases); s.PowerW > roundedUp*most {
				r.Add(s.Pos, "one of the three is of another pump, of another speed, or mistyped; of three phases write phases = 3",
					"%s is said to draw %s, and its amps at its volts are %s at the most", located.Said(p.ID),
					quantity.Power.Of(s.PowerW).In(quantity.MetricSystem), quantity.Power.Of(math.Round(most)).In(quantity.MetricSystem))
			}
		}
	}
}
