package drawing

import (
	"math"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/hydraulic"
	"dryfit/render/scene"
)

// Each arrow of an isometric points the way the water goes on its pipe, as the solved flows say, in every
// mode in which there is any. The drawing has its ways from the net, before anything is solved. Where the
// unit's own pump is off, another's water may stray through its line either way.
func TestArrowsGoWithTheWater(t *testing.T) {
	looked := 0
	for name, p := range everyPlan(t) {
		if p.After == nil || len(p.After.Solutions) == 0 {
			continue
		}
		flows := map[string][]float64{}
		for i := range p.After.Solutions {
			if slices.ContainsFunc(p.After.Solutions[i].Parts, func(f hydraulic.PartFlow) bool { return f.Idle() }) {
				continue
			}
			for _, r := range p.After.Solutions[i].Runs {
				if q := hydraulic.Passing(r.Flow); q != 0 {
					flows[r.Run.ID] = append(flows[r.Run.ID], q)
				}
			}
		}
		for _, s := range drawn(t, p, "isometric", quantity.InchSystem) {
			for _, it := range s.Items {
				arrow, ok := it.(scene.Shape)
				id, named := strings.CutPrefix(arrow.Name, "flow:")
				if !ok || !named {
					continue
				}
				along := alongPipe(s, id, arrow)
				for _, q := range flows[id] {
					looked++
					if along*q < 0 {
						t.Errorf("%s: the arrow on %s goes against %.2f m³/h", name, id, q*3600)
					}
				}
			}
		}
	}
	if looked < 20 {
		t.Errorf("%d arrows were looked at", looked)
	}
}

// alongPipe is 1 for an arrow that points from the start of its run to the end, -1 the other way: legs are
// drawn from their start.
func alongPipe(s *scene.Scene, id string, arrow scene.Shape) float64 {
	tip := arrow.Paths[0].Start
	mid := scene.Bounds(arrow).Centre()
	way, least := 0.0, math.Inf(1)
	for _, it := range s.Items {
		pipe, ok := it.(scene.Shape)
		if !ok || pipe.Name != "run:"+id {
			continue
		}
		a, b := pipe.Paths[0].Start, pipe.Paths[0].Segments[0].To
		ux, uy := b.X-a.X, b.Y-a.Y
		long := math.Hypot(ux, uy)
		share := math.Max(0, math.Min(1, ((mid.X-a.X)*ux+(mid.Y-a.Y)*uy)/(long*long)))
		if off := math.Hypot(mid.X-a.X-share*ux, mid.Y-a.Y-share*uy); off < least {
			least, way = off, math.Copysign(1, (tip.X-mid.X)*ux+(tip.Y-mid.Y)*uy)
		}
	}
	return way
}
