package job

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/settle"
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

// Two tubs of 1500 l on one water lose as two do, not as one of 3000 l: by hand 5 (1500/3.785)^(2/3) W over
// 23.3 K are 11.56 W/K each, one of 3000 l 18.35; and each has its own surface.
func TestTubsThatShareTheirWater(t *testing.T) {
	of := func(tubs int, m3 float64) *Report {
		q := testInput()
		c := q.Stage.Circuit
		c.Water.VolumeM3, c.HeatLoss, c.Use.AreaM2 = m3, nil, graph.Amount{}
		for i := range tubs {
			c.Parts = append(c.Parts, &graph.Part{ID: fmt.Sprint("tub", i), Kind: graph.Tub, Existing: true})
		}
		q.Stage = settle.Of(c)
		return still(q)
	}
	one, two, large := of(1, 1.5), of(2, 3), of(1, 3)
	const standing, area = "standing loss for each degree", "area of the water"
	for _, c := range []struct {
		r    *Report
		what string
		want float64
	}{{one, standing, 11.56}, {two, standing, 2 * 11.56}, {large, standing, 18.35}, {two, area, 2 * assumedOf(t, one, area).Value}} {
		if got := assumedOf(t, c.r, c.what); !agree.Within(got.Value, c.want, 0.02) {
			t.Errorf("%s: %.2f, want %.2f", c.what, got.Value, c.want)
		}
	}
	if got := assumedOf(t, two, standing).Source.String(); !strings.Contains(got, "2 tubs that share this volume alike") {
		t.Errorf("nobody is told that they are two: %s", got)
	}
}

func assumedOf(t *testing.T, r *Report, what string) Assumed {
	t.Helper()
	i := slices.IndexFunc(r.Assumed, func(a Assumed) bool { return a.What.String() == what })
	if i < 0 {
		t.Fatalf("%s is not among what is assumed", what)
	}
	return r.Assumed[i]
}
