package arrange

import (
	"math"
	"sort"

	"dryfit/graph"
	"dryfit/render/scene"
)

// Sizes about the tub, mm.
const (
	tubWidth   = 36.0
	tubAbove   = 13.0 // of its rim above the topmost suction
	tubBelow   = 8.0  // of its foot below the lowest suction
	mouthSpace = 20.0 // between two returns into its foot
	wallSpace  = 26.0 // the same with a fitting in the wall and its label
	dropGap    = 3.0  // between one of these and a pipe that drops from a tee
	turnGap    = 6.0  // between the upright pipes at the right end
)

// returns finds the way of every line back to the tub: down on the right of what stands
// below it, left under everything, up into the tub's foot. The topmost line is the
// outermost all the way, so that none crosses another.
func (b *builder) returns() {
	r := b.standing()
	b.carries()
	if b.d.Tub == nil {
		b.setRiserHeights()
		return
	}
	innermostFirst(r.back)
	b.setTub(r)
	wall := 0.0
	for _, l := range r.back {
		if l.wall != nil {
			wall = max(wall, l.wall.Symbol.Out-l.wall.Symbol.In)
		}
	}
	track := max(r.foot+rowGap+2, b.d.TubBox.MaxY+wall+6)
	right := math.Inf(-1)
	mouth := b.firstMouth(r.back)
	for _, l := range r.back {
		l.turnX = b.turn(l, right)
		right = max(right, l.turnX)
		l.track = track
		track += trackGap
		l.mouthX = mouth
		mouth -= b.mouthSpace(l)
		if l.wall != nil {
			l.wall.At = scene.Point{X: l.mouthX, Y: b.d.TubBox.MaxY + l.wall.Symbol.Out}
		}
		b.d.Mouths = append(b.d.Mouths, Mouth{Port: l.pipes[len(l.pipes)-1].ToPort, At: scene.Point{X: l.mouthX, Y: b.d.TubBox.MaxY}, Foot: true})
	}
	for _, l := range b.lines {
		if l.fromTub && !l.hang {
			b.d.Mouths = append(b.d.Mouths, Mouth{Port: l.pipes[0].FromPort, At: scene.Point{X: 0, Y: l.y}})
		}
	}
	b.setRiserHeights()
	b.hangs() // those on parts in the tub's wall have their place now
}

// standing is what the tub and the ways back to it hang on.
type standing struct {
	back     []*line // lines that lead to the tub
	foot     float64 // Y below everything that stands in rows
	top, low float64 // Y of the topmost and the lowest line from the tub
}

func (b *builder) standing() standing {
	r := standing{foot: math.Inf(-1), top: math.Inf(1), low: math.Inf(-1)}
	for _, l := range b.lines {
		if l.hang {
			for _, n := range l.nodes {
				r.foot = max(r.foot, n.Symbol.BoxAt(n.At, n.Way).MaxY)
			}
			continue
		}
		if l.drop {
			l.y = l.start.At.Y
			r.back = append(r.back, l)
			continue
		}
		for _, box := range b.extent(l) {
			r.foot = max(r.foot, box.MaxY+l.y)
		}
		if l.toTub {
			r.back = append(r.back, l)
		}
		if l.fromTub {
			r.top, r.low = min(r.top, l.y), max(r.low, l.y)
		}
	}
	if math.IsInf(r.top, 0) {
		r.top, r.low = 0, 0
	}
	return r
}

// innermostFirst sorts lines that lead to the tub.
func innermostFirst(back []*line) {
	sort.SliceStable(back, func(i, j int) bool {
		l, k := back[i], back[j]
		switch {
		case math.Abs(l.y-k.y) > 0.01:
			return l.y > k.y
		case l.drop != k.drop:
			return l.drop
		case l.drop:
			return l.start.At.X < k.start.At.X
		}
		return false
	})
}

// setTub makes the tub as wide as the ways back into its foot need, and as high as the lines
// from it stand apart.
func (b *builder) setTub(r standing) {
	width := 2 - b.firstMouth(r.back)
	for _, l := range r.back {
		width += b.mouthSpace(l)
	}
	width = max(width, tubWidth)
	b.d.TubBox = scene.Box{MinX: -width, MinY: r.top - tubAbove, MaxX: 0, MaxY: r.low + tubBelow}
	if b.d.TubBox.H() < 24 {
		b.d.TubBox.MaxY = b.d.TubBox.MinY + 24
	}
	b.d.Tub.At = b.d.TubBox.Centre()
}

// turn is the X at which a line to the tub turns down: right of what stands below it, of the
// lines that have turned already, and not along a pipe that drops from a tee.
func (b *builder) turn(l *line, right float64) float64 {
	if l.drop {
		return l.start.At.X
	}
	end := l.x1
	if len(l.row) > 0 {
		end = max(end, l.row[len(l.row)-1].At.X+b.labelW(l.row[len(l.row)-1])/2)
	}
	for _, o := range b.lines { // whatever stands below on its way down
		if !o.hang && o != l && o.y > l.y {
			end = max(end, o.x1, o.carryX)
		}
	}
	x := max(end+turnGap, right+turnGap)
	for _, o := range b.lines {
		if o.drop && math.Abs(o.start.At.X-x) < dropGap {
			x = o.start.At.X + dropGap
		}
	}
	return x
}

// carries finds how far right a row's pipe to the row that goes on from it must turn down.
func (b *builder) carries() {
	for i, l := range b.lines {
		if l.carry == nil {
			continue
		}
		above := b.lines[i-1] // split put it there
		for _, k := range b.lines {
			if k == above || k.carry != nil && k == l {
				continue
			}
			if !k.hang && k.y > above.y && k.y < l.carryY {
				l.carryX = max(l.carryX, k.x1)
			}
		}
		last := above.row[len(above.row)-1]
		l.carryX = max(l.carryX, above.x1, last.At.X+b.labelW(last)/2) + turnGap
	}
}

// firstMouth is the X of the return nearest to the tub's right wall. Where rows are broken a
// pipe comes down beside the wall, and a label beside the first fitting stands left of it.
func (b *builder) firstMouth(back []*line) float64 {
	const usual = -8.0
	if len(back) == 0 || back[0].wall == nil {
		return usual
	}
	for _, l := range b.lines {
		if l.carry != nil {
			w := back[0].wall
			return min(usual, carryLeft-2-w.LabelW-w.Symbol.Box.H()/2-2)
		}
	}
	return usual
}

// mouthSpace is the width of the tub's foot that a return takes to the left of its mouth.
func (b *builder) mouthSpace(l *line) float64 {
	if l.wall == nil {
		return mouthSpace
	}
	space := wallSpace
	for _, o := range b.lines { // the label stands beside the sign
		if o.wall != nil {
			space = max(space, o.wall.LabelW+o.wall.Symbol.Box.H()+3)
		}
	}
	for _, h := range b.lines {
		if h.hang && h.host() == l.wall {
			space = max(space, b.hangLength(h)+8)
		}
	}
	return space
}

// setRiserHeights puts the valves on the upright pipes halfway between their rows.
func (b *builder) setRiserHeights() {
	for _, l := range b.lines {
		for i, n := range []*Node{l.riserFrom, l.riserTo} {
			if n == nil {
				continue
			}
			host := l.start
			if i == 1 {
				host = l.end
			}
			n.At.Y = (host.At.Y + l.y) / 2
			up := l.y < host.At.Y
			if (i == 0) == up {
				n.Way = 1 // up
			} else {
				n.Way = 3 // down
			}
		}
	}
	for _, n := range b.d.Nodes {
		if n.Part.Kind == graph.Manifold && n.line != nil {
			b.setBar(n)
		}
	}
}

// setBar makes a manifold's bar reach the rows of all lines that start or end at it.
func (b *builder) setBar(n *Node) {
	for _, l := range b.lines {
		if l.hang || (l.start != n && l.end != n) || l.kind == bridge {
			continue
		}
		n.BarDown = max(n.BarDown, l.y-n.At.Y)
		n.BarUp = max(n.BarUp, n.At.Y-l.y)
	}
}
