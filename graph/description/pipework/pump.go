package pipework

import (
	"fmt"
	"slices"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
	"dryfit/graph/description/schema"
)

// SpeedFields are the keys of one speed of a pump; all but the name may stand on a pump
// with one speed itself.
var SpeedFields = []field.Field[graph.Speed]{
	field.Text("name", `the name of the speed, such as "low"`, func(s *graph.Speed) *string { return &s.Name }),
	powerField,
	field.Qty("amps", field.PlateCurrent, func(s *graph.Speed) *float64 { return &s.PlateA }),
	field.Qty("volts", field.PlateVoltage, func(s *graph.Speed) *float64 { return &s.PlateV }),
	field.Number("efficiency", 0.01, 1, func(s *graph.Speed) *float64 { return &s.Efficiency }, nil),
	field.NumberAmount("hours-a-day", 0, 24, func(s *graph.Speed) *graph.Amount { return &s.HoursADay }),
	field.Number("ratio", 0, field.MostRatio, func(s *graph.Speed) *float64 { return &s.Ratio }, nil),
	{
		Key:   "curve",
		Shape: func() schema.Shape { return curveShape(2) },
		Read: func(r *field.Reader, v located.Value, into *graph.Speed) {
			into.Curve = readCurve(r, v, field.CurveFlow, field.PumpHead, 2, true)
			fallsSomewhere(r, v, into.Curve)
		},
		Write: func(from *graph.Speed) string { return curveText(from.Curve) },
	},
}

// powerField is what a pump draws at a speed; of one in horsepower, what it draws to give that at its shaft.
var powerField = field.Field[graph.Speed]{
	Key:   "power",
	Shape: schema.Quantity,
	Like:  field.Quote(field.PumpPower.Example()),
	Read: func(r *field.Reader, v located.Value, into *graph.Speed) {
		q, ok := r.Quantity(v, field.PumpPower)
		if !ok {
			return
		}
		into.PowerW = catalog.Draws(q)
		if q.Unit == catalog.Horsepower {
			into.ShaftW = q.Value
		}
	},
	Write: func(from *graph.Speed) string {
		switch {
		case from.ByPlate:
		case from.ShaftW > 0:
			one, _ := quantity.Parse("1 "+catalog.Horsepower, quantity.Power)
			return field.Quote(quantity.Trim(from.ShaftW/one.Value) + " " + catalog.Horsepower)
		case from.PowerW > 0:
			return field.ExactIn(from.PowerW, field.PumpPower)
		}
		return ""
	},
}

// fallsSomewhere finds a curve whose head rises from its first point to its last: a pump's may rise
// a little at first, but at its greatest flow it has the least head.
func fallsSomewhere(r *field.Reader, v located.Value, curve []graph.CurvePoint) {
	for i := 1; i < len(curve); i++ {
		if curve[i].Head.IsHead != curve[0].Head.IsHead || curve[i].Head.Value <= curve[i-1].Head.Value {
			rises(r, v, curve)
			return
		}
	}
	if len(curve) > 1 {
		r.Fail(v, "a point is a flow and the head at it: the most head stands at no flow, the least at the most flow, such as [[\"0 m3/h\", \"7 m\"], [\"8 m3/h\", \"2 m\"]]",
			"the heads of %s only rise: no pump gives more head the more flows", located.Said(v.Key))
	}
}

var pumpFields = slices.Concat([]field.Field[graph.Part]{
	{
		Key: "speeds",
		Shape: func() schema.Shape {
			speed := field.TableShape(SpeedFields, "speed")
			return schema.Either(schema.List(speed, 0), schema.Map(speed))
		},
		Read: func(r *field.Reader, v located.Value, into *graph.Part) { readSpeeds(r, v, into) },
		Write: func(from *graph.Part) string {
			if from.Pump.TypeSaid {
				return besideRow(from.Pump)
			}
			var out []string
			for i := range from.Pump.Speeds {
				out = append(out, field.Inline(SpeedFields, &from.Pump.Speeds[i]))
			}
			return field.List(out)
		},
	},
	onlySpeed("power"),
	onlySpeed("amps"),
	onlySpeed("volts"),
	onlySpeed("efficiency"),
	onlySpeed("curve"),
	onlySpeed("hours-a-day"),
	field.Bool("always-on", func(p *graph.Part) *bool { return &p.Pump.AlwaysOn }),
	field.Word("runs-for-heat", graph.RunsForHeatWords(), func(p *graph.Part) *string { return &p.Pump.RunsForHeat }),
	{
		Key:   "check",
		Shape: schema.Flag,
		Read: func(r *field.Reader, v located.Value, into *graph.Part) {
			if b, ok := r.Bool(v); ok && b {
				into.Pump.Check = "check"
			}
		},
		Write: func(from *graph.Part) string {
			if from.Pump.Check != "" {
				return "true"
			}
			return ""
		},
	},
	{
		Key:   "npsh",
		Shape: func() schema.Shape { return curveShape(1) },
		Read: func(r *field.Reader, v located.Value, into *graph.Part) {
			into.Pump.NPSH = readCurve(r, v, field.CurveFlow, field.SuctionHead, 1, false)
		},
		Write: func(from *graph.Part) string { return curveText(from.Pump.NPSH) },
	},
}, loadKeys(func(p *graph.Part) *graph.Electric { return &p.Pump.Electric }))

// onlySpeed is a key of the only speed of a pump, written on the pump itself.
func onlySpeed(name string) field.Field[graph.Part] {
	return field.Field[graph.Part]{
		Key: name,
		Shape: func() schema.Shape {
			for _, f := range SpeedFields {
				if f.Key == name {
					return f.Shape()
				}
			}
			return nil
		},
		Read: func(r *field.Reader, v located.Value, into *graph.Part) {
			s := &into.Pump.Speeds
			if len(*s) > 0 && (*s)[0].Name != graph.SpeedOn {
				r.Fail(v, "write it into each of the speeds", "a pump with speeds has no %s of its own", located.Said(name))
				return
			}
			if len(*s) == 0 {
				*s = []graph.Speed{{Name: graph.SpeedOn, Pos: r.KeyPos(v)}}
			}
			for _, f := range SpeedFields {
				if f.Key == name {
					f.Read(r, v, &(*s)[0])
				}
			}
		},
		Write: func(*graph.Part) string { return "" }, // with the speeds
	}
}

// readSpeeds reads the speeds of a pump: a list of tables, or a table of tables by name.
func readSpeeds(r *field.Reader, v located.Value, p *graph.Part) {
	const write = `[ { name = "low", curve = [["0 m3/h", "3.9 m"], …] }, … ]`
	items, ok := v.Items()
	if !ok {
		if _, table := v.V.(map[string]any); !table {
			if !r.Blank(v, write) {
				r.WrongType(v, "a list of speeds", write)
			}
			return
		}
		for _, name := range v.Keys() {
			c, _ := v.In(name)
			items = append(items, c)
		}
	}
	if len(items) > field.MaxSpeeds {
		r.Fail(v, "leave out the speeds that are not used", "there are %d speeds; at most %d are read", len(items), field.MaxSpeeds)
		return
	}
	start := len(r.Found)
	var speeds []graph.Speed
	for _, item := range items {
		s := graph.Speed{Pos: r.ValuePos(item)}
		if !ok {
			s.Name = item.Key
		}
		before := len(r.Found)
		field.ReadTable(r, item, "a speed", SpeedFields, &s)
		_, amps := item.In("amps")
		_, volts := item.In("volts")
		if amps && s.PlateA <= 0 || volts && s.PlateV <= 0 { // refused where it stands
			s.PlateA, s.PlateV = 0, 0
		}
		if _, named := item.In("name"); !named && ok && len(items) == 1 {
			s.Name = graph.SpeedOn // nothing to tell it from
		}
		if s.Name == "" && len(r.Found) == before {
			r.Fail(item, `write name = "low"`, "a speed has no name")
		}
		for _, other := range speeds {
			if s.Name != "" && other.Name == s.Name {
				d := r.Fail(item, "give each speed a name of its own", "the speed %s is there twice", located.Said(s.Name))
				located.Related(d, other.Pos, "it is here first")
			}
		}
		checkSpeed(r, item, &s)
		speeds = append(speeds, s)
	}
	p.Pump.Speeds = speeds
	if len(r.Found) == start && !bare(speeds) { // else a row has the curves
		checkRatios(r, speeds)
	}
}

// checkSpeed looks at the keys of one speed together.
func checkSpeed(r *field.Reader, v located.Value, s *graph.Speed) {
	if c, ok := v.In("ratio"); ok {
		if _, both := v.In("curve"); both {
			r.Fail(c, "keep the curve, which is known better", "a speed has a curve and a ratio")
		} else if s.Ratio == 0 {
			whole, isWhole := c.V.(int64)
			x, isNumber := c.V.(float64)
			if isWhole && whole == 0 || isNumber && x == 0 {
				r.Fail(c, "write the speed over that of the curve: ratio = 0.5", "a ratio of zero")
			}
		}
	}
}

// checkRatios wants a ratio to the speed that has a curve of each that has none.
func checkRatios(r *field.Reader, speeds []graph.Speed) {
	base := speeds[graph.BaseSpeed(speeds)]
	for _, s := range speeds {
		if len(s.Curve) == 0 && s.Ratio == 0 {
			r.Add(s.Pos, turnsOf(base), "the speed %s has neither a curve nor a ratio", located.Said(s.Name))
		}
	}
}

// turnsOf says how a speed is told without a curve, where another has one.
func turnsOf(base graph.Speed) string {
	return fmt.Sprintf("write its curve, or as ratio its revolutions over those of %q: 2 turns twice as fast, 0.5 half as fast", base.Name)
}
