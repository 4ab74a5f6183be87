package job

import (
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/heat"
	"dryfit/graph/settle"
)

// What stands on all three phases draws of each P/(√3 U cos φ), and nothing of it returns by the neutral. By
// hand, element 2 kW, pump 1.7 kW at 0.8, unit 9 A by its plate, 20 m of 4 mm² (5.5 mV for each ampere and
// metre of one core, 0.11 Ω each way):
//
//	208 V, all on three:        5.551 + 5.898 + 9 = 20.449 A; 0.11 Ω · √3 · 20.449 A = 3.896 V
//	208 V, the element on two:  9.615 + 5.898 + 9 = 24.513 A; 0.11 Ω · (√3 · 14.898 + 2 · 9.615) A = 4.954 V
//	400 V, all on three:        2.887 + 3.067 + 9 = 14.954 A; 0.11 Ω · √3 · 14.954 A = 2.849 V
//
// That 208 V stand between two of three phases is told where something is counted so, and so it is of any
// other voltage on which something stands on all three.
func TestLoadsOnAllThreePhases(t *testing.T) {
	cable := &graph.Cable{SectionMM2: graph.Given(4), LengthMM: graph.Given(20000)}
	for _, c := range []struct {
		volts         float64
		element, rest int // phases
		amperes, drop float64
		told          bool
	}{
		{208, 3, 3, 20.449, 3.896, false}, {208, 0, 3, 24.513, 4.954, true}, {208, 1, 3, 24.513, 4.954, true}, {208, 0, 0, 9.615 + 10.216 + 9, 0.22 * 28.831, true},
		{230, 0, 3, 8.696 + 5.334 + 9, 0.11 * (math.Sqrt(3)*14.334 + 2*8.696), true}, {230, 0, 0, 8.696 + 9.239 + 9, 0.22 * 26.935, false},
		{400, 3, 3, 14.954, 2.849, true},
	} {
		in := testInput()
		in.Stage.Circuit.Supplies = []graph.Supply{{VoltageV: graph.Given(c.volts), Cable: cable, Feeds: []string{"pump", "element", "unit"}}}
		for _, p := range in.Stage.Circuit.Parts {
			switch {
			case p.Element != nil:
				p.Element.PowerW, p.Element.Disconnected, p.Element.Electric.Phases = 2000, false, c.element
			case p.Unit != nil:
				p.Unit.FullLoadA, p.Unit.VoltageV, p.Unit.Electric.Phases = 9, c.volts, c.rest
			case p.Pump != nil:
				p.Pump.Electric.Phases = c.rest
			}
		}
		in.Stage = settle.Of(in.Stage.Circuit)
		in.Unit, in.Heating.Pump = in.Stage.Part("unit"), in.Stage.Part("pump")
		r := answer(question{Input: in.Input})
		s := r.Supplies[0]
		if a := s.Together[0].RunningA; !agree.Within(a, c.amperes, 0.005) || !agree.Within(s.DropV, c.drop, 0.005) {
			t.Errorf("%g V, element on %d, the rest on %d: %.3f A and a drop of %.3f V, want %.3f and %.3f", c.volts, c.element, c.rest, a, s.DropV, c.amperes, c.drop)
		}
		told := slices.ContainsFunc(r.Assumed, func(a Assumed) bool { return strings.HasPrefix(a.What.String(), "phases of ") })
		if told != c.told {
			t.Errorf("%g V, element on %d, the rest on %d: its phases are told: %v", c.volts, c.element, c.rest, told)
		}
	}
}

// Why something is taken as it is says its lengths and temperatures in the units of the paper.
func TestWhyIsInTheUnitsOfThePaper(t *testing.T) {
	metric := regexp.MustCompile(`[0-9] (mm|°C)\b`)
	in := testInput()
	in.Stage.Circuit.Site.Sheltered = "indoor"
	in.Stage = settle.Of(in.Stage.Circuit)
	in.Unit, in.Heating.Pump = in.Stage.Part("unit"), in.Stage.Part("pump")
	told := 0
	for _, a := range answer(question{Input: in.Input}).Assumed {
		said := a.Source.In(quantity.InchSystem)
		if metric.MatchString(said) {
			t.Errorf("%s: %q", a.What, said)
		}
		if strings.Contains(said, "°F") {
			told++
		}
	}
	if told == 0 {
		t.Error("no temperature is told")
	}
}

// What a plug gives is volts times amperes: √3 · 208 V · 10 A on all three phases, by hand 3,603 VA, though 208 V is
// taken for one phase where nothing stands on three; beside 5 A between two of them 1,040 more.
func TestWattsOfAllThreePhases(t *testing.T) {
	s := Supply{VoltageV: 208, Loads: []heat.Consumer{{ID: "unit", RunningA: 10, Balanced: true}, {ID: "pump", RunningA: 5}}}
	for _, c := range []struct {
		set  heat.Set
		want float64
	}{
		{heat.Set{IDs: []string{"unit"}, RunningA: 10}, 3602.67}, {heat.Set{IDs: []string{"unit", "pump"}, RunningA: 15}, 4642.67}, {heat.Set{IDs: []string{"pump"}, RunningA: 5}, 1040},
	} {
		if got := s.watts(c.set); !agree.Within(got, c.want, 0.01) {
			t.Errorf("%v: %.2f VA, want %.2f", c.set.IDs, got, c.want)
		}
	}
}
