package twin

import (
	"math"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/hydraulic/spread"
)

// word counts what was promised of the unit's flow in some share of the samples, and how often
// it came true.
type word struct {
	n, kept int
	said    float64 // sum of the shares
}

// hear takes up the promises of a tub's unit that are said to be held at 80 to 95 of 100.
func (w *word) hear(r *spread.Ranges, c *graph.Circuit, truth answers) {
	unit := c.Part("unit")
	if unit == nil || unit.Unit == nil || unit.Unit.Rated == 0 { // known by its type alone: its limits are its row's
		return
	}
	for _, p := range r.Promises {
		flow, ok := truth[p.Mode]["unit"]
		if !ok || !(p.Share >= 0.80 && p.Share <= 0.95) {
			continue
		}
		var held bool
		switch p.Kind {
		case spread.LeastFlow:
			held = flow >= unit.Unit.Least
		case spread.RatedFlow:
			held = flow >= unit.Unit.Rated
		case spread.MostFlow:
			held = flow <= unit.Unit.Most
		default:
			continue
		}
		w.n++
		w.said += p.Share
		if held {
			w.kept++
		}
	}
}

// judge wants promises kept as often as they are said to be, within two standard deviations of
// such a share and five of 100 besides.
func (w *word) judge(t *testing.T) {
	t.Helper()
	if w.n == 0 {
		t.Error("nothing was promised at 80 to 95")
		return
	}
	n := float64(w.n)
	said, kept := w.said/n, float64(w.kept)/n
	t.Logf("of %d promises said to be held in %.0f of 100 there were %.0f kept", w.n, 100*said, 100*kept)
	if slack := 0.05 + 2*math.Sqrt(said*(1-said)/n); !agree.Within(kept, said, slack) {
		t.Errorf("of %d promises said to be held in %.0f of 100 there were %.0f kept", w.n, 100*said, 100*kept)
	}
}
