package tables

import (
	"sync"

	"dryfit/catalog"
	"dryfit/catalog/data"
	"dryfit/catalog/quantity"
)

// DeratingPoint is one line of a derating table.
type DeratingPoint struct {
	Table  string  // "inch", "metric", or "iso" (for comparison)
	TempC  float64 // of the water
	Factor float64 // share of the rating that is left
	Source string
}

var derating = sync.OnceValue(func() []DeratingPoint {
	s := data.Read("derating.csv")
	var out []DeratingPoint
	for _, l := range s.Lines {
		out = append(out, DeratingPoint{l[0], s.Amount(l[1], quantity.Temperature), s.Number(l[2]), l[3]})
	}
	return out
})

// Derating returns what share of its pressure rating pipe of the spec keeps with water of
// the temperature (°C), linear between the lines of its family's table, and the table's
// source. It is 1 below the first line and 0 above 60 °C, where PVC-U carries no pressure.
// Hose and parts of no spec go by the inch table, the more cautious up to 35 °C.
func Derating(spec catalog.Spec, tempC float64) (factor float64, source string) {
	table := "inch"
	if spec.Family() == catalog.Metric {
		table = "metric"
	}
	var before *DeratingPoint
	for _, p := range derating() {
		if p.Table != table {
			continue
		}
		source = p.Source
		if tempC <= p.TempC {
			if before == nil {
				return p.Factor, source
			}
			return between(tempC, before.TempC, before.Factor, p.TempC, p.Factor), source
		}
		before = &p
	}
	return 0, source
}

// RatingAt returns the row's pressure rating, Pa, with water of the temperature (°C), and
// the source of the derating; 0 where the row has no rating.
func RatingAt(r catalog.Row, tempC float64) (pa float64, source string) {
	spec := r.Spec
	if spec == "" && r.Size.Metric {
		spec = catalog.PVCPN16
	}
	factor, source := Derating(spec, tempC)
	return factor * r.RatingPa, source
}

// between returns y at x on the straight line through two points.
func between(x, x1, y1, x2, y2 float64) float64 {
	share := (x - x1) / (x2 - x1)
	return float64(y1*(1-share)) + float64(y2*share)
}
