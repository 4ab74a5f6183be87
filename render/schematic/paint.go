package schematic

import (
	"math"
	"strconv"

	"dryfit/graph"
	"dryfit/render/scene"
	"dryfit/render/schematic/arrange"
	"dryfit/render/symbol"
)

// Sizes of arrows, marks and gaps, mm.
const (
	arrowLong  = 3.0
	arrowWide  = 2.2
	crossGap   = 1.5 // each side of a crossing, in the rear line
	lineClear  = 0.5 // between a line's edge and a label
	cutPitch   = 8.5 // between two cut marks on one run
	cutFromEnd = 5.0 // of a cut mark from the new tee
)

// paint draws pipes, then arrows and marks, then signs, and notes what they cover.
func (d *drawing) paint() {
	d.cutNames = map[string]int{}
	crossings := findCrossings(d.diagram.Pipes)
	for _, isNew := range []bool{false, true} { // new work on top
		for i, p := range d.diagram.Pipes {
			if p.Run.New() == isNew {
				d.paintPipe(p, crossings[i])
			}
		}
	}
	for _, n := range d.diagram.Nodes {
		d.paintNode(n)
	}
}

func (d *drawing) penOf(p *arrange.Pipe) scene.Style {
	st := scene.Stroke(penOld)
	if p.Run.New() {
		st = scene.Stroke(penNew)
	}
	if p.Air {
		st.Dash = []float64{2.2, 1.3}
	}
	return st
}

func (d *drawing) paintPipe(p *arrange.Pipe, gaps []scene.Point) {
	st := d.penOf(p)
	for _, piece := range cutOut(p.Points, gaps, crossGap) {
		d.items = append(d.items, scene.Polyline(piece, st).Named("run:"+p.Run.ID))
	}
	for k := 1; k < len(p.Points); k++ {
		d.cover(segmentBox(p.Points[k-1], p.Points[k], st.StrokeMM))
	}
	if p.Flows || p.Air {
		d.paintArrow(p)
	}
	d.paintCuts(p)
}

// segmentBox is what a straight piece of pipe covers.
func segmentBox(a, b scene.Point, width float64) scene.Box {
	return scene.Empty().Add(a).Add(b).Grow(width/2 + lineClear)
}

func (d *drawing) cover(b scene.Box) { d.fixed = append(d.fixed, b) }

// mark covers a box that no leader may cross but that of what it is named by.
func (d *drawing) mark(name string, b scene.Box) {
	d.cover(b)
	d.marks = append(d.marks, mark{name, b})
}

// paintArrow puts an arrowhead on the longest straight of a pipe, past its middle, and on
// long ways back one more.
func (d *drawing) paintArrow(p *arrange.Pipe) {
	best, length := -1, 0.0
	for k := 1; k < len(p.Points); k++ {
		if l := dist(p.Points[k-1], p.Points[k]); l > length+0.01 {
			best, length = k, l
		}
	}
	if best < 0 || length < arrowLong+1 {
		return
	}
	put := func(a, b scene.Point, share float64) {
		l := dist(a, b)
		v := scene.Point{X: (b.X - a.X) / l, Y: (b.Y - a.Y) / l}
		t := l*share + arrowLong/2
		tip := scene.Point{X: a.X + v.X*t, Y: a.Y + v.Y*t}
		sh := scene.Arrow(tip, v, arrowLong, arrowWide, scene.Filled(0)).Named("flow:" + p.Run.ID)
		d.items = append(d.items, sh)
		d.mark("flow:"+p.Run.ID, scene.Bounds(sh).Grow(0.2))
	}
	share := 0.5
	switch {
	case d.cutsAhead(p.Run) > 0:
		share = 1 - 0.75*arrowLong/length // past the marks
	case p.Run.RemainsOf != "" && p.From.Part.New():
		share = 0.65
	case p.Run.RemainsOf != "":
		share = 0.4
	}
	if length > 120 {
		put(p.Points[best-1], p.Points[best], 0.25)
		put(p.Points[best-1], p.Points[best], 0.75)
		return
	}
	put(p.Points[best-1], p.Points[best], share)
}

// paintCuts marks where existing pipe is cut: two strokes across it, and a number in a
// circle that finds its place with the labels.
func (d *drawing) paintCuts(p *arrange.Pipe) {
	if d.in.NoCuts {
		return
	}
	if p.Run.RemainsOf != "" {
		for _, end := range []bool{true, false} {
			n := p.From
			if end {
				n = p.To
			}
			if n.Part.New() {
				d.cutMark(p, end, cutFromEnd, "")
			}
		}
	}
	k := 0
	for _, c := range d.in.Cuts {
		if c.Run == p.Run.ID {
			d.cutMark(p, false, (float64(k)+0.7)*cutPitch, c.Name)
			k++
		}
	}
}

// cutMark draws one mark at a distance along the pipe from its start or its end.
func (d *drawing) cutMark(p *arrange.Pipe, fromEnd bool, along float64, name string) {
	pts := p.Points
	if fromEnd {
		pts = make([]scene.Point, len(p.Points))
		for i, q := range p.Points {
			pts[len(pts)-1-i] = q
		}
	}
	l := dist(pts[0], pts[1])
	if l < 0.1 {
		return
	}
	t := math.Min(along, l)
	if name == "" {
		t = math.Min(along, l/2)
	}
	v := scene.Point{X: (pts[1].X - pts[0].X) / l, Y: (pts[1].Y - pts[0].Y) / l}
	c := scene.Point{X: pts[0].X + v.X*t, Y: pts[0].Y + v.Y*t}
	if name == "" {
		name = "X" + strconv.Itoa(len(d.cutNames)+1)
	}
	d.cutNames[name] = len(d.cutNames)
	w := scene.Point{X: -v.Y, Y: v.X} // across
	var strokes []scene.Shape
	for _, o := range []float64{-0.7, 0.7} {
		strokes = append(strokes, scene.Line(
			scene.Point{X: c.X + v.X*(o-0.9) + w.X*2.3, Y: c.Y + v.Y*(o-0.9) + w.Y*2.3},
			scene.Point{X: c.X + v.X*(o+0.9) - w.X*2.3, Y: c.Y + v.Y*(o+0.9) - w.Y*2.3}, scene.Stroke(0.5)))
	}
	mark := scene.Join(strokes...).Named("cut:" + name)
	d.items = append(d.items, mark)
	d.mark("cut:"+name, scene.Bounds(mark).Grow(0.2))
	d.want(request{text: text{lines: [][]word{{{name, tagEm, true}}}, ring: true}, around: c, near: 2.6, vertical: math.Abs(v.Y) > 0.5, name: "cut:" + name, rank: 0})
}

func (d *drawing) paintNode(n *arrange.Node) {
	p := n.Part
	name := "symbol:" + p.ID
	s := n.Symbol
	switch {
	case n == d.diagram.Tub:
		b := d.diagram.TubBox
		s = symbol.Tub(b.W(), b.H(), d.look(p))
		s.Legend = "tub"
	case p.Kind == graph.Manifold:
		s = symbol.Manifold(n.BarUp, n.BarDown, d.look(p))
	}
	for _, it := range s.At(n.At, n.Way) {
		switch it := it.(type) {
		case scene.Shape:
			d.items = append(d.items, it.Named(name))
		case scene.Text:
			it.Name = name
			d.items = append(d.items, it)
		}
	}
	if n == d.diagram.Tub {
		b := d.diagram.TubBox
		d.cover(scene.Box{MinX: b.MinX, MinY: b.MinY, MaxX: b.MinX, MaxY: b.MaxY}.Grow(0.8))
		d.cover(scene.Box{MinX: b.MaxX, MinY: b.MinY, MaxX: b.MaxX, MaxY: b.MaxY}.Grow(0.8))
		d.cover(scene.Box{MinX: b.MinX, MinY: b.MaxY, MaxX: b.MaxX, MaxY: b.MaxY}.Grow(0.8))
		d.cover(scene.Box{MinX: b.MinX, MinY: b.MinY + 1.2, MaxX: b.MaxX, MaxY: b.MinY + 4.8})
		return
	}
	d.mark(p.ID, s.BoxAt(n.At, n.Way).Grow(0.4))
}

func dist(a, b scene.Point) float64 { return math.Hypot(a.X-b.X, a.Y-b.Y) }
