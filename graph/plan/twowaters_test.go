package plan_test

import (
	"os"
	"regexp"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/plan"
	"dryfit/graph/plan/stage"
)

// A second tub with pipes of its own is put beside a job: the same tub again, its element in use
// and set hotter than the unit. The two waters never meet, so the unit, the jets and the pump of
// the job get what they got alone, and the other's element is no finding. Conservation of mass; no
// outside source is needed.
func TestAnotherWaterChangesNothing(t *testing.T) {
	data, err := os.ReadFile("../../testdata/large-circulation.toml")
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	other := `
[[part]]
id = "spa"
kind = "tub"
ports = ["out", "back"]

[[part]]
id = "spa-pump"
kind = "pump"
existing = true
always-on = true
curve = [["0 m3/h", "9 m"], ["8 m3/h", "6 m"], ["14 m3/h", "1 m"]]

[[part]]
id = "spa-element"
kind = "element-heater"
existing = true
disconnected = false
interlock = "set-point"
set-point = "39 °C"

[[part]]
id = "spa-jets"
kind = "jet-group"
existing = true
count = 6

`
	for _, ends := range [][2]string{{"spa.out", "spa-pump.in"}, {"spa-pump.out", "spa-element.in"}, {"spa-element.out", "spa-jets.in"}, {"spa-jets.out", "spa.back"}} {
		other += "[[run]]\nfrom = \"" + ends[0] + "\"\nto = \"" + ends[1] + "\"\nexisting = true\nlength = \"900 mm\"\n\n"
	}
	first := regexp.MustCompile(`(?m)^\[\[part\]\]\nid = "tub"`).FindStringIndex(text)[0]
	alone := work(t, read(t, "alone.toml", data), plan.Findings)
	both := work(t, read(t, "both.toml", []byte(text[:first]+other+text[first:])), plan.Findings)
	for _, d := range both.Findings {
		if d.Severity == graph.Error {
			t.Errorf("with another water: %s [%s]", d.Message, d.Rule)
		}
	}
	for _, part := range []struct {
		name        string
		alone, both *stage.Stage
	}{{"before", alone.Before, both.Before}, {"after", alone.After, both.After}} {
		if len(part.alone.Solutions) == 0 {
			t.Fatalf("%s: nothing is solved", part.name)
		}
		for i, s := range part.alone.Solutions {
			want, found := s.JetsFlow()
			if !found || want <= 0 {
				t.Fatalf("%s, %s: the jets get nothing", part.name, s.Mode.Name)
			}
			got, _ := part.both.Solutions[i].JetsFlow()
			if !agree.Within(got, want, 1e-6*want) {
				t.Errorf("%s, %s: the jets get %g m3/s beside another water, %g alone", part.name, s.Mode.Name, got, want)
			}
		}
	}
}

// The other water comes first in the file and is measured leg by leg too: the pipes to the unit
// are found from the water that at-from names, as if it stood alone.
func TestPlaceIsCountedInItsOwnWater(t *testing.T) {
	data, err := os.ReadFile("../../testdata/large-circulation.toml")
	if err != nil {
		t.Fatal(err)
	}
	text := replaced(t, string(data), []string{"cut = \"return-line\"\n", ""})
	other := `
[[part]]
id = "spa"
kind = "tub"
ports = ["out", "back"]

[[part]]
id = "spa-pump"
kind = "pump"
existing = true
type = "two-speed-pump"
runs-for-heat = "hours"

[[run]]
from = "spa.out"
to = "spa-pump.in"
existing = true
legs = ["right 700 mm"]

[[run]]
from = "spa-pump.out"
to = "spa.back"
existing = true
legs = ["up 300 mm", "left 900 mm"]

`
	first := regexp.MustCompile(`(?m)^\[\[part\]\]\nid = "tub"`).FindStringIndex(text)[0]
	both := work(t, read(t, "both.toml", []byte(text[:first]+other+text[first:])), plan.Findings)
	for _, d := range both.Findings {
		if d.Severity == graph.Error {
			t.Errorf("%s [%s]", d.Message, d.Rule)
		}
	}
}
