package template

import (
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// Input is what the templates are drawn from.
type Input struct {
	Cuts  []Cut
	Job   graph.Job
	Units quantity.System
	Page  sheet.Page // zero: A4 landscape
}

// rule is a bar that proves the printer: its length, that of a field, and how many fields lie
// between two figures.
type rule struct {
	fieldMM float64
	fields  int
	figures []string // at the start, in the middle and at the end
	length  quantity.Amount
}

// ruleOf returns the bar of the units: 100 mm in tens, or 4 in in halves.
func ruleOf(s quantity.System) rule {
	if s == quantity.InchSystem {
		return rule{12.7, 8, []string{"0", "2", "4"}, quantity.Length.About(4 * 25.4)}
	}
	return rule{10, 10, []string{"0", "50", "100"}, quantity.Length.About(100)}
}

func (r rule) lengthMM() float64 { return r.fieldMM * float64(r.fields) }

// Room on the sheet for the check bars, mm.
const (
	checkTop  = 9.0  // the level one, at the head
	checkSide = 12.0 // the upright one, at the right
	between   = 3.0  // bands
)

// Draw returns the sheets of templates; none without a cut whose pipe is known.
func Draw(in Input) []*scene.Scene {
	d := &drawing{in: in}
	area := d.room(d.page(1, 1))
	var bands []band
	for _, c := range in.Cuts {
		if c.OutsideMM > 0 {
			bands = append(bands, d.bands(c, area.W())...)
		}
	}
	var pages [][]band
	used := 0.0
	for i, b := range bands {
		if i == 0 || used+b.height() > area.H() {
			pages = append(pages, nil)
			used = 0
		}
		pages[len(pages)-1] = append(pages[len(pages)-1], b)
		used += b.height() + between
	}
	var out []*scene.Scene
	for i, list := range pages {
		s := d.page(i+1, len(pages))
		s.Add(checks(s.Area(), d.in.Units)...)
		at := d.room(s)
		for _, b := range list {
			s.Add(d.draw(b, scene.Point{X: at.MinX, Y: at.MinY})...)
			at.MinY += b.height() + between
		}
		out = append(out, s.Scene)
	}
	return out
}

// drawing is a set of templates in the making.
type drawing struct{ in Input }

// page returns a sheet with its notes.
func (d *drawing) page(n, of int) *sheet.Sheet {
	p := d.in.Page
	h := sheet.HeadOf(d.in.Job, "Saw bands")
	h.Sheet, h.Of, h.Scale = n, of, "1:1"
	s := sheet.New(p.Format, p.Orientation, h)
	s.Notes(
		"Print at 100 %, never \"fit to page\". Use a sheet only if both bars on it measure "+ruleOf(d.in.Units).length.In(d.in.Units)+".",
		"Ends that do not meet on the pipe: it has another outside diameter. Stop and measure it.",
		beside(d.in.Cuts),
	)
	return s
}

// beside is the note on where the tool goes: hose is not sawn.
func beside(cuts []Cut) string {
	hoses := 0
	for _, c := range cuts {
		if c.hose() {
			hoses++
		}
	}
	does, line := "saw", "saw line"
	switch {
	case hoses == len(cuts):
		does, line = "cut", "cut line"
	case hoses > 0:
		does, line = "saw or cut", "line"
	}
	return "Tape on, " + does + " through the paper beside the " + line + ", on the hatched side."
}

// room is where bands may stand.
func (d *drawing) room(s *sheet.Sheet) scene.Box {
	b := s.Area()
	b.MinY += checkTop
	b.MaxX -= checkSide
	return b
}

// checks are the two bars, along the head and down the right side: a printer may
// stretch one way and not the other.
func checks(area scene.Box, units quantity.System) []scene.Item {
	bar := ruleOf(units)
	level := scene.Point{X: area.MinX, Y: area.MinY + 3.2}
	items := checkBar(bar, level, true)
	const em = 2.6
	lines := sheet.Wrap("this bar must measure "+bar.length.In(units)+" on paper, and so must the upright one", em, area.W()-bar.lengthMM()-6, true)
	for i, l := range lines {
		y := level.Y + 1.5 + (float64(i)-float64(len(lines)-1)/2)*em*1.3
		items = append(items, scene.Text{At: scene.Point{X: area.MinX + bar.lengthMM() + 4, Y: y}, Middle: true, Text: l, SizeMM: em, Bold: true, Name: "check"})
	}
	upright := scene.Point{X: area.MaxX - 3.4, Y: area.MinY + checkTop}
	return append(items, checkBar(bar, upright, false)...)
}

// checkBar is a bar 3 mm wide from its upper left corner, every second field black.
func checkBar(bar rule, at scene.Point, level bool) []scene.Item {
	const wide = 3.0
	rect := func(from, to float64, st scene.Style) scene.Shape {
		if level {
			return scene.Rect(at.X+from, at.Y, to-from, wide, st)
		}
		return scene.Rect(at.X, at.Y+from, wide, to-from, st)
	}
	var items []scene.Item
	for i := 0; i < bar.fields; i += 2 {
		from := float64(i) * bar.fieldMM
		items = append(items, rect(from, from+bar.fieldMM, scene.Filled(0)))
	}
	items = append(items, rect(0, bar.lengthMM(), scene.Stroke(sheet.Hair)).Named("check-bar"))
	for i, figure := range bar.figures {
		mm := bar.lengthMM() * float64(i) / 2
		t := scene.Text{Text: figure, SizeMM: sheet.LeastEm, Anchor: scene.Centre, Name: "check"}
		if level {
			t.At = scene.Point{X: at.X + mm, Y: at.Y - 0.8}
			if i == 0 {
				t.Anchor = scene.Start
			}
		} else {
			t.At, t.TurnDeg = scene.Point{X: at.X - 0.8, Y: at.Y + mm}, 90
			switch i {
			case 0:
				t.Anchor = scene.End
			case len(bar.figures) - 1:
				t.Anchor = scene.Start
			}
		}
		items = append(items, t)
	}
	return items
}
