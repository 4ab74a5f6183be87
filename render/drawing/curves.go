package drawing

import (
	"io"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/render/curves"
	"dryfit/render/scene"
	"dryfit/render/sheet"
	"dryfit/render/table"
	"dryfit/render/table/form"
	"dryfit/render/tag"
)

// curvePages draws pump and circuit, before and after.
func curvePages(p *plan.Plan, page sheet.Page, units quantity.System) ([]*scene.Scene, error) {
	names := tag.Of(p.Circuit, p.Net())
	return curves.Draw(curves.Input{Sets: plan.Curves(p), Name: names.Short, Modes: names.Mode,
		Job: p.Circuit.Titled(), Units: units, Page: page}), nil
}

func curvesRead(w io.Writer, p *plan.Plan, units quantity.System) error {
	numbers, err := table.FlowJSON(p, form.Style{Units: units, Whole: true})
	if err != nil {
		return err
	}
	_, err = w.Write(numbers)
	return err
}
