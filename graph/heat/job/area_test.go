package job

import (
	"testing"

	"dryfit/graph/agree"
)

// A plunge pool of 3 m by 2 m and 1.5 m deep holds 9 m³ over 6 m² of water; a tub of 2.1 m square
// (4.4 m² of top, of which the lip takes a fifth) holds some 1.5 m³. Dimensions from memory: a comparison
// to a third, not a check.
func TestUsualArea(t *testing.T) {
	for _, c := range []struct {
		m3, m2 float64
		pool   bool
	}{{9, 6, true}, {1.5, 3.5, false}} {
		got, high, _ := usualArea(c.m3, c.pool)
		if !agree.Between(c.m2, got*leastArea, got*high) || !agree.Within(got, c.m2, 0.35*c.m2) {
			t.Errorf("%v m3, pool %v: %.1f m2 (%.1f to %.1f), want %.1f among them", c.m3, c.pool, got, got*leastArea, got*high, c.m2)
		}
	}
}
