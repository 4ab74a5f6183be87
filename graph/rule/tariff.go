package rule

import (
	"fmt"

	"dryfit/graph"
)

// tariffRules hold the prices of the day against each other.
func tariffRules() []*Rule {
	return []*Rule{
		{
			Name:     "one-price-at-a-time",
			Asks:     "Every time of day has one price: bands of the tariff do not overlap, and outside them there is a price.",
			Why:      "Of two prices the first counts, and a time without one leaves the whole year without: what is saved and when to heat are then of a tariff nobody has.",
			Source:   "arithmetic",
			Severity: graph.Warning,
			Anywhere: true,
			Check:    onePriceAtATime,
		},
	}
}

const dayMinutes = 24 * 60

func onePriceAtATime(in *Input, report Report) {
	t := in.ask().c.Tariff
	if t == nil || len(t.Bands) == 0 {
		return
	}
	var of [dayMinutes]int // the band that counts, from 1
	for i := range t.Bands {
		b := &t.Bands[i]
		overlaps := map[int][dayMinutes]bool{}
		minutesOf(b, func(minute int) {
			if first := of[minute]; first != 0 && t.Bands[first-1].Price != b.Price {
				at := overlaps[first]
				at[minute] = true
				overlaps[first] = at
			}
			if of[minute] == 0 {
				of[minute] = i + 1
			}
		})
		for first := range i {
			at, ok := overlaps[first+1]
			if !ok {
				continue
			}
			from, to := timesOf(at)
			other := &t.Bands[first]
			report(false, graph.Diagnostic{
				Pos: b.Pos, Severity: graph.Warning, Related: []graph.Related{{Pos: other.Pos, Message: "the band before it is here"}},
				Message: graph.Say("%s to %s has 2 prices, %s and %s, needs 1: the first is taken", from, to, other.Price, b.Price),
				Hint:    "end one band where the other begins",
			})
		}
	}
	if t.Price != "" {
		return
	}
	var none [dayMinutes]bool
	gap := false
	for minute, band := range of {
		none[minute] = band == 0
		gap = gap || band == 0
	}
	if !gap {
		return
	}
	from, to := timesOf(none)
	report(false, graph.Diagnostic{
		Pos: t.Pos, Severity: graph.Warning,
		Message: graph.Say("%s to %s has 0 prices, needs 1: nothing is worked out in money", from, to),
		Hint:    "write price, which holds outside the bands, or bands for the whole day",
	})
}

// minutesOf calls f with every minute of the day that a band covers; one that ends before it begins, or where it
// begins, runs past midnight.
func minutesOf(b *graph.TariffBand, f func(minute int)) {
	n := b.To.Minute - b.From.Minute
	if n <= 0 {
		n += dayMinutes
	}
	for k := range n {
		f((b.From.Minute + k) % dayMinutes)
	}
}

// timesOf is the first stretch of minutes in a day, as times of day; one over midnight is whole.
func timesOf(at [dayMinutes]bool) (from, to string) {
	first := 0
	for first < dayMinutes && !(at[first] && !at[(first+dayMinutes-1)%dayMinutes]) {
		first++
	}
	if first == dayMinutes { // all of the day
		return "00:00", "24:00"
	}
	end := first
	for at[end%dayMinutes] {
		end++
	}
	clock := func(m int) string { return fmt.Sprintf("%02d:%02d", m/60, m%60) }
	return clock(first), clock((end-1)%dayMinutes + 1)
}
