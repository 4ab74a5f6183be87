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
