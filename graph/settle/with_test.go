package settle_test

import (
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/settle"
)

// A stage that takes over what it has in common with another is what settling it from the
// start gives: after each part and run of the demos is changed or taken out in turn, and
// between the demos' own stages before and after the work.
func TestWithIsOf(t *testing.T) {
	files, err := filepath.Glob("../../testdata/*.toml")
	if err != nil || len(files) == 0 {
		t.Fatal("no demos", err)
	}
	for _, file := range files {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		c, _ := description.Read(file, src)
		if c == nil {
			t.Fatal(file)
		}
		before, after := c.At(graph.Before), c.At(graph.After)
		same(t, file, settle.Of(before), after)
		same(t, file, settle.Of(after), before)
		base := settle.Of(after)
		for i := range after.Parts {
			same(t, file, base, withPart(after, i, func(p *graph.Part) { p.Size = catalog.Size{Nominal: 1} }))
			same(t, file, base, withPart(after, i, func(p *graph.Part) { p.Kind = graph.Union }))
			same(t, file, base, withPart(after, i, nil))
		}
		for i := range after.Runs {
			same(t, file, base, withRun(after, i, func(r *graph.Run) { r.Size = catalog.Size{Nominal: 3} }))
			same(t, file, base, withRun(after, i, nil))
		}
		hot := *after
		hot.Water.TemperatureC, hot.Water.TemperatureSet = 12, true
		same(t, file, base, &hot)
	}
}

// same holds what is taken over from a stage against what is settled from the start.
func same(t *testing.T, file string, base *settle.Stage, c *graph.Circuit) {
	t.Helper()
	got, want := base.With(c), settle.Of(c)
	for i := range want.Parts {
		if !reflect.DeepEqual(got.Parts[i], want.Parts[i]) {
			t.Fatalf("%s: part %s is settled otherwise", file, want.Parts[i].ID)
		}
	}
	for i := range want.Runs {
		if !reflect.DeepEqual(got.Runs[i], want.Runs[i]) {
			t.Fatalf("%s: run %s is settled otherwise", file, want.Runs[i].ID)
		}
		for k := range got.Runs[i].Ends {
			if e := &got.Runs[i].Ends[k]; e.Part != got.Part(e.Ref.Part) {
				t.Fatalf("%s: an end of run %s is at a part of another stage", file, want.Runs[i].ID)
			}
		}
	}
	if !reflect.DeepEqual(got.Water, want.Water) {
		t.Fatalf("%s: the water is another", file)
	}
}

// withPart returns the circuit with a part changed, or left out.
func withPart(c *graph.Circuit, i int, change func(*graph.Part)) *graph.Circuit {
	out := *c
	out.Parts = slices.Clone(c.Parts)
	if change == nil {
		out.Parts = slices.Delete(out.Parts, i, i+1)
		return &out
	}
	p := *c.Parts[i]
	change(&p)
	out.Parts[i] = &p
	return &out
}

// withRun returns the circuit with a run changed, or left out.
func withRun(c *graph.Circuit, i int, change func(*graph.Run)) *graph.Circuit {
	out := *c
	out.Runs = slices.Clone(c.Runs)
	if change == nil {
		out.Runs = slices.Delete(out.Runs, i, i+1)
		return &out
	}
	r := *c.Runs[i]
	change(&r)
	out.Runs[i] = &r
	return &out
}
