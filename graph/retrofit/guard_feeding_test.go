package retrofit

import (
	"os"
	"path/filepath"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/route/laying"
)

// What a cut in a run guards is asked of one run, or of all at once: both say the same.
func TestFeedingIsGuardedOfEachRun(t *testing.T) {
	files, err := filepath.Glob("../../testdata/*.toml")
	if err != nil || len(files) == 0 {
		t.Fatal(files, err)
	}
	guards := 0
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		c, ds := description.Read(file, data)
		if graph.HasErrors(ds) {
			t.Fatal(ds)
		}
		before := c.At(graph.Before)
		net := laying.Of(before).Stage.Net()
		feeds := feeding(c, net)
		for _, r := range before.Runs {
			one := work{}.guarded(c, net, r).guard
			if one != feeds[r.ID] {
				t.Errorf("%s: a cut in %s is guarded %v alone and %v with all", file, r.ID, one, feeds[r.ID])
			}
			if one {
				guards++
			}
		}
	}
	if guards == 0 {
		t.Error("no demo has a feeder")
	}
}
