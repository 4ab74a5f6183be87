package survey

import (
	"fmt"
	"math"
	"slices"

	"dryfit/graph"
	"dryfit/render/book"
	"dryfit/render/scene"
	"dryfit/render/schematic"
	papers "dryfit/render/sheet"
	"dryfit/render/table/form"
)

// Book makes the survey sheets of a template: circuit is its name, template its text.
func Book(circuit string, template []byte, page papers.Page) (*book.Book, error) {
	s, err := read(string(template))
	if err != nil {
		return nil, fmt.Errorf("the template %s: %w", circuit, err)
	}
	b := &book.Book{Kind: "survey sheets", Bare: true, Job: graph.Job{Name: "Survey: " + circuit}, Paper: page.Format}
	b.Chapters = []book.Chapter{s.measuring(circuit), s.lengths(), s.values(), s.label(), s.drawings(page)}
	return b, nil
}

// measuring says how. Common practice, no source; the outside diameters: ASTM D1785 and
// EN ISO 1452-2.
func (s *sheet) measuring(circuit string) book.Chapter {
	c := book.Chapter{ID: "how", Title: "How to measure", For: book.Fitter}
	c.Add(book.Item{Kind: book.Blanks, Block: form.Block{Grid: &form.Grid{Header: []string{"what", "found"}, Rows: [][]string{
		{"Customer, address", ""}, {"Date, who measured", ""}, {"Photographs: cabinet whole, pump's label, print on the pipe, unit's place", ""}}}}})
	c.Add(book.Item{Kind: book.Bullets, Lines: []string{
		"Power off at the isolator before a hand goes into the cabinet. Nothing is opened for a survey.",
		"Directions are those of a person who faces the open cabinet: left, right, up, down, back (towards the shell), front (towards you).",
		"A pipe is measured leg by leg, from bend to bend: to the centre of a tee or an elbow, to the face of a valve, pump or heater and then the depth of its socket. Write \"right 450 mm\" or \"right 17 3/4 in\", and the next leg behind it. Bends are not written: they stand where two legs meet.",
		"Every number is written with its unit, whichever it was read in: mm or in, l/min or gpm, kPa or psi, °C or °F.",
		"Where nothing will be cut a length along the pipe and a count of the bends will do.",
		"Outside diameter with a calliper: 33.4, 48.3 or 60.3 mm (1.315, 1.9 or 2.375 in) is inch pipe of 1, 1 1/2 or 2 in; 32, 40, 50 or 63 mm is metric. They look alike and are never glued together.",
		"Where the line will be cut: how much straight pipe, how much free room round it, and how far its end can be drawn back once it is cut.",
		"What cannot be found stays empty, and its line is taken out of the description: the answer gets a range instead.",
		fmt.Sprintf("The keys are those of the template: dryfit new --circuit %s job.toml. Typing it in is copying from here.", circuit),
	}})
	return c
}

// lengths are the blanks of the pipes, by the numbers on the drawing.
func (s *sheet) lengths() book.Chapter {
	c := book.Chapter{ID: "pipes", Title: "Pipes, by their numbers on the drawing", For: book.Fitter}
	g := &form.Grid{Header: []string{"no.", "table", "key", "bends", "found"}, Widest: []int{0, 40, 0, 0, 0}}
	for _, b := range s.blanks {
		if b.Run > 0 {
			g.Rows = append(g.Rows, []string{pipeName(b.Run), b.Table, b.Key, "", ""})
		}
	}
	c.Add(book.Item{Kind: book.Blanks, Block: form.Block{Grid: g}})
	return c
}

// values are all other blanks.
func (s *sheet) values() book.Chapter {
	c := book.Chapter{ID: "values", Title: "Parts and place", For: book.Fitter, NewPage: true}
	g := &form.Grid{Header: []string{"table", "key", "what it is", "found"}, Widest: []int{0, 0, 60, 0}}
	for _, b := range s.blanks {
		if b.Run == 0 {
			g.Rows = append(g.Rows, []string{b.Table, b.Key, b.Say, ""})
		}
	}
	c.Add(book.Item{Kind: book.Blanks, Block: form.Block{Grid: g}})
	return c
}

// label is room for what stands on the pump.
func (s *sheet) label() book.Chapter {
	c := book.Chapter{ID: "label", Title: "The pump's label, copied letter by letter", For: book.Fitter}
	rows := [][]string{}
	for _, what := range []string{"Type, as printed", "Watts or horse power, at each speed", "Volts, amperes, hertz", "Flow and head, if printed", "Anything else"} {
		rows = append(rows, []string{what, ""})
	}
	c.Add(book.Item{Kind: book.Blanks, Block: form.Block{Grid: &form.Grid{Header: []string{"what", "found"}, Rows: rows}}})
	return c
}

func (s *sheet) drawings(page papers.Page) book.Chapter {
	c := book.Chapter{ID: "drawings", Title: "Drawings", For: book.Fitter}
	c.Say("The circuit with its pipes numbered, and dots to sketch the pipework on as it runs.")
	sheets := append(s.circuitSheets(page), dots(page))
	papers.Number(sheets)
	for _, one := range sheets {
		c.Add(book.Item{Kind: book.Sheet, Text: one.Name, Scene: one})
	}
	return c
}

// asks reports whether a pipe has a blank.
func (s *sheet) asks(run int) bool {
	return slices.ContainsFunc(s.blanks, func(b blank) bool { return b.Run == run })
}

func pipeName(n int) string { return fmt.Sprintf("L%d", n) }

// circuitSheets draws the circuit with the number of each pipe beside it; where something is to
// be taken out, first as it stands and then with the new work.
func (s *sheet) circuitSheets(page papers.Page) []*scene.Scene {
	in := schematic.Input{Circuit: s.circuit, Title: "Circuit to survey", Page: page,
		Notes: []string{"L1, L2, ...: pipes, with a blank each on the sheet of pipes. Mark on it what is different here."}}
	var pages []*scene.Scene
	if parts, runs := schematic.Gone(s.circuit); len(parts)+len(runs) > 0 {
		before := in
		before.Stage, before.Title = graph.Before, "Circuit to survey, as it stands"
		pages, in.Title = schematic.Draw(before), "Circuit to survey, with the new work"
	}
	pages = append(pages, schematic.Draw(in)...)
	for _, p := range pages {
		var names []scene.Item
		for i, r := range s.circuit.Runs {
			if !s.asks(i + 1) {
				continue
			}
			if name, ok := beside(p, "run:"+r.ID, pipeName(i+1), names); ok {
				names = append(names, name)
			}
		}
		p.Add(names...)
	}
	return pages
}

// beside finds the place of a name beside a pipe at which it covers least.
func beside(p *scene.Scene, tag, name string, others []scene.Item) (scene.Text, bool) {
	best, least := scene.Text{}, math.Inf(1)
	for _, it := range p.Items {
		s, ok := it.(scene.Shape)
		if !ok || s.Name != tag {
			continue
		}
		for _, path := range s.Paths {
			at := path.Start
			for _, g := range path.Segments {
				long := math.Hypot(g.To.X-at.X, g.To.Y-at.Y)
				for k := 1; k < 8; k++ {
					for _, off := range []float64{2.6, -2.6, 4, -4} {
						t := float64(k) / 8
						x := scene.Text{At: scene.Point{X: at.X + t*(g.To.X-at.X), Y: at.Y + t*(g.To.Y-at.Y)}, Text: name, SizeMM: 2.9, Bold: true,
							Anchor: scene.Centre, Middle: true, Halo: true, Name: "label:pipe"}
						if math.Abs(g.To.X-at.X) > math.Abs(g.To.Y-at.Y) {
							x.At.Y -= off
						} else {
							x.At.X += off * 1.3
						}
						cost := math.Abs(t-0.5) + math.Abs(off)/10 - math.Min(long, 40)/400
						box := scene.Bounds(x).Grow(0.4)
						for _, o := range append(append([]scene.Item{}, p.Items...), others...) {
							if covers(o, box) {
								cost += 5
							}
						}
						if cost < least {
							best, least = x, cost
						}
					}
				}
				at = g.To
			}
		}
	}
	return best, !math.IsInf(least, 1)
}

func covers(it scene.Item, box scene.Box) bool {
	s, ok := it.(scene.Shape)
	if !ok {
		return scene.Bounds(it).Overlaps(box)
	}
	return s.Name != "frame" && !(s.Name == "" && s.Style.StrokeMM == 0 && s.Style.FillGrey == 1) && len(scene.Clip(s, box)) > 0
}

// dots is a sheet of dots in an isometric grid, 8 mm apart.
func dots(page papers.Page) *scene.Scene {
	h := papers.Head{Title: "Survey", Document: "Sketch"}
	s := papers.New(page.Format, papers.Landscape, h)
	s.Notes("One dot to the next along an axis is as long as you say: write it here.", "Along an axis from dot to dot: right goes to the upper right, back to the upper left, up is up.", "Write every length beside its leg, and mark the place for the cut.")
	a := s.Area()
	const step = 8.0
	wide := step * math.Sqrt(3) / 2
	for col := 0; a.MinX+4+float64(col)*wide < a.MaxX-4; col++ {
		for y := a.MinY + 4 + float64(col%2)*step/2; y < a.MaxY-4; y += step {
			s.Add(scene.Circle(scene.Point{X: a.MinX + 4 + float64(col)*wide, Y: y}, 0.25, scene.Filled(0.45)).Named("dot"))
		}
	}
	return s.Scene
}
