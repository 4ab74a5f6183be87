package planfile

import (
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/render/tag"
)

// A survey that had left for right makes the same pieces, marks and joints: only the ways of the pipes tell.
func TestPipeThatGoesAnotherWay(t *testing.T) {
	run := func(id string, existing bool, remains string, ways ...graph.Vec) *graph.Run {
		r := &graph.Run{ID: id, Existing: existing, RemainsOf: remains}
		for _, w := range ways {
			r.Legs = append(r.Legs, graph.Leg{By: w})
		}
		return r
	}
	file := func(right float64) *Earlier {
		e := &Earlier{}
		e.file.Ways = ways([]*graph.Run{
			run("old", true, "", graph.Vec{X: right}),
			run("stub", true, "line", graph.Vec{X: right * 500}),
			run("riser", false, "", graph.Vec{Z: 300}),
			run("slant", false, "", graph.Vec{X: right * 300, Z: 300}, graph.Vec{Y: -90}),
			run("by-length", false, ""),
		})
		return e
	}
	names := &tag.Names{}
	if got := changedWays(file(1), file(1), names); got != nil {
		t.Errorf("the same ways: %q", got)
	}
	if got := changedWays(&Earlier{}, file(1), names); got != nil {
		t.Errorf("a pack that has no ways: %q", got)
	}
	got := strings.Join(changedWays(file(1), file(-1), names), "\n")
	if !strings.Contains(got, "on 2 runs") || !strings.Contains(got, "goes left, and not right") {
		t.Errorf("mirrored: %q", got)
	}
	one := file(1)
	one.file.Ways[2].Legs = []string{"left and up", "front"}
	got = strings.Join(changedWays(file(1), one, names), "\n")
	if !strings.Contains(got, "goes left and up, front, and not right and up, front") {
		t.Errorf("one slant: %q", got)
	}
}
