package job

import (
	"math"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/heat"
)

// Months where the description is silent. Source: means of a temperate climate, judgement.
const (
	usualSwingK        = 8.5
	usualDayToDayK     = 2.5
	usualMonthHumidity = 0.78
	usualMonthWind     = 2.0
)

// MonthsOf returns a climate of twelve months, and what is usual where it is silent.
func MonthsOf(c *graph.Climate) heat.Months {
	var m heat.Months
	at := func(list []float64, month int, usual float64) float64 {
		switch len(list) {
		case 0:
			return usual
		case 1:
			return list[0]
		}
		return list[min(month, len(list)-1)]
	}
	for i := range m.AirC {
		m.AirC[i] = at(c.AirC, i, math.NaN())
		m.SwingK[i] = at(c.SwingK, i, usualSwingK)
		m.Humidity[i] = at(c.Humidity, i, usualMonthHumidity)
		m.Wind[i] = at(c.WindMS, i, usualMonthWind)
		m.DayToDay[i] = c.DayToDayK.Or(usualDayToDayK)
	}
	return m
}

// months notes what a climate of twelve months leaves open. The wind is sampled where it reaches the
// water, and years differ more than the rest moves: they are listed alone.
func (b *builder) months(c *graph.Climate) {
	if c == nil || c.File != "" || len(c.AirC) == 0 {
		return
	}
	const source = "means of a temperate climate, judgement; say [climate] "
	for _, m := range []struct {
		said  bool
		what  quantity.Text
		key   quantity.Text
		usual float64
		dim   quantity.Dimension
	}{
		{len(c.SwingK) > 0, "swing of the air between day and night", "swing", usualSwingK, quantity.TemperatureDifference},
		{c.DayToDayK.Set, "how far the days of a month differ", "day-to-day", usualDayToDayK, quantity.TemperatureDifference},
		{len(c.Humidity) > 0, "humidity of the climate's air", "humidity", usualMonthHumidity, quantity.Share},
		{len(c.WindMS) > 0, "wind of the climate, in the open", "wind", usualMonthWind, quantity.Velocity},
	} {
		if !m.said {
			b.assume(m.what, m.usual, m.dim, source+m.key, 0, 0, nil)
		}
	}
}
