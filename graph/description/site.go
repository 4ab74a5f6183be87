package description

import (
	"slices"

	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
	"dryfit/graph/description/pipework"
	"dryfit/graph/description/schema"
)

// siteFields are the keys of [site].
var siteFields = []field.Field[graph.Site]{
	field.QtySet("air", field.OutdoorAir, func(s *graph.Site) *float64 { return &s.AirC }, func(s *graph.Site) *bool { return &s.AirSet }),
	field.Amount("heat-up-in", field.HeatUpTime, func(s *graph.Site) *graph.Amount { return &s.HeatUpS }),
	field.Amount("fill", field.WaterWarmth, func(s *graph.Site) *graph.Amount { return &s.FillC }),
	{Key: "sheltered", Shape: func() schema.Shape { return schema.Either(schema.Word(shelters...), schema.Matching("^[0-9]")) }, Read: readSheltered, Write: func(s *graph.Site) string {
		if s.WindShare.Set {
			return field.Percent(s.WindShare.V)
		}
		return words(s.Sheltered)
	}},
	field.Amount("room", field.AirWarmth, func(s *graph.Site) *graph.Amount { return &s.RoomC }),
	field.WordCalled("region", graph.Regions(), regionCalled, func(s *graph.Site) *string { return &s.Region }),
	field.WordCalled("earthing", graph.Earthings(), earthingCalled, func(s *graph.Site) *string { return &s.Earthing }),
}

// earthingCalled are earthings by what electricians call them as well: in Britain protective multiple
// earthing is TN-C-S, and an earth rod alone TT (BS 7671, from memory). regionCalled are regions by their
// countries.
var (
	earthingCalled = map[string]string{"pme": "tn-c-s", "pnb": "tn-c-s", "mne": "tn-c-s", "men": "tn-c-s", "rod": "tt", "earth rod": "tt", "cable sheath": "tn-s"}
	regionCalled   = map[string]string{"usa": "us", "america": "us", "north america": "us", "canada": "us", "gb": "uk", "britain": "uk", "england": "uk", "scotland": "uk", "wales": "uk", "europe": "eu"}
)

// shelters are the words for how much of the wind reaches the water.
var shelters = []string{"open", "fenced", "walled", "indoor"}

func readSheltered(r *field.Reader, v located.Value, into *graph.Site) {
	const write = `"open", "fenced", "walled" or "indoor", or the share of the wind that reaches the water, such as "30 %"`
	s, ok := r.Text(v, write)
	switch {
	case !ok:
	case slices.Contains(shelters, s):
		into.Sheltered = s
	case s != "" && s[0] >= '0' && s[0] <= '9':
		if q, ok := r.Quantity(v, field.Share); ok {
			into.WindShare = graph.Given(q.Value)
		}
	default:
		r.Fail(v, located.Near(s, shelters), "a tub can't stand %s", located.Said(s))
	}
}

func readSite(r *field.Reader, v located.Value) {
	s := &r.Circuit.Site
	s.Pos = r.KeyPos(v)
	s.KeyPos = field.ReadTable(r, v, "[site]", siteFields, s)
	if c, _ := v.In("room"); s.RoomC.Set && s.Sheltered != "" && s.Sheltered != "indoor" {
		r.Fail(c, `sheltered = "indoor" for a tub in a room; no room for one outdoors`, "the tub stands in a room, and sheltered says %s", located.Said(s.Sheltered))
	}
}

// fallFields, standingFields and heatLossFields are the keys of [heat-loss].
var fallFields = []field.Field[graph.LossFall]{
	field.Needed(field.Amount("from", field.WaterWarmth, func(f *graph.LossFall) *graph.Amount { return &f.FromC }), `from = "38 °C"`),
	field.Needed(field.Amount("to", field.WaterWarmth, func(f *graph.LossFall) *graph.Amount { return &f.ToC }), `to = "36 °C"`),
	field.Needed(field.Amount("in", field.FallTime, func(f *graph.LossFall) *graph.Amount { return &f.InS }), `in = "24 h"`),
	field.Needed(field.Amount("air", field.AirWarmth, func(f *graph.LossFall) *graph.Amount { return &f.AirC }), `air = "6 °C"`),
	field.Amount("plus-minus", field.WarmthDifference, func(f *graph.LossFall) *graph.Amount { return &f.PlusMinusK }),
	field.Amount("heat", field.HeatPower, func(f *graph.LossFall) *graph.Amount { return &f.HeatW }),
}

var standingFields = []field.Field[graph.LossStanding]{
	field.Needed(field.Amount("power", field.HeatPower, func(s *graph.LossStanding) *graph.Amount { return &s.PowerW }), `power = "310 W"`),
	field.Needed(field.Amount("water", field.WaterWarmth, func(s *graph.LossStanding) *graph.Amount { return &s.WaterC }), `water = "38 °C"`),
	field.Needed(field.Amount("air", field.AirWarmth, func(s *graph.LossStanding) *graph.Amount { return &s.AirC }), `air = "15 °C"`),
}

var heatLossFields = []field.Field[graph.HeatLoss]{
	field.MaybeTable("fall", "the fall of the water's temperature", fallFields, func(h *graph.HeatLoss) **graph.LossFall { return &h.Fall }),
	field.MaybeTable("standing", "the standing loss", standingFields, func(h *graph.HeatLoss) **graph.LossStanding { return &h.Standing }),
	field.Amount("ua", field.LossPerKelvin, func(h *graph.HeatLoss) *graph.Amount { return &h.UA }),
}

func readHeatLoss(r *field.Reader, v located.Value) {
	h := &graph.HeatLoss{Pos: r.KeyPos(v)}
	h.KeyPos = field.ReadTable(r, v, "[heat-loss]", heatLossFields, h)
	if f := h.Fall; f != nil {
		f.Pos = h.KeyPos["fall"]
		if c, _ := v.In("fall"); f.FromC.Set && f.ToC.Set && f.ToC.V >= f.FromC.V {
			r.Fail(c, `the water cools: from = "38 °C", to = "36 °C"`, "the water does not fall: it goes from %g °C to %g °C", f.FromC.V, f.ToC.V)
		}
	}
	if s := h.Standing; s != nil {
		s.Pos = h.KeyPos["standing"]
		if c, _ := v.In("standing"); s.WaterC.Set && s.AirC.Set && s.AirC.V >= s.WaterC.V {
			r.Fail(c, "the water of a standing loss is warmer than the air", "the air of the standing loss has %g °C and the water %g °C", s.AirC.V, s.WaterC.V)
		}
	}
	r.Circuit.HeatLoss = h
}

// coverFields and shellFields are the keys of [cover] and [[shell]].
var coverFields = []field.Field[graph.Cover]{
	field.Amount("area", field.WaterArea, func(c *graph.Cover) *graph.Amount { return &c.AreaM2 }),
	field.Amount("resistance", field.Insulance, func(c *graph.Cover) *graph.Amount { return &c.Resistance }),
	field.NumberAmount("r", field.LeastR, field.MostR, func(c *graph.Cover) *graph.Amount { return &c.R }),
}

var shellFields = []field.Field[graph.Shell]{
	field.Prose("name", `which wall: "walls", "floor"`, func(s *graph.Shell) *string { return &s.Name }),
	field.Needed(field.Amount("area", field.WaterArea, func(s *graph.Shell) *graph.Amount { return &s.AreaM2 }), `area = "7.4 m2"`),
	field.NeededOr(field.Amount("resistance", field.Insulance, func(s *graph.Shell) *graph.Amount { return &s.Resistance }), "r", `resistance = "1.9 m2 K/W"`),
	field.NumberAmount("r", field.LeastR, field.MostR, func(s *graph.Shell) *graph.Amount { return &s.R }),
}

func readCover(r *field.Reader, v located.Value) {
	c := &graph.Cover{Pos: r.KeyPos(v)}
	c.KeyPos = field.ReadTable(r, v, "[cover]", coverFields, c)
	onlyOneResistance(r, v, c.Resistance, c.R)
	r.Circuit.Cover = c
}

func readShell(r *field.Reader, v located.Value) {
	s := graph.Shell{Pos: r.KeyPos(v)}
	field.ReadTable(r, v, "[[shell]]", shellFields, &s)
	onlyOneResistance(r, v, s.Resistance, s.R)
	r.Circuit.Shells = append(r.Circuit.Shells, s)
}

// onlyOneResistance reports a thermal resistance that is given twice.
func onlyOneResistance(r *field.Reader, v located.Value, si, imperial graph.Amount) {
	if c, _ := v.In("r"); si.Set && imperial.Set {
		r.Add(r.KeyPos(c), "keep one of the two", "there are a resistance and an r, which are the same thing in two units")
	}
}

// useFields are the keys of [use].
var useFields = []field.Field[graph.Use]{
	field.Amount("open", field.OpenTime, func(u *graph.Use) *graph.Amount { return &u.OpenS }),
	field.NumberAmount("times-a-week", 0, field.MostTimes, func(u *graph.Use) *graph.Amount { return &u.TimesAWeek }),
	clockField("at", func(u *graph.Use) *graph.Clock { return &u.At }),
	field.Amount("area", field.WaterArea, func(u *graph.Use) *graph.Amount { return &u.AreaM2 }),
	field.NumberAmount("activity", 0, field.MostActivity, func(u *graph.Use) *graph.Amount { return &u.Activity }),
	field.Amount("wind", field.WindSpeed, func(u *graph.Use) *graph.Amount { return &u.WindMS }),
	field.NumberAmount("bathers", 0, field.MostBathers, func(u *graph.Use) *graph.Amount { return &u.Bathers }),
	{Key: "between", Shape: func() schema.Shape { return schema.Exactly(schema.Quantity(), 2) }, Read: readBetween, Write: func(u *graph.Use) string {
		if u.Between == nil {
			return ""
		}
		return field.List([]string{field.ExactIn(u.Between[0].V, field.WaterWarmth), field.ExactIn(u.Between[1].V, field.WaterWarmth)})
	}},
	{Key: "heating", Shape: func() schema.Shape {
		hours := schema.Matching(`^[0-9]{1,2}:[0-9]{2}\s*-\s*[0-9]{1,2}:[0-9]{2}$`)
		return schema.Either(hours, schema.List(hours, 0))
	}, Read: readHeatingHours, Write: func(u *graph.Use) string {
		var out []string
		for _, h := range u.Heating {
			out = append(out, field.Quote(clockWords(h.From)+"-"+clockWords(h.To)))
		}
		return field.List(out)
	}},
	field.NumberAmount("refills", 0, field.MostTimes, func(u *graph.Use) *graph.Amount { return &u.Refills }),
}

func readBetween(r *field.Reader, v located.Value, into *graph.Use) {
	const write = `the coldest and the warmest the timer may let the water be: between = ["36 °C", "39.5 °C"]`
	items, ok := v.Items()
	if !ok || len(items) != 2 {
		if !r.Blank(v, write) {
			r.Fail(v, "write "+write, "%s wants two temperatures", located.Said(v.Key))
		}
		return
	}
	low, okLow := r.Quantity(items[0], field.WaterWarmth)
	high, okHigh := r.Quantity(items[1], field.WaterWarmth)
	switch {
	case !okLow || !okHigh:
	case low.Value > high.Value:
		r.Fail(v, "write "+write, "the band falls: it goes from %s to %s", low.Text, high.Text)
	default:
		into.Between = &[2]graph.Amount{graph.Given(low.Value), graph.Given(high.Value)}
	}
}

func readHeatingHours(r *field.Reader, v located.Value, into *graph.Use) {
	items, ok := v.Items()
	if !ok {
		items = []located.Value{v}
	}
	for _, item := range items {
		if h, ok := readHours(r, item); ok {
			into.Heating = append(into.Heating, h)
		}
	}
}

func readUse(r *field.Reader, v located.Value) {
	u := &graph.Use{Pos: r.KeyPos(v)}
	u.KeyPos = field.ReadTable(r, v, "[use]", useFields, u)
	r.Circuit.Use = u
}

// tariffFields are the keys of [tariff].
var bandFields = []field.Field[graph.TariffBand]{
	field.Needed(clockField("from", func(b *graph.TariffBand) *graph.Clock { return &b.From }), `from = "23:00"`),
	field.Needed(clockField("to", func(b *graph.TariffBand) *graph.Clock { return &b.To }), `to = "07:00"`),
	field.Needed(priceField("price", func(b *graph.TariffBand) *string { return &b.Price }), `price = "0.15"`),
}

var tariffFields = []field.Field[graph.Tariff]{
	priceField("price", func(t *graph.Tariff) *string { return &t.Price }),
	priceField("standing", func(t *graph.Tariff) *string { return &t.Standing }),
	priceField("work", func(t *graph.Tariff) *string { return &t.Work }),
	{
		Key:   "bands",
		Shape: func() schema.Shape { return schema.List(field.TableShape(bandFields, "band"), 0) },
		Read: func(r *field.Reader, v located.Value, into *graph.Tariff) {
			const write = `a list: bands = [{ from = "23:00", to = "07:00", price = "0.15" }]`
			items, ok := v.Items()
			if !ok {
				if !r.Blank(v, write) {
					r.WrongType(v, "a list of tables", write)
				}
				return
			}
			for _, item := range items {
				b := graph.TariffBand{Pos: r.ValuePos(item)}
				field.ReadTable(r, item, "a band", bandFields, &b)
				into.Bands = append(into.Bands, b)
			}
		},
		Write: func(from *graph.Tariff) string {
			var out []string
			for i := range from.Bands {
				out = append(out, field.Inline(bandFields, &from.Bands[i]))
			}
			return field.List(out)
		},
	},
}

func readTariff(r *field.Reader, v located.Value) {
	t := &graph.Tariff{Pos: r.KeyPos(v)}
	t.KeyPos = field.ReadTable(r, v, "[tariff]", tariffFields, t)
	r.Circuit.Tariff = t
}

// connections are the ways a circuit may be joined to the supply.
var connections = []string{"plug", "fused-spur", "own-circuit"}

var cableFields = []field.Field[graph.Cable]{
	field.Amount("size", field.Conductor, func(c *graph.Cable) *graph.Amount { return &c.SectionMM2 }),
	field.Needed(field.Amount("length", field.CableLength, func(c *graph.Cable) *graph.Amount { return &c.LengthMM }), `how far it runs, one way: length = "22 m"`),
	field.Text("kind", `what cable it is, such as "flexible"`, func(c *graph.Cable) *string { return &c.Kind }),
	field.Amount("drop", field.CableDrop, func(c *graph.Cable) *graph.Amount { return &c.DropMVAM }),
}

// supplyFields are the keys of [[supply]].
var supplyFields = []field.Field[graph.Supply]{
	field.Texts("feeds", `the ids of the parts it feeds`, func(s *graph.Supply) *[]string { return &s.Feeds }),
	field.Amount("voltage", field.Voltage, func(s *graph.Supply) *graph.Amount { return &s.VoltageV }),
	field.Amount("rating", field.Current, func(s *graph.Supply) *graph.Amount { return &s.RatingA }),
	field.Amount("continuous", field.Share, func(s *graph.Supply) *graph.Amount { return &s.Continuous }),
	field.Word("connection", connections, func(s *graph.Supply) *string { return &s.Connection }),
	field.Amount("impedance", field.Impedance, func(s *graph.Supply) *graph.Amount { return &s.Impedance }),
	field.MaybeTable("cable", "the cable", cableFields, func(s *graph.Supply) **graph.Cable { return &s.Cable }),
}

// withPower are the kinds whose power a supply is held against.
var withPower = []graph.Kind{graph.HeatPump, graph.Pump, graph.ElementHeater, graph.Blower}

// withoutPower are the kinds that never draw any: a tub is fed by what is in it.
var withoutPower = []graph.Kind{graph.Tub, graph.Suction, graph.JetGroup, graph.Manifold, graph.Filter, graph.HeatExchanger, graph.Tee, graph.GateValve,
	graph.BallValve, graph.ButterflyValve, graph.CheckValve, graph.Union, graph.Coupling, graph.SlipCoupling, graph.Reducer, graph.Transition, graph.Barb,
	graph.AirControl, graph.DrainValve, graph.AirBleed, graph.PressureGauge, graph.ThermometerPocket, graph.Strainer, graph.Cap}

func readSupply(r *field.Reader, v located.Value) {
	s := graph.Supply{Pos: r.KeyPos(v)}
	s.KeyPos = field.ReadTable(r, v, "[[supply]]", supplyFields, &s)
	if s.Cable != nil {
		s.Cable.Pos = s.KeyPos["cable"]
	}
	if list, ok := v.In("feeds"); ok {
		items, isList := list.Items()
		if !isList {
			items = []located.Value{list}
		}
		for _, item := range items {
			id, ok := item.V.(string)
			if _, known := r.Parts[id]; ok && id != "" && !known && !slices.Contains(r.Unread, "part") {
				pipework.Missed(r, r.ValuePos(item), id, located.Near(id, pipework.IDsOf(r, func(graph.Kind) bool { return true })))
			} else if p := r.Parts[id]; known && p != nil && slices.Contains(withoutPower, p.Kind) {
				hint := "leave it out"
				if ids := pipework.IDsOf(r, func(k graph.Kind) bool { return slices.Contains(withPower, k) }); len(ids) > 0 {
					hint = "name what of it draws power, such as \"" + ids[0] + "\""
				}
				r.Add(r.ValuePos(item), hint, "%s %s draws no power: no supply feeds it", p.Kind, located.Said(id))
			}
		}
	}
	for i := range r.Circuit.Supplies {
		other := &r.Circuit.Supplies[i]
		for _, id := range s.Feeds {
			if slices.Contains(other.Feeds, id) {
				d := r.Add(s.Pos, "name it in one of them", "the part %s is fed by two supplies", located.Said(id))
				located.Related(d, other.Pos, "the other is here")
			}
		}
		if len(s.Feeds) == 0 && len(other.Feeds) == 0 {
			d := r.Add(s.Pos, "name what each feeds: feeds = [\"unit\"]", "two supplies feed everything that no other feeds")
			located.Related(d, other.Pos, "the other is here")
		}
	}
	r.Circuit.Supplies = append(r.Circuit.Supplies, s)
}
