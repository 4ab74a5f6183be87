package detail

import (
	"fmt"
	"math"
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// Input is what the detail is drawn from.
type Input struct {
	Layout *route.Layout     // after the work
	Tags   map[string]string // of the parts, by id
	Cuts   []string          // names of the cuts, two for each string in the way of the water
	Job    graph.Job
	Units  quantity.System
	Page   sheet.Page // zero: A4 landscape
}

// Draw returns one sheet for each string of new parts in old pipe; none where there is none.
func Draw(in Input) []*scene.Scene {
	if in.Layout == nil {
		return nil
	}
	list := chains(in.Layout)
	var out []*scene.Scene
	for i := range list {
		d := &drawing{in: in, c: &list[i], first: cutName(in.Cuts, 2*i), last: cutName(in.Cuts, 2*i+1)}
		out = append(out, d.sheet(i+1, len(list)))
	}
	return out
}

func cutName(names []string, i int) string {
	if i < len(names) {
		return names[i]
	}
	return fmt.Sprintf("X%d", i+1)
}

// drawing is one sheet in the making.
type drawing struct {
	in          Input
	c           *chain
	first, last string // names of the cuts

	per      float64
	line     frame
	items    []scene.Item
	fixed    []scene.Box // what no label may cover
	requests []request
	over     []scene.Item // written on top of all
	strained int          // labels that found no free place
}

// scales are those of ISO 5455 (from memory) and some between: the scale bar serves for all.
var scales = []float64{1, 2, 2.5, 3, 4, 5, 7.5, 10, 15, 20, 50, 100, 200}

// Room round the figure for dimensions and labels, mm on the sheet.
const (
	roomLeft  = 21.0
	roomRight = 24.0
	roomUp    = 4.0
	roomDown  = 29.0
	rowMM     = 7.5 // from one line of dimensions to the next
)

func (d *drawing) sheet(n, of int) *scene.Scene {
	h := sheet.HeadOf(d.in.Job, "Detail of the assembly")
	h.Sheet, h.Of = n, of
	p := d.in.Page
	probe := sheet.New(p.Format, p.Orientation, h)
	probe.Notes(d.notes()...)
	area := probe.Area()
	left, right, up, down := d.reach()
	d.per = scales[len(scales)-1]
	for _, s := range scales {
		if (right-left)/s+roomLeft+roomRight <= area.W() && (up+down)/s+roomUp+roomDown <= area.H() {
			d.per = s
			break
		}
	}
	h.Scale = "1:" + quantity.Trim(d.per)
	s := sheet.New(p.Format, p.Orientation, h)
	s.Notes(d.notes()...)
	// the figure in the middle of what the dimensions leave
	width, height := (right-left)/d.per+roomLeft+roomRight, (up+down)/d.per+roomUp+roomDown
	at := scene.Point{
		X: area.MinX + (area.W()-width)/2 + roomLeft - left/d.per,
		Y: area.MinY + (area.H()-height)/2 + roomUp + up/d.per,
	}
	d.line = frame{at: at, per: d.per}
	d.figure()
	d.dimensions(left, right, down)
	d.scaleBar(area)
	d.place(area)
	d.items = append(d.items, d.over...)
	s.Add(d.items...)
	return s.Scene
}

// reach returns how far the figure goes from the first member's centre, mm.
func (d *drawing) reach() (left, right, up, down float64) {
	left, right = d.c.before.from, d.c.after.to
	w := 0.0
	for _, m := range d.c.members {
		w = math.Max(w, d.outside(m.fit.Spec, m.fit.Size))
	}
	w = math.Max(w, math.Max(d.c.before.outside, d.c.after.outside))
	up, down = w*nutShare/2, w*nutShare/2
	for _, l := range d.c.limbs {
		top := l.end
		switch {
		case l.beyond != nil:
			top = l.beyond.to
		case l.part == nil:
			top += l.bend.TakeOffMM + l.bend.DepthMM
			side := l.bend.TakeOffMM + l.bend.DepthMM
			at := d.c.members[l.tee].from
			left, right = math.Min(left, at-side), math.Max(right, at+side)
		default:
			top += 1.5 * w
		}
		up = math.Max(up, top)
	}
	return left, right, up, down
}

// outside is the outside diameter of pipe of a size, mm.
func (d *drawing) outside(spec catalog.Spec, size catalog.Size) float64 {
	if row, ok := d.in.Layout.Circuit.Catalog.Pipe(spec, size); ok && row.OutsideMM > 0 {
		return row.OutsideMM
	}
	return size.NominalMM()
}

func (d *drawing) notes() []string {
	out := []string{"Lengths are true to scale, outlines across the pipe sketched."}
	if d.in.Units == quantity.MetricSystem {
		out[0] += " In mm."
	}
	out = append(out, "Dashed: pipe in its sockets. Second row: from stop to stop, on a pipe its cut length.")
	if d.c.folded() {
		out = append(out, "The branches point different ways: turned into one plane here.")
	}
	measure := []string{}
	for _, m := range d.c.members {
		if m.fit.Row.Measure {
			measure = append(measure, d.tag(m.part))
		}
	}
	if len(measure) > 0 {
		out = append(out, "Measure first, their lengths are a guess: "+strings.Join(measure, ", ")+".")
	}
	return out
}

// tag is a part's short name.
func (d *drawing) tag(p *graph.Part) string {
	if t := d.in.Tags[p.ID]; t != "" {
		return t
	}
	return p.ID
}

// text writes a length: in mm without the unit, which a note says; in inches in full.
func (d *drawing) text(mm float64) string {
	if d.in.Units == quantity.MetricSystem {
		return quantity.Trim(quantity.Round(mm, 0))
	}
	return quantity.Format(mm, quantity.Length, d.in.Units)
}

// solid adds items no label may cover.
func (d *drawing) solid(items ...scene.Item) {
	for _, it := range items {
		d.items = append(d.items, it)
		if b := scene.Bounds(it); !b.IsEmpty() {
			d.fixed = append(d.fixed, b)
		}
	}
}

// scaleBar draws a bar of 100 mm on the pipe, or of 4 in, or of as many as make it well seen.
func (d *drawing) scaleBar(area scene.Box) {
	step := 50.0
	if d.in.Units == quantity.InchSystem {
		step = 2 * 25.4
	}
	for step/d.per < 15 {
		step *= 2
	}
	x, y := area.MinX+1, area.MaxY-3
	for i := range 2 {
		st := scene.Stroke(sheet.Fine)
		if i == 0 {
			st = scene.Solid(sheet.Fine)
		}
		d.solid(scene.Rect(x+float64(i)*step/d.per, y, step/d.per, 1.6, st).Tagged("scale-bar"))
	}
	for i := range 3 {
		mm := float64(i) * step
		t := scene.Text{At: scene.Point{X: x + mm/d.per, Y: y - 0.9}, Text: d.text(mm), SizeMM: 2.2, Anchor: scene.Centre, Tag: "scale"}
		if i == 0 {
			t.Anchor = scene.Start
		}
		d.solid(t)
	}
}
