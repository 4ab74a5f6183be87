package job

import (
	"dryfit/catalog"
	"dryfit/graph/heat"
)

// genericStandbyW is the stand-by of a unit of the catalogue. Source: see the builder's list of
// what is assumed.
const genericStandbyW = 15

// ratedRow returns a row with ratings and limits: its own, or where it says its power alone those
// of the catalogue's default unit, as its power to that one's.
func (b *builder) ratedRow(row catalog.Row) catalog.Row {
	usual, ok := b.in.Stage.Catalog().Generic("heat-pump")
	if !ok {
		return row
	}
	if len(row.Ratings) == 0 && usual.PowerW > 0 && row.PowerW > 0 {
		times := row.PowerW / usual.PowerW
		for _, r := range usual.Ratings {
			r.OutputW, r.InputW = times*r.OutputW, times*r.InputW
			row.Ratings = append(row.Ratings, r)
		}
		row.RatingsSource = usual.RatingsSource
	}
	if row.LeastAirC == nil {
		row.LeastAirC = usual.LeastAirC
	}
	if row.MostWaterC == nil {
		row.MostWaterC = usual.MostWaterC
	}
	return row
}

// fromRow makes a unit of a catalogue row.
func (b *builder) fromRow(row catalog.Row) *heat.Unit {
	row = b.ratedRow(row)
	u := &heat.Unit{ID: row.Name, RatedFlow: row.Rated, Fluid: b.in.Fluid, StandbyW: genericStandbyW}
	for _, r := range row.Ratings {
		u.Ratings = append(u.Ratings, heat.Rating{AirC: r.AirC, WaterC: r.WaterC, OutputW: r.OutputW, InputW: r.InputW})
	}
	if row.LeastAirC != nil {
		u.LeastAirC, u.HasLeast = *row.LeastAirC, true
	}
	if row.MostWaterC != nil {
		u.MostC, u.HasMost = *row.MostWaterC, true
	}
	return u
}
