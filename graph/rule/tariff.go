package rule

import (
	"fmt"
	"slices"
	"strconv"

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

func onePriceAtATime(in *Input, report Report) {
	t := in.ask().c.Tariff
	if t == nil || len(t.Bands) == 0 {
		return
	}
	of := t.ByMinute()
	for i := range t.Bands {
		b := &t.Bands[i]
		overlaps := map[int][graph.DayMinutes]bool{}
		b.Minutes(func(minute int) {
			if first := of[minute]; first <= i && !samePrice(t.Bands[first-1].Price, b.Price) {
				at := overlaps[first]
				at[minute] = true
				overlaps[first] = at
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
	var none [graph.DayMinutes]bool
	for minute, band := range of {
		none[minute] = band == 0
	}
	if !slices.Contains(none[:], true) {
		return
	}
	from, to := timesOf(none)
	report(false, graph.Diagnostic{
		Pos: t.Pos, Severity: graph.Warning,
		Message: graph.Say("%s to %s has 0 prices, needs 1: nothing is worked out in money", from, to),
		Hint:    "write price, which holds outside the bands, or bands for the whole day",
	})
}

// samePrice reports whether two prices are one, however it is written: 0.3 is 0.30.
func samePrice(a, b string) bool {
	x, err := strconv.ParseFloat(a, 64)
	y, err2 := strconv.ParseFloat(b, 64)
	return err == nil && err2 == nil && x == y
}

// timesOf is the first stretch of minutes in a day, as times of day; one over midnight is whole.
func timesOf(at [graph.DayMinutes]bool) (from, to string) {
	first := 0
	for first < graph.DayMinutes && !(at[first] && !at[(first+graph.DayMinutes-1)%graph.DayMinutes]) {
		first++
	}
	if first == graph.DayMinutes { // all of the day
		return "00:00", "24:00"
	}
	end := first
	for at[end%graph.DayMinutes] {
		end++
	}
	clock := func(m int) string { return fmt.Sprintf("%02d:%02d", m/60, m%60) }
	return clock(first), clock((end-1)%graph.DayMinutes + 1)
}
