package pack

import (
	"strings"
	"testing"
	"time"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/graph/plan/stage"
	"dryfit/graph/route"
	"dryfit/graph/settle"
)

// The cure is never under a day, nor under two where it is cold (common practice, no
// source), however little the tables ask for a size.
func TestCureAt(t *testing.T) {
	small := []catalog.Size{{Nominal: 0.5}}
	for _, c := range []struct {
		air  float64
		want time.Duration
	}{{25, 24 * time.Hour}, {15, 24 * time.Hour}, {14.9, 48 * time.Hour}, {5, 48 * time.Hour}} {
		if got := cureAt(small, c.air); got != c.want {
			t.Errorf("at %g °C %v, want %v", c.air, got, c.want)
		}
	}
}

func TestHours(t *testing.T) {
	for _, c := range []struct {
		d    time.Duration
		want string
	}{{15 * time.Minute, "15 min"}, {90 * time.Minute, "90 min"}, {time.Hour, "1 h"}, {150 * time.Minute, "2.5 h"}, {48 * time.Hour, "48 h"}} {
		if got := hours(c.d); got != c.want {
			t.Errorf("%v is %q, want %q", c.d, got, c.want)
		}
	}
}

// The largest size comes first, each once, and joints without cement don't count.
func TestCementSizes(t *testing.T) {
	small, large := catalog.Size{Nominal: 0.75}, catalog.Size{Nominal: 2}
	p := &plan.Plan{After: &stage.Stage{Circuit: &graph.Circuit{}, Layout: &route.Layout{Joints: []route.Joint{
		{Kind: "cement", Size: small}, {Kind: "union", Size: catalog.Size{Nominal: 3}}, {Kind: "cement", Size: large}, {Kind: "slip", Size: small}}}}}
	got := cementSizes(p)
	if len(got) != 2 || got[0] != large || got[1] != small {
		t.Errorf("got %v, want [%v %v]", got, large, small)
	}
}

// 10 pieces, 10 cemented joints and 2 unions: 90 + 40 + 50 + 8 + 45 = 233 minutes of work
// and 60 + 150 to fill and test, 443 together. A third less is 4.9 h, a third more 9.8 h;
// with 24 h of cure 28 to 34 h, with 48 h in the cold 52 to 58 h.
func TestTubDown(t *testing.T) {
	lay := &route.Layout{Pieces: make([]route.Piece, 10)}
	for range 10 {
		lay.Joints = append(lay.Joints, route.Joint{Kind: "cement", Size: catalog.Size{Nominal: 1.5}})
	}
	lay.Joints = append(lay.Joints, route.Joint{Kind: "union"}, route.Joint{Kind: "union"})
	for _, c := range []struct {
		kind  graph.Kind
		water float64
		until string
		then  string
	}{
		{graph.ElementHeater, 38, "heating may start", "Then the heating up"},
		{graph.HeatExchanger, 38, "heating may start", "Then the heating up"},
		{graph.HeatPump, 8, "cooling may start", "Then the cooling down"}, // below 15 °C
		{graph.Tee, 38, "it runs again", "Then some hours"},
	} {
		circuit := &graph.Circuit{Parts: []*graph.Part{{Kind: c.kind}}, Water: graph.Water{TemperatureC: c.water, TemperatureSet: true}}
		lay.Stage = settle.Of(circuit)
		got := tubDown(&plan.Plan{After: &stage.Stage{Circuit: circuit, Layout: lay}}, quantity.MetricSystem)
		want := "From power off until " + c.until + ": 28 to 34 h in air of 15 °C and above, 52 to 58 h in air of 5 to 15 °C. " + c.then
		if len(got) == 0 || !strings.HasPrefix(got[0], want) {
			t.Errorf("%s, water of %g °C: got %q, want %q", c.kind, c.water, got, want)
		}
	}
}

// Where the tables ask for longer than the trade's own rule, all the work waits for it, and not for the handling
// alone: 3 in in frost want 72 h before water (a cement maker's table, cross-check), whatever smaller joints want.
func TestCureOfTheSlowestJoint(t *testing.T) {
	sizes := []catalog.Size{{Nominal: 3}, {Nominal: 0.5}}
	if got := cureAt(sizes, 0); got != 72*time.Hour {
		t.Errorf("3 in at 0 °C: %v, want 72 h", got)
	}
}
