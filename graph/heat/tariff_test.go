package heat

import (
	"testing"

	"dryfit/graph/agree"
)

// Of bands that overlap the first counts, and the rest of an hour costs what is said outside them: a second band of
// the same half hour does not reach into the other.
func TestPriceBetween(t *testing.T) {
	tariff := Tariff{Price: 0.40, Bands: []Band{{FromH: 6, ToH: 6.5, Price: 0.10}, {FromH: 6, ToH: 6.5, Price: 0.20}, {FromH: 22, ToH: 2.5, Price: 0.30}}}
	for _, c := range []struct{ from, to, want float64 }{
		{6, 7, 0.25}, {6, 6.5, 0.10}, {6.5, 7, 0.40}, {5.75, 6.25, 0.25}, {23, 24, 0.30}, {2, 3, 0.35}, {0, 24, (0.5*0.10 + 4.5*0.30 + 19*0.40) / 24},
	} {
		if got := tariff.PriceBetween(c.from, c.to); !agree.Within(got, c.want, 1e-9) {
			t.Errorf("%g to %g costs %.4f, want %.4f", c.from, c.to, got, c.want)
		}
	}
}

// What a tariff asks by the day is asked on every day: of February 28 times, in a leap year 29, and nothing of it
// hangs on what is used.
func TestStandingChargeIsByTheDay(t *testing.T) {
	plant := &Plant{ElementW: 20e3, Heating: AnyTime(), Runs: PumpOnCall}
	for days, february := range map[int]float64{365: 28, 366: 29} {
		w := &Weather{Hours: make([]Air, days*24)}
		for i := range w.Hours {
			w.Hours[i] = Air{TempC: 10, Humidity: 0.8}
		}
		free, asked := Year(yearTub(0), plant, w, Tariff{Price: 0.30, Known: true}), Year(yearTub(0), plant, w, Tariff{Price: 0.30, Standing: 2, Known: true})
		if got := asked.Cost - free.Cost; !agree.Within(got, 2*float64(days), 1e-9*asked.Cost) {
			t.Errorf("2 a day makes %.4f of %d days", got, days)
		}
		for month, want := range map[int]float64{0: 31, 1: february, 3: 30} {
			if got := asked.Months[month].Cost - free.Months[month].Cost; !agree.Within(got, 2*want, 1e-9*asked.Cost) {
				t.Errorf("month %d of %d days in the year: %.4f, want %g", month+1, days, got, 2*want)
			}
		}
	}
}
