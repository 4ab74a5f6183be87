package drawing

import (
	"fmt"
	"io"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/render/cutplan"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// cutplanPages draws how the pieces come out of the stock.
func cutplanPages(p *plan.Plan, page sheet.Page, units quantity.System) ([]*scene.Scene, error) {
	if p.WhyNot() != "" { // nobody saws for a place that is ruled out
		return nil, nil
	}
	return cutplan.Draw(cutplan.Input{List: p.Cuts, Job: p.Circuit.Titled(), Units: units, Page: page}), nil
}

func cutplanReads(w io.Writer, p *plan.Plan, _ quantity.System) error {
	for _, s := range p.Circuit.Stock {
		s.Pos = graph.Pos{}
		fmt.Fprintf(w, "%+v\n", s)
	}
	return nil
}
