package graph

// DayMinutes is how many minutes a day has.
const DayMinutes = 24 * 60

// ByMinute returns for every minute of the day which band counts, from 1: of several the first; 0 outside all of
// them.
func (t *Tariff) ByMinute() (of [DayMinutes]int) {
	for i := range t.Bands {
		t.Bands[i].Minutes(func(minute int) {
			if of[minute] == 0 {
				of[minute] = i + 1
			}
		})
	}
	return of
}

// Minutes calls f with every minute of the day that the band covers; one that ends before it begins, or where it
// begins, runs past midnight.
func (b *TariffBand) Minutes(f func(minute int)) {
	n := b.To.Minute - b.From.Minute
	if n <= 0 {
		n += DayMinutes
	}
	for k := range n {
		f((b.From.Minute + k) % DayMinutes)
	}
}
