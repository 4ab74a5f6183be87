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
	net    *graph.Net
	tags   map[string]string
	common pipeOf

	chosen   sheet.Page // the paper
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
	d.net = graph.NewNet(d.c)
	d.common = commonPipe(d.c)
	return d
}

// spreads are the distances tried, from close to wide, until every label has a place.
var spreads = []float64{1, 1.2, 1.45, 1.75, 2.1}

// Scales at which a drawing is read at arm's length: well, and just.
const (
	goodScale = 0.9
	leastOnA4 = 0.72
	foldGain  = 1.12 // how much larger a drawing must become for its rows to be broken again
	mostRows  = 6
)

// arrange lays the circuit out and labels it: on the smallest sheet and in the fewest rows on
// which it is read well, then wider until no label is in the way.
func (d *drawing) arrange() {
	rows := d.choose()
	d.layOut(1, rows)
	for _, s := range spreads[1:] {
		if d.overlaps == 0 || len(d.c.Parts) > mostRelaid {
			return
		}
		d.layOut(s, rows)
	}
}

// choose settles the sheet and into how many rows the lines are broken.
func (d *drawing) choose() int {
	pages := []sheet.Page{d.in.Page}
	if !d.in.Page.Fixed {
		pages = []sheet.Page{{Format: sheet.A4}, {Format: sheet.A3}}
	}
	var areas []scene.Box
	best := make([]int, len(pages)) // rows
	scale := make([]float64, len(pages))
	width := 0.0
	for rows := 1; rows <= mostRows; rows++ {
		d.layOut(1, rows)
		if areas == nil { // the legend is known now
			for _, p := range pages {
				areas = append(areas, d.page(p).Area())
			}
		}
		w := d.bounds().W()
		if rows > 1 && w > width-1 {
			break // nothing left to break
		}
		width = w
		for i, a := range areas {
			if k := d.scaleFor(a); best[i] == 0 || k > scale[i]*foldGain {
				best[i], scale[i] = rows, k
			}
		}
		if scale[0] >= goodScale {
			break
		}
	}
	for i := range pages {
		d.chosen = pages[i]
		if i == len(pages)-1 || scale[i] >= leastOnA4 {
			return best[i]
		}
	}
	return 1
}

// mostRelaid is how many parts a circuit may have to be laid out again for its labels.
const mostRelaid = 150

func (d *drawing) layOut(spread float64, rows int) {
	d.items, d.labels, d.fixed, d.requests = nil, nil, nil, nil
	d.diagram = arrange.New(d.c, arrange.Measure{Part: d.measurePart, Run: d.measureRun, Spread: spread, Rows: rows})
	d.paint()
	d.placeLabels()
}

func (d *drawing) measurePart(p *graph.Part) (symbol.Symbol, float64, float64) {
	s := symbol.Of(p.Kind, d.look(p))
	if p.Kind == graph.Tub {
		return s, 0, 0
	}
	w, h := d.partText(p).size()
	return s, w, h
}

// measureRun is the straight length a run's labels, arrow and cut marks want.
func (d *drawing) measureRun(r *graph.Run) float64 {
	w := 0.0
	if !direct(r) {
		w = 7
	}
	if tw, _ := d.runText(r, d.net.IsAir(r)).size(); tw > 0 {
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
