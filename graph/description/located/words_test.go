package located

import "testing"

// Words as a user who has read nothing yet writes them, and what is offered for each.
func TestNear(t *testing.T) {
	kinds := []string{"tub", "pump", "filter", "element-heater", "heat-pump", "ball-valve", "gate-valve", "check-valve"}
	ways := []string{"left", "right", "up", "down", "back", "front"}
	for _, c := range []struct {
		word, want string
		words      []string
	}{
		{"heater", `did you mean "element-heater"?`, kinds},
		{"cartridge filter", `did you mean "filter"?`, kinds},
		{"heatpump", `did you mean "heat-pump"?`, kinds},
		{"valve", `did you mean "ball-valve", "gate-valve" or "check-valve"?`, kinds},
		{"backwards", `did you mean "back"?`, ways},
		{"rigth", `did you mean "right"?`, ways},
		{"right back", "there are left, right, up, down, back, front", ways}, // either
		{"gizmo", "there are left, right, up, down, back, front", ways},
	} {
		if got := Near(c.word, c.words); got != c.want {
			t.Errorf("%s: %s, want %s", c.word, got, c.want)
		}
	}
}
