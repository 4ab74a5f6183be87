// Package pack makes the job pack: the files a fitter takes to the tub, with one page,
// index.html, that carries all of it, opens from the folder with no network and prints on A4.
package pack

import (
	"errors"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/render/drawing"
	"dryfit/render/order"
	"dryfit/render/pack/planfile"
	"dryfit/render/photo"
	"dryfit/render/scene"
	"dryfit/render/sheet"
	"dryfit/render/table"
	"dryfit/render/table/form"
	"dryfit/render/table/lists"
)

// File is one file of the pack. Name has no folder in it.
type File struct {
	Name string
	Data []byte
}

// Wants says what the plan must hold for a pack.
func Wants() plan.Want {
	return plan.Findings | plan.Flows | plan.Ranges | plan.Lists | drawing.Wants("all")
}

// Pack is what is handed over.
type Pack struct {
	Files   []File // in a fixed order
	Missing []rune // letters of the user's that the drawings' font lacks

	Unjoined []string // scripts of the user's that the drawings set right in SVG alone
}

// Options is how a pack is wanted.
type Options struct {
	Units quantity.System
	Page  sheet.Page // of drawings and book; zero: A4
	Tell  graph.Tell // told how far it is; nil: nobody

	Source []byte            // the description itself, to lie in the pack; nil: not
	Since  *planfile.Earlier // an earlier pack to say the differences from; nil: none

	Photos []photo.Photo // taken on site
}

// Make makes every file of the pack.
func Make(p *plan.Plan, o Options) (*Pack, error) {
	sheets, err := draw(p, o.Page, o)
	if err != nil {
		return nil, err
	}
	all := slices.Concat(sheets...)
	drawing.Number(all, drawing.Fingerprint(p))
	var shown []picture
	for i, view := range drawing.Views() {
		shown = append(shown, sheetsOf(view, sheets[i])...)
	}
	out := &Pack{Missing: scene.Missing(all...), Unjoined: scene.Unjoined(all...)}
	style := form.Style{Units: o.Units}
	papers := bookOf(p, style, o, shown)
	out.Files, err = sideBySide(
		func() ([]File, error) { return one("pack.pdf", papers.PDF) },
		func() ([]File, error) {
			if len(all) == 0 {
				return nil, nil
			}
			return one("drawings.pdf", func() ([]byte, error) { return scene.PDF(all, p.Circuit.Titled().Name, p.Circuit.Job.Date) })
		},
		func() ([]File, error) { return allPictures(p, sheets) },
		func() ([]File, error) { return one("index.html", papers.HTML) },
		func() ([]File, error) {
			return one("plan.json", func() ([]byte, error) { return planfile.JSON(p, style) })
		},
		func() ([]File, error) { return csvFiles(p, style) },
	)
	if err != nil {
		return nil, err
	}
	for i, one := range o.Photos {
		out.Files = append(out.Files, File{PhotoFile(i), one.JPEG})
	}
	if o.Source != nil {
		out.Files = append(out.Files, File{"description.toml", o.Source})
	}
	return out, nil
}

// sideBySide makes files, those that take longest first, and returns them in the order they are
// named.
func sideBySide(kinds ...func() ([]File, error)) ([]File, error) {
	made, errs := make([][]File, len(kinds)), make([]error, len(kinds))
	graph.SideBySide(len(kinds), func(i int) { made[i], errs[i] = kinds[i]() })
	return slices.Concat(made...), errors.Join(errs...)
}

// one is a file by itself.
func one(name string, data func() ([]byte, error)) ([]File, error) {
	b, err := data()
	return []File{{name, b}}, err
}

// draw draws every view, in the order of the pack. Which number its first sheet has stands on
// a sheet of the isometric alone (its match lines name each other), and only the schematic is
// before it: all are drawn side by side, the isometric once more where the schematic takes more
// than one sheet.
func draw(p *plan.Plan, page sheet.Page, o Options) ([][]*scene.Scene, error) {
	views := drawing.Views()
	sheets, errs := make([][]*scene.Scene, len(views)), make([]error, len(views))
	one := func(i, first int) {
		page := page
		page.First = first
		sheets[i], errs[i] = drawing.Pages(p, views[i], page, o.Units)
	}
	if o.Tell != nil {
		o.Tell("drawing", 0, 0)
	}
	graph.SideBySide(len(views), func(i int) { one(i, min(1+i, 2)) }) // the two that take longest come first
	if n := len(sheets[0]); n > 1 {
		one(slices.Index(views, "isometric"), 1+n)
	}
	return sheets, errors.Join(errs...)
}

// csvFiles makes the files of numbers.
func csvFiles(p *plan.Plan, style form.Style) ([]File, error) {
	var files []File
	for _, l := range []struct {
		name  string
		print func(*plan.Plan, form.Style) ([]byte, error)
	}{
		{"parts.csv", lists.PartsCSV}, {"cuts.csv", lists.CutsCSV}, {"flow.csv", table.FlowCSV},
	} {
		data, err := l.print(p, style)
		if err != nil {
			return nil, err
		}
		files = append(files, File{l.name, data})
	}
	workbook, err := order.XLSX(p, style.Units)
	if err != nil {
		return nil, err
	}
	files = append(files, File{"parts.xlsx", workbook})
	findings := planfile.Bare(p.Findings)
	json, err := table.FindingsJSON(findings, style)
	if err != nil {
		return nil, err
	}
	return append(files, File{"findings.csv", table.FindingsCSV(findings, style)}, File{"findings.json", json}), nil
}
