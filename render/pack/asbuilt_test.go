package pack

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/plan"
	"dryfit/graph/practice"
	"dryfit/render/table/form"
)

// Each new pipe with legs, each new check and hand valve has its line, with a key the
// description knows and a blank; by hand for two of them.
func TestAsBuilt(t *testing.T) {
	p := demoPlan(t, "two-speed")
	c := asBuilt(p, form.Style{Units: quantity.MetricSystem})
	if len(c.Items) < 2 {
		t.Fatalf("%d items", len(c.Items))
	}
	rows := c.Items[len(c.Items)-1].Block.Grid.Rows
	keys := map[string]string{}
	for _, r := range rows {
		if len(r) != 4 || r[3] != "" {
			t.Errorf("row %q has no blank", r)
		}
		keys[r[1]] = r[2]
	}
	for _, r := range p.After.Circuit.Runs {
		if _, ok := keys["run "+r.ID+", legs"]; ok != ((r.New() || r.RemainsOf != "") && len(r.Legs) > 0) {
			t.Errorf("run %s: has a line: %v", r.ID, ok)
		}
	}
	for key := range keys { // each is typed back into the description of the plan, which has its part or run
		kind, rest, _ := strings.Cut(key, " ")
		id, _, _ := strings.Cut(rest, ", ")
		if key != "" && (kind != "run" || p.After.Circuit.Run(id) == nil) && (kind != "part" || p.After.Circuit.Part(id) == nil) {
			t.Errorf("%q is in no description", key)
		}
	}
	for key, want := range map[string]string{"run v1.out>drain-1-tee.run-in, legs": "front 96 mm, down 260 mm, right 111 mm", "part v1, position": "open", "part bypass, cracking": "13.8 kPa"} {
		if keys[key] != want {
			t.Errorf("%s: planned is %q, want %q", key, keys[key], want)
		}
	}
	if got := keys["run element.out>tee-a.run-in, legs"]; !strings.HasPrefix(got, "right 120 mm, up 260 mm, left ") { // the legs of the demo's return-line, to the cut
		t.Errorf("what is left of the old pipe is %q", got)
	}
	if got := legWords(graph.Leg{By: graph.Vec{X: -25.4, Z: 0.2}}, quantity.InchSystem); got != "left 1 in" {
		t.Errorf("a leg of an inch is %q", got)
	}
	if !strings.Contains(c.Items[0].Text, "--write-plan") {
		t.Error("nothing says where to type it")
	}
}

// Where a unit comes out each cut is in a run of its own, and has its line by its own name.
func TestAsBuiltWhereAUnitComesOut(t *testing.T) {
	file := filepath.Join("..", "..", "graph", "plan", "testdata", "jobs", "unit-out.toml")
	source, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	c := asBuilt(wanted(t, file, source, plan.Findings|plan.Lists), form.Style{Units: quantity.MetricSystem})
	var cuts []string
	for _, r := range c.Items[len(c.Items)-1].Block.Grid.Rows {
		if strings.HasPrefix(r[0], "cut X") {
			cuts = append(cuts, r[0][:len("cut X1")])
		}
	}
	if !slices.Equal(cuts, []string{"cut X1", "cut X2"}) {
		t.Errorf("lines for %v, want cut X1 and cut X2", cuts)
	}
}

// A leg is written with every part of it that a tape shows: 3 mm up on 450 mm to the back is none too small,
// what is no half of a millimetre is nothing.
func TestLegsAreWrittenWhole(t *testing.T) {
	for _, c := range []struct {
		by   graph.Vec
		want []string
	}{{graph.Vec{Y: 450, Z: 3}, []string{"back 450 mm", "up 3 mm"}}, {graph.Vec{X: -120, Z: 0.4}, []string{"left 120 mm"}}} {
		got := legWords(graph.Leg{By: c.by}, quantity.MetricSystem)
		for _, want := range c.want {
			if !strings.Contains(got, want) {
				t.Errorf("%v: %q, nothing of %q", c.by, got, want)
			}
		}
		if n := strings.Count(got, "mm"); n != len(c.want) {
			t.Errorf("%v: %q has %d lengths, want %d", c.by, got, n, len(c.want))
		}
	}
}

// What stands below the water at all runs out when it is opened, be it by a hand's breadth: the two-speed demo
// with its pump so high that the unit, 190 mm above it, is 20 mm under the water line.
func TestJustBelowTheWaterIsBelow(t *testing.T) {
	text := strings.Replace(string(readDemo(t, "two-speed")), `below-water = "620 mm"`, `below-water = "210 mm"`, 1)
	p := wanted(t, "two-speed.toml", []byte(text), plan.Findings)
	below, ok := p.After.Layout.Below(p.After.Circuit.TheUnit())
	if !ok || !agree.Within(below, 20, 0.5) {
		t.Fatalf("the unit lies %g mm below the water (%v), want 20", below, ok)
	}
	if got := factsOf(p, quantity.MetricSystem).Unit.Level; got != practice.BelowWater {
		t.Errorf("20 mm below the water is level %v, want %v", got, practice.BelowWater)
	}
}
