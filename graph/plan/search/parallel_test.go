package search

import (
	"os"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/plan/stage"
)

// A further unit is tried beside each that is there: where nobody measured the pipe to the first, beside
// the second, farther down the line. It was tried beside the first alone, and stood in a row.
func TestBesideEachUnit(t *testing.T) {
	data, err := os.ReadFile("../testdata/jobs/second-unit.toml")
	if err != nil {
		t.Fatal(err)
	}
	run := func(from, to, legs string) string {
		return "[[run]]\nfrom = \"" + from + "\"\nto = \"" + to + "\"\nexisting = true\nlegs = [" + legs + "]\n"
	}
	part := func(id, kind string) string {
		return "[[part]]\nid = \"" + id + "\"\nkind = \"" + kind + "\"\nexisting = true\n"
	}
	second := part("tee-c", "tee") + part("tee-d", "tee") + part("unit-x", "heat-pump") +
		"ports-size = \"2 in\"\nflow = { least = \"2.9 m3/h\", rated = \"4.1 m3/h\", most = \"9 m3/h\" }\nloss = { flow = \"4.1 m3/h\", drop = \"6 kPa\" }\n" +
		run("tee-c.run-out", "tee-d.run-in", `"right 900 mm"`) + run("tee-d.run-out", "tub.return", `"right 600 mm"`) +
		run("tee-c.branch", "unit-x.in", `"front 1500 mm"`) + run("unit-x.out", "tee-d.branch", `"back 1500 mm"`)
	text := strings.Replace(string(data), "to = \"tub.return\"\nexisting = true", "to = \"tee-c.run-in\"\nexisting = true", 1)
	for _, put := range [][2]string{
		{`legs = ["front 300 mm", "left 1500 mm"]`, `length = "1.8 m"`}, {`legs = ["left 100 mm"]`, `length = "100 mm"`},
		{"to = \"v1.in\"\nexisting = true\nlegs = [\"front 200 mm\"]", "to = \"v1.in\"\nexisting = true\nlength = \"200 mm\""},
		{"[[part]]\nid = \"unit-2\"", second + "[[part]]\nid = \"unit-2\""},
	} {
		if !strings.Contains(text, put[0]) {
			t.Fatalf("the job has no %q", put[0])
		}
		text = strings.Replace(text, put[0], put[1], 1)
	}
	c, ds := description.Read("job.toml", []byte(text))
	if c == nil || graph.HasErrors(ds) {
		t.Fatal(ds)
	}
	before := &stage.Stage{Circuit: c.At(graph.Before)}
	before.Lay()
	s := newSearch(c, before)
	s.beside()
	if len(s.trials) != 2 || s.trials[0].parallel() || !s.trials[1].parallel() || s.trials[1].beside != "unit-x" {
		t.Fatalf("%d trials: %+v", len(s.trials), s.trials)
	}
	if got := string(s.trials[0].built[0].Message); !strings.Contains(got, "the pipe to it is not known leg by leg") {
		t.Errorf("beside the first: %s", got)
	}
	if again := s.with(s.trials[1], nil); again == nil || again.beside != "unit-x" || again.place.Run != s.trials[1].place.Run {
		t.Errorf("tried again beside %+v", again)
	}
}
