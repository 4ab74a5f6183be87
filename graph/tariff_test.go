package graph

import (
	"slices"
	"testing"
)

// Bands cover the day where they meet, over midnight too, or one ends where it begins; with a minute between two they
// do not. Of two that overlap the first counts.
func TestBandsByMinute(t *testing.T) {
	band := func(from, to int) TariffBand { return TariffBand{From: Clock{Minute: from}, To: Clock{Minute: to}} }
	for _, c := range []struct {
		bands []TariffBand
		want  bool
	}{
		{nil, false},
		{[]TariffBand{band(420, 1380), band(1380, 420)}, true},
		{[]TariffBand{band(390, 390)}, true},
		{[]TariffBand{band(0, 720), band(660, 1440)}, true},
		{[]TariffBand{band(1440, 720), band(720, 1440)}, true},
		{[]TariffBand{band(420, 1380), band(1380, 419)}, false},
		{[]TariffBand{band(1380, 420)}, false},
	} {
		of := (&Tariff{Bands: c.bands}).ByMinute()
		if got := !slices.Contains(of[:], 0); got != c.want {
			t.Errorf("%v: %t", c.bands, got)
		}
	}
	of := (&Tariff{Bands: []TariffBand{band(1380, 420), band(360, 540)}}).ByMinute()
	for minute, want := range map[int]int{0: 1, 419: 1, 420: 2, 539: 2, 540: 0, 1379: 0, 1380: 1} {
		if of[minute] != want {
			t.Errorf("minute %d is in band %d, want %d", minute, of[minute], want)
		}
	}
}
