package curves

import (
	"testing"

	"dryfit/render/label"
	"dryfit/render/scene"
)

// Two duties beside each other: the far label's only cheap places send its leader through the
// near one, and it takes the dear place with a clear way instead.
func TestLeaderKeepsClearOfLabels(t *testing.T) {
	box := func(x, y float64) scene.Box { return scene.Box{MinX: x, MinY: y, MaxX: x + 10, MaxY: y + 4} }
	near := []label.Spot{{Box: box(5, 8)}}
	far := []label.Spot{{Box: box(25, 8), Cost: 1}, {Box: box(26, 9), Cost: 2}, {Box: box(-20, 8), Cost: 9}}
	d := &drawing{requests: []request{{lead: true}, {lead: true}}}
	at := scene.Point{X: 0, Y: 10}
	chosen, bad := d.choose([][]label.Spot{near, far}, [][]scene.Point{{{X: 4, Y: 10}}, {at, at, at}})
	if len(bad) != 0 || chosen[1] != 2 {
		t.Errorf("place %d of the far label, %v overlapping; want 2 and none", chosen[1], bad)
	}
}

// Hundreds of places of the far label lie behind the near one, and the near one has a place
// elsewhere: one of the two gives way, however many places there are.
func TestLeaderOfManyPlacesKeepsClear(t *testing.T) {
	box := func(x, y float64) scene.Box { return scene.Box{MinX: x, MinY: y, MaxX: x + 10, MaxY: y + 4} }
	near := []label.Spot{{Box: box(5, 8)}, {Box: box(5, 30), Cost: 5}}
	var far []label.Spot
	var at []scene.Point
	for n := range 200 {
		far = append(far, label.Spot{Box: box(20+0.05*float64(n), 8), Cost: 1})
		at = append(at, scene.Point{X: 0, Y: 10})
	}
	d := &drawing{requests: []request{{lead: true}, {lead: true}}}
	from := [][]scene.Point{{{X: 4, Y: 10}, {X: 4, Y: 10}}, at}
	labels := [][]label.Spot{near, far}
	chosen, bad := d.choose(labels, from)
	if struck := d.struck(labels, from, chosen); len(bad) != 0 || len(struck) != 0 {
		t.Errorf("places %v: %d overlapping, leaders through labels %v", chosen, len(bad), struck)
	}
}
