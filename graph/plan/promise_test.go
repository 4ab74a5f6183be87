package plan

import (
	"math"
	"os"
	"slices"
	"testing"

	"dryfit/catalog"
	"dryfit/graph/description"
	"dryfit/graph/retrofit"
)

// What is taken before what, by the words of promise.order; the flows are invented, in m³/h.
func TestOrderOfOutcomes(t *testing.T) {
	p := promise{least: 3, rated: 5, most: 8}
	for _, c := range []struct {
		name          string
		better, worse outcome
		constant      bool
	}{
		{"an answer before none", of(2, 4), outcome{failed: 1}, false},
		{"the least flow before a twentieth less than it", of(3, 6), of(2.85, 6), false},
		{"the most flow before a twentieth more than it", of(5, 8), of(5, 8.4), false},
		{"less missing before more", of(2.9, 6), of(2.5, 6), false},
		{"missing at both ends counts both", of(2.8, 8), of(2.9, 8.3), false},
		{"rated before less than rated", of(5, 7), of(4.8, 7), false},
		{"what the jets keep decides between two that are rated", jets(of(5.2, 7), 0, 0.02), jets(of(6, 7), 0, 0.08), false},
		{"a spring that chatters costs a twentieth of the jets", jets(of(5.2, 7), 0, 0.08), chattering(jets(of(5.2, 7), 0, 0.04)), false},
		{"and no more", chattering(jets(of(5.2, 7), 0, 0.02)), jets(of(5.2, 7), 0, 0.08), false},
		{"of a valve the flow nearest to rated", jets(of(5.1), 0.09), jets(of(6), 0.02), true},
	} {
		if got := p.order(c.better, c.worse, c.constant); got >= 0 {
			t.Errorf("%s: order %d", c.name, got)
		}
		if got := p.order(c.worse, c.better, c.constant); got <= 0 {
			t.Errorf("%s, the other way round: order %d", c.name, got)
		}
	}
	for _, c := range []struct {
		o     outcome
		keeps bool
		rated bool
	}{
		{of(3, 8), true, false}, {of(2.99, 8), false, false}, {of(3, 8.01), false, false}, {of(5, 6), true, true},
		{outcome{}, false, false}, {outcome{failed: 1, unit: []float64{5}}, false, false},
	} {
		if p.keeps(c.o) != c.keeps || p.keepsRated(c.o) != c.rated {
			t.Errorf("%v: keeps %v, rated %v", c.o.unit, p.keeps(c.o), p.keepsRated(c.o))
		}
	}
	// a tenth and two tenths of what is missing, in hundredths of the rated flow: 100·0.3/5
	if got := p.missed(of(2.9, 8.2)); got != 6 {
		t.Errorf("missed %d, want 6", got)
	}
}

func of(unit ...float64) outcome {
	return outcome{unit: unit, pump: make([]float64, len(unit)), jetsShare: make([]float64, len(unit))}
}

func jets(o outcome, share ...float64) outcome { o.jetsShare = share; return o }

func chattering(o outcome) outcome { o.chatters++; return o }

// Of two places alike but for one thing, the one a fitter would take.
func TestOrderOfPlaces(t *testing.T) {
	place := func(room float64, doubts ...retrofit.Doubt) *trial {
		return &trial{place: retrofit.Place{RoomMM: room, NeededMM: 400, Doubts: doubts}, untried: true}
	}
	long := retrofit.Doubt{What: "check", MM: 95, OverMM: 60}
	for _, c := range []struct {
		name          string
		better, worse *trial
	}{
		{"more room to spare", place(900), place(500)},
		{"less room that is sure", place(420), place(450, long)},
	} {
		if byMerit(c.better, c.worse) >= 0 || byMerit(c.worse, c.better) <= 0 {
			t.Errorf("%s comes second", c.name)
		}
	}
	if _, ok := place(450, long).place.Deciding(); !ok {
		t.Error("50 mm to spare and 60 uncertain decide nothing")
	}
}

// A cracking pressure that is asked for is met by the nearest spring there is.
func TestNearestSpring(t *testing.T) {
	const psi = 6894.757
	data, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	c, ds := description.Read("two-speed.toml", data)
	if c == nil {
		t.Fatal(ds)
	}
	all := c.Catalog.Springs()
	if len(all) < 3 || !slices.IsSortedFunc(all, func(a, b catalog.Row) int { return int(math.Copysign(1, a.CrackingPa-b.CrackingPa)) }) {
		t.Fatalf("%d springs, the weakest first?", len(all))
	}
	s := &search{asked: c}
	c.Retrofit.Spring = ""
	for _, want := range all {
		for _, off := range []float64{-0.05, 0.05} {
			c.Retrofit.SpringPa = want.CrackingPa + off*psi
			if got := s.springs(); len(got) != 1 || got[0].Name != want.Name {
				t.Errorf("asked for %.2f psi: %v, want %s", c.Retrofit.SpringPa/psi, got, want.Name)
			}
		}
	}
}
