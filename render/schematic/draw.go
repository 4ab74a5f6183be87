package schematic

import (
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/render/scene"
	"dryfit/render/schematic/arrange"
	"dryfit/render/schematic/symbol"
	"dryfit/render/sheet"
)

// Input is what a schematic is drawn from.
type Input struct {
	Circuit   *graph.Circuit  // whole, or one stage
	Stage     graph.Stage     // "": after
	Cuts      []Cut           // marks on existing runs; where pipe was cut already they come by themselves
	Units     quantity.System // of what is said in figures
	Page      sheet.Page      // zero: A4 landscape, or A3 where A4 is too small
	Title     string          // kind of document; "": "Schematic"
	Notes     []string        // printed on the sheet after the drawing's own
	Sheet, Of int             // 0, 0: 1 of as many as it takes
}

// Cut is a place to cut an existing run.
type Cut struct {
	Run  string
	Name string // "X1"
}

// Draw returns the sheets of a schematic, nearly always one.
func Draw(in Input) []*scene.Scene {
	d := newDrawing(in)
	d.arrange()
	return d.sheets()
}

// drawing is a schematic in the making. Its items are in the coordinates of arrange.
type drawing struct {
	in     Input
	c      *graph.Circuit // the stage
	units  quantity.System
	tags   map[string]string
	common pipeOf

	diagram  *arrange.Diagram
	items    []scene.Item
	labels   []scene.Item
	fixed    []scene.Box // what no label may cover
	overlaps int
	cutNames map[string]int // numbers given to the cuts
	requests []request      // texts that want a place
}

func newDrawing(in Input) *drawing {
	if in.Stage == "" {
		in.Stage = graph.After
	}
	d := &drawing{in: in, units: in.Units, tags: Tags(in.Circuit)}
	d.c = in.Circuit.At(in.Stage)
	d.common = commonPipe(d.c)
	return d
}

// spreads are the distances tried, from close to wide, until every label has a place.
var spreads = []float64{1, 1.2, 1.45, 1.75, 2.1}

// arrange lays the circuit out and labels it, wider each time until no label is in the way.
func (d *drawing) arrange() {
	for _, s := range spreads {
		d.items, d.labels, d.fixed, d.requests = nil, nil, nil, nil
		d.diagram = arrange.New(d.c, arrange.Measure{Part: d.measurePart, Run: d.measureRun, Spread: s})
		d.paint()
		d.placeLabels()
		if d.overlaps == 0 || len(d.c.Parts) > 150 {
			return
		}
	}
}

func (d *drawing) measurePart(p *graph.Part) (symbol.Symbol, float64, float64) {
	s := symbol.Of(p.Kind, d.look(p))
	if p.Kind == graph.Tub {
		return s, 0, 0
	}
	w, h := d.partText(p).size()
	if p.Kind == graph.Tee {
		return s, w * 0.8, h // it may stand aside
	}
	return s, w, h
}

// measureRun is the straight length a run's labels, arrow and cut marks want.
func (d *drawing) measureRun(r *graph.Run) float64 {
	w := 0.0
	if !direct(r) {
		w = 7
	}
	for _, t := range d.runTexts(r, false) {
		tw, _ := t.size()
		w = max(w, tw+1.5)
	}
	if d.cutAt(r) > 0 {
		w = max(w, 13)
	}
	return w
}

// cutAt counts the cut marks a run carries.
func (d *drawing) cutAt(r *graph.Run) int {
	n := 0
	for _, c := range d.in.Cuts {
		if c.Run == r.ID {
			n++
		}
	}
	if r.RemainsOf != "" {
		n++
	}
	return n
}

// Pens, mm. Source: ISO 128 (thin 0.35, thick 0.7); signs of new work in between.
const (
	penOld     = sheet.Thin
	penNew     = sheet.Thick
	penNewSign = 0.5
)

func (d *drawing) look(p *graph.Part) symbol.Look {
	l := symbol.Look{Pen: penOld, Spring: spring(p)}
	if p.New() && p.Kind != graph.Tub {
		l.Pen = penNewSign
		if p.Kind == graph.Tee {
			l.Pen = penNew
		}
	}
	if p.Kind.IsHandValve() {
		switch positionText(p) {
		case "shut":
			l.Shut = true
		case "open":
		default:
			l.Throttle = true
		}
	}
	if p.Element != nil {
		l.Isolated = p.Element.Disconnected
	}
	return l
}
