package scene

import "math"

// Box is an upright rectangle on the page, mm. The zero Box is a point at the origin;
// use Empty to collect.
type Box struct{ MinX, MinY, MaxX, MaxY float64 }

// Empty is the box that holds nothing.
func Empty() Box { return Box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)} }

// IsEmpty reports whether the box holds nothing.
func (b Box) IsEmpty() bool { return b.MinX > b.MaxX || b.MinY > b.MaxY }

// W returns the width.
func (b Box) W() float64 { return b.MaxX - b.MinX }

// H returns the height.
func (b Box) H() float64 { return b.MaxY - b.MinY }

// Centre returns the middle.
func (b Box) Centre() Point { return Point{(b.MinX + b.MaxX) / 2, (b.MinY + b.MaxY) / 2} }

// Grow returns the box with m mm added on every side.
func (b Box) Grow(m float64) Box { return Box{b.MinX - m, b.MinY - m, b.MaxX + m, b.MaxY + m} }

// Add returns the smallest box round b and the point.
func (b Box) Add(p Point) Box {
	return Box{min(b.MinX, p.X), min(b.MinY, p.Y), max(b.MaxX, p.X), max(b.MaxY, p.Y)}
}

// Union returns the smallest box round both.
func (b Box) Union(c Box) Box {
	return Box{min(b.MinX, c.MinX), min(b.MinY, c.MinY), max(b.MaxX, c.MaxX), max(b.MaxY, c.MaxY)}
}

// Overlaps reports whether the boxes share an area.
func (b Box) Overlaps(c Box) bool {
	return b.MinX < c.MaxX && c.MinX < b.MaxX && b.MinY < c.MaxY && c.MinY < b.MaxY
}

// Contains reports whether c lies in b.
func (b Box) Contains(c Box) bool {
	return b.MinX <= c.MinX && b.MinY <= c.MinY && b.MaxX >= c.MaxX && b.MaxY >= c.MaxY
}

// Bounds returns the box round the items: of shapes their curves, grown by half a line
// width; of texts their corners.
func Bounds(items ...Item) Box {
	out := Empty()
	for _, it := range items {
		switch it := it.(type) {
		case Shape:
			b := Empty()
			for _, pl := range flatten(it.Paths, 0.02) {
				for _, p := range pl.pts {
					b = b.Add(p)
				}
			}
			if !b.IsEmpty() {
				out = out.Union(b.Grow(it.Style.StrokeMM / 2))
			}
		case Text:
			for _, p := range it.Corners() {
				out = out.Add(p)
			}
		}
	}
	return out
}
