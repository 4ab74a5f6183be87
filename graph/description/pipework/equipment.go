package pipework

import (
	"math"
	"slices"
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
	"dryfit/graph/description/schema"
)

// KindFields are the keys a kind has beside those of any part.
var KindFields = map[graph.Kind][]field.Field[graph.Part]{
	graph.Tub:            {userPortsField()},
	graph.Manifold:       {userPortsField()},
	graph.DiverterValve:  {userPortsField(), waysField()},
	graph.Pump:           pumpFields,
	graph.Filter:         filterFields,
	graph.JetGroup:       jetFields,
	graph.ElementHeater:  elementFields,
	graph.HeatPump:       unitFields,
	graph.Blower:         blowerFields,
	graph.Tee:            {field.Size("branch-size", func(p *graph.Part) *catalog.Size { return &p.BranchSize })},
	graph.CheckValve:     checkFields,
	graph.BallValve:      valveFields,
	graph.GateValve:      valveFields,
	graph.ButterflyValve: valveFields,
}

var filterFields = []field.Field[graph.Part]{
	field.Word("media", []string{"cartridge", "sand"}, func(p *graph.Part) *string { return &p.Filter.Media }),
	field.Number("dirty-factor", 1, field.MostDirty, func(p *graph.Part) *float64 { return &p.Filter.DirtyFactor }, nil),
}

var jetFields = []field.Field[graph.Part]{
	field.NeededOr(field.Count("count", 1, field.MostJets, func(p *graph.Part) *int { return &p.Jets.Count }), "loss", `how many jets, such as count = 14`),
	field.Qty("bore", field.JetBore, func(p *graph.Part) *float64 { return &p.Jets.BoreMM }),
	field.Number("k", 0, field.MostK, func(p *graph.Part) *float64 { return &p.Jets.K }, func(p *graph.Part) *bool { return &p.Jets.HasK }),
	{
		Key: "rated",
		Shape: func() schema.Shape {
			at := func(key string) schema.Shape { return field.KeyShape(schema.Quantity(), "rated", key) }
			return schema.Table(schema.Shape{{Name: "flow", Says: at("flow")}, {Name: "drop", Says: at("drop")}}, []string{"flow", "drop"})
		},
		Read: func(r *field.Reader, v located.Value, into *graph.Part) {
			const write = `what one jet takes: { flow = "38 l/min", drop = "80 kPa" }`
			if r.Blank(v, write) {
				return
			}
			if _, ok := v.V.(map[string]any); !ok {
				r.WrongType(v, "a table", write)
				return
			}
			keys := []string{"flow", "drop"}
			r.Mistyped(v, "the rating of a jet", keys, func(key string) bool { return slices.Contains(keys, key) })
			if p, ok := readLossPoint(r, v, "the rating of a jet"); ok {
				into.Jets.Rated = &p
				if c, _ := v.In("drop"); p.Drop.Pascals(r.Metre) <= 0 {
					r.Fail(c, `write what one jet loses at that flow, such as drop = "80 kPa"`, "a jet loses something at its rated flow: its nozzle turns pressure into speed")
				}
			}
		},
		Write: func(from *graph.Part) string {
			if from.Jets.Rated == nil {
				return ""
			}
			return pointText(from.Jets.Rated)
		},
	},
}

// electricKeys are what a motor or heater draws beside its power.
func electricKeys(at func(*graph.Part) *graph.Electric) []field.Field[graph.Part] {
	return []field.Field[graph.Part]{
		field.NumberAmount("power-factor", field.LeastFactor, 1, func(p *graph.Part) *graph.Amount { return &at(p).PowerFactor }),
		field.Amount("starting", field.StartingCurrent, func(p *graph.Part) *graph.Amount { return &at(p).StartingA }),
	}
}

// loadKeys are electricKeys of what has no plate of its own, with how many phases it stands on.
func loadKeys(at func(*graph.Part) *graph.Electric) []field.Field[graph.Part] {
	return append(electricKeys(at), field.Phases("phases", func(p *graph.Part) *int { return &at(p).Phases }))
}

var blowerFields = slices.Concat([]field.Field[graph.Part]{
	field.Amount("power", field.HeatPower, func(p *graph.Part) *graph.Amount { return &p.Blower.PowerW }),
	field.Amount("air", field.AirFlow, func(p *graph.Part) *graph.Amount { return &p.Blower.AirFlow }),
}, loadKeys(func(p *graph.Part) *graph.Electric { return &p.Blower.Electric }))

var elementFields = slices.Concat([]field.Field[graph.Part]{
	field.Qty("power", field.ElementPower, func(p *graph.Part) *float64 { return &p.Element.PowerW }),
	field.Bool("disconnected", func(p *graph.Part) *bool { return &p.Element.Disconnected }),
	field.Word("interlock", graph.Interlocks(), func(p *graph.Part) *string { return &p.Element.Interlock }),
	field.QtySet("set-point", field.WaterWarmth, func(p *graph.Part) *float64 { return &p.Element.SetPointC }, func(p *graph.Part) *bool { return &p.Element.SetPointSet }),
}, loadKeys(func(p *graph.Part) *graph.Electric { return &p.Element.Electric }))

var checkFields = []field.Field[graph.Part]{
	field.Word("style", []string{"spring", "swing"}, func(p *graph.Part) *string { return &p.Check.Style }),
	field.QtySet("cracking", field.Cracking, func(p *graph.Part) *float64 { return &p.Check.CrackingPa }, func(p *graph.Part) *bool { return &p.Check.CrackingSet }),
}

var valveFields = []field.Field[graph.Part]{
	field.Opening("position", func(p *graph.Part) *graph.Opening { return &p.Valve.Position }, func(p *graph.Part) *bool { return &p.Valve.PositionSet }),
	field.Qty("kv", field.ValveKv, func(p *graph.Part) *float64 { return &p.Valve.Kv }),
}

// waysField says how far the outlets of a diverter are open.
func waysField() field.Field[graph.Part] {
	return field.Field[graph.Part]{
		Key:   "ways",
		Shape: func() schema.Shape { return schema.Map(field.OpeningShape()) },
		Read: func(r *field.Reader, v located.Value, into *graph.Part) {
			const write = `how far its outlets are open: { jets = "open", footwell = "30 %" }`
			if _, ok := v.V.(map[string]any); !ok {
				r.WrongType(v, "a table", write)
				return
			}
			for _, name := range v.Keys() {
				c, _ := v.In(name)
				if into.Port(name) == nil {
					NoPort(r, into, name, r.KeyPos(c), portNames(into))
					continue
				}
				if o, ok := r.Opening(c); ok {
					into.Valve.Ways = append(into.Valve.Ways, graph.DiverterWay{Port: name, Open: o})
				}
			}
		},
		Write: func(from *graph.Part) string {
			var out []string
			for _, w := range from.Valve.Ways {
				out = append(out, field.Key(w.Port)+" = "+field.OpeningText(w.Open))
			}
			if len(out) == 0 {
				return ""
			}
			return "{ " + strings.Join(out, ", ") + " }"
		},
	}
}

// clearanceFields are the room a unit's sheet asks for.
var clearanceFields = []field.Field[graph.Clearances]{
	field.Amount("behind", field.Clearance, func(c *graph.Clearances) *graph.Amount { return &c.Behind }),
	field.Amount("fan", field.Clearance, func(c *graph.Clearances) *graph.Amount { return &c.Fan }),
	field.Amount("service", field.Clearance, func(c *graph.Clearances) *graph.Amount { return &c.Service }),
}

// UnitFlowFields are the flows a heat pump asks for.
var UnitFlowFields = []field.Field[graph.UnitData]{
	field.Qty("least", field.Flow, func(u *graph.UnitData) *float64 { return &u.Least }),
	field.Qty("rated", field.Flow, func(u *graph.UnitData) *float64 { return &u.Rated }),
	field.Qty("most", field.Flow, func(u *graph.UnitData) *float64 { return &u.Most }),
}

// ElectricFields are the label of a heat pump.
var ElectricFields = []field.Field[graph.UnitData]{
	field.Qty("voltage", field.Voltage, func(u *graph.UnitData) *float64 { return &u.VoltageV }),
	field.Phases("phases", func(u *graph.UnitData) *int { return &u.Electric.Phases }),
	field.Qty("full-load", field.Current, func(u *graph.UnitData) *float64 { return &u.FullLoadA }),
	field.Qty("fuse", field.Current, func(u *graph.UnitData) *float64 { return &u.FuseA }),
}

// RatingFields are one line of a heat pump's performance table.
var RatingFields = slices.Concat([]field.Field[graph.Rating]{
	field.Needed(always("air", field.RatedAir, func(t *graph.Rating) *float64 { return &t.AirC }), `air = "15 °C"`),
	field.Needed(always("water", field.RatedWater, func(t *graph.Rating) *float64 { return &t.WaterC }), `water = "38 °C"`),
	field.Needed(field.Qty("output", field.ElectricPower, func(t *graph.Rating) *float64 { return &t.OutputW }), `output = "11.8 kW"`),
	field.Qty("input", field.ElectricPower, func(t *graph.Rating) *float64 { return &t.InputW }),
	field.Number("cop", 0.1, catalog.MostCOP, func(t *graph.Rating) *float64 { return &t.COP }, nil),
}, ratingNotes(func(t *graph.Rating) *graph.RatingNotes { return &t.RatingNotes }))

// ratingNotes are the circumstances of a rating, in its own line or of all of them.
func ratingNotes[T any](at func(*T) *graph.RatingNotes) []field.Field[T] {
	return []field.Field[T]{
		field.Amount("humidity", field.Share, func(t *T) *graph.Amount { return &at(t).Humidity }),
		field.Maybe("defrost", func(t *T) **bool { return &at(t).Defrost }),
		field.Word("water-is", []string{"entering", "leaving"}, func(t *T) *string { return &at(t).WaterIs }),
	}
}

// always is a quantity that is written even where it is zero.
func always[T any](name string, l field.Limit, at func(*T) *float64) field.Field[T] {
	f := field.Qty(name, l, at)
	f.Write = func(from *T) string { return field.ExactIn(*at(from), l) }
	return f
}

var unitFields = slices.Concat([]field.Field[graph.Part]{
	field.Size("ports-size", func(p *graph.Part) *catalog.Size { return &p.Unit.PortsSize }),
	field.Table("flow", "the flow of the unit", UnitFlowFields, func(p *graph.Part) *graph.UnitData { return p.Unit }),
	{
		Key:   "ratings",
		Shape: func() schema.Shape { return schema.List(field.TableShape(RatingFields, "rating"), 0) },
		Read: func(r *field.Reader, v located.Value, into *graph.Part) {
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
				field.ReadTable(r, item, "a rating", RatingFields, &t)
				if c, _ := item.In("cop"); t.COP > 0 && t.InputW > 0 {
					r.Add(r.KeyPos(c), "keep one of the two", "a rating has an input and a cop, which follows from it")
				}
				into.Unit.Ratings = append(into.Unit.Ratings, t)
			}
		},
		Write: func(from *graph.Part) string {
			var out []string
			for i := range from.Unit.Ratings {
				out = append(out, field.Inline(RatingFields, &from.Unit.Ratings[i]))
			}
			return field.List(out)
		},
	},
	field.Table("electric", "the label of the unit", ElectricFields, func(p *graph.Part) *graph.UnitData { return p.Unit }),
	field.QtySet("set-point", field.WaterWarmth, func(p *graph.Part) *float64 { return &p.Unit.SetPointC }, func(p *graph.Part) *bool { return &p.Unit.SetPointSet }),
	field.QtySet("least-air", field.RatedAir, func(p *graph.Part) *float64 { return &p.Unit.LeastAirC }, func(p *graph.Part) *bool { return &p.Unit.LeastAirSet }),
	field.QtySet("most-water", field.RatedWater, func(p *graph.Part) *float64 { return &p.Unit.MostWaterC }, func(p *graph.Part) *bool { return &p.Unit.MostWaterSet }),
	field.Word("called-by", []string{graph.ByOwnThermostat, graph.ByController}, func(p *graph.Part) *string { return &p.Unit.CalledBy }),
	field.Maybe("stops-at-high-limit", func(p *graph.Part) **bool { return &p.Unit.StopsAtHighLimit }),
	field.Maybe("drain-plug", func(p *graph.Part) **bool { return &p.Unit.DrainPlug }),
	field.Text("refrigerant", `as on the unit's plate, such as "R32"`, func(p *graph.Part) *string { return &p.Unit.Refrigerant }),
	field.Word("stands-on", graph.StandsOnWords(), func(p *graph.Part) *string { return &p.Unit.StandsOn }),
	field.Maybe("outside", func(p *graph.Part) **bool { return &p.Unit.Outdoors }),
	field.QtySet("from-water", field.FromWater, func(p *graph.Part) *float64 { return &p.Unit.FromWaterMM }, func(p *graph.Part) *bool { return &p.Unit.FromWaterMeasured }),
	field.Word("blows", field.DirectionWords, func(p *graph.Part) *string { return &p.Unit.Blows }),
	field.Word("service-side", field.DirectionWords, func(p *graph.Part) *string { return &p.Unit.ServiceSide }),
	field.Table("clearances", "the room round the unit", clearanceFields, func(p *graph.Part) *graph.Clearances { return &p.Unit.Clearances }),
	field.Bool("inverter", func(p *graph.Part) *bool { return &p.Unit.Inverter }),
	field.Amount("least-output", field.HeatPower, func(p *graph.Part) *graph.Amount { return &p.Unit.LeastOutputW }),
	field.Amount("standby", field.StandbyPower, func(p *graph.Part) *graph.Amount { return &p.Unit.StandbyW }),
	field.Amount("start-loss", field.StartEnergy, func(p *graph.Part) *graph.Amount { return &p.Unit.StartLossKWh }),
}, electricKeys(func(p *graph.Part) *graph.Electric { return &p.Unit.Electric }),
	ratingNotes(func(p *graph.Part) *graph.RatingNotes { return &p.Unit.RatingsAt }))

// checkUnit looks at the flows of a unit together.
func checkUnit(r *field.Reader, v located.Value, u *graph.UnitData) {
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
	sensible := true
	table, _ := v.In("ratings")
	if items, ok := table.Items(); ok && len(items) == len(u.Ratings) {
		for i, t := range u.Ratings {
			sensible = givesMore(r, items[i], t) && sensible
		}
		sensible = sensible && colderGivesLess(r, items, u.Ratings)
	}
	if sensible { // else what is held against them follows from that
		if riseAgrees(r, v, u) {
			flowsAgree(r, f, u)
		}
		checkPlate(r, v, u)
	}
}

// A plate is contradicted by the ratings beyond these shares of the greatest input. Full load is a
// little more than any rated input, two to five times that of an inverter rated at part load; a
// slip of the decimal point is ten times. Common practice, no source.
const (
	mostOfInput  = 9
	leastOfInput = 0.6
)

// checkPlate holds the plate of a unit, its current at its voltage, against what its ratings draw.
func checkPlate(r *field.Reader, v located.Value, u *graph.UnitData) {
	input := 0.0
	for _, t := range u.Ratings {
		input = max(input, t.Input())
	}
	va := u.VoltageV * u.FullLoadA
	if input == 0 || va == 0 || va <= mostOfInput*input && va*math.Sqrt(3) >= leastOfInput*input { // of three phases it is the root of 3 of one
		return
	}
	e, _ := v.In("electric")
	c, ok := e.In("full-load")
	if !ok {
		return
	}
	r.Fail(c, "read its plate and its table again: the one or the other has a slip of the decimal point, or is of another unit",
		"%s at %s come to %s, and its ratings draw %s at most", quantity.Current.Of(u.FullLoadA), quantity.Voltage.Of(u.VoltageV), quantity.Power.Of(va), quantity.Power.Of(input))
}
