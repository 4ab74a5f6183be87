package curves

import (
	"math"
	"slices"

	"dryfit/render/label"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// request is a label that wants a place near one of some points.
type request struct {
	lines []string
	heads int // the first lines, which are bold
	at    []scene.Point
	em    float64
	lead  bool // with a leader
	bold  bool
}

// want asks for a name beside a curve.
func (d *drawing) want(words string, bold bool, at ...scene.Point) {
	d.requests = append(d.requests, request{lines: []string{words}, at: at, em: 2.7, bold: bold})
}

func (r request) size() (w, h float64) {
	for i, l := range r.lines {
		w = math.Max(w, scene.TextWidth(l, r.em, r.bold || i < r.heads))
	}
	return w, float64(len(r.lines)) * r.em * label.LineShare
}

// place finds a place for every label and draws it.
func (d *drawing) place() {
	var labels [][]label.Spot
	var from [][]scene.Point
	area := d.plot.box
	for _, r := range d.requests {
		w, h := r.size()
		dists := []float64{1, 1.8, 3}
		if r.lead {
			dists = []float64{3, 5, 8, 12, 17, 23, 30}
		}
		var places []label.Spot
		var points []scene.Point
		for n, at := range r.at {
			for _, dist := range dists {
				for k := range 16 {
					sin, cos := math.Sincos(float64(k) * math.Pi / 8)
					c := scene.Point{X: at.X + cos*(dist+w/2), Y: at.Y - sin*(dist+h/2)}
					b := scene.Box{MinX: c.X - w/2, MinY: c.Y - h/2, MaxX: c.X + w/2, MaxY: c.Y + h/2}
					if !area.Contains(b.Grow(0.5)) {
						continue
					}
					places = append(places, label.Spot{Box: b.Grow(0.5), Cost: dist + 0.05*float64(n)})
					points = append(points, at)
				}
			}
		}
		labels, from = append(labels, places), append(from, points)
	}
	chosen, bad := d.choose(labels, from)
	d.strained = len(bad)
	for i, r := range d.requests {
		if chosen[i] < 0 {
			d.strained++
			continue
		}
		b := labels[i][chosen[i]].Box.Grow(-0.5)
		at := from[i][chosen[i]]
		if to, ok := leader(r, at, b); ok {
			d.marks = append(d.marks, scene.Line(at, to, scene.Stroke(sheet.Hair)).Named("leader"))
		}
		for k, l := range r.lines {
			y := b.MinY + (float64(k)+0.5)*r.em*label.LineShare
			d.marks = append(d.marks, scene.Text{At: scene.Point{X: b.MinX, Y: y}, Text: l, SizeMM: r.em, Bold: r.bold || k < r.heads, Middle: true, Halo: true, Name: "label"})
		}
	}
}

// leader is where the leader of a label ends that starts at a point, if it has one.
func leader(r request, at scene.Point, b scene.Box) (to scene.Point, ok bool) {
	to = scene.Point{X: math.Max(b.MinX, math.Min(at.X, b.MaxX)), Y: math.Max(b.MinY, math.Min(at.Y, b.MaxY))}
	return to, r.lead && math.Hypot(to.X-at.X, to.Y-at.Y) > 3.5
}

// tries bounds how often labels are placed anew for a leader that runs through letters.
const tries = 40

// hit is a leader that runs through another label.
type hit struct{ leader, label int }

// places are those left to each label, and which of all its places each is.
type places struct {
	spots [][]label.Spot
	index [][]int
}

// allOf is every place of every label.
func allOf(labels [][]label.Spot) places {
	p := places{spots: slices.Clone(labels), index: make([][]int, len(labels))}
	for i, of := range labels {
		for k := range of {
			p.index[i] = append(p.index[i], k)
		}
	}
	return p
}

// without takes the places a question is answered with yes from a label, if others are left to it.
func (p places) without(i int, bad func(place int) bool) bool {
	var spots []label.Spot
	var index []int
	for at, k := range p.index[i] {
		if !bad(k) {
			spots, index = append(spots, p.spots[i][at]), append(index, k)
		}
	}
	if len(index) == 0 {
		return false
	}
	p.spots[i], p.index[i] = spots, index
	return true
}

// choose picks the places of the labels. Where a leader would run through another label, by
// turns the one gives up every place from which it does, and the other every place in which it
// is in the way, and all are placed anew; the picking with the fewest such leaders stands.
func (d *drawing) choose(labels [][]label.Spot, from [][]scene.Point) (chosen, bad []int) {
	open := allOf(labels)
	// whose turn it is to give way, by how often all has been begun anew: alternating, from either, or
	// always the same
	least, begun, turn := math.MaxInt, 0, 0
	for range tries {
		picked, over := label.Choose(open.spots, d.fixed)
		laid := make([]int, len(picked))
		for i, k := range picked {
			if laid[i] = -1; k >= 0 {
				laid[i] = open.index[i][k]
			}
		}
		struck := d.struck(labels, from, laid)
		if n := len(over)*len(labels) + len(struck); n < least {
			least, chosen, bad = n, laid, over
		}
		switch {
		case len(struck)+len(over) == 0:
			return chosen, bad
		case len(struck) == 0: // too much was given up: the next turn begins with the other label
			open = allOf(labels)
			begun++
			turn = 0
			continue
		}
		for _, h := range struck {
			box := labels[h.label][laid[h.label]].Box
			at := from[h.leader][laid[h.leader]]
			to, _ := leader(d.requests[h.leader], at, labels[h.leader][laid[h.leader]].Box.Grow(-0.5))
			gives := func() bool {
				return open.without(h.leader, func(k int) bool {
					to, ok := leader(d.requests[h.leader], from[h.leader][k], labels[h.leader][k].Box.Grow(-0.5))
					return ok && crosses(from[h.leader][k], to, box)
				})
			}
			moves := func() bool {
				return open.without(h.label, func(k int) bool { return crosses(at, to, labels[h.label][k].Box) })
			}
			if leads := [][2]bool{{true, false}, {false, true}, {true, true}, {false, false}}[begun%4][turn%2]; leads {
				_ = gives() || moves()
			} else {
				_ = moves() || gives()
			}
		}
		turn++
	}
	return chosen, bad
}

// struck lists the leaders that run through another label, each once.
func (d *drawing) struck(labels [][]label.Spot, from [][]scene.Point, chosen []int) []hit {
	var out []hit
	for i, r := range d.requests {
		if chosen[i] < 0 {
			continue
		}
		at := from[i][chosen[i]]
		to, ok := leader(r, at, labels[i][chosen[i]].Box.Grow(-0.5))
		if !ok {
			continue
		}
		for k := range d.requests {
			if k != i && chosen[k] >= 0 && crosses(at, to, labels[k][chosen[k]].Box) {
				out = append(out, hit{i, k})
				break
			}
		}
	}
	return out
}

// crosses reports whether a line runs through a box, looked at every half mm.
func crosses(a, b scene.Point, box scene.Box) bool {
	n := int(math.Hypot(b.X-a.X, b.Y-a.Y)/0.5) + 1
	for k := range n + 1 {
		t := float64(k) / float64(n)
		x, y := a.X+t*(b.X-a.X), a.Y+t*(b.Y-a.Y)
		if x > box.MinX && x < box.MaxX && y > box.MinY && y < box.MaxY {
			return true
		}
	}
	return false
}
