package description

import (
	"slices"

	"dryfit/graph"
	"dryfit/graph/description/located"
	"dryfit/graph/description/schema"
)

// siteFields are the keys of [site].
var siteFields = []field[graph.Site]{
	qtySet("air", outdoorAir, func(s *graph.Site) *float64 { return &s.AirC }, func(s *graph.Site) *bool { return &s.AirSet }),
	amountField("heat-up-in", heatUpTime, func(s *graph.Site) *graph.Amount { return &s.HeatUpS }),
	amountField("fill", waterWarmth, func(s *graph.Site) *graph.Amount { return &s.FillC }),
	{key: "sheltered", shape: func() schema.Shape { return schema.Either(schema.Word(shelters...), schema.Matching("^[0-9]")) }, read: readSheltered, write: func(s *graph.Site) string {
		if s.WindShare.Set {
			return percent(s.WindShare.V)
		}
		return words(s.Sheltered)
	}},
	wordField("region", graph.Regions(), func(s *graph.Site) *string { return &s.Region }),
	wordField("earthing", graph.Earthings(), func(s *graph.Site) *string { return &s.Earthing }),
}

// shelters are the words for how much of the wind reaches the water.
var shelters = []string{"open", "fenced", "walled", "indoor"}

func readSheltered(r *reader, v located.Value, into *graph.Site) {
	const write = `"open", "fenced", "walled" or "indoor", or the share of the wind that reaches the water, such as "30 %"`
	s, ok := r.Text(v, write)
	switch {
	case !ok:
	case slices.Contains(shelters, s):
		into.Sheltered = s
	case s != "" && s[0] >= '0' && s[0] <= '9':
		if q, ok := r.quantity(v, share); ok {
			into.WindShare = graph.Given(q.Value)
		}
	default:
		r.Fail(v, located.Near(s, shelters), "a tub can't stand %s", located.Said(s))
	}
}

func readSite(r *reader, v located.Value) {
	s := &r.circuit.Site
	s.Pos = r.KeyPos(v)
	s.KeyPos = readTable(r, v, "[site]", siteFields, s)
}

// fallFields, standingFields and heatLossFields are the keys of [heat-loss].
var fallFields = []field[graph.LossFall]{
	needed(amountField("from", waterWarmth, func(f *graph.LossFall) *graph.Amount { return &f.FromC }), `from = "38 °C"`),
	needed(amountField("to", waterWarmth, func(f *graph.LossFall) *graph.Amount { return &f.ToC }), `to = "36 °C"`),
	needed(amountField("in", fallTime, func(f *graph.LossFall) *graph.Amount { return &f.InS }), `in = "24 h"`),
	needed(amountField("air", airWarmth, func(f *graph.LossFall) *graph.Amount { return &f.AirC }), `air = "6 °C"`),
	amountField("plus-minus", warmthDifference, func(f *graph.LossFall) *graph.Amount { return &f.PlusMinusK }),
	amountField("heat", heatPower, func(f *graph.LossFall) *graph.Amount { return &f.HeatW }),
}

var standingFields = []field[graph.LossStanding]{
	needed(amountField("power", heatPower, func(s *graph.LossStanding) *graph.Amount { return &s.PowerW }), `power = "310 W"`),
	needed(amountField("water", waterWarmth, func(s *graph.LossStanding) *graph.Amount { return &s.WaterC }), `water = "38 °C"`),
	needed(amountField("air", airWarmth, func(s *graph.LossStanding) *graph.Amount { return &s.AirC }), `air = "15 °C"`),
}

var heatLossFields = []field[graph.HeatLoss]{
	maybeTable("fall", "the fall of the water's temperature", fallFields, func(h *graph.HeatLoss) **graph.LossFall { return &h.Fall }),
	maybeTable("standing", "the standing loss", standingFields, func(h *graph.HeatLoss) **graph.LossStanding { return &h.Standing }),
	amountField("ua", lossPerKelvin, func(h *graph.HeatLoss) *graph.Amount { return &h.UA }),
}

func readHeatLoss(r *reader, v located.Value) {
	h := &graph.HeatLoss{Pos: r.KeyPos(v)}
	h.KeyPos = readTable(r, v, "[heat-loss]", heatLossFields, h)
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
	r.circuit.HeatLoss = h
}

// coverFields and shellFields are the keys of [cover] and [[shell]].
var coverFields = []field[graph.Cover]{
	amountField("area", waterArea, func(c *graph.Cover) *graph.Amount { return &c.AreaM2 }),
	amountField("resistance", insulance, func(c *graph.Cover) *graph.Amount { return &c.Resistance }),
	numberAmount("r", 0, mostR, func(c *graph.Cover) *graph.Amount { return &c.R }),
}

var shellFields = []field[graph.Shell]{
	textField("name", `which wall: "walls", "floor"`, func(s *graph.Shell) *string { return &s.Name }),
	needed(amountField("area", waterArea, func(s *graph.Shell) *graph.Amount { return &s.AreaM2 }), `area = "7.4 m2"`),
	neededOr(amountField("resistance", insulance, func(s *graph.Shell) *graph.Amount { return &s.Resistance }), "r", `resistance = "1.9 m2 K/W"`),
	numberAmount("r", 0, mostR, func(s *graph.Shell) *graph.Amount { return &s.R }),
}

func readCover(r *reader, v located.Value) {
	c := &graph.Cover{Pos: r.KeyPos(v)}
	c.KeyPos = readTable(r, v, "[cover]", coverFields, c)
	onlyOneResistance(r, v, c.Resistance, c.R)
	r.circuit.Cover = c
}

func readShell(r *reader, v located.Value) {
	s := graph.Shell{Pos: r.KeyPos(v)}
	readTable(r, v, "[[shell]]", shellFields, &s)
	onlyOneResistance(r, v, s.Resistance, s.R)
	r.circuit.Shells = append(r.circuit.Shells, s)
}

// onlyOneResistance reports a thermal resistance that is given twice.
func onlyOneResistance(r *reader, v located.Value, si, imperial graph.Amount) {
	if c, _ := v.In("r"); si.Set && imperial.Set {
		r.Add(r.KeyPos(c), "keep one of the two", "there are a resistance and an r, which are the same thing in two units")
	}
}

// useFields are the keys of [use].
var useFields = []field[graph.Use]{
	amountField("open", openTime, func(u *graph.Use) *graph.Amount { return &u.OpenS }),
	numberAmount("times-a-week", 0, mostTimes, func(u *graph.Use) *graph.Amount { return &u.TimesAWeek }),
	clockField("at", func(u *graph.Use) *graph.Clock { return &u.At }),
	amountField("area", waterArea, func(u *graph.Use) *graph.Amount { return &u.AreaM2 }),
	numberAmount("activity", 0, mostActivity, func(u *graph.Use) *graph.Amount { return &u.Activity }),
	amountField("wind", windSpeed, func(u *graph.Use) *graph.Amount { return &u.WindMS }),
	numberAmount("bathers", 0, mostBathers, func(u *graph.Use) *graph.Amount { return &u.Bathers }),
	{key: "between", shape: func() schema.Shape { return schema.Exactly(schema.Quantity(), 2) }, read: readBetween, write: func(u *graph.Use) string {
		if u.Between == nil {
			return ""
		}
		return list([]string{exactIn(u.Between[0].V, waterWarmth), exactIn(u.Between[1].V, waterWarmth)})
	}},
	{key: "heating", shape: func() schema.Shape {
		hours := schema.Matching(`^[0-9]{1,2}:[0-9]{2}\s*-\s*[0-9]{1,2}:[0-9]{2}$`)
		return schema.Either(hours, schema.List(hours, 0))
	}, read: readHeatingHours, write: func(u *graph.Use) string {
		var out []string
		for _, h := range u.Heating {
			out = append(out, quote(clockWords(h.From)+"-"+clockWords(h.To)))
		}
		return list(out)
	}},
	numberAmount("refills", 0, mostTimes, func(u *graph.Use) *graph.Amount { return &u.Refills }),
}

func readBetween(r *reader, v located.Value, into *graph.Use) {
	const write = `the coldest and the warmest the timer may let the water be: between = ["36 °C", "39.5 °C"]`
	items, ok := v.Items()
	if !ok || len(items) != 2 {
		if !r.Blank(v, write) {
			r.Fail(v, "write "+write, "%s wants two temperatures", located.Said(v.Key))
		}
		return
	}
	low, okLow := r.quantity(items[0], waterWarmth)
	high, okHigh := r.quantity(items[1], waterWarmth)
	switch {
	case !okLow || !okHigh:
	case low.Value > high.Value:
		r.Fail(v, "write "+write, "the band falls: it goes from %s to %s", low.Text, high.Text)
	default:
		into.Between = &[2]graph.Amount{graph.Given(low.Value), graph.Given(high.Value)}
	}
}

func readHeatingHours(r *reader, v located.Value, into *graph.Use) {
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

func readUse(r *reader, v located.Value) {
	u := &graph.Use{Pos: r.KeyPos(v)}
	u.KeyPos = readTable(r, v, "[use]", useFields, u)
	r.circuit.Use = u
}

// tariffFields are the keys of [tariff].
var bandFields = []field[graph.TariffBand]{
	needed(clockField("from", func(b *graph.TariffBand) *graph.Clock { return &b.From }), `from = "23:00"`),
	needed(clockField("to", func(b *graph.TariffBand) *graph.Clock { return &b.To }), `to = "07:00"`),
	needed(priceField("price", func(b *graph.TariffBand) *string { return &b.Price }), `price = "0.15"`),
}

var tariffFields = []field[graph.Tariff]{
	priceField("price", func(t *graph.Tariff) *string { return &t.Price }),
	priceField("standing", func(t *graph.Tariff) *string { return &t.Standing }),
	priceField("work", func(t *graph.Tariff) *string { return &t.Work }),
	{
		key:   "bands",
		shape: func() schema.Shape { return schema.List(tableShape(bandFields, "band"), 0) },
		read: func(r *reader, v located.Value, into *graph.Tariff) {
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
				readTable(r, item, "a band", bandFields, &b)
				into.Bands = append(into.Bands, b)
			}
		},
		write: func(from *graph.Tariff) string {
			var out []string
			for i := range from.Bands {
				out = append(out, inline(bandFields, &from.Bands[i]))
			}
			return list(out)
		},
	},
}

func readTariff(r *reader, v located.Value) {
	t := &graph.Tariff{Pos: r.KeyPos(v)}
	t.KeyPos = readTable(r, v, "[tariff]", tariffFields, t)
	r.circuit.Tariff = t
}

// connections are the ways a circuit may be joined to the supply.
var connections = []string{"plug", "fused-spur", "own-circuit"}

var cableFields = []field[graph.Cable]{
	amountField("size", conductor, func(c *graph.Cable) *graph.Amount { return &c.SectionMM2 }),
	needed(amountField("length", cableLength, func(c *graph.Cable) *graph.Amount { return &c.LengthMM }), `how far it runs, one way: length = "22 m"`),
	textField("kind", `what cable it is, such as "flexible"`, func(c *graph.Cable) *string { return &c.Kind }),
	amountField("drop", cableDrop, func(c *graph.Cable) *graph.Amount { return &c.DropMVAM }),
}

// supplyFields are the keys of [[supply]].
var supplyFields = []field[graph.Supply]{
	textsField("feeds", `the ids of the parts it feeds`, func(s *graph.Supply) *[]string { return &s.Feeds }),
	amountField("voltage", voltage, func(s *graph.Supply) *graph.Amount { return &s.VoltageV }),
	amountField("rating", current, func(s *graph.Supply) *graph.Amount { return &s.RatingA }),
	amountField("continuous", share, func(s *graph.Supply) *graph.Amount { return &s.Continuous }),
	wordField("connection", connections, func(s *graph.Supply) *string { return &s.Connection }),
	amountField("impedance", impedance, func(s *graph.Supply) *graph.Amount { return &s.Impedance }),
	maybeTable("cable", "the cable", cableFields, func(s *graph.Supply) **graph.Cable { return &s.Cable }),
}

func readSupply(r *reader, v located.Value) {
	s := graph.Supply{Pos: r.KeyPos(v)}
	s.KeyPos = readTable(r, v, "[[supply]]", supplyFields, &s)
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
			if _, known := r.parts[id]; ok && id != "" && !known && !slices.Contains(r.unread, "part") {
				r.Fail(item, located.Near(id, idsOf(r, func(graph.Kind) bool { return true })), "there is no part %s", located.Said(id))
			}
		}
	}
	for i := range r.circuit.Supplies {
		other := &r.circuit.Supplies[i]
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
	r.circuit.Supplies = append(r.circuit.Supplies, s)
}
