package curves

import (
	"math"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/plan"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// Input is what the curves are drawn from.
type Input struct {
	Sets  []plan.CurveSet
	Name  func(string) string // a part by its tag and the trade's word
	Modes func(string) string // a mode in words
	Job   graph.Job
	Units quantity.System
	Page  sheet.Page // zero: A4 landscape
}

// Draw returns one sheet for each pump and each way the modes set its circuit.
func Draw(in Input) []*scene.Scene {
	var sets []plan.CurveSet
	for _, s := range in.Sets {
		sets = append(sets, bySetting(s)...)
	}
	var out []*scene.Scene
	for i := range sets {
		d := &drawing{in: in, set: &sets[i]}
		out = append(out, d.sheet(i+1, len(sets)))
	}
	return out
}

// drawing is one sheet in the making.
type drawing struct {
	in       Input
	set      *plan.CurveSet
	plot     plot
	items    []scene.Item
	marks    []scene.Item // on top
	fixed    []scene.Box
	requests []request
	strained int // labels that found no free place
}

// Room beside the plot for the axes' figures, mm.
const (
	roomLeft  = 14.0
	roomRight = 4.0
	roomUp    = 4.0
	roomDown  = 11.0
)

func (d *drawing) sheet(n, of int) *scene.Scene {
	h := sheet.HeadOf(d.in.Job, "Pump and circuit")
	h.Sheet, h.Of = n, of
	p := d.in.Page
	s := sheet.New(p.Format, p.Orientation, h)
	s.Notes(d.notes()...)
	s.Legend(d.legend()...)
	a := s.Area()
	d.plot.box = scene.Box{MinX: a.MinX + roomLeft, MinY: a.MinY + roomUp, MaxX: a.MaxX - roomRight, MaxY: a.MaxY - roomDown}
	flow, head := d.most()
	d.plot.x, d.plot.y = flowAxis(flow, d.in.Units), headAxis(head, d.in.Units)
	s.Add(d.plot.draw()...)
	d.bands()
	d.systems()
	d.pumps()
	d.duties()
	d.place()
	s.Add(d.items...)
	s.Add(d.marks...)
	return s.Scene
}

// most returns the greatest flow and head that have to be on the plot.
func (d *drawing) most() (flow, head float64) {
	for _, c := range d.set.Speeds {
		for _, p := range c.Points {
			flow, head = math.Max(flow, p.Flow), math.Max(head, p.Head)
		}
	}
	for _, u := range d.set.Duties {
		flow = math.Max(flow, u.Range.High)
		head = math.Max(head, u.Head)
	}
	return flow * 1.02, head * 1.06
}

// name is what the papers call the pump.
func (d *drawing) name() string { return d.in.Name(d.set.Pump.ID) }

func split(points []hydraulic.SystemPoint) (flows, heads []float64) {
	for _, p := range points {
		flows, heads = append(flows, p.Flow), append(heads, p.Head)
	}
	return flows, heads
}

// block adds a line no label may cover, by short boxes along it.
func (d *drawing) block(pts []scene.Point) {
	for i := 1; i < len(pts); i++ {
		a, b := pts[i-1], pts[i]
		n := int(math.Hypot(b.X-a.X, b.Y-a.Y)/1.5) + 1
		for k := range n {
			t, u := float64(k)/float64(n), float64(k+1)/float64(n)
			box := scene.Empty().Add(scene.Point{X: a.X + t*(b.X-a.X), Y: a.Y + t*(b.Y-a.Y)}).Add(scene.Point{X: a.X + u*(b.X-a.X), Y: a.Y + u*(b.Y-a.Y)})
			d.fixed = append(d.fixed, box.Grow(0.35))
		}
	}
}

// bands fills the range of each circuit after the work.
func (d *drawing) bands() {
	for _, s := range d.set.Systems {
		if s.Low == nil || s.Stage != graph.After {
			continue
		}
		low, high := d.plot.line(split(s.Low)), d.plot.line(split(s.High))
		if len(low) < 2 || len(high) < 2 {
			continue
		}
		pts := append([]scene.Point{}, low...)
		// where one leaves at the head and the other at the right, the corner lies between
		if a, b := low[len(low)-1], high[len(high)-1]; a.Y <= d.plot.box.MinY+1e-6 && b.X >= d.plot.box.MaxX-1e-6 && b.Y > d.plot.box.MinY+1e-6 {
			pts = append(pts, scene.Point{X: d.plot.box.MaxX, Y: d.plot.box.MinY})
		}
		for i := len(high) - 1; i >= 0; i-- {
			pts = append(pts, high[i])
		}
		d.items = append(d.items, scene.Polygon(pts, scene.Filled(bandGrey)).Named("band"))
	}
}

// systems draws the circuits' curves and asks for their names.
func (d *drawing) systems() {
	count := map[graph.Stage]int{}
	total := map[graph.Stage]int{}
	for _, s := range d.set.Systems {
		total[s.Stage]++
	}
	for _, s := range d.set.Systems {
		n := count[s.Stage]
		count[s.Stage]++
		flows, heads := split(s.Points)
		pts := d.plot.line(append([]float64{0}, flows...), append([]float64{0}, heads...)) // no flow asks for no head: it starts and ends at the tub's surface
		if len(pts) < 2 {
			continue
		}
		d.items = append(d.items, scene.Polyline(pts, style(s.Stage, n)).Named("system"))
		d.block(pts)
		words := "circuit"
		if d.two() {
			words += " " + string(s.Stage)
		}
		if total[s.Stage] > 1 {
			words += ": " + strings.Join(d.modes(s.Modes), "; ")
		}
		d.want(words, false, pts[len(pts)/2:]...)
	}
}

// pumps draws the pump's curve at each speed and asks for its name.
func (d *drawing) pumps() {
	for _, c := range d.set.Speeds {
		pts := d.plot.line(split(c.Points))
		if len(pts) < 2 {
			continue
		}
		d.items = append(d.items, scene.Polyline(pts, pumpStyle).Named("pump"))
		d.block(pts)
		words := d.name()
		if len(d.set.Speeds) > 1 || c.Speed != graph.SpeedOn {
			words += ", " + c.Speed
		}
		n := len(pts)
		d.want(words, true, pts[n/12:n/2]...)
	}
}

// The letters of a duty point's figures and how wide its words may run, mm: wider ones find no place
// between the curves. Judgement.
const (
	dutyEm     = 2.7
	dutyWidest = 48.0
)

// duties marks where the pump works and asks for the figures. Modes with the same duty share
// a mark.
func (d *drawing) duties() {
	var labels []request
	done := make([]bool, len(d.set.Duties))
	for i, u := range d.set.Duties {
		if done[i] {
			continue
		}
		at := d.plot.p(u.Flow, u.Head)
		modes := []string{u.Mode}
		for k, v := range d.set.Duties[i+1:] {
			if q := d.plot.p(v.Flow, v.Head); v.Stage == u.Stage && math.Hypot(q.X-at.X, q.Y-at.Y) < 0.4 {
				modes, done[i+1+k] = append(modes, v.Mode), true
			}
		}
		d.mark(u, at)
		words := strings.Join(d.modes(modes), "; ")
		if d.two() {
			words += ", " + string(u.Stage)
		}
		heads := sheet.Wrap(words, dutyEm, dutyWidest, true)
		labels = append(labels, request{lines: append(heads, d.flow(u.Flow)+", "+d.head(u.Head)), heads: len(heads), at: []scene.Point{at}, em: dutyEm, lead: true})
	}
	d.requests = append(labels, d.requests...)
}

// mark draws one duty point, after the work with how far it may lie along the flow.
func (d *drawing) mark(u plan.Duty, at scene.Point) {
	st := scene.Solid(sheet.Thin)
	if u.Stage == graph.Before {
		st = scene.Outline(sheet.Thin)
	}
	if u.Range.High > u.Range.Low && u.Stage == graph.After {
		lo, hi := d.plot.p(u.Range.Low, u.Head), d.plot.p(u.Range.High, u.Head)
		bar := scene.Stroke(sheet.Thin)
		d.marks = append(d.marks, scene.Line(lo, hi, bar).Named("range"),
			scene.Line(scene.Point{X: lo.X, Y: lo.Y - 1.3}, scene.Point{X: lo.X, Y: lo.Y + 1.3}, bar),
			scene.Line(scene.Point{X: hi.X, Y: hi.Y - 1.3}, scene.Point{X: hi.X, Y: hi.Y + 1.3}, bar))
		d.fixed = append(d.fixed, scene.Box{MinX: lo.X, MinY: lo.Y - 1.3, MaxX: hi.X, MaxY: hi.Y + 1.3})
	}
	d.marks = append(d.marks, scene.Circle(at, 1.5, st).Named("duty"))
	d.fixed = append(d.fixed, scene.Box{MinX: at.X - 1.5, MinY: at.Y - 1.5, MaxX: at.X + 1.5, MaxY: at.Y + 1.5})
}
