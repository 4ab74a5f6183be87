package removal

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/route/laying"
)

// A unit comes out by rule where its tees stand in one straight line; where the line turns between them, or
// turned at one of them alone, it can't be closed by one piece. Geometry, no source needed.
func TestTeesInOneStraightLine(t *testing.T) {
	const in, out = `legs = ["right 150 mm"]`, `to = "tee-b.run-in"
existing = true
legs = ["right 150 mm"]`
	job, err := os.ReadFile("../../plan/testdata/jobs/second-unit.toml")
	if err != nil {
		t.Fatal(err)
	}
	oneUnit, _, _ := strings.Cut(string(job), "[[part]]\nid = \"unit-2\"")
	way := func(legs string) string { return "to = \"tee-b.run-in\"\nexisting = true\nlegs = " + legs }
	for _, x := range []struct {
		name     string
		put      []string
		straight bool
	}{
		{"straight on", nil, true},
		{"a jog", []string{out, way(`["up 200 mm", "right 150 mm"]`)}, false},
		{"turned at the first tee", []string{out, way(`["up 400 mm", "left 150 mm", "up 300 mm"]`), `legs = ["right 1500 mm"]`, `legs = ["up 1500 mm"]`}, false},
		{"turned at the second tee", []string{`legs = ["right 500 mm"]`, `legs = ["right 200 mm", "up 500 mm"]`, in, `legs = ["up 150 mm"]`,
			out, way(`["up 400 mm", "left 150 mm", "up 300 mm", "right 150 mm"]`)}, false},
	} {
		text := oneUnit
		for i := 0; i < len(x.put); i += 2 {
			if !strings.Contains(text, x.put[i]) {
				t.Fatalf("%s: no line %q", x.name, x.put[i])
			}
			text = strings.Replace(text, x.put[i], x.put[i+1], 1)
		}
		c, ds := description.Read("one-unit.toml", []byte(text+"[retrofit]\nunit = \"unit-1\"\nremove = true\n"))
		if c == nil || graph.HasErrors(ds) {
			t.Fatal(x.name, ds)
		}
		lay := laying.Of(c.At(graph.Before))
		p, ds := Of(c, lay)
		if (p != nil) != x.straight {
			t.Errorf("%s: proposed %v, want %v: %v", x.name, p != nil, x.straight, ds)
		}
		if told := strings.Contains(fmt.Sprint(ds), "do not stand in one straight line"); told == x.straight {
			t.Errorf("%s: %v", x.name, ds)
		}
	}
}
