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
	units, page := o.Units, o.Page
	style := form.Style{Units: units}
	var all []*scene.Scene
	var shown []picture
	out := &Pack{}
	sheets, err := draw(p, page, o)
	if err != nil {
		return nil, err
	}
	for _, pages := range sheets {
		all = append(all, pages...)
	}
	drawing.Number(all, drawing.Fingerprint(p))
	for i, view := range drawing.Views() {
		pages := sheets[i]
		files, err := pictures(view, pages, p.Circuit.Job.Name, p.Circuit.Job.Date)
		if err != nil {
			return nil, err
		}
		shown, out.Files = append(shown, sheetsOf(view, pages)...), append(out.Files, files...)
	}
	out.Missing = scene.Missing(all...)
	if len(all) > 0 {
		drawings, err := scene.PDF(all, p.Circuit.Job.Name, p.Circuit.Job.Date)
		if err != nil {
			return nil, err
		}
		out.Files = append(out.Files, File{"drawings.pdf", drawings})
	}
	for i, one := range o.Photos {
		out.Files = append(out.Files, File{PhotoFile(i), one.JPEG})
	}
	tables, err := csvFiles(p, style)
	if err != nil {
		return nil, err
	}
	papers := bookOf(p, style, o, shown)
	paper, err := papers.PDF()
	if err != nil {
		return nil, err
	}
	index, err := papers.HTML()
	if err != nil {
		return nil, err
	}
	whole, err := planfile.JSON(p, style)
	if err != nil {
		return nil, err
	}
	tables = append(tables, File{"plan.json", whole})
	if o.Source != nil {
		tables = append(tables, File{"description.toml", o.Source})
	}
	out.Files = append(append(out.Files, tables...), File{"pack.pdf", paper}, File{"index.html", index})
	return out, nil
}

// draw draws every view, in the order of the pack. Which number its first sheet has stands on
// a sheet of the isometric alone (its match lines name each other), and only the schematic is
// before it: so the isometric, which takes as long as all others together, is drawn beside them.
func draw(p *plan.Plan, page sheet.Page, o Options) ([][]*scene.Scene, error) {
	views := drawing.Views()
	sheets, errs := make([][]*scene.Scene, len(views)), make([]error, len(views))
	one := func(i int) { sheets[i], errs[i] = drawing.Pages(p, views[i], page, o.Units) }
	tell := func(i int) {
		if o.Tell != nil {
			o.Tell("drawing "+views[i], i, len(views))
		}
	}
	tell(0)
	page.First = 1
	one(0)
	page.First += len(sheets[0])
	aside := slices.Index(views, "isometric")
	tell(aside)
	graph.SideBySide(2, func(k int) {
		if k == 0 {
			one(aside)
			return
		}
		for i := range views {
			if i > 0 && i != aside {
				one(i)
			}
		}
	})
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
