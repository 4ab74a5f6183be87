package curves

import (
	"math"

	"dryfit/render/label"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// request is a label that wants a place near one of some points.
type request struct {
	lines []string
	at    []scene.Point
	em    float64
	lead  bool // with a leader
	bold  bool
}

// want asks for a name beside a curve.
func (d *drawing) want(words string, bold bool, at ...scene.Point) {
	d.requests = append(d.requests, request{lines: []string{words}, at: at, em: 2.7, bold: bold})
}

const lineShare = 1.3

func (r request) size() (w, h float64) {
	for i, l := range r.lines {
		w = math.Max(w, scene.TextWidth(l, r.em, r.bold || i == 0 && len(r.lines) > 1))
	}
	return w, float64(len(r.lines)) * r.em * lineShare
}

// place finds a place for every label and draws it.
func (d *drawing) place() {
	var labels [][]label.Place
	var from [][]scene.Point
	area := d.plot.box
	for _, r := range d.requests {
		w, h := r.size()
		dists := []float64{1, 1.8, 3}
		if r.lead {
			dists = []float64{3, 5, 8, 12, 17, 23, 30}
		}
		var places []label.Place
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
					places = append(places, label.Place{Box: b.Grow(0.5), Cost: dist + 0.05*float64(n)})
					points = append(points, at)
				}
			}
		}
		labels, from = append(labels, places), append(from, points)
	}
	chosen, bad := label.Choose(labels, d.fixed)
	d.strained = len(bad)
	for i, r := range d.requests {
		if chosen[i] < 0 {
			d.strained++
			continue
		}
		b := labels[i][chosen[i]].Box.Grow(-0.5)
		at := from[i][chosen[i]]
		if r.lead {
			to := scene.Point{X: math.Max(b.MinX, math.Min(at.X, b.MaxX)), Y: math.Max(b.MinY, math.Min(at.Y, b.MaxY))}
			if math.Hypot(to.X-at.X, to.Y-at.Y) > 3.5 {
				d.marks = append(d.marks, scene.Line(at, to, scene.Stroke(sheet.Hair)).Tagged("leader"))
			}
		}
		for k, l := range r.lines {
			y := b.MinY + (float64(k)+0.5)*r.em*lineShare
			d.marks = append(d.marks, scene.Text{At: scene.Point{X: b.MinX, Y: y}, Text: l, SizeMM: r.em, Bold: r.bold || k == 0 && len(r.lines) > 1, Middle: true, Halo: true, Tag: "label"})
		}
	}
}
