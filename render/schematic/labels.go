package schematic

import (
	"math"
	"sort"

	"dryfit/graph"
	"dryfit/render/label"
	"dryfit/render/scene"
	"dryfit/render/schematic/arrange"
	"dryfit/render/symbol"
)

// besideMM is kept free on both sides of a label.
const besideMM = 0.6

// farOff is how far from its part or pipe a label may stand and still be plainly its own, mm.
const farOff = 3.2

// request asks for a spot for a text.
type request struct {
	text     text
	around   scene.Point // a mark to stand beside
	near     float64     // half the size of the mark
	vertical bool        // the pipe there is upright
	places   []label.Spot
	points   []scene.Point // what the label belongs to; a label far off gets a leader there
	name     string
	rank     int // the lower the earlier it chooses
}

func (d *drawing) want(r request) { d.requests = append(d.requests, r) }

// placeLabels gives every text its place.
func (d *drawing) placeLabels() {
	reqs := d.texts()
	chosen, overlapping := label.Choose(d.choices(reqs), d.fixed)
	d.judgeLabels(reqs, chosen, overlapping)
	var boxes []scene.Box
	for i, r := range reqs {
		if chosen[i] >= 0 {
			d.write(r, r.places[chosen[i]].Box)
			boxes = append(boxes, r.places[chosen[i]].Box)
		}
	}
	pipes, marks := stretchesOf(d.diagram.Pipes), d.marks.grid()
	for i, r := range reqs {
		if chosen[i] >= 0 {
			d.leader(r, r.places[chosen[i]].Box, boxes, pipes, marks)
		}
	}
}

// texts are those that want a place, the first to choose before the rest.
func (d *drawing) texts() []request {
	for _, n := range d.diagram.Nodes {
		if n == d.diagram.Tub {
			d.wantTub(n)
			continue
		}
		d.wantPart(n)
	}
	for _, p := range d.diagram.Pipes {
		d.wantRun(p)
	}
	reqs := d.requests
	d.requests = nil
	for i := range reqs {
		if reqs[i].places == nil {
			reqs[i].places = besideMark(reqs[i])
		}
	}
	sort.SliceStable(reqs, func(i, j int) bool { return reqs[i].rank < reqs[j].rank })
	return reqs
}

// choices are the places each text may have, with room to its neighbours in the line.
func (d *drawing) choices(reqs []request) [][]label.Spot {
	lists := make([][]label.Spot, len(reqs))
	pipes, marks := stretchesOf(d.diagram.Pipes), d.marks.grid()
	for i, r := range reqs {
		lists[i] = make([]label.Spot, len(r.places))
		for k, p := range r.places {
			if pipes.behind(r, p.Box) {
				p.Cost += behindCost
			}
			p.Box.MinX -= besideMM
			p.Box.MaxX += besideMM
			if hidden(r, p.Box, pipes, marks) {
				p.Cost += crossCost
			}
			lists[i][k] = p
		}
	}
	return lists
}

// judgeLabels notes which texts found no free place, and which stand far off or with another
// between them and what they belong to.
func (d *drawing) judgeLabels(reqs []request, chosen, overlapping []int) {
	d.overlaps, d.strained = nil, nil
	for _, i := range overlapping {
		d.overlaps = append(d.overlaps, reqs[i].name)
	}
	for i, r := range reqs {
		if chosen[i] < 0 {
			continue
		}
		from, to, l := nearest(r, r.places[chosen[i]].Box)
		way := scene.Empty().Add(from).Add(to).Grow(0.3)
		strained := l > farOff
		for j, o := range reqs {
			if l > 1 && j != i && chosen[j] >= 0 && o.places[chosen[j]].Box.Overlaps(way) {
				d.strained = append(d.strained, o.name)
				strained = true
			}
		}
		if strained {
			d.strained = append(d.strained, r.name)
		}
	}
}

// nearest returns the shortest way from what a label belongs to to its box.
func nearest(r request, b scene.Box) (from, to scene.Point, length float64) {
	if len(r.points) == 0 {
		return from, to, 0
	}
	length = math.Inf(1)
	for _, p := range r.points {
		q := scene.Point{X: min(max(p.X, b.MinX), b.MaxX), Y: min(max(p.Y, b.MinY), b.MaxY)}
		if max(math.Abs(p.X-q.X), math.Abs(p.Y-q.Y)) >= length {
			continue // so far along one axis alone
		}
		if l := dist(p, q); l < length {
			from, to, length = p, q, l
		}
	}
	return from, to, length
}

// write sets the words of a label into its box.
func (d *drawing) write(r request, b scene.Box) {
	y := b.MinY
	if r.text.ring {
		c := b.Centre()
		d.labels = append(d.labels, scene.Circle(c, b.W()/2-0.3, scene.Outline(0.35)).Named("ring:"+r.name))
		w := r.text.lines[0][0]
		d.labels = append(d.labels, scene.Text{At: c, Text: w.text, SizeMM: w.size, Bold: w.bold, Anchor: scene.Centre, Middle: true, Name: "label:" + r.name})
		return
	}
	for _, line := range r.text.lines {
		w, h := 0.0, 0.0
		for i, x := range line {
			if i > 0 {
				w += wordGap
			}
			w += x.width()
			h = max(h, x.size*lineMM)
		}
		x := b.MinX + (b.W()-w)/2
		for _, word := range line {
			d.labels = append(d.labels, scene.Text{At: scene.Point{X: x, Y: y + h*0.5}, Text: word.text, SizeMM: word.size,
				Bold: word.bold, Middle: true, Name: "label:" + r.name})
			x += word.width() + wordGap
		}
		y += h
	}
}

// boxAt is a box of the size about a middle.
func boxAt(cx, cy, w, h float64) scene.Box {
	return scene.Box{MinX: cx - w/2, MinY: cy - h/2, MaxX: cx + w/2, MaxY: cy + h/2}
}

// besideMark lists places about a mark on a pipe.
func besideMark(r request) []label.Spot {
	w, h := r.text.size()
	var out []label.Spot
	add := func(dx, dy, cost float64) {
		out = append(out, label.Spot{Box: boxAt(r.around.X+dx, r.around.Y+dy, w, h), Cost: cost})
	}
	for i, far := range []float64{0, 2, 4, 7} {
		up, side := r.near+0.3+h/2+far, r.near+0.3+w/2+far
		cost := float64(i) * 4
		if r.vertical {
			add(side, 0, cost)
			add(-side, 0, cost+0.5)
			add(side, up/2, cost+2)
			add(-side, up/2, cost+2)
			add(side, -up/2, cost+2)
			add(-side, -up/2, cost+2)
			continue
		}
		add(0, -up, cost)
		add(0, up, cost+0.5)
		for _, dx := range []float64{-3, 3, -6, 6} {
			add(dx, -up, cost+1+math.Abs(dx)/4)
			add(dx, up, cost+1.5+math.Abs(dx)/4)
		}
	}
	return out
}

// wantPart lists places about a sign: below it first, for a sign on an upright pipe beside.
func (d *drawing) wantPart(n *arrange.Node) {
	t := d.partText(n.Part)
	w, h := t.size()
	s := n.Symbol
	if n.Part.Kind == graph.Manifold {
		s = symbol.Manifold(n.BarUp, n.BarDown, d.look(n.Part))
	}
	b := s.BoxAt(n.At, n.Way).Grow(0.5)
	c := b.Centre()
	var out []label.Spot
	add := func(cx, cy, cost float64) { out = append(out, label.Spot{Box: boxAt(cx, cy, w, h), Cost: cost}) }
	upright := n.Way == symbol.Up || n.Way == symbol.Down
	for i, far := range []float64{0, 1.5, 3, 5, 8, 12} {
		cost := float64(i) * 5
		below, above := b.MaxY+0.2+h/2+far, b.MinY-0.2-h/2-far
		right, left := b.MaxX+0.4+w/2+far, b.MinX-0.4-w/2-far
		if upright {
			for _, dy := range []float64{0, -2, 2, -4, 4, -6, 6, -8, 8, -10, 10} {
				extra := math.Abs(dy) / 2
				switch off := math.Abs(dy) > 4; {
				case off && i > 1:
					continue
				case off:
					extra += offSide
				}
				add(right, c.Y+dy, cost+extra)
				add(left, c.Y+dy, cost+0.7+extra)
			}
			add(c.X, below, cost+6)
			add(c.X, above, cost+6)
			continue
		}
		for _, dx := range []float64{0, -2, 2, -4, 4, -w / 2, w / 2} {
			extra := math.Abs(dx) / 3
			add(n.At.X+dx, below, cost+extra)
			add(n.At.X+dx, above, cost+1.2+extra)
		}
		add(n.At.X+w/2+1.2, below, cost+2)
		add(n.At.X-w/2-1.2, below, cost+2)
		add(n.At.X+w/2+1.2, above, cost+3)
		add(n.At.X-w/2-1.2, above, cost+3)
		add(right, c.Y, cost+4)
		add(left, c.Y, cost+4)
	}
	rank := 1
	if minor(n.Part.Kind) {
		rank = 2
	}
	edges := []scene.Point{{X: c.X, Y: b.MinY}, {X: c.X, Y: b.MaxY}, {X: b.MinX, Y: c.Y}, {X: b.MaxX, Y: c.Y}}
	d.want(request{text: t, places: out, name: n.Part.ID, rank: rank, points: edges})
}

// wantTub puts the tub's name in the middle of it and the names of its mouths inside the wall.
func (d *drawing) wantTub(n *arrange.Node) {
	b := d.diagram.TubBox
	t := d.partText(n.Part)
	w, h := t.size()
	var out []label.Spot
	for _, dy := range []float64{0, -3, 3, -6, 6, 9, -9, 12, 15, 18} {
		for _, dx := range []float64{-6, -9, -3, 0, 3, 6, 9} {
			out = append(out, label.Spot{Box: boxAt(b.Centre().X+dx, b.Centre().Y+1+dy, w, h), Cost: math.Abs(dy) + math.Abs(dx+6)/3})
		}
	}
	d.want(request{text: t, places: out, name: n.Part.ID, rank: 1})
	for _, m := range d.diagram.Mouths {
		t := text{lines: [][]word{{{fit(m.Port, portEm), portEm, false}}}}
		w, h := t.size()
		var out []label.Spot
		for i, far := range []float64{0, 2, 4, 6} {
			cost := float64(i) * 3
			if m.Foot {
				for _, dx := range []float64{0, -3, 3, -6} {
					x := max(b.MinX+1+w/2, min(b.MaxX-1-w/2, m.At.X+dx)) // within its walls
					out = append(out, label.Spot{Box: boxAt(x, m.At.Y-1-h/2-far, w, h), Cost: cost + math.Abs(x-m.At.X)/3})
				}
				continue
			}
			for _, dy := range []float64{0, 3, -3, 5} {
				out = append(out, label.Spot{Box: boxAt(m.At.X-1.2-w/2-far, m.At.Y+dy, w, h), Cost: cost + math.Abs(dy)})
			}
		}
		d.want(request{text: t, places: out, name: "port:" + m.Port, rank: 0})
	}
}

// wantRun lists places along the straights of a pipe: above and below where it is level,
// beside it where it is upright; the longest straight first.
func (d *drawing) wantRun(p *arrange.Pipe) {
	t := d.runText(p.Run, p.Air)
	w, h := t.size()
	if h == 0 {
		return
	}
	var out []label.Spot
	var along []scene.Point
	half := d.penOf(p).StrokeMM/2 + lineClear + 0.1
	for k := 1; k < len(p.Points); k++ {
		a, b := p.Points[k-1], p.Points[k]
		l := dist(a, b)
		if l < 2 {
			continue
		}
		short := 0.0
		level := math.Abs(a.Y-b.Y) < 0.01
		if level && w > l {
			short = (w - l) * 1.5
		}
		if !level {
			short = 3
		}
		for _, s := range []float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9} {
			x, y := a.X+(b.X-a.X)*s, a.Y+(b.Y-a.Y)*s
			along = append(along, scene.Point{X: x, Y: y})
			cost := short + math.Abs(s-0.5)*6
			for j, far := range []float64{0, 1.2, 2.6, 4.5} {
				c := cost + 4*float64(j)
				if level {
					out = append(out, label.Spot{Box: boxAt(x, y-half-h/2-far, w, h), Cost: c},
						label.Spot{Box: boxAt(x, y+half+h/2+far, w, h), Cost: c + 0.4})
				} else {
					out = append(out, label.Spot{Box: boxAt(x+half+0.3+w/2+far, y, w, h), Cost: c},
						label.Spot{Box: boxAt(x-half-0.3-w/2-far, y, w, h), Cost: c + 0.4})
				}
			}
		}
	}
	d.want(request{text: t, places: out, name: "run:" + p.Run.ID, rank: 3, points: along})
}
