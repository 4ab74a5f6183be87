package detail

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"dryfit/render/label"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// request is a label that wants a place near a point: a name in lines, or a number in a ring.
type request struct {
	name  string
	lines []string
	ring  string
	plain bool          // its first line is not bold
	at    []scene.Point // any of them will do
	em    float64
}

// rank is the order in which labels choose: cuts and pieces, then names, then joints.
func (r request) rank() int {
	switch {
	case r.ring != "":
		return 0
	case strings.HasPrefix(r.name, "joint:"):
		return 2
	}
	return 1
}

// words is the label in one line, for a list.
func (r request) words() string {
	if r.name == "cut" {
		return "cut " + r.ring
	}
	if r.ring != "" {
		return "piece " + r.ring
	}
	return strings.Join(r.lines, " ")
}

// want asks for a spot for a label, unless the notes say it already.
func (d *drawing) want(r request) {
	r.lines = slices.DeleteFunc(r.lines, func(l string) bool { return l == "" })
	if !d.inList(r.words()) {
		d.requests = append(d.requests, r)
	}
}

const circleR = 3.2

// size is how large the label is.
func (r request) size() (w, h float64) {
	if r.ring != "" {
		return 2 * circleR, 2 * circleR
	}
	for i, l := range r.lines {
		w = math.Max(w, scene.TextWidth(l, r.em, i == 0 && !r.plain))
	}
	return w, float64(len(r.lines)) * r.em * label.LineShare
}

// spot is where a label may stand and the point its leader goes to.
type spot struct {
	box scene.Box
	at  scene.Point
}

// place finds a place for every label and draws it with its leader.
func (d *drawing) place(area scene.Box) {
	slices.SortStableFunc(d.requests, func(a, b request) int { return cmp.Compare(a.rank(), b.rank()) })
	var labels [][]label.Spot
	var spots [][]spot
	for _, r := range d.requests {
		w, h := r.size()
		var places []label.Spot
		var here []spot
		for n, at := range r.at {
			for _, dist := range []float64{1.4, 2.6, 4.5, 7, 10, 14, 19, 25, 32, 40} {
				for k := range 16 {
					sin, cos := math.Sincos(float64(k) * math.Pi / 8)
					c := scene.Point{X: at.X + cos*(dist+w/2), Y: at.Y - sin*(dist+h/2)}
					b := scene.Box{MinX: c.X - w/2, MinY: c.Y - h/2, MaxX: c.X + w/2, MaxY: c.Y + h/2}
					if !area.Contains(b.Grow(0.5)) {
						continue
					}
					s := spot{b, at}
					slant := []float64{0, 0.8, 0.6, 0.8}[k%4]
					places = append(places, label.Spot{Box: b.Grow(0.6), Parts: s.covers(), Cost: dist + slant + 0.4*float64(n)})
					here = append(here, s)
				}
			}
		}
		labels, spots = append(labels, places), append(spots, here)
	}
	b := label.NewBoard(d.fixed, area)
	for i := range labels {
		b.Extend(i, labels[i])
	}
	bad := b.Settle()
	at := make([]spot, len(d.requests))
	placed := make([]bool, len(d.requests))
	var taken []scene.Box
	for i := range d.requests {
		if k := b.Chosen(i); k >= 0 && !slices.Contains(bad, i) {
			at[i], placed[i] = spots[i][k], true
			taken = append(taken, at[i].covers()...)
		}
	}
	d.second(labels, spots, taken, at, placed)
	var over []scene.Item
	for i, r := range d.requests {
		if !placed[i] {
			d.listed = append(d.listed, r.words())
			continue
		}
		d.items = append(d.items, leader(at[i].at, at[i].box)...)
		over = append(over, r.draw(at[i].box)...)
	}
	d.items = append(d.items, over...)
}

// second places what found no room where its letters cover nothing, on leaders that may cross
// the figure but no letters.
func (d *drawing) second(labels [][]label.Spot, spots [][]spot, taken []scene.Box, at []spot, placed []bool) {
	again := make([][]label.Spot, len(labels))
	number := make([][]int, len(labels))
	for i := range labels {
		if placed[i] {
			continue
		}
		for k, p := range labels[i] {
			if !slices.ContainsFunc(d.fixed, spots[i][k].box.Grow(0.6).Overlaps) {
				again[i], number[i] = append(again[i], p), append(number[i], k)
			}
		}
	}
	b := label.NewBoard(append(taken, d.letters...), label.Anywhere())
	for i := range again {
		b.Extend(i, again[i])
	}
	bad := b.Settle()
	for i := range labels {
		if k := b.Chosen(i); k >= 0 && !slices.Contains(bad, i) {
			at[i], placed[i] = spots[i][number[i][k]], true
		}
	}
}

// covers is what a label there covers: its words and, but for its first millimetre, its
// leader.
func (s spot) covers() []scene.Box {
	to := nearest(s.box, s.at)
	long := math.Hypot(to.X-s.at.X, to.Y-s.at.Y)
	out := append(make([]scene.Box, 0, 1+int(long)), s.box.Grow(0.6)) // thousands of places are tried
	const step, half = 1.0, 0.15
	for at := 1.0; at < long; at += step {
		x, y := s.at.X+(to.X-s.at.X)*at/long, s.at.Y+(to.Y-s.at.Y)*at/long
		out = append(out, scene.Box{MinX: x - half, MinY: y - half, MaxX: x + half, MaxY: y + half})
	}
	return out
}

// nearest returns the point of a box nearest to p.
func nearest(b scene.Box, p scene.Point) scene.Point {
	return scene.Point{X: max(b.MinX, min(p.X, b.MaxX)), Y: max(b.MinY, min(p.Y, b.MaxY))}
}

// leader joins a label to what it means.
func leader(at scene.Point, b scene.Box) []scene.Item {
	to := nearest(b, at)
	if math.Hypot(to.X-at.X, to.Y-at.Y) < 1.2 {
		return nil
	}
	return []scene.Item{scene.Line(at, to, scene.Stroke(sheet.Hair)).Named("leader"), scene.Circle(at, 0.45, scene.Filled(0)).Named("leader")}
}

func (r request) draw(b scene.Box) []scene.Item {
	c := b.Centre()
	if r.ring != "" {
		return []scene.Item{scene.Circle(c, circleR, scene.Outline(sheet.Thin)).Named("piece"),
			scene.Text{At: c, Text: r.ring, SizeMM: r.em, Bold: true, Anchor: scene.Centre, Middle: true, Name: r.name}}
	}
	var items []scene.Item
	for i, l := range r.lines {
		y := b.MinY + (float64(i)+0.5)*r.em*label.LineShare
		items = append(items, scene.Text{At: scene.Point{X: c.X, Y: y}, Text: l, SizeMM: r.em, Bold: i == 0 && !r.plain, Anchor: scene.Centre, Middle: true, Name: r.name})
	}
	return items
}
