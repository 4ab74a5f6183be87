package pipework

import (
	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
)

// powerAgrees finds a curve that gives more water power than the watts of its speed allow, or next to
// none of them (see catalog.LabelDisagrees).
func powerAgrees(r *field.Reader, p *graph.Part) {
	if p.Pump.TypeSaid {
		return
	}
	speeds := make([]catalog.Labelled, len(p.Pump.Speeds))
	for i, s := range p.Pump.Speeds {
		speeds[i].LabelW = s.PowerW
		for _, c := range s.Curve {
			speeds[i].Curve = append(speeds[i].Curve, [2]float64{c.Flow, c.Head.Pascals(r.Metre)})
		}
	}
	i, says := catalog.LabelDisagrees(speeds)
	if i < 0 {
		return
	}
	s := &p.Pump.Speeds[i]
	r.Add(s.Pos, catalog.LabelHint,
		"the curve of %s at %s comes to %s", located.Said(p.ID), located.Said(s.Name), says)
}

// mostRise is how many times the head at one flow that at a larger one may be: the curves of some pumps droop
// towards no flow, never by half. Common practice, no source.
const mostRise = 2

// rises finds a curve whose head falls and then rises again, or rises more than a drooping one does: one of
// its points is mistyped, or in another unit.
func rises(r *field.Reader, v located.Value, curve []graph.CurvePoint) {
	fell := false
	for i := 1; i < len(curve); i++ {
		a, b := curve[i-1].Head.Pascals(r.Metre), curve[i].Head.Pascals(r.Metre)
		if fell && b > a {
			r.Fail(v, "one of its points is mistyped, or has another unit than the others", "the heads of %s fall, and then rise again at point %d: no pump's do", located.Said(v.Key), i+1)
			return
		}
		if b > mostRise*a {
			r.Fail(v, "one of its points is mistyped, or has another unit than the others", "the heads of %s rise from point %d to point %d by more than any pump's do", located.Said(v.Key), i, i+1)
			return
		}
		fell = fell || b < a
	}
}

// riseAgrees finds a unit that would warm its rated flow beyond all measure: the flows or the outputs are in another unit. It reports whether there is none.
func riseAgrees(r *field.Reader, v located.Value, u *graph.UnitData) bool {
	output := 0.0
	for _, t := range u.Ratings {
		output = max(output, t.OutputW)
	}
	flow, key := u.Rated, "rated"
	if flow == 0 {
		flow, key = u.Most, "most"
	}
	says := catalog.RiseDisagrees(key, flow, output)
	if says == "" {
		return true
	}
	f, _ := v.In("flow")
	if c, ok := f.In(key); ok {
		r.Fail(c, catalog.RiseHint, "%s", says)
	}
	return false
}

// flowsAgree finds flows of a unit that lie further apart than any sheet has them.
func flowsAgree(r *field.Reader, flow located.Value, u *graph.UnitData) {
	output := 0.0
	for _, t := range u.Ratings {
		output = max(output, t.OutputW)
	}
	key, says := catalog.FlowsDisagree(u.Least, u.Rated, u.Most, output)
	if c, ok := flow.In(key); ok && says != "" {
		r.Fail(c, catalog.FlowsHint, "%s", says)
	}
}

// givesMore finds ratings by which a unit gives no more heat than it draws, or more than it can between its water and
// its air, and reports whether there are none.
func givesMore(r *field.Reader, v located.Value, t graph.Rating) bool {
	says := catalog.RatingDisagrees(catalog.RatingRow{AirC: t.AirC, WaterC: t.WaterC, OutputW: t.OutputW, InputW: t.Input()})
	c, ok := v.In("output")
	if says == "" || !ok || !reads(v, "air", field.RatedAir) || !reads(v, "water", field.RatedWater) {
		return true
	}
	r.Fail(c, catalog.RatingHint, "%s", says)
	return false
}

// reads reports whether a key says what can be read: of a blank, or of what can't, that is told.
func reads(v located.Value, key string, l field.Limit) bool {
	c, _ := v.In(key)
	text, _ := c.V.(string)
	return l.Parses(text)
}

// colderGivesLess finds ratings by which a unit gives far more heat in colder air, and reports whether there
// are none.
func colderGivesLess(r *field.Reader, items []located.Value, ratings []graph.Rating) bool {
	rows := make([]catalog.RatingRow, len(ratings))
	for i, t := range ratings {
		rows[i] = catalog.RatingRow{AirC: t.AirC, WaterC: t.WaterC, OutputW: t.OutputW}
	}
	i, says := catalog.AirDisagrees(rows)
	if i < 0 {
		return true
	}
	c, ok := items[i].In("output")
	if !ok {
		c = items[i]
	}
	r.Fail(c, catalog.AirHint, "%s", says)
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
			r.Fail(c, catalog.LossHint("drop", "highest-pressure"),
				"%s is to cost the water %s at %s and stands %s", located.Said(p.ID), quantity.Pressure.Of(pa), quantity.Flow.Of(point.Flow), quantity.Pressure.Of(p.HighestPressurePa))
		}
		return
	}
}
