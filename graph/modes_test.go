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
		{"two pumps", func(*Circuit) {}, "a map[a:on] / b map[b:on]"},
		{"one always on", func(c *Circuit) { c.Parts[0].Pump.AlwaysOn = true }, "a map[a:on] / b map[a:on b:on]"},
		{"one that always runs, for heat", func(c *Circuit) { c.Parts[0].Pump.RunsForHeat = RunsAlways }, "a map[a:on] / b map[a:on b:on]"},
		{"one of two with two speeds", func(c *Circuit) { c.Parts[0].Pump.Speeds = two }, "low map[a:low] / high map[a:high]"},
		{"both with two speeds", func(c *Circuit) { c.Parts[0].Pump.Speeds, c.Parts[1].Pump.Speeds = two, two },
			"a low map[a:low] / a high map[a:high] / b low map[b:low] / b high map[b:high]"},
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
