package tag

import (
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
)

// A ball valve that passes 13 % of its full Kv has K 3.4 on its bore: between 20 degrees from
// open, 1.56, and 30, 5.5 (Weisbach's cock, as in openings.csv), some 65 from shut.
func TestHand(t *testing.T) {
	ball, gate := &graph.Part{Kind: graph.BallValve}, &graph.Part{Kind: graph.GateValve}
	for _, c := range []struct {
		p        *graph.Part
		kv, full float64
		want     string
	}{
		{ball, 13, 100, "HANDLE 65° from shut"},
		{gate, 43.5, 100, "OPEN 75 % of its turns"},
		{ball, 13, 0, "PART SHUT, by the flow"},
		{ball, 120, 100, "PART SHUT, by the flow"},
	} {
		if got := Hand(c.p, c.kv, c.full); got != c.want {
			t.Errorf("Kv %g of %g: %q, want %q", c.kv, c.full, got, c.want)
		}
	}
	for open, want := range map[float64]string{0: "SHUT", 1: "OPEN", 0.5: "HANDLE 45° from shut"} {
		if got := Turned(graph.ButterflyValve, open); got != want {
			t.Errorf("%g open: %q, want %q", open, got, want)
		}
	}
	// by hand: d = 52.5 mm, k = 3.1: 3600 · 0.0021648 m² · 8.0322 = 62.60
	if got := FullKv(3.1, 52.5); !agree.Within(got, 62.60, 0.05) {
		t.Errorf("Kv of K 3.1 on 52.5 mm is %.2f, want 62.60", got)
	}
}
