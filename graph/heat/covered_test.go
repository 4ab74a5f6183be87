package heat

import "testing"

// Bands cover the day where they meet, over midnight too, or one ends where it begins; with a minute between two they
// do not.
func TestBandsThatCoverTheDay(t *testing.T) {
	for _, c := range []struct {
		bands []Band
		want  bool
	}{
		{nil, false},
		{[]Band{{FromH: 7, ToH: 23}, {FromH: 23, ToH: 7}}, true},
		{[]Band{{FromH: 6.5, ToH: 6.5}}, true},
		{[]Band{{FromH: 0, ToH: 12}, {FromH: 11, ToH: 24}}, true},
		{[]Band{{FromH: 7, ToH: 23}, {FromH: 23, ToH: 7 - 1./60}}, false},
		{[]Band{{FromH: 23, ToH: 7}}, false},
	} {
		if got := (Tariff{Bands: c.bands}).Covered(); got != c.want {
			t.Errorf("%v: %t", c.bands, got)
		}
	}
}
