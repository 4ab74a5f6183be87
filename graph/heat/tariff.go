package heat

import "math"

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
	left := to - from
	sum := 0.0
	for _, b := range t.Bands {
		h := math.Min(left, b.covers(from, to))
		sum += h * b.Price
		left -= h
	}
	return (sum + left*t.Price) / (to - from)
}

// Covered reports whether the bands cover every hour of the day.
func (t Tariff) Covered() bool {
	for h := range 24 {
		left := 1.0
		for m := range 60 {
			for _, b := range t.Bands {
				if b.covers(float64(h)+float64(m)/60, float64(h)+float64(m+1)/60) > 1.0/120 {
					left -= 1.0 / 60
					break
				}
			}
		}
		if left > 1e-9 {
			return false
		}
	}
	return true
}

// byHour returns the mean price of each hour of the day.
func (t Tariff) byHour() [24]float64 {
	var out [24]float64
	for h := range out {
		out[h] = t.PriceBetween(float64(h), float64(h+1))
	}
	return out
}
