package heat

import (
	"cmp"
	"math"
	"slices"

	"dryfit/catalog"
)

// Rating is one line of a unit's performance table, at full speed.
type Rating struct {
	AirC, WaterC    float64
	OutputW, InputW float64
	Leaving         bool // WaterC is that of the water leaving the unit, not entering it
	Frost           bool // defrosts are in the figures
}

// COP returns output over input.
func (r Rating) COP() float64 { return r.OutputW / r.InputW }

// Slopes of a unit's figures, as shares of the value at 7 °C air. Source: medians of 27
// fixed-output air-to-water units in the public certification data of hplib (T. Tjaden and
// others, doi:10.5281/zenodo.5521597, state of October 2024) and one maker's data book.
const (
	outputPerAirK   = 0.025  // of output, for each K of air
	outputPerWaterK = -0.005 // of output, for each K of water
	inputPerWaterK  = 0.017  // of input, for each K of water
)

// Carnot returns the share of the ideal machine's COP that a rating reaches (see catalog.IdealCOP). In the data named at the
// slopes it is 0.49 to 0.58.
func Carnot(cop, airC, waterC float64) float64 { return cop / catalog.IdealCOP(airC, waterC) }

// figure is what a unit gives and takes with water of a temperature: a Rating without what a year,
// which reads the table at every hour, has no use for.
type figure struct{ waterC, outputW, inputW float64 }

// carried returns a rating moved to other temperatures: its Carnot share kept, its output by
// the slopes.
func carried(r *Rating, airC, waterC float64) figure {
	out := sloped(r, airC).outputW * max(0.1, 1+outputPerWaterK*(waterC-r.WaterC))
	cop := Carnot(r.COP(), r.AirC, r.WaterC) * catalog.IdealCOP(airC, waterC)
	return figure{waterC, out, out / cop}
}

// sloped returns a rating moved to other air by the slope of the output alone.
func sloped(r *Rating, airC float64) figure {
	seven := r.OutputW / (1 + outputPerAirK*(r.AirC-7))
	return figure{r.WaterC, seven * max(0.1, 1+outputPerAirK*(airC-7)), r.InputW}
}

// warmer returns a figure moved to other water by the slopes alone.
func (f figure) warmer(waterC float64) figure {
	d := waterC - f.waterC
	return figure{waterC, f.outputW * max(0.1, 1+outputPerWaterK*d), f.inputW * max(0.1, 1+inputPerWaterK*d)}
}

// Basis says what a unit's figure at some temperatures stands on.
type Basis string

// The bases, from the best.
const (
	Between  Basis = "between rated points"
	OneWater Basis = "points at one water temperature"
	OnePoint Basis = "one rated point"
	Beyond   Basis = "beyond the rated points"
)

// Spread returns how far COP and output on such a basis may be off, as shares. Source:
// judgement, from points of one maker's map predicted from others of it.
func (b Basis) Spread() (cop, output float64) {
	switch b {
	case Between:
		return 0.04, 0.03
	case OneWater:
		return 0.06, 0.05
	case OnePoint:
		return 0.10, 0.10
	default:
		return 0.20, 0.10
	}
}

// table is a unit's ratings by water temperature, both rising.
type table struct {
	rows    [][]Rating
	warmest float64 // the highest air of any point, °C
}

// newTable sorts ratings into rows of one water temperature, half a kelvin wide.
func newTable(ratings []Rating) table {
	list := slices.Clone(ratings)
	slices.SortStableFunc(list, func(a, b Rating) int {
		return cmp.Or(cmp.Compare(a.WaterC, b.WaterC), cmp.Compare(a.AirC, b.AirC))
	})
	t := table{warmest: math.Inf(-1)}
	for _, r := range list {
		if n := len(t.rows) - 1; n >= 0 && r.WaterC-t.rows[n][0].WaterC <= 0.5 {
			t.rows[n] = append(t.rows[n], r)
		} else {
			t.rows = append(t.rows, []Rating{r})
		}
	}
	for _, row := range t.rows {
		slices.SortStableFunc(row, func(a, b Rating) int { return cmp.Compare(a.AirC, b.AirC) })
		t.warmest = max(t.warmest, row[len(row)-1].AirC)
	}
	return t
}

// above is how many rows are of colder water.
func (t table) above(waterC float64) int {
	i := 0
	for i < len(t.rows) && t.rows[i][0].WaterC < waterC {
		i++
	}
	return i
}

// single is the table's one rating; nil where it has more.
func (t table) single() *Rating {
	if len(t.rows) == 1 && len(t.rows[0]) == 1 {
		return &t.rows[0][0]
	}
	return nil
}

// at reads the table: between points in a straight line, output and input apart; below the
// coldest air by the Carnot share; above the warmest of all held; other water by the slopes.
func (t table) at(airC, waterC float64) figure {
	airC = min(airC, t.warmest)
	if r := t.single(); r != nil {
		return carried(r, airC, waterC)
	}
	i := t.above(waterC)
	if i == 0 || i == len(t.rows) {
		return along(t.rows[max(0, i-1)], airC).warmer(waterC)
	}
	low, high := along(t.rows[i-1], airC), along(t.rows[i], airC)
	share := (waterC - low.waterC) / (high.waterC - low.waterC)
	return figure{waterC, low.outputW + share*(high.outputW-low.outputW), low.inputW + share*(high.inputW-low.inputW)}
}

// basis says what at stands on. It is asked apart: a year reads the table at every hour and asks
// nothing of the kind.
func (t table) basis(airC, waterC float64) Basis {
	airC = min(airC, t.warmest)
	if r := t.single(); r != nil {
		if math.Abs(airC-r.AirC)+math.Abs(waterC-r.WaterC) > 10 {
			return Beyond
		}
		return OnePoint
	}
	i := t.above(waterC)
	if i == 0 || i == len(t.rows) {
		row := t.rows[max(0, i-1)]
		off := math.Abs(waterC - along(row, airC).waterC)
		switch {
		case !within(row, airC) || off > 5:
			return Beyond
		case off < 1e-9 && len(row) > 1:
			return Between
		}
		return OneWater
	}
	low, high := t.rows[i-1], t.rows[i]
	switch {
	case !within(low, airC) || !within(high, airC):
		return Beyond
	case len(low) == 1 || len(high) == 1:
		return OneWater
	}
	return Between
}

// along reads one row at an air temperature: between its points in a straight line, below a
// row of several by the Carnot share, else by the slope of the output.
func along(row []Rating, airC float64) figure {
	first, last := &row[0], &row[len(row)-1]
	switch {
	case len(row) > 1 && airC <= first.AirC:
		return carried(first, airC, first.WaterC)
	case airC <= first.AirC:
		return sloped(first, airC)
	case airC >= last.AirC:
		return sloped(last, airC)
	}
	i := 1
	for row[i].AirC < airC {
		i++
	}
	a, b := &row[i-1], &row[i]
	share := (airC - a.AirC) / (b.AirC - a.AirC)
	return figure{a.WaterC + share*(b.WaterC-a.WaterC), a.OutputW + share*(b.OutputW-a.OutputW), a.InputW + share*(b.InputW-a.InputW)}
}

// within reports whether the air lies among the row's points or within 5 K of them.
func within(row []Rating, airC float64) bool {
	return row[0].AirC-airC <= 5 && airC-row[len(row)-1].AirC <= 5
}
