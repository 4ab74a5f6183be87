package symbol

import (
	"testing"

	"dryfit/graph"
	"dryfit/render/scene"
)

func TestEveryKindHasASign(t *testing.T) {
	legends := map[string]graph.Kind{}
	for _, k := range graph.Kinds() {
		s := Of(k, Look{Pen: 0.35})
		if len(s.Items) == 0 || s.Legend == "" || s.Legend == "unknown part" {
			t.Errorf("%s has no sign", k)
			continue
		}
		if other, ok := legends[s.Legend]; ok {
			t.Errorf("%s and %s share the legend %q", k, other, s.Legend)
		}
		legends[s.Legend] = k
		if s.Box.W() <= 0 || s.Box.H() <= 0 || s.Box.W() > 45 || s.Box.H() > 25 {
			t.Errorf("%s covers %v", k, s.Box)
		}
		if s.In > 0 || s.Out < 0 {
			t.Errorf("%s has pipe ends at %g and %g", k, s.In, s.Out)
		}
		// The pipe ends must touch the sign: a gap would show in the line.
		if k != graph.Tee && (s.In < s.Box.MinX-0.5 || s.Out > s.Box.MaxX+0.5) {
			t.Errorf("%s: pipe ends %g, %g leave the sign %v", k, s.In, s.Out, s.Box)
		}
	}
}

func TestLooksDiffer(t *testing.T) {
	for _, c := range []struct {
		kind graph.Kind
		a, b Look
	}{
		{graph.BallValve, Look{}, Look{Shut: true}},
		{graph.GateValve, Look{}, Look{Throttle: true}},
		{graph.ButterflyValve, Look{}, Look{Shut: true}},
		{graph.CheckValve, Look{}, Look{Spring: true}},
		{graph.ElementHeater, Look{}, Look{Isolated: true}},
	} {
		a, b := Of(c.kind, c.a), Of(c.kind, c.b)
		page := func(s Symbol) string {
			return string(scene.SVG(&scene.Scene{WidthMM: 50, HeightMM: 50, Items: s.At(scene.Point{X: 25, Y: 25}, Right)}))
		}
		if a.Legend == b.Legend || page(a) == page(b) {
			t.Errorf("%s looks the same in both: %q %q", c.kind, a.Legend, b.Legend)
		}
	}
}

func TestTurned(t *testing.T) {
	s := Of(graph.ThermometerPocket, Look{})
	c := scene.Point{X: 50, Y: 50}
	for _, w := range []Way{Right, Up, Left, Down} {
		want := s.BoxAt(c, w)
		got := scene.Bounds(s.At(c, w)...)
		if !want.Grow(0.3).Contains(got) {
			t.Errorf("way %d: items cover %v, box says %v", w, got, want)
		}
	}
	// Water up: what stands above the pipe stands to its left.
	if b := s.BoxAt(c, Up); b.MinX > 45 {
		t.Errorf("turned up the circle is at %v", b)
	}
}
