package plan

import (
	"strings"
	"testing"

	"dryfit/graph"
)

// With a check against a feeder in the pipe from the unit, water and air are cut off on both its
// sides: a unit below, beside or above the line has its drain and its bleed on each, wherever the
// branches point, or the warning says which leg lacks how much; nothing says it twice. Geometry, no
// source needed.
func TestTapsOnBothSidesOfAFeederCheck(t *testing.T) {
	for _, branch := range []string{"", "front", "down"} {
		for _, at := range []string{`"right 5200 mm", "front 1200 mm", "down 2600 mm"`, `"right 5200 mm", "front 700 mm", "down 900 mm"`, `"right 5200 mm", "front 1200 mm", "up 200 mm"`} {
			p := planOf(t, standing(t, func(text string) string {
				text = strings.Replace(text, "[[part]]\nid = \"jets\"", "[[part]]\nid = \"feeder\"\nkind = \"feeder\"\nexisting = true\n[[part]]\nid = \"jets\"", 1)
				text = strings.Replace(text, `to = "jets.in"`, "to = \"feeder.in\"", 1)
				text += "\n[[run]]\nfrom = \"feeder.out\"\nto = \"jets.in\"\nexisting = true\nlength = \"200 mm\"\n"
				text = strings.Replace(text, `"right 500 mm", "up 260 mm", "left 1450 mm", "up 150 mm"`, `"right 240 mm", "down 500 mm", "right 2400 mm"`, 1)
				if branch != "" {
					text = strings.Replace(text, "[retrofit]\n", "[retrofit]\nbranch = \""+branch+"\"\n", 1)
				}
				return strings.Replace(text, `"front 540 mm", "right 3400 mm", "down 500 mm"`, at, 1)
			}))
			checks := 0
			for _, part := range p.Circuit.Parts {
				if part.Kind == graph.CheckValve && strings.HasPrefix(part.ID, "feeder-check") {
					checks++
				}
			}
			if checks != 1 {
				t.Errorf("branch %q, at %s: %d checks against the feeder", branch, at, checks)
			}
			if graph.HasErrors(p.Findings) {
				t.Fatalf("branch %q, at %s: %v", branch, at, p.Findings)
			}
			short := 0
			for _, d := range p.Findings {
				if strings.Contains(string(d.Hint), "too short for it") {
					short++
				}
				if (d.Rule == "drain-at-low-points" || d.Rule == "bleed-at-high-points") && !strings.Contains(string(d.Hint), "too short for it") {
					t.Errorf("branch %q, at %s: %s (%s)", branch, at, d.Message, d.Hint)
				}
			}
			if near := strings.HasSuffix(at, `"down 900 mm"`); short > 1 || short > 0 && !near && branch != "down" {
				t.Errorf("branch %q, at %s: %d times no room", branch, at, short)
			}
		}
	}
}
