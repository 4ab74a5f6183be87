package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"dryfit/cmd/dryfit/disk"
	"dryfit/cmd/dryfit/world"
	"dryfit/graph/plan"
	"dryfit/render/drawing"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

func drawVerb() *verb {
	return &verb{
		name: "draw", args: "FILE",
		does:    "schematic, isometric and the other drawings as svg, png or pdf",
		more:    "A pdf holds every sheet of the view; svg and png write one file a sheet,\nNAME-2.svg and so on after the first.\n--view all makes one pdf of every view.",
		example: "dryfit draw -o schematic.svg job.toml\ndryfit draw --view isometric --format pdf -o iso.pdf job.toml",
		run:     runDraw,
	}
}

func runDraw(v *verb, args []string, w *world.World) int {
	var j job
	var view, format, paper string
	var dpi int
	f := v.flags()
	j.add(f)
	f.StringVar(&view, "view", "schematic", "what to draw: "+strings.Join(drawing.Views(), ", ")+", all")
	f.StringVar(&format, "format", "", "svg, png or pdf; by the name of -o if left out, else svg")
	f.StringVar(&paper, "paper", "a4", "a4, a3 or letter, with \"portrait\" behind it if wished; what does not go on one sheet is cut into more")
	f.IntVar(&dpi, "dpi", 150, "dots an inch of a png: 150 or 300, or what you wish from 50 to 600")
	if code, done := v.parse(f, args, w); done {
		return code
	}
	if format == "" {
		format = strings.TrimPrefix(strings.ToLower(filepath.Ext(j.output)), ".")
		if j.output == "-" || format == "" {
			format = "svg"
		}
	}
	formats := []string{"svg", "png", "pdf"}
	page, err := pageOf(paper)
	if err == nil && f.Changed("format") && slices.Contains(formats, format) {
		_, err = world.FormatOf(j.output, format, true, formats)
	}
	if err = errors.Join(err, oneOf("--view", view, append(drawing.Views(), "all")), oneOf("--format", format, formats), j.checkWords(nil)); err != nil {
		return world.Complain(w, err)
	}
	if dpi < 50 || dpi > 600 {
		return world.Complain(w, fmt.Errorf("--dpi is %d; it can be 50 to 600", dpi))
	}
	if code, ok := j.read(f, v, w); !ok {
		return code
	}
	if drawing.Wants(view)&plan.Heat != 0 {
		if code := j.readWeather(w); code != world.Done {
			return code
		}
	}
	p, err := j.make(drawing.Wants(view))
	if err != nil {
		return world.Complain(w, err)
	}
	if j.tell != nil {
		j.tell("drawing "+view, 0, 0)
	}
	pages, err := drawing.Pages(p, view, page, j.style(w).Units)
	if err != nil {
		return world.Complain(w, err)
	}
	if len(pages) == 0 {
		world.Complain(w, errors.New(drawing.Why(p, view, j.style(w).Units)))
		if code := j.say(p.Findings, w); code != world.Done {
			return code
		}
		return world.Findings
	}
	if code := writePages(pages, format, float64(dpi), &j, w); code != world.Done {
		return code
	}
	warnMissing(scene.Missing(pages...), scene.Unjoined(pages...), w)
	return j.say(p.Findings, w)
}

// pageOf reads --paper; the one that is meant where nothing is said lies as the drawing needs it.
func pageOf(paper string) (sheet.Page, error) {
	if paper == "a4" {
		return sheet.Page{}, nil
	}
	page, err := sheet.ParsePage(paper)
	if err != nil {
		return page, fmt.Errorf("--paper: %w", err)
	}
	return page, nil
}

func oneOf(flag, got string, want []string) error {
	for _, o := range want {
		if got == o {
			return nil
		}
	}
	return wrongWord(flag, got, want)
}

// writePages writes a pdf of all pages, or one svg or png a page.
func writePages(pages []*scene.Scene, format string, dpi float64, j *job, w *world.World) int {
	if len(pages) > 1 && format != "pdf" && j.output == "-" {
		return world.Complain(w, fmt.Errorf("the drawing has %d sheets: name a file with -o, or use --format pdf", len(pages)))
	}
	if format == "pdf" {
		data, err := scene.PDF(pages, j.circuit.Titled().Name, j.circuit.Job.Date)
		if err != nil {
			return world.Complain(w, err)
		}
		return w.Write(j.output, data)
	}
	for i := range pages {
		if err := w.Files.Writable(pageName(j.output, i)); err != nil {
			return world.Complain(w, err)
		}
	}
	for i, s := range pages {
		data, err := pageBytes(s, format, dpi)
		if err != nil {
			return world.Complain(w, err)
		}
		if code := w.Write(pageName(j.output, i), data); code != world.Done {
			return code
		}
	}
	for i := len(pages); i > 0 && j.output != "-" && disk.Absent(pageName(j.output, i)) != nil; i++ {
		world.Tell(w, "%s is of an earlier drawing: this one has %s", pageName(j.output, i), sheetCount(len(pages)))
	}
	return world.Done
}

func sheetCount(n int) string {
	if n == 1 {
		return "1 sheet"
	}
	return fmt.Sprintf("%d sheets", n)
}

func pageBytes(s *scene.Scene, format string, dpi float64) ([]byte, error) {
	if format == "png" {
		return scene.PNG(s, dpi)
	}
	return scene.SVG(s), nil
}

// pageName returns the file of sheet i, from 0: "iso.svg", "iso-2.svg", …
func pageName(name string, i int) string {
	if i == 0 || name == "-" {
		return name
	}
	ext := filepath.Ext(name)
	return fmt.Sprintf("%s-%d%s", strings.TrimSuffix(name, ext), i+1, ext)
}

// warnMissing says which letters of the description the drawings cannot show, and which scripts they don't
// set as they are written.
func warnMissing(letters []rune, unjoined []string, w *world.World) {
	if len(letters) > 0 {
		world.Tell(w, "dryfit: warning: the font of the drawings lacks %q; a box stands for each, but in SVG, which whoever looks at it sets in a font of his own", string(letters))
	}
	if len(unjoined) > 0 {
		world.Tell(w, "dryfit: warning: PDF and PNG set what is written in %s letter by letter from the left; SVG has it as it is written", strings.Join(unjoined, " and "))
	}
}
