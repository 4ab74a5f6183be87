package pack

import (
	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/render/book"
	"dryfit/render/drawing"
	"dryfit/render/photo"
	"dryfit/render/table/form"
)

// Chapters returns the chapters of the book without those of its drawings, for a screen that
// shows them as they become ready. What the plan does not hold is left out.
func Chapters(p *plan.Plan, units quantity.System, photos ...photo.Photo) []book.Chapter {
	return bookOf(p, form.Style{Units: units}, Options{Photos: photos}, nil).Chapters
}

// Sheets returns the sheets of one view as the chapter of drawings shows them, without the
// numbers that tell one print from another; nil where there is nothing to draw.
func Sheets(p *plan.Plan, view string, units quantity.System) ([]book.Item, error) {
	pages, err := drawing.Screen(p, view, units)
	if err != nil {
		return nil, err
	}
	var out []book.Item
	for _, one := range sheetsOf(view, pages) {
		out = append(out, book.Item{Kind: book.Sheet, Text: one.Title, Scene: one.Scene})
	}
	return out, nil
}
