package pipework

import (
	"math"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
	"dryfit/graph/hydraulic/formula"
)

// What share of the watts on its label a pump turns into water power (flow times head), at the
// best point of its curve. The best wet ends of tubs reach some 70 % and their motors 85 %; a
// pump of half a kilowatt or more turns a tenth at the least, a small one with a magnet rotor two
// or three in a hundred. The bounds lie outside all of them, so that a wrong unit (kPa for m, l/min
// for m³/h, ft for m) or two speeds mixed up is asked about. Common practice, no source.
const (
	mostOfWatts      = 0.85
	leastOfWatts     = 0.03
	leastOfFewWatts  = 0.01
	fewWatts         = 500 // W
	measuredFarShare = 0.5 // the last head over the first: a curve that ends higher does not show its best point
)

// powerAgrees finds a curve that gives more water power than the watts of its speed allow, or, at the
// speed with the most watts, next to none of them: of a slower one a label may say those of the fastest.
func powerAgrees(r *field.Reader, p *graph.Part) {
	if p.Pump.TypeSaid {
		return
	}
	best := 0.0 // of those with the most watts
	for _, s := range p.Pump.Speeds {
		if s.PowerW == mostWatts(p.Pump.Speeds) {
			best = max(best, waterPower(s.Curve, r.Metre))
		}
	}
	for i := range p.Pump.Speeds {
		s := &p.Pump.Speeds[i]
		if s.PowerW == 0 || len(s.Curve) < 2 {
			continue
		}
		watts, share := waterPower(s.Curve, r.Metre), leastOfWatts
		if s.PowerW < fewWatts {
			share = leastOfFewWatts
		}
		far := s.Curve[len(s.Curve)-1].Head.Pascals(r.Metre) < measuredFarShare*s.Curve[0].Head.Pascals(r.Metre)
		says := "more than any pump makes of them"
		switch {
		case watts > mostOfWatts*s.PowerW:
		case far && s.PowerW == mostWatts(p.Pump.Speeds) && best < share*s.PowerW:
			says = "far less than any pump makes of them"
		default:
			continue
		}
		r.Add(s.Pos, "read its sheet and its label again: is a unit wrong, or are two speeds mixed up? flows are in m3/h, l/min or gpm, heads in m, ft, kPa or psi",
			"the curve of %s at %s comes to %s of water power for %s on its label: %s", located.Said(p.ID), located.Said(s.Name), quantity.Power.Of(math.Round(watts)), quantity.Power.Of(s.PowerW), says)
		return
	}
}

// waterPower is flow times head at the best point of a curve, W; metre is what one of the water
// weighs, Pa.
func waterPower(curve []graph.CurvePoint, metre float64) float64 {
	best := 0.0
	for k := 1; k < len(curve); k++ {
		for t := 0.0; t <= 1; t += 0.25 { // the greatest may lie between two points
			a, b := curve[k-1], curve[k]
			pa, pb := a.Head.Pascals(metre), b.Head.Pascals(metre)
			best = max(best, (a.Flow+t*(b.Flow-a.Flow))*(pa+t*(pb-pa)))
		}
	}
	return best
}

// rises finds a curve whose head falls and then rises again: one of its points is mistyped, or in another unit.
func rises(r *field.Reader, v located.Value, curve []graph.CurvePoint) {
	fell := false
	for i := 1; i < len(curve); i++ {
		a, b := curve[i-1].Head.Pascals(r.Metre), curve[i].Head.Pascals(r.Metre)
		if fell && b > a {
			r.Fail(v, "one of its points is mistyped, or has another unit than the others", "the heads of %s fall, and then rise again at point %d: no pump's do", located.Said(v.Key), i+1)
			return
		}
		fell = fell || b < a
	}
}

// mostRatedRiseK is how much the water may warm in a unit at its rated flow and its greatest output
// before one of the two is asked about, K: units are rated at 2.5 K (AHRI 1160, from memory), those
// on the market at 1.5 to 5. Judgement, no source.
const mostRatedRiseK = 15

// riseAgrees finds a unit that would warm its rated flow beyond all measure: the flows or the outputs are in another unit.
func riseAgrees(r *field.Reader, v located.Value, u *graph.UnitData) {
	output := 0.0
	for _, t := range u.Ratings {
		output = max(output, t.OutputW)
	}
	flow, key := u.Rated, "rated"
	if flow == 0 {
		flow, key = u.Most, "most"
	}
	if output == 0 || flow == 0 {
		return
	}
	rise := output / (flow * formula.SheetDensity * formula.HeatCapacity(formula.SheetC))
	if rise <= mostRatedRiseK {
		return
	}
	f, _ := v.In("flow")
	c, ok := f.In(key)
	if !ok {
		return
	}
	r.Fail(c, "is the unit right? flows are in m3/h, l/min or gpm", "%s of output would warm the %s flow, %s, by %s; units are made for 2 to 5 K",
		quantity.Power.Of(output), key, quantity.Flow.Of(flow), quantity.TemperatureDifference.Of(math.Round(rise)))
}

// givesMore finds ratings by which a unit gives no more heat than it draws, and reports whether there are none.
func givesMore(r *field.Reader, v located.Value, t graph.Rating) bool {
	if t.InputW == 0 || t.OutputW == 0 || t.OutputW > t.InputW && t.OutputW <= field.MostCOP*t.InputW {
		return true
	}
	c, ok := v.In("output")
	if !ok {
		return true
	}
	says := "a heat pump gives more"
	if t.OutputW > t.InputW {
		says = "no heat pump gives so much"
	}
	r.Fail(c, "read its table again: are the two swapped, or one in another unit?", "a rating gives %s for %s: %s", quantity.Power.Of(t.OutputW), quantity.Power.Of(t.InputW), says)
	return false
}

// sizesAgree finds a unit that says one size of its own and another of its ports.
func sizesAgree(r *field.Reader, p *graph.Part) {
	at, said := p.KeyPos["size"]
	if !said || p.Unit.PortsSize.IsZero() || p.Size.IsZero() || p.Size == p.Unit.PortsSize {
		return
	}
	d := r.Add(at, "leave size out: what the pipes have to fit is ports-size", "%s says size %s, and its ports are %s: one of the two is wrong", located.Said(p.ID), p.Size, p.Unit.PortsSize)
	located.Related(d, p.KeyPos["ports-size"], "the ports are here")
}

// dropAgrees holds the drop of a part at a flow against the most that the part stands: what it stands
// is there before the drop.
func dropAgrees(r *field.Reader, v located.Value, p *graph.Part) {
	if p.Loss == nil {
		return
	}
	for _, point := range p.Loss.Points {
		pa := point.Drop.Pascals(r.Metre)
		if p.HighestPressurePa <= 0 || pa <= p.HighestPressurePa {
			continue
		}
		if c, ok := v.In("loss"); ok {
			r.Fail(c, "is the unit right? read both from its sheet again: drop is what it costs the water at that flow, highest-pressure what it stands",
				"%s is to cost the water %s at %s and stands %s", located.Said(p.ID), quantity.Pressure.Of(pa), quantity.Flow.Of(point.Flow), quantity.Pressure.Of(p.HighestPressurePa))
		}
		return
	}
}
