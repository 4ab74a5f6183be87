package graph

import (
	"fmt"
	"strings"
	"testing"
)

func TestModes(t *testing.T) {
	two := []Speed{{Name: "low"}, {Name: "high"}}
	for _, c := range []struct {
		name  string
		setUp func(c *Circuit)
		want  string
	}{
		{"one pump, one speed", func(c *Circuit) { c.Parts = c.Parts[:1] }, "on map[a:on]"},
		{"one pump, one speed with a name", func(c *Circuit) {
			c.Parts = c.Parts[:1]
			c.Parts[0].Pump.Speeds = two[1:]
		}, "on map[a:high]"},
		{"two pumps", func(*Circuit) {}, "a map[a:on] / b map[b:on]"},
		{"one always on", func(c *Circuit) { c.Parts[0].Pump.AlwaysOn = true }, "a map[a:on] / b map[a:on b:on]"},
		{"one that always runs, for heat", func(c *Circuit) { c.Parts[0].Pump.RunsForHeat = RunsAlways }, "a map[a:on] / b map[a:on b:on]"},
		{"one of two with two speeds", func(c *Circuit) { c.Parts[0].Pump.Speeds = two }, "low map[a:low] / high map[a:high]"},
		{"both with two speeds", func(c *Circuit) { c.Parts[0].Pump.Speeds, c.Parts[1].Pump.Speeds = two, two },
			"a low map[a:low] / a high map[a:high] / b low map[b:low] / b high map[b:high]"},
		{"in series", func(c *Circuit) {
			c.Parts = append(c.Parts, &Part{ID: "filter", Kind: Filter}, &Part{ID: "tub", Kind: Tub})
			c.Parts[1].Pump.Speeds = two
			c.Runs = []*Run{{From: PortRef{Part: "a", Port: "out"}, To: PortRef{Part: "filter", Port: "in"}}, {From: PortRef{Part: "b", Port: "in"}, To: PortRef{Part: "filter", Port: "out"}}}
		}, "low map[b:low] / high map[b:high] / a and b map[a:on b:high]"},
		{"in series, the first of them always on", func(c *Circuit) {
			c.Parts[0].Pump.AlwaysOn = true
			c.Runs = []*Run{{From: PortRef{Part: "a", Port: "out"}, To: PortRef{Part: "b", Port: "in"}}}
		}, "a map[a:on] / b map[a:on b:on]"},
		{"the tub between", func(c *Circuit) {
			c.Parts = append(c.Parts, &Part{ID: "tub", Kind: Tub})
			c.Runs = []*Run{{From: PortRef{Part: "a", Port: "out"}, To: PortRef{Part: "tub", Port: "x"}}, {From: PortRef{Part: "tub", Port: "y"}, To: PortRef{Part: "b", Port: "in"}}}
		}, "a map[a:on] / b map[b:on]"},
		{"teed together", func(c *Circuit) {
			c.Parts = append(c.Parts, &Part{ID: "tee", Kind: Tee})
			c.Runs = []*Run{{From: PortRef{Part: "a", Port: "out"}, To: PortRef{Part: "tee", Port: "run-in"}}, {From: PortRef{Part: "b", Port: "out"}, To: PortRef{Part: "tee", Port: "branch"}}}
		}, "a map[a:on] / b map[b:on]"},
		{"in series, watts of the low speed alone", func(c *Circuit) {
			c.Parts[1].Pump.Speeds = []Speed{{Name: "low", PowerW: 190}, {Name: "high"}}
			c.Runs = []*Run{{From: PortRef{Part: "a", Port: "out"}, To: PortRef{Part: "b", Port: "in"}}}
		}, "low map[b:low] / high map[b:high] / a and b map[a:on b:high]"},
		{"in series, the faster speed written first", func(c *Circuit) {
			c.Parts[1].Pump.Speeds = []Speed{{Name: "day", Curve: []CurvePoint{{Head: Drop{Value: 14, IsHead: true}}}}, {Name: "night", PowerW: 190, Ratio: 0.6}}
			c.Runs = []*Run{{From: PortRef{Part: "a", Port: "out"}, To: PortRef{Part: "b", Port: "in"}}}
		}, "day map[b:day] / night map[b:night] / a and b map[a:on b:day]"},
		{"side by side, with a check round one from its suction", func(c *Circuit) {
			c.Parts = append(c.Parts, &Part{ID: "tee", Kind: Tee}, &Part{ID: "check", Kind: CheckValve}, &Part{ID: "suction", Kind: Tee})
			run := func(from, out, to, in string) {
				c.Runs = append(c.Runs, &Run{From: PortRef{Part: from, Port: out}, To: PortRef{Part: to, Port: in}})
			}
			run("a", "out", "tee", "run-in")
			run("b", "out", "tee", "branch")
			run("suction", "run-out", "b", "in")
			run("suction", "branch", "check", "in")
			run("check", "out", "tee", "run-out")
		}, "a map[a:on] / b map[b:on]"},
		{"written", func(c *Circuit) {
			c.Parts[0].Pump.AlwaysOn = true
			c.Modes = []Mode{{Name: "jets", Speeds: map[string]string{"b": "on", "gone": "high"}}}
		}, "jets map[a:on b:on]"},
	} {
		circ := &Circuit{Parts: []*Part{
			{ID: "a", Kind: Pump, Pump: &PumpData{}}, {ID: "b", Kind: Pump, Pump: &PumpData{}},
		}}
		c.setUp(circ)
		var got []string
		for _, m := range circ.AllModes() {
			got = append(got, fmt.Sprintf("%s %v", m.Name, m.Speeds))
		}
		if g := strings.Join(got, " / "); g != c.want {
			t.Errorf("%s: got %s, want %s", c.name, g, c.want)
		}
	}
}

// A pump of one speed on the line that heats has a mode of its own beside those of a pump with two
// that moves other water: without it the unit's water would stand in every mode.
func TestModesHeatingLoop(t *testing.T) {
	two := []Speed{{Name: "low"}, {Name: "high"}}
	run := func(from, to string) *Run { return &Run{From: PortRef{Part: from}, To: PortRef{Part: to}} }
	for _, c := range []struct {
		name  string
		setUp func(c *Circuit)
		want  string
	}{
		{"element on the line of the one", func(*Circuit) {}, "low map[jets:low] / high map[jets:high] / heat map[heat:on]"},
		{"element on the line of the two", func(c *Circuit) { c.Runs[1].To.Part, c.Runs[4].From.Part = "el", "el" },
			"low map[jets:low] / high map[jets:high]"},
		{"the one is never off", func(c *Circuit) { c.Part("heat").Pump.AlwaysOn = true },
			"low map[heat:on jets:low] / high map[heat:on jets:high]"},
		{"another of one speed on the heating line", func(c *Circuit) {
			c.Parts = append(c.Parts, &Part{ID: "second", Kind: Pump, Pump: &PumpData{}})
			c.Runs = append(c.Runs, run("tub", "second"), run("second", "el"))
		}, "low map[jets:low] / high map[jets:high] / heat map[heat:on] / second map[second:on]"},
		{"no element, the cut tells", func(c *Circuit) {
			c.Part("el").Kind = Filter
			c.Runs[3].ID = "line"
			c.Retrofit = &Retrofit{Cut: &Cut{Run: "line"}}
		}, "low map[jets:low] / high map[jets:high] / heat map[heat:on]"},
		{"nothing tells where heat belongs", func(c *Circuit) { c.Part("el").Kind = Filter }, "low map[jets:low] / high map[jets:high]"},
		{"one air line for both", func(c *Circuit) {
			c.Parts = append(c.Parts, &Part{ID: "air", Kind: AirControl})
			c.Runs = append(c.Runs, run("air", "el"), run("air", "jets"))
		}, "low map[jets:low] / high map[jets:high] / heat map[heat:on]"},
		{"one suction for both", func(c *Circuit) {
			c.Parts = append(c.Parts, &Part{ID: "tee", Kind: Tee})
			c.Runs[0].To.Part, c.Runs[2].From.Part = "tee", "tee"
			c.Runs = append(c.Runs, run("tee", "jets"), run("group", "tub"))
		}, "low map[jets:low] / high map[jets:high] / heat map[heat:on]"},
		{"one return for both, a bypass round the element", func(c *Circuit) {
			c.Parts = append(c.Parts, &Part{ID: "tee", Kind: Tee}, &Part{ID: "a", Kind: Tee}, &Part{ID: "b", Kind: Tee})
			c.Runs[3].To.Part, c.Runs[4].From.Part = "a", "tee"
			c.Runs = append(c.Runs, run("a", "el"), run("el", "b"), run("a", "b"), run("b", "tee"), run("group", "tee"))
		}, "low map[jets:low] / high map[jets:high] / heat map[heat:on]"},
		{"one line for both behind a tee, the element on it", func(c *Circuit) {
			c.Parts = append(c.Parts, &Part{ID: "tee", Kind: Tee})
			c.Runs[3].To.Part = "tee"
			c.Runs = append(c.Runs, run("group", "tee"), run("tee", "el"))
		}, "low map[jets:low] / high map[jets:high]"},
		{"a pump called as a speed", func(c *Circuit) {
			c.Part("heat").ID = "low"
			c.Runs[2].To.Part, c.Runs[3].From.Part = "low", "low"
		}, "jets low map[jets:low] / high map[jets:high] / low map[low:on]"},
	} {
		circ := &Circuit{Parts: []*Part{
			{ID: "tub", Kind: Tub}, {ID: "jets", Kind: Pump, Pump: &PumpData{Speeds: two}},
			{ID: "heat", Kind: Pump, Pump: &PumpData{}}, {ID: "el", Kind: ElementHeater}, {ID: "group", Kind: JetGroup},
		}, Runs: []*Run{run("tub", "jets"), run("jets", "group"), run("tub", "heat"), run("heat", "el"), run("el", "tub")}}
		c.setUp(circ)
		var got []string
		for _, m := range circ.AllModes() {
			got = append(got, fmt.Sprintf("%s %v", m.Name, m.Speeds))
		}
		if g := strings.Join(got, " / "); g != c.want {
			t.Errorf("%s: got %s, want %s", c.name, g, c.want)
		}
	}
}

func TestPortNames(t *testing.T) {
	for _, k := range Kinds() {
		names := k.PortNames()
		if (names == nil) != k.UserPorts() {
			t.Errorf("%s: ports %v", k, names)
		}
		if k.TwoPort() && !(len(names) >= 2 && names[0] == In && names[1] == Out) {
			t.Errorf("%s: ports %v, want in and out first", k, names)
		}
	}
}
