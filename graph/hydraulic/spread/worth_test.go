package spread

import "testing"

// What moves nothing by a two-hundredth is left out of what to measure, as the README says.
func TestWorthMeasuring(t *testing.T) {
	all := []Influence{{What: "a", Effect: 0.3}, {What: "b", Effect: 0.0051}, {What: "c", Effect: 0.0049}}
	if got := worth(all); len(got) != 2 || got[1].What != "b" {
		t.Errorf("%+v", got)
	}
}
