package description

import (
	"slices"
	"strings"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/description/located"
	"dryfit/graph/description/meaning"
	"dryfit/graph/description/schema"
)

// kindFields are the keys a kind has beside those of any part.
var kindFields = map[graph.Kind][]field[graph.Part]{
	graph.Tub:            {userPortsField()},
	graph.Manifold:       {userPortsField()},
	graph.DiverterValve:  {userPortsField(), waysField()},
	graph.Pump:           pumpFields,
	graph.Filter:         filterFields,
	graph.JetGroup:       jetFields,
	graph.ElementHeater:  elementFields,
	graph.HeatPump:       unitFields,
	graph.Blower:         blowerFields,
	graph.Tee:            {sizeField("branch-size", func(p *graph.Part) *catalog.Size { return &p.BranchSize })},
	graph.CheckValve:     checkFields,
	graph.BallValve:      valveFields,
	graph.GateValve:      valveFields,
	graph.ButterflyValve: valveFields,
}

var filterFields = []field[graph.Part]{
	wordField("media", []string{"cartridge", "sand"}, func(p *graph.Part) *string { return &p.Filter.Media }),
	numberField("dirty-factor", 1, mostDirty, func(p *graph.Part) *float64 { return &p.Filter.DirtyFactor }, nil),
}

var jetFields = []field[graph.Part]{
	neededOr(countField("count", 1, mostJets, func(p *graph.Part) *int { return &p.Jets.Count }), "loss", `how many jets, such as count = 14`),
	qtyField("bore", boreWidth, func(p *graph.Part) *float64 { return &p.Jets.BoreMM }),
	numberField("k", 0, mostK, func(p *graph.Part) *float64 { return &p.Jets.K }, func(p *graph.Part) *bool { return &p.Jets.HasK }),
	{
		key: "rated",
		shape: func() schema.Shape {
			at := func(key string) schema.Shape { return describe(schema.Quantity(), meaning.Of("rated", key), nil) }
			return schema.Table(schema.Shape{{Name: "flow", Says: at("flow")}, {Name: "drop", Says: at("drop")}}, []string{"flow", "drop"})
		},
		read: func(r *reader, v located.Value, into *graph.Part) {
			const write = `what one jet takes: { flow = "38 l/min", drop = "80 kPa" }`
			if r.Blank(v, write) {
				return
			}
			if _, ok := v.V.(map[string]any); !ok {
				r.WrongType(v, "a table", write)
				return
			}
			for _, k := range v.Keys() {
				if c, _ := v.In(k); k != "flow" && k != "drop" {
					r.unknownKey(c, "the rating of a jet", []string{"flow", "drop"})
				}
			}
			if p, ok := readLossPoint(r, v, "the rating of a jet"); ok {
				into.Jets.Rated = &p
			}
		},
		write: func(from *graph.Part) string {
			if from.Jets.Rated == nil {
				return ""
			}
			return pointText(from.Jets.Rated)
		},
	},
}

// electricKeys are what a motor or heater draws beside its power.
func electricKeys(at func(*graph.Part) *graph.Electric) []field[graph.Part] {
	return []field[graph.Part]{
		numberAmount("power-factor", 0, 1, func(p *graph.Part) *graph.Amount { return &at(p).PowerFactor }),
		amountField("starting", startingCurrent, func(p *graph.Part) *graph.Amount { return &at(p).StartingA }),
	}
}

var blowerFields = slices.Concat([]field[graph.Part]{
	amountField("power", heatPower, func(p *graph.Part) *graph.Amount { return &p.Blower.PowerW }),
	amountField("air", airFlow, func(p *graph.Part) *graph.Amount { return &p.Blower.AirFlow }),
}, electricKeys(func(p *graph.Part) *graph.Electric { return &p.Blower.Electric }))

var elementFields = slices.Concat([]field[graph.Part]{
	qtyField("power", electricPower, func(p *graph.Part) *float64 { return &p.Element.PowerW }),
	boolField("disconnected", func(p *graph.Part) *bool { return &p.Element.Disconnected }),
	wordField("interlock", graph.Interlocks(), func(p *graph.Part) *string { return &p.Element.Interlock }),
	qtySet("set-point", waterWarmth, func(p *graph.Part) *float64 { return &p.Element.SetPointC }, func(p *graph.Part) *bool { return &p.Element.SetPointSet }),
}, electricKeys(func(p *graph.Part) *graph.Electric { return &p.Element.Electric }))

var checkFields = []field[graph.Part]{
	wordField("style", []string{"spring", "swing"}, func(p *graph.Part) *string { return &p.Check.Style }),
	qtySet("cracking", cracking, func(p *graph.Part) *float64 { return &p.Check.CrackingPa }, func(p *graph.Part) *bool { return &p.Check.CrackingSet }),
}

var valveFields = []field[graph.Part]{
	openingField("position", func(p *graph.Part) *graph.Opening { return &p.Valve.Position }, func(p *graph.Part) *bool { return &p.Valve.PositionSet }),
	qtyField("kv", valveKv, func(p *graph.Part) *float64 { return &p.Valve.Kv }),
}

// waysField says how far the outlets of a diverter are open.
func waysField() field[graph.Part] {
	return field[graph.Part]{
		key:   "ways",
		shape: func() schema.Shape { return schema.Map(openingShape()) },
		read: func(r *reader, v located.Value, into *graph.Part) {
			const write = `how far its outlets are open: { jets = "open", footwell = "30 %" }`
			if _, ok := v.V.(map[string]any); !ok {
				r.WrongType(v, "a table", write)
				return
			}
			for _, name := range v.Keys() {
				c, _ := v.In(name)
				if into.Port(name) == nil {
					r.Add(r.KeyPos(c), located.Near(name, portNames(into)), "the diverter has no port %s", located.Said(name))
					continue
				}
				if o, ok := r.opening(c); ok {
					into.Valve.Ways = append(into.Valve.Ways, graph.DiverterWay{Port: name, Open: o})
				}
			}
		},
		write: func(from *graph.Part) string {
			var out []string
			for _, w := range from.Valve.Ways {
				out = append(out, key(w.Port)+" = "+openingText(w.Open))
			}
			if len(out) == 0 {
				return ""
			}
			return "{ " + strings.Join(out, ", ") + " }"
		},
	}
}

// clearanceFields are the room a unit's sheet asks for.
var clearanceFields = []field[graph.Clearances]{
	amountField("behind", clearance, func(c *graph.Clearances) *graph.Amount { return &c.Behind }),
	amountField("fan", clearance, func(c *graph.Clearances) *graph.Amount { return &c.Fan }),
	amountField("service", clearance, func(c *graph.Clearances) *graph.Amount { return &c.Service }),
}

// unitFlowFields are the flows a heat pump asks for.
var unitFlowFields = []field[graph.UnitData]{
	qtyField("least", flow, func(u *graph.UnitData) *float64 { return &u.Least }),
	qtyField("rated", flow, func(u *graph.UnitData) *float64 { return &u.Rated }),
	qtyField("most", flow, func(u *graph.UnitData) *float64 { return &u.Most }),
}

// electricFields are the label of a heat pump.
var electricFields = []field[graph.UnitData]{
	qtyField("voltage", voltage, func(u *graph.UnitData) *float64 { return &u.VoltageV }),
	qtyField("full-load", current, func(u *graph.UnitData) *float64 { return &u.FullLoadA }),
}

// ratingFields are one line of a heat pump's performance table.
var ratingFields = slices.Concat([]field[graph.Rating]{
	needed(always("air", ratedAir, func(t *graph.Rating) *float64 { return &t.AirC }), `air = "15 °C"`),
	needed(always("water", ratedWater, func(t *graph.Rating) *float64 { return &t.WaterC }), `water = "38 °C"`),
	needed(qtyField("output", electricPower, func(t *graph.Rating) *float64 { return &t.OutputW }), `output = "11.8 kW"`),
	qtyField("input", electricPower, func(t *graph.Rating) *float64 { return &t.InputW }),
	numberField("cop", 0.1, mostCOP, func(t *graph.Rating) *float64 { return &t.COP }, nil),
}, ratingNotes(func(t *graph.Rating) *graph.RatingNotes { return &t.RatingNotes }))

// ratingNotes are the circumstances of a rating, in its own line or of all of them.
func ratingNotes[T any](at func(*T) *graph.RatingNotes) []field[T] {
	return []field[T]{
		amountField("humidity", share, func(t *T) *graph.Amount { return &at(t).Humidity }),
		maybeField("defrost", func(t *T) **bool { return &at(t).Defrost }),
		wordField("water-is", []string{"entering", "leaving"}, func(t *T) *string { return &at(t).WaterIs }),
	}
}

// always is a quantity that is written even where it is zero.
func always[T any](name string, l limit, at func(*T) *float64) field[T] {
	f := qtyField(name, l, at)
	f.write = func(from *T) string { return exactIn(*at(from), l) }
	return f
}

var unitFields = slices.Concat([]field[graph.Part]{
	sizeField("ports-size", func(p *graph.Part) *catalog.Size { return &p.Unit.PortsSize }),
	tableField("flow", "the flow of the unit", unitFlowFields, func(p *graph.Part) *graph.UnitData { return p.Unit }),
	{
		key:   "ratings",
		shape: func() schema.Shape { return schema.List(tableShape(ratingFields, "rating"), 0) },
		read: func(r *reader, v located.Value, into *graph.Part) {
			items, ok := v.Items()
			if !ok {
				const write = `a list: [ { air = "15 °C", water = "38 °C", output = "11.8 kW", input = "2.9 kW" } ]`
				if !r.Blank(v, write) {
					r.WrongType(v, "a list of tables", write)
				}
				return
			}
			for _, item := range items {
				var t graph.Rating
				readTable(r, item, "a rating", ratingFields, &t)
				if c, _ := item.In("cop"); t.COP > 0 && t.InputW > 0 {
					r.Add(r.KeyPos(c), "keep one of the two", "a rating has an input and a cop, which follows from it")
				}
				into.Unit.Ratings = append(into.Unit.Ratings, t)
			}
		},
		write: func(from *graph.Part) string {
			var out []string
			for i := range from.Unit.Ratings {
				out = append(out, inline(ratingFields, &from.Unit.Ratings[i]))
			}
			return list(out)
		},
	},
	tableField("electric", "the label of the unit", electricFields, func(p *graph.Part) *graph.UnitData { return p.Unit }),
	qtySet("set-point", waterWarmth, func(p *graph.Part) *float64 { return &p.Unit.SetPointC }, func(p *graph.Part) *bool { return &p.Unit.SetPointSet }),
	qtySet("least-air", ratedAir, func(p *graph.Part) *float64 { return &p.Unit.LeastAirC }, func(p *graph.Part) *bool { return &p.Unit.LeastAirSet }),
	qtySet("most-water", ratedWater, func(p *graph.Part) *float64 { return &p.Unit.MostWaterC }, func(p *graph.Part) *bool { return &p.Unit.MostWaterSet }),
	wordField("called-by", []string{graph.ByOwnThermostat, graph.ByController}, func(p *graph.Part) *string { return &p.Unit.CalledBy }),
	maybeField("stops-at-high-limit", func(p *graph.Part) **bool { return &p.Unit.StopsAtHighLimit }),
	maybeField("drain-plug", func(p *graph.Part) **bool { return &p.Unit.DrainPlug }),
	textField("refrigerant", `as on the unit's plate, such as "R32"`, func(p *graph.Part) *string { return &p.Unit.Refrigerant }),
	wordField("stands-on", graph.StandsOnWords(), func(p *graph.Part) *string { return &p.Unit.StandsOn }),
	maybeField("outside", func(p *graph.Part) **bool { return &p.Unit.Outdoors }),
	qtySet("from-water", fromWater, func(p *graph.Part) *float64 { return &p.Unit.FromWaterMM }, func(p *graph.Part) *bool { return &p.Unit.FromWaterMeasured }),
	wordField("blows", directionWords, func(p *graph.Part) *string { return &p.Unit.Blows }),
	wordField("service-side", directionWords, func(p *graph.Part) *string { return &p.Unit.ServiceSide }),
	tableField("clearances", "the room round the unit", clearanceFields, func(p *graph.Part) *graph.Clearances { return &p.Unit.Clearances }),
	boolField("inverter", func(p *graph.Part) *bool { return &p.Unit.Inverter }),
	amountField("least-output", heatPower, func(p *graph.Part) *graph.Amount { return &p.Unit.LeastOutputW }),
	amountField("standby", standbyPower, func(p *graph.Part) *graph.Amount { return &p.Unit.StandbyW }),
	amountField("start-loss", startEnergy, func(p *graph.Part) *graph.Amount { return &p.Unit.StartLossKWh }),
}, electricKeys(func(p *graph.Part) *graph.Electric { return &p.Unit.Electric }),
	ratingNotes(func(p *graph.Part) *graph.RatingNotes { return &p.Unit.RatingsAt }))

// checkUnit looks at the flows of a unit together.
func checkUnit(r *reader, v located.Value, u *graph.UnitData) {
	f, _ := v.In("flow")
	for _, pair := range []struct {
		low, high string
		a, b      float64
	}{{"least", "rated", u.Least, u.Rated}, {"rated", "most", u.Rated, u.Most}, {"least", "most", u.Least, u.Most}} {
		if pair.a > 0 && pair.b > 0 && pair.a > pair.b {
			c, _ := f.In(pair.low)
			r.Fail(c, "the data sheet gives the least, the rated and the most flow in rising order", "the %s flow of the unit is above its %s flow", pair.low, pair.high)
			return
		}
	}
}

// speedsOf returns the speeds of a pump's catalogue row.
func speedsOf(row catalog.Row) []graph.Speed {
	points := func(curve [][2]float64) []graph.CurvePoint {
		var out []graph.CurvePoint
		for _, p := range curve {
			out = append(out, graph.CurvePoint{Flow: p[0], Head: graph.Drop{Value: p[1], IsHead: true}})
		}
		return out
	}
	var out []graph.Speed
	for _, s := range row.Speeds {
		out = append(out, graph.Speed{Name: s.Name, PowerW: s.PowerW, Ratio: s.Ratio, Curve: points(s.Curve)})
	}
	if len(out) == 0 && len(row.Curve) > 0 {
		out = []graph.Speed{{Name: graph.SpeedOn, Curve: points(row.Curve)}}
	}
	return slices.Clip(out)
}
