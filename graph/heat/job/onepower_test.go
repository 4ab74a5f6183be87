package job

import (
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/heat"
	"dryfit/graph/settle"
)

// What a pump takes at a speed is one number, whatever is said of it: what was settled is what the
// year goes by, before and after, and what the supply is held against, and where nobody said it, it is
// noted once, with that number. Checked against nothing but itself: a property.
func TestOnePowerOfAPump(t *testing.T) {
	curve := func(head, flow float64) []graph.CurvePoint {
		return []graph.CurvePoint{{Flow: 0, Head: graph.Drop{Value: head, IsHead: true}}, {Flow: flow / 2, Head: graph.Drop{Value: 0.8 * head, IsHead: true}}, {Flow: flow, Head: graph.Drop{IsHead: true}}}
	}
	large, small := curve(15, 8e-3), curve(3.2, 0.8e-3)
	for what, speeds := range map[string][]graph.Speed{
		"two, watts of both":          {{Name: "low", PowerW: 240, Ratio: 0.5}, {Name: "high", PowerW: 1700, Curve: large}},
		"two, watts of high":          {{Name: "low", Ratio: 0.5}, {Name: "high", PowerW: 1700, Curve: large}},
		"two, none":                   {{Name: "low", Ratio: 0.5}, {Name: "high", Curve: large}},
		"two, efficiency":             {{Name: "low", Ratio: 0.5}, {Name: "high", Efficiency: 0.3, Curve: large}},
		"two curves":                  {{Name: "low", Curve: small}, {Name: "high", Curve: large}},
		"one, for all":                {{Name: graph.SpeedOn, Curve: large}},
		"one, for circulation":        {{Name: graph.SpeedOn, Curve: small}},
		"one, its efficiency":         {{Name: graph.SpeedOn, Efficiency: 0.1, Curve: small}},
		"names of one's own, ratio":   {{Name: "eco", Ratio: 0.6}, {Name: "boost", PowerW: 900, Curve: large}},
		"names of one's own, no watt": {{Name: "eco", Curve: small}, {Name: "boost", Curve: large}},
	} {
		for i := range speeds {
			speeds[i].HoursADay = graph.Given(4)
		}
		in := testInput()
		c := in.Stage.Circuit
		c.Part("pump").Pump.Speeds = speeds
		c.Supplies = []graph.Supply{{VoltageV: graph.Given(230)}}
		in.Stage = settle.Of(c)
		in.Unit, in.Heating.Pump = in.Stage.Part("unit"), in.Stage.Part("pump")
		pump := in.Heating.Pump
		in.Heating.Speed = speeds[0].Name
		a := NewAccount(in.Input)
		settled := pump.PowerAt(speeds[0].Name)
		if got := a.scene.today.PumpW; !agree.Within(got, settled.V, 1e-9) || !(got > 0) {
			t.Errorf("%s: the year goes by %.1f W, settled are %.1f", what, got, settled.V)
		}
		others, draws := 0.0, map[string]float64{}
		for i, s := range speeds {
			id := "pump"
			if len(speeds) > 1 {
				id += " (" + s.Name + ")"
			}
			draws[id] = pump.Powers[i].V
			if i > 0 {
				others += pump.Powers[i].V * 4 / 24
			}
			noted := 0
			for _, x := range a.assumed {
				if strings.HasPrefix(x.What.String(), "power of the pump") && strings.HasSuffix(x.What.String(), " at "+s.Name) {
					noted++
					if !agree.Within(x.Value, pump.Powers[i].V, 1e-9) || x.Source == "" {
						t.Errorf("%s: noted are %.1f W at %s, settled %.1f", what, x.Value, s.Name, pump.Powers[i].V)
					}
				}
			}
			if want := pump.Powers[i].How == settle.Assumed; want != (noted == 1) || noted > 1 {
				t.Errorf("%s: noted %d times at %s; assumed %v", what, noted, s.Name, want)
			}
		}
		if got := a.scene.today.OtherW; !agree.Within(got, others, 1e-9) {
			t.Errorf("%s: the other speeds take %.1f W, settled are %.1f", what, got, others)
		}
		for _, l := range a.supplies[0].Loads {
			if w, ok := draws[l.ID]; ok {
				if want := heat.Current(w, 230, catalog.MotorFactor); !agree.Within(l.RunningA, want, 1e-9) {
					t.Errorf("%s: %s draws %.2f A, want %.2f", what, l.ID, l.RunningA, want)
				}
				delete(draws, l.ID)
			}
		}
		if len(draws) > 0 {
			t.Errorf("%s: not on the supply: %v", what, draws)
		}
	}
}

// A pump that nobody has watts of takes what its like take: of the catalogue's own rows, their watts
// left out, each comes to its own, and of twice the flow
// to more, though larger motors waste less. Checked against the rows.
func TestPowerByTheCatalogue(t *testing.T) {
	in := testInput()
	c := in.Stage.Circuit
	for row := range in.Stage.Catalog().All() {
		if row.Kind != string(graph.Pump) {
			continue
		}
		of := func(wide float64) settle.Value {
			speeds := graph.SpeedsOf(*row)
			one := speeds[len(speeds)-1]
			one.Name, one.PowerW = graph.SpeedOn, 0
			for i := range one.Curve {
				one.Curve[i].Flow *= wide
			}
			c.Part("pump").Pump.Speeds = []graph.Speed{one}
			return settle.Of(c).Part("pump").Powers[0]
		}
		said := row.Speeds[len(row.Speeds)-1].PowerW
		if got := of(1); !agree.Within(got.V, said, 0.12*said) || got.How != settle.Assumed || !(got.Low < 0 && got.High > 0) {
			t.Errorf("%s: %+v, its row says %s", row.Name, got, quantity.Power.Of(said))
		}
		if one, two := of(1).V, of(2).V; !agree.Between(two, 1.1*one, 3.5*one) {
			t.Errorf("%s: %.0f W, of twice the flow %.0f", row.Name, one, two)
		}
	}
}
