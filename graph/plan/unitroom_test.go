package plan

import (
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
)

// The pipes found for a unit stay out of the room it wants before its fan and behind it, where
// there is a way round; pipes that go through it are a warning, and nothing worse. Heat pump
// manuals ask for that room (from memory).
func TestPipesStayOutOfTheUnitsAir(t *testing.T) {
	turned := func(s string) string {
		return strings.Replace(s, `ports-face = "left"`, `ports-face = "right"`, 1) + named
	}
	through := planOf(t, standing(t, turned)).Circuit
	for _, blows := range []string{"front", "up"} {
		free := planOf(t, standing(t, func(s string) string {
			return strings.Replace(turned(s), "kind = \"heat-pump\"\n", "kind = \"heat-pump\"\nblows = \""+blows+"\"\n", 1)
		}))
		if i := slices.IndexFunc(free.Findings, ofUnitRoom); i >= 0 {
			t.Errorf("blowing %s: %s", blows, free.Findings[i].Message)
		}
		through.Part("unit").Unit.Blows = blows
		p, err := Make(through, Findings)
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(p.Findings, ofUnitRoom)
		if i < 0 || p.Findings[i].Severity != graph.Warning {
			t.Errorf("blowing %s at the pipes led without it: no warning", blows)
		}
	}
}

func ofUnitRoom(d graph.Diagnostic) bool { return d.Rule == "unit-room" }
