package job

import (
	"cmp"
	"math"
	"slices"

	"dryfit/catalog"
	"dryfit/graph/heat"
)

// genericStandbyW is the stand-by of a unit of the catalogue. Source: see the builder's list of
// what is assumed.
const genericStandbyW = 15

// ratedRow returns a row with ratings and limits: its own, or where it has none those of the
// catalogue's default unit, as its power to that one's; where it does not say its power either,
// as its rated flow to that one's.
func (b *builder) ratedRow(row catalog.Row) catalog.Row {
	usual, ok := b.in.Stage.Catalog().Generic("heat-pump")
	if !ok {
		return row
	}
	switch times := sizeOf(row, usual); {
	case len(row.Ratings) > 0 && row.RatingsSource == "":
		row.RatingsSource = row.Source
	case len(row.Ratings) == 0:
		for _, r := range usual.Ratings {
			r.OutputW, r.InputW = times*r.OutputW, times*r.InputW
			row.Ratings = append(row.Ratings, r)
		}
		row.RatingsSource = usual.RatingsSource
		if row.PowerW <= 0 {
			row.RatingsSource = "sized by its rated flow; " + row.RatingsSource
		}
	}
	if row.LeastAirC == nil {
		row.LeastAirC = usual.LeastAirC
	}
	if row.MostWaterC == nil {
		row.MostWaterC = usual.MostWaterC
	}
	return row
}

// sizeOf is how large a unit of a row is to another: as their powers, else their rated flows,
// which makers set by the power (common practice, no source); 1 where neither is known.
func sizeOf(row, usual catalog.Row) float64 {
	switch {
	case row.PowerW > 0 && usual.PowerW > 0:
		return row.PowerW / usual.PowerW
	case row.Rated > 0 && usual.Rated > 0:
		return row.Rated / usual.Rated
	}
	return 1
}

// usualAirC is the air a unit's output is told at, °C: the rating nearest to it. Source: the standard
// rating of air-source machines, EN 14511 (from memory).
const usualAirC = 7

// toldAt is the rating nearest to the usual air.
func toldAt(ratings []heat.Rating) heat.Rating {
	return slices.MinFunc(ratings, func(a, b heat.Rating) int {
		return cmp.Compare(math.Abs(a.AirC-usualAirC), math.Abs(b.AirC-usualAirC))
	})
}

// fromRow makes a unit of a catalogue row. Ratings of the user's own row are read as those of a
// sheet written at the part, with the defrosts in them; the catalogue's are a straight line past
// the frost.
func (b *builder) fromRow(row catalog.Row) *heat.Unit {
	frosted := row.Owns("ratings")
	row = b.ratedRow(row)
	u := &heat.Unit{ID: row.Name, RatedFlow: row.Rated, Fluid: b.in.Fluid, StandbyW: genericStandbyW}
	for _, r := range row.Ratings {
		u.Ratings = append(u.Ratings, heat.Rating{AirC: r.AirC, WaterC: r.WaterC, OutputW: r.OutputW, InputW: r.InputW, Frost: frosted && r.AirC < heat.FrostBelowC})
	}
	if row.LeastAirC != nil {
		u.LeastAirC, u.HasLeast = *row.LeastAirC, true
	}
	if row.MostWaterC != nil {
		u.MostC, u.HasMost = *row.MostWaterC, true
	}
	return u
}
