package pack

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan"
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
