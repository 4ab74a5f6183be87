package solid

import (
	"testing"

	"dryfit/graph"
)

// A case of 1000 by 350 by 800 mm with a corner at the origin: each zone lies against one of its
// faces, as wide and as high as that, and so deep as is asked for. By hand.
func TestZonesLieAgainstTheCase(t *testing.T) {
	type corners struct{ low, high graph.Vec }
	for _, c := range []struct {
		blows, service string
		want           map[string]corners
	}{
		{"front", "right", map[string]corners{
			"before its fan":                    {graph.Vec{Y: -1500}, graph.Vec{X: 1000, Z: 800}},
			"behind it, where it draws its air": {graph.Vec{Y: 350}, graph.Vec{X: 1000, Y: 650, Z: 800}},
			"at its service side":               {graph.Vec{X: 1000}, graph.Vec{X: 1600, Y: 350, Z: 800}},
		}},
		{"up", "left", map[string]corners{
			"before its fan":                       {graph.Vec{Z: 800}, graph.Vec{X: 1000, Y: 350, Z: 2300}},
			"at its left, where it draws its air":  {graph.Vec{X: -300}, graph.Vec{Y: 350, Z: 800}},
			"at its right, where it draws its air": {graph.Vec{X: 1000}, graph.Vec{X: 1300, Y: 350, Z: 800}},
			"at its front, where it draws its air": {graph.Vec{Y: -300}, graph.Vec{X: 1000, Z: 800}},
			"at its back, where it draws its air":  {graph.Vec{Y: 350}, graph.Vec{X: 1000, Y: 650, Z: 800}},
			"at its service side":                  {graph.Vec{X: -600}, graph.Vec{Y: 350, Z: 800}},
		}},
	} {
		u := &graph.Part{ID: "unit", Kind: graph.HeatPump, Unit: &graph.UnitData{Blows: c.blows, ServiceSide: c.service,
			Clearances: graph.Clearances{Fan: graph.Given(1500), Behind: graph.Given(300), Service: graph.Given(600)}}}
		zones := Zones(u, graph.Vec{}, graph.Vec{X: 1000, Y: 350, Z: 800}, []graph.Vec{{X: 1}})
		if len(zones) != len(c.want) {
			t.Errorf("blowing %s: %d zones, want %d", c.blows, len(zones), len(c.want))
		}
		for _, z := range zones {
			if want, ok := c.want[z.What]; !ok || z.Low != want.low || z.High != want.high {
				t.Errorf("blowing %s, %s: %v to %v, want %v to %v", c.blows, z.What, z.Low, z.High, want.low, want.high)
			}
			if z.Ports != (z.Way == graph.Vec{X: 1}) {
				t.Errorf("blowing %s, %s: ports there %v, and they look right", c.blows, z.What, z.Ports)
			}
		}
	}
}
