package arrange

import (
	"math"
	"sort"

	"dryfit/graph"
	"dryfit/render/scene"
)

// Sizes about the tub, mm.
const (
	tubWidth   = 44.0
	tubAbove   = 13.0 // of its rim above the topmost suction
	tubBelow   = 8.0  // of its foot below the lowest suction
	mouthSpace = 26.0 // between two returns into its foot
	turnGap    = 6.0  // between the upright pipes at the right end
)

// returns finds the way of every line back to the tub: down on the right of what stands
// below it, left under everything, up into the tub's foot. The topmost line is the
// outermost all the way, so that none crosses another.
func (b *builder) returns() {
	var back []*line
	foot, top, low := math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, l := range b.lines {
		if l.hang {
			for _, n := range l.nodes {
				box := n.Symbol.BoxAt(n.At, n.Way)
				foot = max(foot, box.MaxY)
			}
			continue
		}
		for _, box := range b.extent(l) {
			foot = max(foot, box.MaxY+l.y)
		}
		if l.toTub {
			back = append(back, l)
		}
		if l.fromTub {
			top, low = min(top, l.y), max(low, l.y)
		}
	}
	if b.d.Tub == nil {
		b.setRiserHeights()
		return
	}
	if math.IsInf(top, 0) {
		top, low = 0, 0
	}
	sort.SliceStable(back, func(i, j int) bool { return back[i].y > back[j].y }) // lowest first
	width := max(tubWidth, mouthSpace*float64(len(back))+6)
	b.d.TubBox = scene.Box{MinX: -width, MinY: top - tubAbove, MaxX: 0, MaxY: low + tubBelow}
	if b.d.TubBox.H() < 24 {
		b.d.TubBox.MaxY = b.d.TubBox.MinY + 24
	}
	b.d.Tub.At = b.d.TubBox.Centre()

	wall := 0.0
	for _, l := range back {
		if l.wall != nil {
			wall = max(wall, l.wall.Symbol.Out-l.wall.Symbol.In)
		}
	}
	track := max(foot+rowGap+2, b.d.TubBox.MaxY+wall+6)
	right := math.Inf(-1)
	mouth := -8.0
	for _, l := range back {
		end := l.x1
		if len(l.row) > 0 {
			end = max(end, l.row[len(l.row)-1].At.X+b.labelW(l.row[len(l.row)-1])/2)
		}
		for _, o := range b.lines { // whatever stands below on its way down
			if !o.hang && o != l && o.y > l.y {
				end = max(end, o.x1)
			}
		}
		least := turnGap
		if len(l.pipes) > 0 {
			least = max(least, b.m.Run(l.pipes[len(l.pipes)-1].Run)/2)
		}
		l.turnX = max(end+least, right+turnGap)
		right = l.turnX
		l.track = track
		track += trackGap
		l.mouthX = mouth
		mouth -= mouthSpace
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
