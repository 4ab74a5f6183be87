package arrange

import (
	"math"
	"sort"

	"dryfit/graph"
	"dryfit/render/scene"
	"dryfit/render/symbol"
)

// rows finds the height of every line. Each loop from the tub makes a band: its row, the
// branches above it, what feeds it or leaves it below. The bands stand one below the other.
// A pipe that would drop from a tee through a sign below it gets a row of its own instead.
func (b *builder) rows() {
	b.bands()
	for b.holdDrops() {
		b.bands()
	}
	b.hangs()
}

// bands places every line.
func (b *builder) bands() {
	for _, l := range b.lines {
		l.placed = false
	}
	kids := map[*line][]*line{}
	var roots []*line
	for _, l := range b.lines {
		if l.hang {
			continue
		}
		if l.parent == nil || l.parent.hang {
			roots = append(roots, l)
			continue
		}
		kids[l.parent] = append(kids[l.parent], l)
	}
	sort.SliceStable(roots, func(i, j int) bool {
		a, c := roots[i], roots[j]
		if (a.kind == loop) != (c.kind == loop) {
			return a.kind == loop
		}
		return a.readingPos < c.readingPos
	})
	foot := math.Inf(-1)
	for _, root := range roots {
		foot = b.band(root, kids, foot)
	}
	for _, l := range b.lines { // rings of lines that hang on each other
		if !l.hang && !l.placed {
			foot = b.band(l, kids, foot)
		}
	}
}

// band places a root line and all that hangs together with it below the foot and returns
// the new foot. Each line is placed with all that hangs on it before the next: of those that
// come from the tub the one that ends leftmost first, of those that leave for it the one that
// begins rightmost, so that no upright pipe meets a row it does not belong to.
func (b *builder) band(root *line, kids map[*line][]*line, foot float64) float64 {
	var taken []scene.Box
	var members []*line
	var put func(l *line, y float64)
	put = func(l *line, y float64) {
		l.y, l.placed = y, true
		members = append(members, l)
		if l.drop {
			return
		}
		for _, box := range b.extent(l) {
			taken = append(taken, moved(box, 0, y))
		}
		list := append([]*line{}, kids[l]...)
		sort.SliceStable(list, func(i, j int) bool { return before(list[i], list[j]) })
		for _, k := range list {
			if k.placed {
				continue
			}
			if k.drop {
				put(k, y)
				continue
			}
			put(k, b.clear(k, y, taken))
			if !above(k) {
				taken = append(taken, upright(k, y))
			}
		}
	}
	put(root, 0)
	top, bottom := math.Inf(1), math.Inf(-1)
	for _, t := range taken {
		top, bottom = min(top, t.MinY), max(bottom, t.MaxY)
	}
	if len(taken) == 0 {
		return foot
	}
	shift := 0.0
	if !math.IsInf(foot, -1) {
		shift = foot + 2*rowGap - top
		if root.carry != nil {
			root.carryY = foot + rowGap
			shift += trackGap
		}
	}
	for _, l := range members {
		l.y += shift
		for _, n := range l.row {
			n.At.Y = l.y
		}
	}
	return bottom + shift
}

// before reports whether of two lines that hang on the same row a is placed first.
func before(a, c *line) bool {
	switch {
	case above(a) != above(c):
		return above(a)
	case above(a):
		return a.x1-a.x0 < c.x1-c.x0
	case (a.start == nil) != (c.start == nil):
		return a.start == nil
	case a.start == nil:
		return a.x1 < c.x1
	case a.start.At.X != c.start.At.X:
		return a.start.At.X > c.start.At.X
	}
	return a.x1-a.x0 < c.x1-c.x0
}

// upright is what joins a line to the row at y on which it hangs: a pipe, or the bar of a
// manifold, which reaches a little further.
func upright(l *line, y float64) scene.Box {
	const barEnd = 2.5
	n := l.start
	if n == nil {
		n = l.end
	}
	if n == nil {
		return scene.Empty()
	}
	box := scene.Empty().Add(scene.Point{X: n.At.X, Y: y}).Add(scene.Point{X: n.At.X, Y: l.y})
	if n.Part.Kind == graph.Manifold {
		return scene.Box{MinX: n.At.X + n.Symbol.In, MinY: box.MinY - barEnd, MaxX: n.At.X + n.Symbol.Out, MaxY: box.MaxY + barEnd}
	}
	return box
}

// above reports whether a line belongs above the row it hangs on.
func above(l *line) bool { return l.kind == bridge }

// rise is the least height of a line's upright pipes: with a valve on one, room for it and
// for the labels of the pipes on both sides of it.
func (b *builder) rise(l *line) float64 {
	rise := leastRise
	for i, p := range l.pipes {
		if i == 0 || i == len(l.pipes)-1 {
			rise = max(rise, b.heightOf(p)+6)
		}
	}
	for _, n := range []*Node{l.riserFrom, l.riserTo} {
		if n == nil {
			continue
		}
		side := 0.0
		for _, list := range [][]*Pipe{n.ins, n.outs} {
			for _, p := range list {
				side = max(side, b.heightOf(p)+3.5, 9)
			}
		}
		rise = max(rise, n.Symbol.Out-n.Symbol.In+2*side)
	}
	return rise
}

// clear returns the height nearest to the parent's at which a line stands clear of what is
// there.
func (b *builder) clear(l *line, parentY float64, taken []scene.Box) float64 {
	least := b.rise(l) * b.m.Spread
	dir := 1.0
	if above(l) {
		dir = -1
	}
	y := parentY + dir*least
	for _, box := range b.extent(l) {
		for _, t := range taken {
			if box.MinX >= t.MaxX+1 || t.MinX >= box.MaxX+1 {
				continue
			}
			if dir < 0 {
				y = min(y, t.MinY-rowGap*b.m.Spread-box.MaxY)
			} else {
				y = max(y, t.MaxY+rowGap*b.m.Spread-box.MinY)
			}
		}
	}
	return y
}

// extent returns what a line at height 0 covers: its pipe, its signs with the label below
// each, and what hangs on its tees. What goes back to the tub or on in another row runs
// right, past everything below, before it turns down.
func (b *builder) extent(l *line) []scene.Box {
	out := []scene.Box{{MinX: l.x0, MinY: -2, MaxX: l.x1, MaxY: 2}}
	if l.toTub || l.carried {
		out[0].MaxX = math.Inf(1)
	}
	for _, n := range l.row {
		s := n.Symbol.Box
		box := scene.Box{MinX: n.At.X + s.MinX, MinY: s.MinY - 1.5, MaxX: n.At.X + s.MaxX, MaxY: s.MaxY + 1}
		out = append(out, box)
		if n.LabelH > 0 {
			w := n.LabelW / 2
			out = append(out, scene.Box{MinX: n.At.X - w, MinY: 0, MaxX: n.At.X + w, MaxY: s.MaxY + 1.5 + n.LabelH})
		}
	}
	for _, h := range b.lines {
		if !h.hang || h.host() == nil || h.host().line != l {
			continue
		}
		length := b.hangLength(h)
		n := h.host()
		switch b.hangWay(h) {
		case symbol.Up:
			out = append(out, scene.Box{MinX: n.At.X - 4, MinY: -length, MaxX: n.At.X + 4, MaxY: 0})
		case symbol.Down:
			out = append(out, scene.Box{MinX: n.At.X - 4, MinY: 0, MaxX: n.At.X + 4, MaxY: length})
		}
	}
	return out
}

func moved(b scene.Box, dx, dy float64) scene.Box {
	return scene.Box{MinX: b.MinX + dx, MinY: b.MinY + dy, MaxX: b.MaxX + dx, MaxY: b.MaxY + dy}
}
