package plan

import (
	"strings"
	"testing"

	"dryfit/graph"
)

// Where no place is possible, the one that comes nearest stands on all of the pump's water: a side
// branch of which only the length is known (a waterfall, the second inlet) is not measured before
// what a few millimetres more on the line would make possible. Common practice, no source: a unit
// is fed by the whole line, for a branch gives it what its valve leaves.
func TestNearestIsOnTheWholeLine(t *testing.T) {
	p := planOf(t, standing(t, func(text string) string {
		text = strings.Replace(text, `ports = ["skimmer", "jets"]`, `ports = ["skimmer", "jets", "fall"]`, 1)
		text = strings.Replace(text, "[[part]]\nid = \"jets\"", "[[part]]\nid = \"fall-tee\"\nkind = \"tee\"\nexisting = true\n[[part]]\nid = \"jets\"", 1)
		text = strings.Replace(text, `"right 500 mm", "up 260 mm", "left 1450 mm", "up 150 mm"`, `"right 200 mm", "up 260 mm", "left 470 mm"`, 1)
		text = strings.Replace(text, `to = "jets.in"`, `to = "fall-tee.run-in"`, 1)
		return text + `
[[run]]
from = "fall-tee.run-out"
to = "jets.in"
existing = true
legs = ["left 120 mm"]
[[run]]
id = "fall-line"
from = "fall-tee.branch"
to = "tub.fall"
existing = true
length = "900 mm"
`
	}))
	for _, d := range p.Findings {
		if d.Severity == graph.Error && d.Rule == "retrofit" {
			if !strings.Contains(string(d.Message), "nearest is leg 3 of return-line") {
				t.Errorf("told: %s", d.Message)
			}
			return
		}
	}
	t.Error("a place was found in 470 mm of pipe")
}

// One cause is told once: pipe measured to be of another make is a mistake wherever the line is
// cut, and no reason against a place.
func TestMeasuredDiameterIsToldOnce(t *testing.T) {
	p := planOf(t, standing(t, func(text string) string {
		return strings.Replace(text, "size = \"2 in\"\n", "size = \"2 in\"\nmeasured-outside-diameter = \"63 mm\"\n", 1)
	}))
	if errs := graph.Errors(p.Findings); len(errs) != 1 || errs[0].Rule != "measured-diameter-fits-spec" {
		t.Errorf("told: %v", errs)
	}
}

// The line to cut that forgets existing = true is named, where nothing else can be cut.
func TestOldPipeNotSaidToExist(t *testing.T) {
	p := planOf(t, standing(t, func(text string) string {
		return strings.Replace(text, "to = \"jets.in\"\nexisting = true\n", "to = \"jets.in\"\n", 1)
	}))
	for _, d := range graph.Errors(p.Findings) {
		if d.Rule == "retrofit" && strings.Contains(string(d.Hint), `"return-line" joins two parts that are there already`) {
			return
		}
	}
	t.Errorf("told: %v", graph.Errors(p.Findings))
}
