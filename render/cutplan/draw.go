package cutplan

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/takeoff"
	"dryfit/render/scene"
	"dryfit/render/sheet"
	"dryfit/render/tag"
)

// Input is what a cut plan is drawn from.
type Input struct {
	List  *takeoff.CutList
	Job   graph.Job
	Units quantity.System
	Page  sheet.Page // zero: A4 landscape
}

// Draw returns the sheets of the cut plan; none where there is nothing to cut.
func Draw(in Input) []*scene.Scene {
	if in.List == nil || len(in.List.Plans) == 0 {
		return nil
	}
	d := &drawing{in: in, length: map[int]float64{}, over: map[int]string{}}
	for _, p := range in.List.Pieces {
		d.length[p.Number] = p.SawMM()
		if words := p.OverWords(); words != "" {
			d.over[p.Number] = tag.Joints(words.In(in.Units))
		}
	}
	area := d.page(1, 1).Area()
	d.per = d.scale(area.W() - barX)
	pages := d.flow(area)
	var out []*scene.Scene
	for i, rows := range pages {
		s := d.page(i+1, len(pages))
		y := s.Area().MinY
		for _, r := range rows {
			s.Add(r.draw(scene.Point{X: s.Area().MinX, Y: y}, s.Area().W())...)
			y += r.height
		}
		out = append(out, s.Scene)
	}
	return out
}

// drawing is a cut plan in the making.
type drawing struct {
	in     Input
	length map[int]float64 // of a piece by its number, mm
	over   map[int]string  // how one over length is fitted, by its number
	per    float64         // the scale is 1 to this
}

// barX is how far from the left the bars begin: what stands before them is their number,
// length and price.
const barX = 36.0

// scales are the scales a bar may be drawn to, 1 to each: those of ISO 5455 (from memory)
// and the halves and quarters between them.
var scales = []float64{1, 2, 2.5, 5, 7.5, 10, 12.5, 15, 20, 25, 30, 40, 50, 75, 100, 200, 500, 1000}

// scale returns the largest scale at which the longest bar fits the width in mm.
func (d *drawing) scale(width float64) float64 {
	longest := 0.0
	for _, p := range d.in.List.Plans {
		for _, b := range p.Bars {
			longest = max(longest, b.StockMM)
		}
	}
	for _, s := range scales {
		if longest/s <= width {
			return s
		}
	}
	return scales[len(scales)-1]
}

// page returns a sheet with all but the bars on it.
func (d *drawing) page(n, of int) *sheet.Sheet {
	p := d.in.Page
	h := sheet.HeadOf(d.in.Job, "Cut plan")
	h.Sheet, h.Of = n, of
	h.Scale = d.stock("bars", "coils", "bars and coils") + " " + d.scaleText() + " along"
	s := sheet.New(p.Format, p.Orientation, h)
	s.Notes(d.notes()...)
	s.Legend(d.legend()...)
	return s
}

func (d *drawing) scaleText() string { return "1:" + quantity.Trim(max(d.per, 1)) }

func (d *drawing) notes() []string {
	sawn := func(p takeoff.StockPlan) bool { return p.Spec == "" || p.Spec.Sawn() }
	cut := func(p takeoff.StockPlan) bool { return !sawn(p) }
	var kerfs []string
	if slices.ContainsFunc(d.in.List.Plans, sawn) {
		kerf := "The saw takes " + quantity.Length.Finely(d.in.List.KerfMM).In(d.in.Units) + " with each cut"
		if d.in.List.KerfSource != "" {
			kerf += " (" + d.in.List.KerfSource + ")"
		}
		kerfs = append(kerfs, kerf)
	}
	if slices.ContainsFunc(d.in.List.Plans, cut) {
		kerfs = append(kerfs, "Hose is cut with shears or a knife, which take nothing")
	}
	out := []string{
		strings.Join(kerfs, ". ") + ". Cut beside the mark, on the side of the pipe still to be cut.",
		"Figures under a " + d.stock("bar", "coil", "bar or coil") + ": where each piece ends, from its left end, what is sawn away counted in.",
	}
	switch d.in.Units {
	case quantity.MetricSystem:
		out = append(out, "Lengths are in mm.")
	default: // of a bar of many pieces it is soon a sixteenth
		out = append(out, "Each figure is rounded by itself, so that those of a bar need not add up to 1/16 in: a piece is as long as is written on it.")
	}
	for i := range d.in.List.Plans {
		if words := tight(&d.in.List.Plans[i]); words != "" {
			out = append(out, words)
		}
	}
	if slices.ContainsFunc(d.in.List.Pieces, func(p route.Piece) bool { return p.OnSite }) {
		out = append(out, "Pieces with + are cut on site, when the unit stands: leave their pipe whole until then.")
	}
	if slices.ContainsFunc(d.in.List.Pieces, func(p route.Piece) bool { return p.Measure }) {
		out = append(out, "Pieces with * hang on a part that has to be measured first: see the cut list.")
	}
	return out
}

// tight says which bars or coils of a plan have no room for a piece that comes out longer; "" none.
func tight(plan *takeoff.StockPlan) string {
	var spans []string
	for i := 0; i < len(plan.Tight); {
		first, last := plan.Tight[i].Bar, plan.Tight[i].Bar
		for i++; i < len(plan.Tight) && plan.Tight[i].Bar == last+1; i++ {
			last++
		}
		switch last - first {
		case 0:
			spans = append(spans, fmt.Sprint(first))
		case 1:
			spans = append(spans, fmt.Sprint(first), fmt.Sprint(last))
		default:
			spans = append(spans, fmt.Sprintf("%d to %d", first, last))
		}
	}
	which, has := plan.Unit(), "has"
	switch len(plan.Tight) {
	case 0:
		return ""
	case 1:
	default:
		which, has = which+"s", "have"
	}
	return fmt.Sprintf("%s, %s %s %s no room should a piece with * come out longer: see the stock plan.", plan.Size, which, strings.Join(spans, ", "), has)
}

// stock is the word for what is cut: of pipe that comes in bars, in coils, or of both.
func (d *drawing) stock(bars, coils, both string) string {
	bends := func(p takeoff.StockPlan) bool { return p.Spec.Flexible() }
	rigid := func(p takeoff.StockPlan) bool { return !bends(p) }
	switch {
	case !slices.ContainsFunc(d.in.List.Plans, bends):
		return bars
	case !slices.ContainsFunc(d.in.List.Plans, rigid):
		return coils
	}
	return both
}

// text writes a length: in mm without its unit, which a note says; in inches in full.
func (d *drawing) text(mm float64) string {
	if d.in.Units == quantity.MetricSystem {
		return quantity.Trim(quantity.Round(mm, 0))
	}
	return quantity.Format(mm, quantity.Length, d.in.Units)
}

// full writes a length with its unit.
func (d *drawing) full(mm float64) string { return quantity.Format(mm, quantity.Length, d.in.Units) }

func (d *drawing) number(piece int) string {
	for _, p := range d.in.List.Pieces {
		if p.Number == piece {
			return fmt.Sprint(piece) + p.Signs()
		}
	}
	return fmt.Sprint(piece)
}

func (d *drawing) legend() []sheet.Entry {
	bar := func(st scene.Style) scene.Shape { return scene.Rect(-5, -2.5, 10, 5, st) }
	return []sheet.Entry{
		{Symbol: []scene.Item{bar(scene.Outline(sheet.Thin)), scene.Text{Text: "3", SizeMM: 3.2, Bold: true, Anchor: scene.Centre, Middle: true}}, W: 10, H: 5, Text: "piece 3 of the cut list"},
		{Symbol: []scene.Item{hatched(scene.Box{MinX: -5, MinY: -2.5, MaxX: 5, MaxY: 2.5}), bar(scene.Stroke(sheet.Thin))}, W: 10, H: 5, Text: "left over"},
		{Symbol: []scene.Item{scene.Line(scene.Point{Y: -3}, scene.Point{Y: 3}, scene.Stroke(sheet.Thick))}, W: 1, H: 6, Text: "cut"},
	}
}
