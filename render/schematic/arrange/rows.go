package arrange

import (
	"math"
	"sort"

	"dryfit/graph"
	"dryfit/render/scene"
	"dryfit/render/schematic/symbol"
)

// rows finds the height of every line. Each loop from the tub makes a band: its row, the
// branches above it, what feeds it or leaves it below. The bands stand one below the other.
func (b *builder) rows() {
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
	b.hangs()
}

// band places a root line and all that hangs together with it below the foot and returns
// the new foot.
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
		sort.SliceStable(list, func(i, j int) bool {
			a, c := list[i], list[j]
			if above(a) != above(c) {
				return above(a)
			}
			return a.x1-a.x0 < c.x1-c.x0
		})
		for _, k := range list {
			if k.placed {
				continue
			}
			if k.drop {
				put(k, y)
				continue
			}
			put(k, b.clear(k, y, taken))
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
// each, and what hangs on its tees.
func (b *builder) extent(l *line) []scene.Box {
	out := []scene.Box{{MinX: l.x0, MinY: -2, MaxX: l.x1, MaxY: 2}}
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

// host returns the part a dead end hangs on.
func (l *line) host() *Node {
	if l.start != nil {
		return l.start
	}
	return l.end
}

// hangWay is where a dead end points: drains down, air and the rest up.
func (b *builder) hangWay(l *line) symbol.Way {
	host := l.host()
	if host.Role == OnWall {
		return symbol.Left
	}
	if host.Role == OnRiser {
		return symbol.Right
	}
	for _, n := range l.nodes {
		if n.Part.Kind == graph.DrainValve {
			return symbol.Down
		}
	}
	return symbol.Up
}

// hangPipe is the pipe before each sign on a dead end, mm: short, or as long as its label
// where it is level.
func (b *builder) hangPipe(l *line) float64 {
	const least = 4.0
	upright := b.hangWay(l) == symbol.Up || b.hangWay(l) == symbol.Down
	length := least
	for _, p := range l.pipes {
		switch h := b.heightOf(p); {
		case !upright:
			length = max(length, b.lengthOf(p))
		case h > 0:
			length = max(length, h+2)
		}
	}
	return length
}

func (b *builder) hangLength(l *line) float64 {
	sum := 0.0
	for _, n := range l.nodes {
		sum += b.hangPipe(l) + n.Symbol.Box.W()
		if n.Symbol.Box.H() > n.Symbol.Box.W() {
			sum += 2
		}
	}
	return sum + 2
}

// hangs places the parts of dead ends one after the other away from their tee. A line of
// air that comes from its far end is walked from there.
func (b *builder) hangs() {
	for _, l := range b.lines {
		if !l.hang {
			continue
		}
		host := l.host()
		way := b.hangWay(l)
		v := way.Vector()
		at := host.At
		reach := 0.0 // from the host's middle to its edge
		box := host.Symbol.BoxAt(scene.Point{}, host.Way)
		if host.Part.Kind != graph.Tee {
			switch way {
			case symbol.Up:
				reach = -box.MinY
			case symbol.Down:
				reach = box.MaxY
			case symbol.Left:
				reach = -box.MinX
			case symbol.Right:
				reach = box.MaxX
			}
		}
		at.X += v.X * reach
		at.Y += v.Y * reach
		nodes := append([]*Node{}, l.nodes...)
		outward := l.start != nil
		if !outward {
			for i, j := 0, len(nodes)-1; i < j; i, j = i+1, j-1 {
				nodes[i], nodes[j] = nodes[j], nodes[i]
			}
		}
		for _, n := range nodes {
			n.Way = way
			near, far := -n.Symbol.In, n.Symbol.Out
			if !outward { // its outlet is towards the host
				n.Way = opposite(way)
				near, far = n.Symbol.Out, -n.Symbol.In
			}
			d := b.hangPipe(l) + near
			n.At = scene.Point{X: at.X + v.X*d, Y: at.Y + v.Y*d}
			at = scene.Point{X: n.At.X + v.X*far, Y: n.At.Y + v.Y*far}
		}
	}
}

func opposite(w symbol.Way) symbol.Way { return (w + 2) % 4 }

func moved(b scene.Box, dx, dy float64) scene.Box {
	return scene.Box{MinX: b.MinX + dx, MinY: b.MinY + dy, MaxX: b.MaxX + dx, MaxY: b.MaxY + dy}
}
