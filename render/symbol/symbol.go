package symbol

import (
	"dryfit/graph"
	"dryfit/render/scene"
)

// M is the line module of the symbols, mm. Source: ISO 10628-2, clause 4 (from memory).
const M = 2.5

// Look is what changes the sign of a kind.
type Look struct {
	Pen      float64 // line width, mm
	Shut     bool    // a hand valve that is normally shut: filled
	Throttle bool    // a hand valve that is set between open and shut: an arrow across
	Spring   bool    // a check valve with a spring
	Isolated bool    // an element heater that is disconnected: crossed out
	Thread   bool    // a coupling that leads from a thread to pipe
	HoseOut  bool    // a barb whose hose is where the water leaves it
	Widens   bool    // a reducer whose large end is where the water leaves it
	MetricIn bool    // a transition whose metric end is where the water comes in
}

// Symbol is the sign of one part.
type Symbol struct {
	Items   []scene.Item
	Box     scene.Box // what the sign covers
	In, Out float64   // X of the pipe ends; 0 for a point
	Legend  string    // what it means
}

// Way is the way of the water through a symbol on the page.
type Way int

// The ways.
const (
	Right Way = iota
	Up
	Left
	Down
)

// Vector returns the way as a page vector, Y down.
func (w Way) Vector() scene.Point {
	return [...]scene.Point{{X: 1}, {Y: -1}, {X: -1}, {Y: 1}}[w]
}

// turn maps a point of a symbol drawn for water to the right. To the left it is mirrored,
// so that what stands above the pipe stays there.
func (w Way) turn(p scene.Point) scene.Point {
	switch w {
	case Up:
		return scene.Point{X: p.Y, Y: -p.X}
	case Left:
		return scene.Point{X: -p.X, Y: p.Y}
	case Down:
		return scene.Point{X: -p.Y, Y: p.X}
	}
	return p
}

// At returns the symbol's items moved to c and turned into the way.
func (s Symbol) At(c scene.Point, w Way) []scene.Item {
	f := func(p scene.Point) scene.Point {
		q := w.turn(p)
		return scene.Point{X: c.X + q.X, Y: c.Y + q.Y}
	}
	out := make([]scene.Item, len(s.Items))
	for i, it := range s.Items {
		switch it := it.(type) {
		case scene.Shape:
			out[i] = it.Map(f)
		case scene.Text:
			it.At = f(it.At)
			out[i] = it
		}
	}
	return out
}

// BoxAt returns what the symbol covers when it stands at c, turned into the way.
func (s Symbol) BoxAt(c scene.Point, w Way) scene.Box {
	b := scene.Empty()
	for _, p := range []scene.Point{{X: s.Box.MinX, Y: s.Box.MinY}, {X: s.Box.MaxX, Y: s.Box.MaxY}} {
		q := w.turn(p)
		b = b.Add(scene.Point{X: c.X + q.X, Y: c.Y + q.Y})
	}
	return b
}

// Of returns the sign of a kind. The tub is drawn by Tub, a manifold by Manifold: their
// size depends on what they are joined to.
func Of(kind graph.Kind, look Look) Symbol {
	if look.Pen == 0 {
		look.Pen = 0.35
	}
	s := draw(kind, look)
	b := scene.Bounds(s.Items...)
	if !b.IsEmpty() {
		s.Box = b
	}
	return s
}

func draw(kind graph.Kind, l Look) Symbol {
	switch kind {
	case graph.Pump:
		return pump(l)
	case graph.Blower:
		return blower(l)
	case graph.HeatPump:
		return heatPump(l)
	case graph.HeatExchanger:
		return exchanger(l)
	case graph.UVChamber:
		return uvChamber(l)
	case graph.PressureGauge:
		return gauge(l)
	case graph.ElementHeater:
		return element(l)
	case graph.Filter:
		return filter(l)
	case graph.Strainer:
		return strainer(l)
	case graph.Feeder:
		return feeder(l)
	case graph.SaltCell:
		return saltCell(l)
	case graph.OzoneInjector:
		return injector(l)
	case graph.GateValve, graph.BallValve, graph.ButterflyValve:
		return handValve(kind, l)
	case graph.CheckValve:
		return check(l)
	case graph.DiverterValve:
		return diverter(l)
	case graph.DrainValve:
		return drain(l)
	case graph.AirBleed:
		return bleed(l)
	case graph.AirControl:
		return airControl(l)
	case graph.Tee:
		return tee(l)
	case graph.Union:
		return union(l)
	case graph.Coupling:
		return coupling(l)
	case graph.SlipCoupling:
		return slipCoupling(l)
	case graph.Reducer:
		return reducer(l)
	case graph.Transition:
		return transition(l)
	case graph.Barb:
		return barb(l)
	case graph.Cap:
		return capEnd(l)
	case graph.FlowSwitch:
		return instrument("FS", "flow switch", l)
	case graph.PressureSwitch:
		return instrument("PS", "pressure switch", l)
	case graph.ThermometerPocket:
		return instrument("TI", "thermometer pocket", l)
	case graph.Suction:
		return suction(l)
	case graph.JetGroup:
		return jets(l)
	case graph.Manifold:
		return Manifold(0, 6*M, l)
	case graph.Tub:
		return Tub(16*M, 8*M, l)
	}
	return box("?", "unknown part", l)
}

// path is a broken line through x, y pairs.
func path(pen float64, xy ...float64) scene.Shape {
	return scene.Polyline(points(xy), scene.Stroke(pen))
}

// area is a closed outline through x, y pairs, white inside.
func area(pen float64, xy ...float64) scene.Shape {
	return scene.Polygon(points(xy), scene.Outline(pen))
}

// solid is a closed outline through x, y pairs, black inside.
func solid(pen float64, xy ...float64) scene.Shape {
	return scene.Polygon(points(xy), scene.Solid(pen))
}

func points(xy []float64) []scene.Point {
	pts := make([]scene.Point, len(xy)/2)
	for i := range pts {
		pts[i] = scene.Point{X: xy[2*i], Y: xy[2*i+1]}
	}
	return pts
}

func at(x, y float64) scene.Point { return scene.Point{X: x, Y: y} }

// box is a plain rectangle with letters in it.
func box(letters, legend string, l Look) Symbol {
	return Symbol{In: -2 * M, Out: 2 * M, Legend: legend, Items: []scene.Item{
		area(l.Pen, -2*M, -1.5*M, 2*M, -1.5*M, 2*M, 1.5*M, -2*M, 1.5*M),
		scene.Text{At: at(0, 0), Text: letters, SizeMM: 2.8, Anchor: scene.Centre, Middle: true},
	}}
}
