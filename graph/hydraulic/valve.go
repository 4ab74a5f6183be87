package hydraulic

import "dryfit/catalog"

// openShare returns the share of the full-open Kv that a hand valve keeps at a position, 0
// shut to 1 open: by straight lines between the points of the row's opening curve, which is
// typical for the kind and assumed for the valve in hand; without one the share is the
// position.
func openShare(row catalog.Row, position float64) float64 {
	x0, y0 := 0.0, 0.0
	for _, p := range row.Opening {
		if position <= p[0] {
			return between(position, x0, y0, p[0], p[1])
		}
		x0, y0 = p[0], p[1]
	}
	return between(position, x0, y0, 1, 1)
}

func between(x, x0, y0, x1, y1 float64) float64 {
	if x1 <= x0 {
		return y1
	}
	return y0 + (min(x, x1)-x0)/(x1-x0)*(y1-y0)
}
