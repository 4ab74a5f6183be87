package scene

import "testing"

// Worked by hand: a square of 10 about the corner of a box keeps a quarter, the line through
// the box its length in it, and what lies outside nothing.
func TestClip(t *testing.T) {
	box := Box{0, 0, 100, 100}
	got := Clip(Rect(-5, -5, 10, 10, Outline(0.1)), box)
	if len(got) != 2 || Bounds(got[0]) != (Box{0, 0, 5, 5}) || got[0].Style.StrokeMM != 0 || got[1].Style.Fill {
		t.Fatalf("the quarter of a square is %+v", got)
	}
	if b := Bounds(got[1]).Grow(-0.05); len(got[1].Paths) != 1 || got[1].Paths[0].Closed || b.MaxX != 5 || b.MaxY != 5 {
		t.Errorf("its line is %+v", got[1].Paths)
	}
	line := Clip(Line(Point{-10, 50}, Point{110, 50}, Stroke(1)), box)
	if len(line) != 1 || line[0].Paths[0].Start != (Point{0, 50}) || line[0].Paths[0].Segments[0].To != (Point{100, 50}) {
		t.Errorf("a line through the box is %+v", line)
	}
	twice := Clip(Polyline([]Point{{50, 50}, {150, 50}, {150, 60}, {50, 60}}, Stroke(1)), box)
	if len(twice) != 1 || len(twice[0].Paths) != 2 {
		t.Errorf("a line out and in again is %+v", twice)
	}
	if out := Clip(Line(Point{200, 0}, Point{200, 50}, Stroke(1)), box); out != nil {
		t.Errorf("outside there is %+v", out)
	}
	if whole := Clip(Circle(Point{50, 50}, 3, Solid(0.2)), box); len(whole) != 1 || !whole[0].Paths[0].Closed {
		t.Errorf("what lies inside is changed: %+v", whole)
	}
}
