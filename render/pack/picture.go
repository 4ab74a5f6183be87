package pack

import (
	"strings"

	"dryfit/graph/plan"
	"dryfit/render/drawing"
	"dryfit/render/scene"
)

// allPictures makes the files of every view.
func allPictures(p *plan.Plan, sheets [][]*scene.Scene) ([]File, error) {
	var out []File
	for i, view := range drawing.Views() {
		files, err := pictures(view, sheets[i], p.Circuit.Titled().Name, p.Circuit.Job.Date)
		if err != nil {
			return nil, err
		}
		out = append(out, files...)
	}
	return out, nil
}

// pictures makes the files of one view: the schematic, which gets pinned up, as svg, png
// and pdf; every other view as svg (the pdf of all drawings holds them too).
func pictures(view string, pages []*scene.Scene, title, date string) ([]File, error) {
	var files []File
	for i, s := range pages {
		files = append(files, File{sheetFile(view, i), scene.SVG(s)})
		if view == "schematic" {
			png, err := scene.PNG(s, 150)
			if err != nil {
				return nil, err
			}
			files = append(files, File{strings.TrimSuffix(sheetFile(view, i), ".svg") + ".png", png})
		}
	}
	if view == "schematic" {
		pdf, err := scene.PDF(pages, title, date)
		if err != nil {
			return nil, err
		}
		files = append(files, File{view + ".pdf", pdf})
	}
	return files, nil
}
