package heat

import (
	"math"
	"slices"
)

// Band is a time of day with a price of its own; one that ends before it begins runs past
// midnight.
type Band struct {
	FromH, ToH float64 // hours of the day, 0 to 24
	Price      float64 // a kWh
}

// Tariff is what electricity costs.
type Tariff struct {
	Price    float64 // a kWh, outside the bands
	Known    bool
	NoRest   bool    // the bands cover the day, and no price is said outside them
	Standing float64 // a day
	Bands    []Band
}

// covers returns how much of the time from a to b (hours of a day) the band covers [h].
func (b Band) covers(from, to float64) float64 {
	end := b.ToH
	if end <= b.FromH {
		end += 24
	}
	sum := 0.0
	for _, day := range []float64{-24, 0} {
		sum += math.Max(0, math.Min(to, end+day)-math.Max(from, b.FromH+day))
	}
	return sum
}

// PriceBetween returns the mean price from a to b, hours of one day. Where bands overlap the
// first counts.
func (t Tariff) PriceBetween(from, to float64) float64 {
	edges := []float64{from, to}
	for _, b := range t.Bands {
		for _, h := range []float64{b.FromH, b.ToH} {
			if h > from && h < to {
				edges = append(edges, h)
			}
		}
	}
	slices.Sort(edges)
	sum := 0.0
	for i, end := range edges[1:] { // a band covers all of what lies between two edges, or nothing
		price, start := t.Price, edges[i]
		if k := slices.IndexFunc(t.Bands, func(b Band) bool { return b.covers(start, end) > (end-start)/2 }); k >= 0 {
			price = t.Bands[k].Price
		}
		sum += price * (end - start)
	}
	return sum / (to - from)
}

// byHour returns the mean price of each hour of the day.
func (t Tariff) byHour() [24]float64 {
	var out [24]float64
	for h := range out {
		out[h] = t.PriceBetween(float64(h), float64(h+1))
	}
	return out
}
