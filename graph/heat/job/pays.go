package job

import (
	"cmp"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/heat"
)

// Saving is one change and what the planned year would take less of with it.
type Saving struct {
	What      quantity.Text
	Of        Change
	KWh, Cost float64 // less than planned, a year; below 0: more
}

// Change is what is changed to save.
type Change string

// The changes a customer asks after, and the rest.
const (
	LargerUnit   Change = "unit"
	BetterCover  Change = "cover"
	OtherTariff  Change = "tariff"
	OtherHabit   Change = "habit"
	BetterFigure Change = "efficiency"
)

// A night price to compare with where the tariff has none: a third off, eight hours. Source:
// judgement.
const (
	nightFromH, nightToH = 23.0, 7.0
	nightShare           = 2.0 / 3
)

// pays works out what a larger unit, a better cover, another tariff and other habits would take
// off the planned year, the best first: in money where there is a price.
func (b *builder) pays(s *scene, r *Report, likely outcome) {
	if s.planned == nil || r.Year == nil {
		return
	}
	y := r.Year
	var scenes []*scene
	saving := func(of Change, what quantity.Text, change func(*scene)) {
		c := s.clone()
		change(c)
		c.today = nil // it takes what it takes
		scenes, y.Pays = append(scenes, c), append(y.Pays, Saving{What: what, Of: of})
	}
	cover := quantity.Text("a cover that loses a third less")
	if s.tub.SkinUA[heat.TermTub] > 0 {
		cover = "a cover and skin that lose a third less"
	}
	saving(BetterCover, cover, func(c *scene) {
		for _, t := range []heat.Term{heat.TermTub, heat.TermCover} {
			if c.tub.SkinUA[t] > 0 {
				c.tub.SkinUA[t] *= 2.0 / 3
			}
		}
	})
	if _, above := b.neighbours(s); above != nil {
		saving(LargerUnit, graph.Say("a unit of the next size, %s", sizeWords(above.Name)), func(c *scene) {
			c.own().Unit, c.own().FlowM3s = b.scaledTo(s.own().Unit, b.fromRow(*above)), cmp.Or(b.more.OfSize[above.Name], s.own().FlowM3s)
		})
	}
	if s.tariff.Known {
		b.tariffSavings(s, r, saving)
	}
	saving(OtherHabit, "a quarter less time with the cover off", func(c *scene) { c.tub.Use.OpenS *= 0.75 })
	saving(OtherHabit, graph.Say("water %s cooler", quantity.TemperatureDifference.Of(1)), func(c *scene) { c.tub.SetC-- })
	better := quantity.Text("a unit with a tenth more COP")
	if len(s.planned.Units) > 1 {
		better = "units with a tenth more COP"
	}
	saving(BetterFigure, better, func(c *scene) {
		for i := range c.planned.Units {
			scaleCOP(c.planned.Units[i].Unit, 1.1)
		}
	})
	if s.planned.FilterH > 2 && s.planned.Runs != heat.PumpAlways {
		saving(OtherHabit, "the pump two hours a day less", func(c *scene) { c.planned.FilterH -= 2 })
	}
	graph.SideBySide(len(scenes), func(i int) {
		o, _, _ := b.run(scenes[i])
		y.Pays[i].KWh, y.Pays[i].Cost = likely.plannedKWh-o.plannedKWh, likely.plannedCost-o.plannedCost
	})
	slices.SortStableFunc(y.Pays, func(a, b Saving) int {
		if y.Priced {
			return cmp.Compare(b.Cost, a.Cost)
		}
		return cmp.Compare(b.KWh, a.KWh)
	})
}

// sizeWords is a unit's row of the catalogue in a sentence: "17 kW"; a row of the
// user's own by its name.
func sizeWords(name string) string {
	if size, ok := strings.CutPrefix(name, "heat-pump "); ok {
		return size
	}
	return "as " + name
}

// tariffSavings compares another tariff: a night price where there is none; where there are bands
// the times of the timer, and one price all day.
func (b *builder) tariffSavings(s *scene, r *Report, saving func(Change, quantity.Text, func(*scene))) {
	if len(s.tariff.Bands) == 0 {
		saving(OtherTariff, "a night price a third lower, 23:00 to 07:00", func(c *scene) {
			c.tariff.Bands = []heat.Band{{FromH: nightFromH, ToH: nightToH, Price: c.tariff.Price * nightShare}}
		})
	} else if !s.tariff.NoRest {
		saving(OtherTariff, "one price all day, that outside the bands", func(c *scene) { c.tariff.Bands = nil })
	}
	if t := r.Timer; t != nil && t.OK {
		saving(OtherTariff, graph.Say("heated in the timer's hours, the water up to %s", quantity.Temperature.Of(r.TimerC)), func(c *scene) {
			c.planned.Heating = heat.Shares(t.On)
			c.tub.SetC = r.TimerC
		})
	}
}

// scaledTo is the job's unit at the size of another: its own figures, so that what is compared
// is the size and not a sheet with a row of the catalogue.
func (b *builder) scaledTo(own, other *heat.Unit) *heat.Unit {
	times := inUsualAir(other, b.in.SetC) / inUsualAir(own, b.in.SetC)
	c := *own
	c.Ratings = slices.Clone(own.Ratings)
	for i := range c.Ratings {
		c.Ratings[i].OutputW *= times
		c.Ratings[i].InputW *= times
	}
	c.LeastW, c.StartJ, c.RatedFlow = c.LeastW*times, c.StartJ*times, c.RatedFlow*times
	return &c
}
