package schematic

import (
	"maps"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/settle"
	"dryfit/graph/stream"
	"dryfit/render/scene"
	"dryfit/render/schematic/arrange"
	"dryfit/render/sheet"
	"dryfit/render/symbol"
	"dryfit/render/tag"
)

// Input is what a schematic is drawn from.
type Input struct {
	Circuit   *graph.Circuit  // whole, or one stage
	Stage     graph.Stage     // "": after
	Settled   *settle.Stage   // of that stage; nil: settled here
	Names     *tag.Names      // nil: found here
	Cuts      []Cut           // marks on existing runs; where pipe was cut already they come by themselves
	NoCuts    bool            // nothing is to be sawn: no marks
	Units     quantity.System // of what is said in figures
	Page      sheet.Page      // zero: A4 landscape; what does not go on one sheet is cut into more
	Title     string          // kind of document; "": "Schematic"
	Notes     []string        // of what stands after the work, printed after the drawing's own
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
	set    *settle.Stage
	net    *stream.Net
	tags   map[string]string
	names  *tag.Names
	common pipeOf

	chosen   sheet.Page // the paper
	mostRow  float64    // length to which rows are broken, mm; 0: not
	diagram  *arrange.Diagram
	order    *arrange.Order
	items    []scene.Item
	labels   []scene.Item
	fixed    []scene.Box        // what no label may cover
	marks    marks              // signs, arrows and cut marks
	overlaps []string           // names of the labels that found no free place
	strained []string           // names of the labels that stand far off or behind another
	room     map[string]float64 // how much more room a label is given than at first, by name
	cutNames map[string]int     // numbers given to the cuts
	requests []request          // texts that want a place
	both     *both              // it shares its sheet with another; nil: it does not
}

func newDrawing(in Input) *drawing {
	if in.Stage == "" {
		in.Stage = graph.After
	}
	d := &drawing{in: in, units: in.Units, names: in.Names}
	d.c = in.Circuit.At(in.Stage)
	if d.set = in.Settled; d.set == nil {
		d.set = settle.Of(d.c)
	}
	d.c = d.set.Circuit
	d.net = d.set.Net()
	if d.names == nil {
		d.names = tag.Of(in.Circuit, d.net)
	}
	d.tags = d.names.Tags()
	d.common = commonPipe(d.c)
	return d
}

// The scale at which a drawing is read at arm's length, and what is done to reach it.
const (
	goodScale = 0.825 // the smallest labels are then 1.8 mm high; source: least height of ISO 3098-1
	foldGain  = 1.12  // how much larger a drawing must become for its rows to be broken again
	mostRows  = 12
)

// arrange lays the circuit out and labels it: on the smallest sheet and in the fewest rows on
// which it is read well. Labels that found no free place are given more room, again and
// again, and where that does not help everything is spread; then those that stand far off
// are given more room while that helps.
func (d *drawing) arrange() {
	d.room = map[string]float64{}
	d.choose()
	spread := 1.0
	d.layOut(spread)
	if len(d.c.Parts) > mostRelaid {
		return
	}
	for try := 0; len(d.overlaps) > 0 && try < mostTries; try++ {
		d.widen(d.overlaps)
		if try >= mostTries/2 {
			spread *= 1.1
		}
		d.layOut(spread)
	}
	for range strainTries {
		if !d.relieve(spread) {
			return
		}
	}
}

// relieve gives more room to the labels that are strained, all at once or else one after the
// other, and reports whether fewer are strained then.
func (d *drawing) relieve(spread float64) bool {
	list := slices.Compact(slices.Sorted(slices.Values(d.strained)))
	tries := [][]string{list}
	for _, name := range list {
		tries = append(tries, []string{name})
	}
	area := d.areaOn(d.chosen)
	had, was := len(d.strained), d.scaleFor(area)
	for _, names := range tries {
		if had == 0 || len(names) == 0 {
			return false
		}
		before := maps.Clone(d.room)
		d.widen(names)
		d.layOut(spread)
		k := d.scaleFor(area)
		if len(d.overlaps) == 0 && len(d.strained) < had && (k >= goodScale || k >= was*0.98) {
			return true
		}
		d.room = before
	}
	d.layOut(spread)
	return false
}

// widen gives the labels more room.
func (d *drawing) widen(names []string) {
	for _, name := range names {
		d.room[name] = max(d.room[name], 1) * 1.2
	}
}

const (
	mostTries   = 14
	strainTries = 4
	mostRelaid  = 150 // parts a circuit may have to be laid out again for its labels
)

// choose settles how long a row may be, and whether the drawing is laid out for its own paper
// or for twice as much, to be cut.
func (d *drawing) choose() {
	pages := []sheet.Page{d.in.Page}
	if d.in.Page.Format != sheet.A3 && d.both == nil {
		pages = append(pages, sheet.Page{Format: sheet.A3}) // to be cut
	}
	var areas []scene.Box
	best := make([]float64, len(pages)) // length of a row
	scale := make([]float64, len(pages))
	length, worse := 0.0, 0
	for rows := 1; rows <= mostRows; rows++ {
		d.mostRow = length / float64(rows) * 1.03
		d.layOut(1)
		if rows == 1 { // the legend and the length are known now
			for _, p := range pages {
				areas = append(areas, d.areaOn(p))
			}
			length = d.bounds().MaxX
		}
		worse++
		for i, a := range areas {
			if k := d.scaleFor(a); rows == 1 || k > scale[i]*foldGain {
				best[i], scale[i], worse = d.mostRow, k, 0
			}
		}
		if scale[0] >= goodScale || worse > 1 {
			break
		}
	}
	for i := range pages {
		d.chosen, d.mostRow = pages[i], best[i]
		if scale[i] >= goodScale {
			return
		}
	}
}

func (d *drawing) layOut(spread float64) {
	d.items, d.labels, d.fixed, d.marks, d.requests = nil, nil, nil, nil, nil
	d.diagram = arrange.New(d.c, d.net, arrange.Measure{Part: d.measurePart, Run: d.measureRun, Spread: spread, MostRow: d.mostRow, Order: d.order})
	d.order = d.diagram.Order
	d.paint()
	d.crossOut()
	d.placeLabels()
}

func (d *drawing) measurePart(p *graph.Part) (symbol.Symbol, float64, float64) {
	s := symbol.Of(p.Kind, d.look(p))
	if p.Kind == graph.Tub {
		return s, 0, 0
	}
	w, h := d.partText(p).size()
	more := max(1, d.room[p.ID])
	return s, w * more, h * more
}

// labelShare is how much of a pipe's label must fit on the pipe itself at first: it may reach
// over a neighbour whose own label stands on the other side.
const labelShare = 0.7

// measureRun is the straight length a level run's labels, arrow and cut marks want, and the
// height of its label.
func (d *drawing) measureRun(r *graph.Run) (length, height float64) {
	if !r.Direct() {
		length = 7
	}
	share := labelShare
	if d.tall(r.From.Part) || d.tall(r.To.Part) {
		share = 1
	}
	more := max(1, d.room["run:"+r.ID])
	w, h := d.runText(r, d.net.IsAir(r)).size()
	if w > 0 {
		length = max(length, (w*share+1.5)*more)
	}
	if r.RemainsOf != "" {
		length = max(length, 13) * more
	}
	if n := d.cutsAhead(r); n > 0 {
		length = max(length, (float64(n)+0.5)*cutPitch+arrowLong+2) * more
	}
	return length, h * more
}

// tall reports whether a part's sign stands higher than a label beside it.
func (d *drawing) tall(id string) bool {
	p := d.net.Part(id)
	if p == nil || p.Kind == graph.Tub {
		return false
	}
	return symbol.Of(p.Kind, symbol.Look{}).Box.H() > 7
}

// cutsAhead counts the cuts asked for on a run.
func (d *drawing) cutsAhead(r *graph.Run) int {
	n := 0
	for _, c := range d.in.Cuts {
		if c.Run == r.ID {
			n++
		}
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
	l := symbol.LookOf(p, d.set)
	l.Pen = penOld
	if p.New() && p.Kind != graph.Tub {
		l.Pen = penNewSign
		if p.Kind == graph.Tee {
			l.Pen = penNew
		}
	}
	if p.Element != nil {
		l.Isolated = d.isolated(p)
	}
	return l
}
