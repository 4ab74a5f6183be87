package job

import (
	"slices"
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/settle"
)

// loadOf is what the unit of a job draws where the description says so much of it.
func loadOf(t *testing.T, change func(*graph.Part), voltage float64) (runs, starts float64, fuse settle.Value) {
	t.Helper()
	in := testInput()
	c := *in.Stage.Circuit
	unit := *c.Part("unit")
	data := *unit.Unit
	unit.Unit = &data
	change(&unit)
	c.Parts = []*graph.Part{&unit}
	if voltage > 0 {
		c.Supplies = []graph.Supply{{VoltageV: graph.Given(voltage)}}
	}
	in.Stage = settle.Of(&c)
	in.Unit = in.Stage.Part("unit")
	for _, l := range still(in).Supplies[0].Loads {
		if l.ID == "unit" {
			return l.RunningA, l.StartA, in.Unit.Fuse
		}
	}
	t.Fatal("the unit draws nothing")
	return 0, 0, fuse
}

// The plate comes first, then the row the description names, then what the ratings draw. Source
// of the row's figures: beside them in the catalogue.
func TestWhatTheUnitDraws(t *testing.T) {
	row, _ := catalog.Embedded().Row("heat-pump 12 kW")
	named := func(p *graph.Part) { p.Type, p.Unit = "heat-pump 12 kW", &graph.UnitData{} }
	if a, s, f := loadOf(t, named, 0); a != row.FullLoadA || s != row.StartingA || f.V != row.FuseA || !(a > 0) {
		t.Errorf("type alone: %.1f A, %.1f A at a start, fuse %.0f A; its row says %.1f, %.1f, %.0f", a, s, f.V, row.FullLoadA, row.StartingA, row.FuseA)
	}
	// the same watts at half the voltage are twice the current
	if a, s, f := loadOf(t, named, 115); !agree.Within(a, 2*row.FullLoadA, 1e-9) || !agree.Within(s, 2*row.StartingA, 1e-9) || f.Known {
		t.Errorf("at 115 V: %.1f A, %.1f A at a start, the fuse of 230 V taken: %v", a, s, f.Known)
	}
	// and of three phases, 400 V between two of them, each has a third of them at 230.9 V
	if a, _, _ := loadOf(t, named, 400); !agree.Within(a, row.FullLoadA*230/(3*230.94), 0.001) {
		t.Errorf("at 400 V of three phases: %.2f A", a)
	}
	if a, _, _ := loadOf(t, func(p *graph.Part) { named(p); p.Unit.VoltageV = 230 }, 400); !agree.Within(a, row.FullLoadA, 1e-9) {
		t.Errorf("a unit of 230 V on one of three phases: %.2f A", a)
	}
	plate := func(p *graph.Part) {
		named(p)
		p.Unit.FullLoadA, p.Unit.FuseA, p.Unit.Electric.StartingA = 13, 20, graph.Given(25)
	}
	if a, s, f := loadOf(t, plate, 115); a != 13 || s != 25 || f.V != 20 {
		t.Errorf("by its plate: %.1f A, %.1f A at a start, fuse %.0f A", a, s, f.V)
	}
	// ratings and no type: 9 kW at a COP of 3.6 are 2.5 kW, at 230 V and a factor of 0.95 11.44 A
	if a, s, f := loadOf(t, func(*graph.Part) {}, 0); !agree.Within(a, 11.44, 0.01) || !agree.Within(s, 5*11.44, 0.05) || f.Known {
		t.Errorf("by its ratings: %.2f A, %.1f A at a start, a fuse %v", a, s, f.Known)
	}
}

// What a circuit asks for is said: 3 kW at 230 V are 13.04 A, more than a plug of 13 A by 0.3 %; a
// kept element is what to interlock; what is too much by itself wants its own circuit, or one of a higher rating
// where it has it; unit and pump, which heats with it, are kept apart by none; and
// what is not judged says so. By hand: 2 kW 8.70 A, unit 14.5 A, pump 1.7 kW at 0.8 9.24 A.
func TestWhatTheSupplyAsksFor(t *testing.T) {
	says := func(elementW float64, disconnected bool, s graph.Supply) string {
		in := testInput()
		in.Stage.Circuit.Supplies = []graph.Supply{s}
		if slices.Contains(s.Feeds, "circulation") {
			in.Stage.Circuit.Parts = append(in.Stage.Circuit.Parts, &graph.Part{ID: "circulation", Kind: graph.Pump, Existing: true, Pump: &graph.PumpData{Speeds: []graph.Speed{{PowerW: 200}}}})
		}
		for _, p := range in.Stage.Circuit.Parts {
			if p.Element != nil {
				p.Element.PowerW, p.Element.Disconnected = elementW, disconnected
			}
			if p.Unit != nil {
				p.Unit.FullLoadA = 14.5
			}
		}
		in.Stage = settle.Of(in.Stage.Circuit)
		in.Unit, in.Heating.Pump = in.Stage.Part("unit"), in.Stage.Part("pump")
		if slices.Contains(s.Feeds, "circulation") {
			in.Heating.Pump = in.Stage.Part("circulation")
		}
		out := ""
		for _, x := range answer(question{Input: in.Input}).Supplies[0].Says {
			out += x.String() + "; "
		}
		return out
	}
	for _, c := range []struct {
		what        string
		elementW    float64
		off         bool
		supply      graph.Supply
		want, never string
	}{
		{"3 kW on a plug", 3000, false, graph.Supply{Feeds: []string{"element"}, VoltageV: graph.Given(230), RatingA: graph.Given(13), Connection: "plug"}, "3 kW at 230 V are 13.04 A, more than the plug's 13.00 A", "for a moment"},
		{"2.8 kW on a plug", 2800, false, graph.Supply{Feeds: []string{"element"}, VoltageV: graph.Given(230), RatingA: graph.Given(13), Connection: "plug"}, "plug and socket run hot over hours", "more than"},
		{"a kept element", 2000, false, graph.Supply{RatingA: graph.Given(25)}, "\"element\" kept by an interlock, or by the controller's low-power mode, from running with \"unit\" and \"pump\" (high)", "own by itself"},
		{"too much for its own", 2000, true, graph.Supply{Feeds: []string{"unit"}, RatingA: graph.Given(10)}, "\"unit\" draws more than the circuit bears, 10 A: it wants one of a higher rating", "interlock"},
		{"too much by itself", 2000, false, graph.Supply{Feeds: []string{"unit", "element"}, RatingA: graph.Given(10)}, "\"unit\" draws more than the circuit bears, 10 A, by itself: it wants a circuit of its own", "interlock"},
		{"each too much", 2000, false, graph.Supply{Feeds: []string{"unit", "element"}, RatingA: graph.Given(8)}, "\"unit\" and \"element\" each draw more than the circuit bears, 8 A: each wants a circuit of its own", "interlock"},
		{"unit and its pump", 2000, true, graph.Supply{Feeds: []string{"unit", "circulation"}, RatingA: graph.Given(15)}, "\"circulation\" on a circuit of its own; kept by an interlock from running with \"unit\" the unit would not heat", "low-power"},
		{"a start", 2000, true, graph.Supply{Feeds: []string{"unit"}, RatingA: graph.Given(20)}, "72.5 A for a moment at a start", "more than the circuit"},
		{"not judged", 2000, true, graph.Supply{Feeds: []string{"unit"}, RatingA: graph.Given(20)}, "the dip at a start is not judged", "plug"},
		{"hours not said", 2000, true, graph.Supply{Feeds: []string{"unit"}, RatingA: graph.Given(20)}, "(continuous)", "plug"},
		{"hours said", 2000, true, graph.Supply{Feeds: []string{"unit"}, RatingA: graph.Given(20), Continuous: graph.Given(0.8), Impedance: graph.Given(0.4)}, "", "not"},
	} {
		got := says(c.elementW, c.off, c.supply)
		if !strings.Contains(got, c.want) || strings.Contains(got, c.never) {
			t.Errorf("%s: %s", c.what, got)
		}
	}
}

// The start that is told is the greatest there is, though what runs heaviest holds another: 3 kW
// of element are 13.04 A and start at no more, a unit of 11.44 A at five times that. Source:
// I = P/U by hand.
func TestGreatestStartIsTold(t *testing.T) {
	in := testInput()
	c := *in.Stage.Circuit
	element := *c.Part("element")
	element.Element = &graph.ElementData{PowerW: 3000, Interlock: graph.InterlockChangeover}
	c.Parts = []*graph.Part{c.Part("unit"), &element}
	c.Supplies = []graph.Supply{{RatingA: graph.Given(16), VoltageV: graph.Given(230)}}
	in.Stage = settle.Of(&c)
	in.Unit = in.Stage.Part("unit")
	s := still(in).Supplies[0]
	if len(s.Together) != 2 || !agree.Within(s.Together[0].WithStart, 13.04, 0.01) {
		t.Fatalf("%+v", s.Together)
	}
	for _, say := range s.Says {
		if strings.Contains(say.String(), "57.2 A for a moment") {
			return
		}
	}
	t.Errorf("57.2 A at the unit's start are not told: %v", s.Says)
}

// The plate of a unit says the voltage of the circuit that feeds it, and of no other: 1700 W at a power
// factor of 0.8 are 9.24 A at the usual 230 V, and 9.20 A on one of the three phases of the unit's own
// 400 V. Source: I = P/(U cos φ) by hand.
func TestPlateSaysTheVoltageOfItsOwnCircuit(t *testing.T) {
	volts := func(supplies ...graph.Supply) (out []float64, pumpA float64) {
		in := testInput()
		c := *in.Stage.Circuit
		unit := *c.Part("unit")
		data := *unit.Unit
		data.VoltageV, data.FullLoadA = 400, 5
		unit.Unit = &data
		c.Parts = []*graph.Part{&unit, c.Part("pump"), c.Part("element")}
		c.Supplies = supplies
		in.Stage = settle.Of(&c)
		in.Unit, in.Heating.Pump = in.Stage.Part("unit"), in.Stage.Part("pump")
		for _, s := range still(in).Supplies {
			out = append(out, s.VoltageV)
			for _, l := range s.Loads {
				if strings.HasPrefix(l.ID, "pump") {
					pumpA = max(pumpA, l.RunningA)
				}
			}
		}
		return out, pumpA
	}
	at := func(line int) graph.Pos { return graph.Pos{File: "job.toml", Line: line, Column: 1} }
	own := graph.Supply{Feeds: []string{"unit"}, RatingA: graph.Given(10), Pos: at(1)}
	if got, a := volts(own, graph.Supply{Feeds: []string{"pump"}, RatingA: graph.Given(16), Pos: at(2)}); len(got) != 2 || got[0] != 400 || got[1] != 230 || !agree.Within(a, 9.24, 0.005) {
		t.Errorf("%v V, the pump %.2f A; want 400 and 230 V, 9.24 A", got, a)
	}
	if got, a := volts(graph.Supply{RatingA: graph.Given(16), Pos: at(1)}); len(got) != 1 || got[0] != 400 || !agree.Within(a, 9.20, 0.005) {
		t.Errorf("all on the unit's circuit: %v V, the pump %.2f A; want 400 V, 9.20 A", got, a)
	}
}

// On a supply of three phases pump and element stand between one of them and the neutral, at 230.94
// V, and hang on the same one: by hand 2 kW 8.66 A, pump 1.7 kW at 0.8 9.20 A, unit 9 A by its plate,
// 26.86 A on that phase; the 17.86 A of the two return by the neutral, so that 20 m of 4 mm² (5.5 mV
// for each ampere and metre of one core) lose 4.92 V of 230.94, 2.13 %.
func TestThreePhases(t *testing.T) {
	of := func(list ...graph.Supply) *Report {
		in := testInput()
		in.Stage.Circuit.Supplies = list
		for _, p := range in.Stage.Circuit.Parts {
			if p.Element != nil {
				p.Element.PowerW, p.Element.Disconnected = 2000, false
			}
			if p.Unit != nil {
				p.Unit.FullLoadA, p.Unit.VoltageV = 9, 400
			}
		}
		in.Stage = settle.Of(in.Stage.Circuit)
		in.Unit, in.Heating.Pump = in.Stage.Part("unit"), in.Stage.Part("pump")
		return answer(question{Input: in.Input})
	}
	cable := &graph.Cable{SectionMM2: graph.Given(4), LengthMM: graph.Given(20000)}
	r := of(graph.Supply{Feeds: []string{"pump", "element", "unit"}, Cable: cable})
	s := r.Supplies[0]
	if a := s.Together[0].RunningA; !agree.Within(a, 26.86, 0.01) || !agree.Within(100*s.DropV/s.VoltageV, 2.13, 0.005) {
		t.Errorf("together %.2f A, a drop of %.2f %%", a, 100*s.DropV/s.VoltageV)
	}
	if said := s.Says; len(said) == 0 || !strings.Contains(said[0].String(), "taken to have three phases") {
		t.Errorf("it is not said what hangs on one phase: %q", said)
	}
	phases := func(r *Report) (of []string) {
		for _, a := range r.Assumed {
			if strings.HasPrefix(a.What.String(), "phases of ") {
				of = append(of, a.What.String())
			}
		}
		return of
	}
	if got := phases(r); !slices.Equal(got, []string{"phases of the supply"}) {
		t.Errorf("that it has three phases is assumed, and told is %q", got)
	}
	if got := phases(of(graph.Supply{VoltageV: graph.Given(230)})); len(got) > 0 {
		t.Errorf("of one phase: %q", got)
	}
}

// Of several supplies of which nobody says the voltage each is told by what it feeds: two lines that read
// alike tell nobody which to look at.
func TestEachSupplyIsToldByItsName(t *testing.T) {
	in := testInput()
	in.Stage.Circuit.Supplies = []graph.Supply{
		{Feeds: []string{"unit"}, Pos: graph.Pos{File: "job.toml", Line: 1, Column: 1}},
		{Pos: graph.Pos{File: "job.toml", Line: 2, Column: 1}},
	}
	in.Stage = settle.Of(in.Stage.Circuit)
	in.Unit, in.Heating.Pump = in.Stage.Part("unit"), in.Stage.Part("pump")
	var got []string
	for _, a := range still(in).Assumed {
		if strings.HasPrefix(a.What.String(), "voltage of ") {
			got = append(got, a.What.String())
		}
	}
	slices.Sort(got)
	if want := []string{`voltage of the supply of "unit"`, "voltage of the supply of all that no other feeds"}; !slices.Equal(got, want) {
		t.Errorf("%q; want %q", got, want)
	}
}
