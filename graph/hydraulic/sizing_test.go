package hydraulic_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/hydraulic"
	"dryfit/graph/route/laying"
	"dryfit/graph/settle"
)

// What a part is said to cost is what it is solved with: a row of equipment that is chosen by its
// pump, and jets nobody measured, are not said by the flow or the bore of their row, for whoever
// works out the flow from that is off by much. Held on every demo as it is, and with what it says
// of drops and bores taken out.
func TestLossIsSaidAsItIsSolved(t *testing.T) {
	files, err := filepath.Glob("../../testdata/*.toml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no demos: %v", err)
	}
	known := regexp.MustCompile(`(?m)^(loss|bore|rated) = .*\n`)
	sized, jets := 0, 0
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, text := range []string{string(data), known.ReplaceAllString(string(data), "")} {
			c, ds := description.Read(name, []byte(text))
			if c == nil || graph.HasErrors(ds) {
				t.Fatalf("%s: %v", name, ds)
			}
			c = c.At(graph.Before)
			lay := laying.Of(c)
			m, err := hydraulic.Build(lay, c.AllModes()[0], graph.Before)
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			said := map[string]settle.Value{}
			for k, v := range lay.Stage.Values() {
				if k.What == "loss" {
					said[k.Of] = v
				}
			}
			for i := range m.Parts {
				p := &m.Parts[i]
				v, ok := said[p.Part.ID]
				if !ok {
					continue
				}
				if byPump := strings.Contains(v.Text, "pump"); byPump != (p.SizedTo() != "") {
					t.Errorf("%s: %s is said to cost %q, and was sized to pump %q", filepath.Base(name), p.Part.ID, v.Text, p.SizedTo())
				}
				if p.SizedTo() != "" {
					sized++
					if p.Part.Kind == graph.JetGroup {
						jets++
					}
				}
			}
		}
	}
	if sized < 10 || jets < 3 {
		t.Errorf("only %d parts sized to a pump, %d of them jets", sized, jets)
	}
}

// The cartridge and the heater of a tub whose one pump has one speed are those of tubs with two: at the
// jets' speed they take 10 to 30 and 10 to 25 kPa, at low speed 1 to 5 and 1 to 3 (from memory). Put at
// the full flow as they are at low speed, both would come out below those ranges. A pump for circulation
// filters at its only speed.
func TestOneSpeedTakesThePartsOfTwo(t *testing.T) {
	drops := func(pump string) (filter, heater float64) {
		c, ds := description.Read("one.toml", []byte(strings.Replace(oneSpeed, "PUMP", pump, 1)))
		if c == nil || graph.HasErrors(ds) {
			t.Fatal(ds)
		}
		c = c.At(graph.After)
		m, err := hydraulic.Build(laying.Of(c), c.AllModes()[0], graph.After)
		if err != nil {
			t.Fatal(err)
		}
		best, _ := m.Parts[m.PartAt["pump"]].Rise.Curve.Best()
		at := func(id string) float64 {
			h, _ := m.Parts[m.PartAt[id]].Law.Loss(best)
			return h * 9.80665 * m.Water.Density / 1000
		}
		return at("filter"), at("heater")
	}
	filter, heater := drops("type = \"jet-pump\"\npower = \"1.2 kW\"")
	if !(filter > 1.5*5 && filter < 30) || !(heater > 1.5*3 && heater < 25) {
		t.Errorf("behind a jet pump of one speed the cartridge takes %.1f kPa and the heater %.1f", filter, heater)
	}
	if filter, heater = drops("type = \"circulation-pump-1.5in\""); !(filter >= 1 && filter <= 5) || !(heater >= 1 && heater <= 3) {
		t.Errorf("behind a circulation pump the cartridge takes %.1f kPa and the heater %.1f", filter, heater)
	}
}

// Jets of which nobody knows a bore are taken as their maker sized them to the pump, groups by how many they
// are: of four and twelve the twelve get three times the water, where nothing else stands in either way.
func TestGroupsOfJetsShareByTheirCount(t *testing.T) {
	const two = `
[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b", "c"]
loss = "none"
[[part]]
id = "pump"
kind = "pump"
curve = [["0 m3/h", "10 m"], ["15 m3/h", "7 m"], ["30 m3/h", "0 m"]]
[[part]]
id = "m"
kind = "manifold"
ports = ["in", "left", "right"]
loss = "none"
[[part]]
id = "few"
kind = "jet-group"
count = 4
[[part]]
id = "many"
kind = "jet-group"
count = 12
`
	s := solve(t, two+join("tub.a", "pump.in")+join("pump.out", "m.in")+join("m.left", "few.in")+join("m.right", "many.in")+
		join("few.out", "tub.b")+join("many.out", "tub.c"), "on")
	approx(t, "twelve against four", s.Part("many").Flow, 3*s.Part("few").Flow, 1e-6)
}

const oneSpeed = `
[pipe]
spec = "pvc-sch40"
size = "2 in"
[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b"]
[[part]]
id = "pump"
kind = "pump"
PUMP
[[part]]
id = "filter"
kind = "filter"
[[part]]
id = "heater"
kind = "element-heater"
[[part]]
id = "jets"
kind = "jet-group"
count = 12
[[run]]
from = "tub.a"
to = "pump.in"
length = "1 m"
[[run]]
from = "pump.out"
to = "filter.in"
length = "1 m"
[[run]]
from = "filter.out"
to = "heater.in"
length = "1 m"
[[run]]
from = "heater.out"
to = "jets.in"
length = "1 m"
[[run]]
from = "jets.out"
to = "tub.b"
length = "0 mm"
`
