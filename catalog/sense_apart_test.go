package catalog

import "testing"

// Ratings and flows as sheets have them, and with a minus or a decimal point that slipped.
func TestAirDisagrees(t *testing.T) {
	for _, c := range []struct {
		rows []RatingRow
		at   int
	}{
		{[]RatingRow{{2, 38, 8300, 0}, {15, 38, 12100, 0}}, -1},
		{[]RatingRow{{2, 38, 8300, 0}, {-15, 38, 12100, 0}}, 1},
		{[]RatingRow{{15, 38, 12100, 0}, {20, 38, 8300, 0}}, 0},
		{[]RatingRow{{7, 26, 9000, 0}, {15, 38, 6000, 0}}, -1}, // warmer water costs output
		{[]RatingRow{{-7, 38, 7000, 0}, {15, 38, 7000, 0}}, -1},
	} {
		if at, says := AirDisagrees(c.rows); at != c.at || (says == "") != (at < 0) {
			t.Errorf("%v: %d %q, want %d", c.rows, at, says, c.at)
		}
	}
}

// With a unit of 12 kW: at 2.8 m³/h it warms the water by 3.7 K, at 0.28 by 37 (4.16 MJ to a cubic metre and
// kelvin, IAPWS-95).
func TestFlowsDisagree(t *testing.T) {
	const h = 1. / 3600
	for _, c := range []struct {
		least, rated, most, output float64
		key                        string
	}{
		{2.8, 4.2, 8.4, 12000, ""}, {0.28, 4.2, 8.4, 12000, "least"}, {0.28, 4.2, 8.4, 0, ""}, {2.8, 4.2, 84, 12000, "most"},
		{2.8, 0, 8.4, 0, ""}, {0, 4.2, 8.4, 0, ""}, {2.8, 4.2, 0, 0, ""}, {0.01, 0, 8.4, 0, "most"},
	} {
		if key, says := FlowsDisagree(c.least*h, c.rated*h, c.most*h, c.output); key != c.key || (says == "") != (key == "") {
			t.Errorf("%v: %q %q", c, key, says)
		}
	}
}
