package drawing

import (
	"io"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/render/scene"
	"dryfit/render/sheet"
	"dryfit/render/table/form"
	"dryfit/render/table/heating"
	"dryfit/render/tag"
	"dryfit/render/year"
)

// yearPages draws what the year takes, month by month.
func yearPages(p *plan.Plan, page sheet.Page, units quantity.System) ([]*scene.Scene, error) {
	if p.Heat == nil {
		return nil, nil
	}
	names := tag.Of(p.Circuit, p.Net())
	says := heating.Short(p.Heat, p.Circuit.Job, names, form.Style{Units: units})
	for i := range says {
		says[i] = names.Text(says[i])
	}
	return year.Draw(year.Input{Year: p.Heat.Year, Says: says, Job: p.Circuit.Titled(), Page: page}), nil
}

func yearReads(w io.Writer, p *plan.Plan, units quantity.System) error {
	if p.Heat == nil {
		return nil
	}
	numbers, err := heating.JSON(p.Heat, form.Style{Units: units, Whole: true})
	if err != nil {
		return err
	}
	_, err = w.Write(numbers)
	return err
}
