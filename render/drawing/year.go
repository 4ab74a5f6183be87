package drawing

import (
	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/render/scene"
	"dryfit/render/sheet"
	"dryfit/render/table"
	"dryfit/render/table/form"
	"dryfit/render/year"
)

// yearPages draws what the year takes, month by month.
func yearPages(p *plan.Plan, page sheet.Page, units quantity.System) ([]*scene.Scene, error) {
	if p.Heat == nil {
		return nil, nil
	}
	return year.Draw(year.Input{Year: p.Heat.Year, Says: table.HeatShort(p.Heat, p.Circuit.Job, form.Style{Units: units}), Job: p.Circuit.Job, Page: page}), nil
}
