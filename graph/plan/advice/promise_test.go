package advice

import (
	"math/rand/v2"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/settle"
)

// What is taken before what, by the words of promise.order; the flows are invented, in m³/h.
func TestOrderOfOutcomes(t *testing.T) {
	p := Promise{Least: 3, Rated: 5, Most: 8}
	for _, c := range []struct {
		name          string
		better, worse Outcome
		constant      bool
	}{
		{"an answer before none", of(2, 4), Outcome{Failed: 1}, false},
		{"the least flow before a twentieth less than it", of(3, 6), of(2.85, 6), false},
		{"the most flow before a twentieth more than it", of(5, 8), of(5, 8.4), false},
		{"less missing before more", of(2.9, 6), of(2.5, 6), false},
		{"missing at both ends counts both", of(2.8, 8), of(2.9, 8.3), false},
		{"rated before less than rated", of(5, 7), of(4.8, 7), false},
		{"nearly rated before half of it, whatever the jets keep", jets(of(4.6, 7), 0, 0.08), jets(of(3.1, 7), 0, 0.02), false},
		{"rated before nearly rated", jets(of(5, 7), 0, 0.08), jets(of(4.6, 7), 0, 0.02), false},
		{"what the jets keep decides between two that are nearly rated", jets(of(4.6, 7), 0, 0.02), jets(of(4.9, 7), 0, 0.08), false},
		{"what the jets keep decides between two that are rated", jets(of(5.2, 7), 0, 0.02), jets(of(6, 7), 0, 0.08), false},
		{"a spring that chatters costs a twentieth of the jets", jets(of(5.2, 7), 0, 0.08), chattering(jets(of(5.2, 7), 0, 0.04)), false},
		{"and no more", chattering(jets(of(5.2, 7), 0, 0.02)), jets(of(5.2, 7), 0, 0.08), false},
		{"where no jets lose, what lacks less of the rated flow", of(3.1, 5), of(3, 4), false},
		{"and before a spring that chatters", chattering(of(3.1, 5)), of(3, 4), false},
		{"where jets lose, what they lose", jets(of(3, 4), 0, 0.02), jets(of(3.1, 5), 0, 0.08), false},
		{"of what is the same else, by what the pump moves more", pumping(of(5.2, 7), 9, 30), pumping(of(5.2, 7), 9, 28), false},
		{"of a valve the flow nearest to rated", jets(of(5.1), 0.09), jets(of(6), 0.02), true},
	} {
		if got := p.Order(c.better, c.worse, c.constant); got >= 0 {
			t.Errorf("%s: order %d", c.name, got)
		}
		if got := p.Order(c.worse, c.better, c.constant); got <= 0 {
			t.Errorf("%s, the other way round: order %d", c.name, got)
		}
	}
	for _, c := range []struct {
		o     Outcome
		keeps bool
		rated bool
	}{
		{of(3, 8), true, false}, {of(2.99, 8), false, false}, {of(3, 8.01), false, false}, {of(5, 6), true, true},
		{Outcome{}, false, false}, {Outcome{Failed: 1, Unit: []float64{5}}, false, false},
	} {
		if p.Keeps(c.o) != c.keeps || p.KeepsRated(c.o) != c.rated {
			t.Errorf("%v: keeps %v, rated %v", c.o.Unit, p.Keeps(c.o), p.KeepsRated(c.o))
		}
	}
	// a tenth and two tenths of what is missing, in hundredths of the rated flow: 100·0.3/5
	if got := p.missed(of(2.9, 8.2)); got != 6 {
		t.Errorf("missed %d, want 6", got)
	}
}

// A unit of which nobody says what it asks for is chosen for by what is usual, and promised
// nothing. 0.35 m³/h a kW is AHRI 1160's rating flow (from memory): 9.4 kW ask for 3.29 m³/h.
func TestUnitOfUnknownNeed(t *testing.T) {
	u := &settle.Part{Part: &graph.Part{Kind: graph.HeatPump, Unit: &graph.UnitData{}}, Ratings: settle.Pick[[]graph.Rating]{V: []graph.Rating{{OutputW: 6400}, {OutputW: 9400}}}}
	p := PromiseOf(u)
	if !agree.Within(3600*p.Usual, 3.29, 0.001) || p.Asked() || p.Rated != 0 {
		t.Fatalf("%+v, want 3.29 m3/h usual and nothing asked", p)
	}
	weak, strong := of(0.5*p.Usual, p.Usual), of(1.1*p.Usual, 1.5*p.Usual)
	if !p.Keeps(weak) || p.KeepsRated(weak) || !p.KeepsRated(strong) {
		t.Error("a promise of nothing is broken, or half the usual flow counts as enough")
	}
	if weak, strong = jets(weak, 0.02, 0.02), jets(strong, 0.09, 0.09); p.Order(strong, weak, false) >= 0 {
		t.Error("half the usual flow is taken before the whole of it, for the jets")
	}
	u.Rated.V = 2
	if p = PromiseOf(u); p.Usual != 0 || !p.Asked() {
		t.Errorf("%+v of a unit whose rated flow is given", p)
	}
}

// An order does not rank three outcomes in a circle, whatever they are.
func TestOrderHasNoCircle(t *testing.T) {
	p := Promise{Least: 3, Rated: 5, Most: 8}
	lot := rand.New(rand.NewPCG(1, 2))
	drawn := func() Outcome {
		o := of(3+2.2*lot.Float64(), 4+2*lot.Float64())
		if lot.IntN(2) == 0 {
			o = jets(o, 0, 0.1*lot.Float64())
		}
		o.Pump = []float64{30 * lot.Float64(), 0}
		o.Chatters = lot.IntN(2)
		return o
	}
	for range 20000 {
		a, b, c := drawn(), drawn(), drawn()
		for _, constant := range []bool{false, true} {
			if p.Order(a, b, constant) < 0 && p.Order(b, c, constant) < 0 && p.Order(a, c, constant) >= 0 {
				t.Fatalf("constant %v: a before b before c, but c not after a: %+v %+v %+v", constant, a, b, c)
			}
		}
	}
}

func of(unit ...float64) Outcome {
	return Outcome{Unit: unit, Pump: make([]float64, len(unit)), JetsShare: make([]float64, len(unit))}
}

func jets(o Outcome, share ...float64) Outcome { o.JetsShare = share; return o }

func pumping(o Outcome, flow ...float64) Outcome { o.Pump = flow; return o }

func chattering(o Outcome) Outcome { o.Chatters++; return o }

// The unit's share of the pump's water, in words: 2 of 8 m3/h are a quarter, 6 of 20 three tenths; a mode
// whose pump moves nothing has none. By hand.
func TestSplitWords(t *testing.T) {
	c := BypassChoice{Modes: []ChoiceMode{{Mode: "low", UnitFlow: 2, BypassFlow: 6, PumpFlow: 8}, {Mode: "high", UnitFlow: 6, BypassFlow: 14, PumpFlow: 20}}}
	if got := splitWords(c); got != "the unit takes 25 % at low, 30 % at high" {
		t.Error(got)
	}
}
