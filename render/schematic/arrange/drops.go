package arrange

import (
	"math"

	"dryfit/render/scene"
)

// holdDrops gives a row to each line that drops through something below its tee and reports
// whether there was one.
func (b *builder) holdDrops() bool {
	held := false
	for _, l := range b.lines {
		if l.drop && b.dropMeets(l) {
			l.drop, held = false, true
		}
	}
	return held
}

func (b *builder) dropMeets(l *line) bool {
	x, y := l.start.At.X, l.start.At.Y
	way := scene.Box{MinX: x - 1, MinY: y + 1, MaxX: x + 1, MaxY: math.Inf(1)}
	for _, k := range b.lines {
		if k.hang || k == l {
			continue
		}
		if k.drop {
			if far := k.start.At; math.Abs(far.X-x) < 2 && far.Y > y {
				return true
			}
			continue
		}
		for _, n := range k.row {
			if n != l.start && moved(n.Symbol.Box, n.At.X, k.y).Overlaps(way) {
				return true
			}
		}
		if p := k.parent; p != nil && !above(k) && k.start != l.start && upright(k, p.y).Overlaps(way) {
			return true
		}
	}
	return false
}
