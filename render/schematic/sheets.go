package schematic

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"dryfit/graph"
	"dryfit/render/scene"
	"dryfit/render/sheet"
	"dryfit/render/symbol"
)

const (
	mostScale  = 1.35 // a small drawing is not blown up further
	sheetInset = 1.5  // between the drawing and the edge of the free area, mm
)

// sheets puts the drawing on paper.
func (d *drawing) sheets() []*scene.Scene {
	s := d.page(d.in.Page)
	if d.scaleFor(s.Area()) < goodScale-0.01 { // rounding
		if out, ok := d.tiles(); ok {
			return out
		}
	}
	d.put(s, s.Area())
	return []*scene.Scene{s.Scene}
}

// put sets the drawing into the middle of an area of a sheet, as large as it can be.
func (d *drawing) put(s *sheet.Sheet, area scene.Box) {
	k := d.scaleFor(area)
	c, a := d.bounds().Centre(), area.Centre()
	for _, it := range append(append([]scene.Item{}, d.items...), d.labels...) {
		s.Add(fitted(it, c, a, k))
	}
}

// areaOn is the room for the drawing on a page.
func (d *drawing) areaOn(p sheet.Page) scene.Box {
	if d.both != nil {
		return d.both.panel(d)
	}
	return d.page(p).Area()
}

func (d *drawing) bounds() scene.Box {
	return scene.Bounds(d.items...).Union(scene.Bounds(d.labels...))
}

func (d *drawing) scaleFor(area scene.Box) float64 {
	b := d.bounds()
	if b.IsEmpty() {
		return 1
	}
	area = area.Grow(-sheetInset)
	return min(mostScale, area.W()/max(b.W(), 1), area.H()/max(b.H(), 1))
}

// fitted moves an item from about c to about a, k times as large. Line widths stay.
func fitted(it scene.Item, c, a scene.Point, k float64) scene.Item {
	f := func(p scene.Point) scene.Point {
		return scene.Point{X: a.X + k*(p.X-c.X), Y: a.Y + k*(p.Y-c.Y)}
	}
	switch it := it.(type) {
	case scene.Shape:
		return it.Map(f)
	case scene.Text:
		it.At = f(it.At)
		it.SizeMM *= k
		if k >= goodScale-0.01 {
			it.SizeMM = max(it.SizeMM, sheet.LeastEm) // rounding, and no more than that
		}
		return it
	}
	return it
}

// page returns the sheet with everything but the drawing on it.
func (d *drawing) page(p sheet.Page) *sheet.Sheet {
	return d.numbered(p, d.in.Sheet, d.in.Of, nil)
}

// numbered is page with a number of its own and more notes; its legend has what stands in a
// part of the drawing, if that is not nil.
func (d *drawing) numbered(p sheet.Page, n, of int, in *scene.Box, more ...string) *sheet.Sheet {
	doc := d.in.Title
	if doc == "" {
		doc = "Schematic"
	}
	h := sheet.HeadOf(d.c.Titled(), doc)
	h.Symbols = "after ISO 10628-2"
	h.Sheet, h.Of = n, of
	s := sheet.New(p.Format, p.Orientation, h)
	notes := d.notes()
	for _, m := range more {
		if m != "" {
			notes = append(notes, m)
		}
	}
	s.Notes(notes...)
	s.Legend(d.legend(in)...)
	return s
}

// takenOut begins the note on what is gone after the work.
const takenOut = "Taken out: "

// notes are what the drawing needs said.
func (d *drawing) notes() []string {
	var out []string
	if !d.common.size.IsZero() {
		note := strings.TrimSpace(fmt.Sprintf("Pipe is %s %s", d.common.spec, d.common.size)) + " unless marked"
		if d.holds() {
			note += held
		}
		out = append(out, note+".")
	}
	out = append(out, d.positionNote()...)
	var gone []string
	names := d.names
	parts, runs := Gone(d.in.Circuit)
	for _, p := range parts {
		gone = append(gone, names.Short(p.ID))
	}
	for _, r := range runs {
		gone = append(gone, "the "+r.Spec.Word()+" "+names.Run(r.ID))
	}
	if len(gone) > 0 {
		words := takenOut
		if d.in.Stage == graph.Before {
			words = "Dashed and crossed, taken out by the work: "
		}
		out = append(out, words+strings.Join(gone, ", ")+".")
	}
	out = append(out, d.c.Job.Notes...)
	if d.in.Stage == graph.Before { // what is set stands there after the work
		return out
	}
	return append(out, d.in.Notes...)
}

// legend has one entry for each sign on the drawing, or in a part of it, in the order of the kinds, then the
// kinds of line.
func (d *drawing) legend(in *scene.Box) []sheet.Entry {
	var out []sheet.Entry
	here := map[string]bool{}
	for _, it := range d.items {
		if s, ok := it.(scene.Shape); ok && in != nil && scene.Bounds(s).Overlaps(*in) {
			here[s.Name] = true
		}
	}
	for _, k := range graph.Kinds() {
		seen := map[string]bool{}
		for _, p := range d.c.Parts {
			if p.Kind != k || in != nil && !here["symbol:"+p.ID] {
				continue
			}
			l := d.look(p)
			l.Pen = penOld
			s := symbol.Of(k, l)
			switch k {
			case graph.Tub:
				s = symbol.Tub(12, 6, l)
			case graph.Manifold:
				s = symbol.Manifold(0, 2, l)
			}
			if seen[s.Legend] {
				continue
			}
			seen[s.Legend] = true
			out = append(out, entry(s))
		}
	}
	return append(out, d.lineEntries(in)...)
}

// drawnIn reports of a name whether something of it lies in a part of the drawing; all of it does where
// that is nil.
func (d *drawing) drawnIn(in *scene.Box) func(name string) bool {
	if in == nil {
		return func(string) bool { return true }
	}
	here := map[string]bool{}
	for _, it := range d.items {
		if s, ok := it.(scene.Shape); ok && len(scene.Clip(s, *in)) > 0 {
			here[s.Name] = true
		}
	}
	return func(name string) bool { return here[name] }
}

// entry centres a sign on its own middle.
func entry(s symbol.Symbol) sheet.Entry {
	b := scene.Bounds(s.Items...)
	c := b.Centre()
	return sheet.Entry{Symbol: s.At(scene.Point{X: -c.X, Y: -c.Y}, symbol.Right), W: b.W(), H: b.H(), Text: s.Legend}
}

// lineEntries are the kinds of line on the drawing, or in a part of it.
func (d *drawing) lineEntries(in *scene.Box) []sheet.Entry {
	here := d.drawnIn(in)
	var existing, added, air bool
	for _, p := range d.diagram.Pipes {
		if !here("run:" + p.Run.ID) {
			continue
		}
		air = air || p.Air
		existing = existing || !p.Run.New()
		added = added || p.Run.New()
	}
	line := func(st scene.Style, text string) sheet.Entry {
		return sheet.Entry{Symbol: []scene.Item{scene.Line(scene.Point{X: -6}, scene.Point{X: 6}, st)}, W: 12, H: 2, Text: text}
	}
	var out []sheet.Entry
	if existing {
		out = append(out, line(scene.Stroke(penOld), "existing pipe"))
	}
	if added {
		out = append(out, line(scene.Stroke(penNew), "new pipe"))
	}
	if parts, runs := Gone(d.in.Circuit); d.in.Stage == graph.Before && len(parts)+len(runs) > 0 {
		out = append(out, sheet.GoneEntry())
	}
	if air {
		out = append(out, line(scene.Dashed(penOld, 2.2, 1.3), "air line: do not cut"))
	}
	if slices.ContainsFunc(slices.Collect(maps.Keys(d.cutNames)), func(name string) bool { return here("cut:" + name) }) {
		a, b := scene.Point{X: -1.6, Y: 2.3}, scene.Point{X: 0.2, Y: -2.3}
		mark := scene.Join(scene.Line(a, b, scene.Stroke(0.5)), scene.Line(scene.Point{X: a.X + 1.4, Y: a.Y}, scene.Point{X: b.X + 1.4, Y: b.Y}, scene.Stroke(0.5)))
		out = append(out, sheet.Entry{Symbol: []scene.Item{scene.Line(scene.Point{X: -6}, scene.Point{X: 6}, scene.Stroke(penOld)), mark}, W: 12, H: 5, Text: "cut existing pipe"})
	}
	return out
}

// positionNote says what the legend's words for valves mean, where there are any.
func (d *drawing) positionNote() []string {
	hand, check := false, false
	for _, p := range d.c.Parts {
		hand, check = hand || p.Kind.IsHandValve(), check || p.Kind == graph.CheckValve
	}
	switch {
	case hand && check:
		return []string{"Valves are shown in their normal position; a check valve lets water through to its filled side."}
	case hand:
		return []string{"Valves are shown in their normal position."}
	case check:
		return []string{"A check valve lets water through to its filled side."}
	}
	return nil
}
