package drawing

import (
	"fmt"
	"io"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/render/scene"
	"dryfit/render/sheet"
	"dryfit/render/year"
)

// coldPages draws whether the unit holds the tub, over the air.
func coldPages(p *plan.Plan, page sheet.Page, units quantity.System) ([]*scene.Scene, error) {
	if p.Heat == nil {
		return nil, nil
	}
	h := p.Heat
	return year.Cold(year.ColdInput{Airs: h.Airs, DesignC: h.Loss.AirC, Asked: h.Asked, WaterC: h.Loss.WaterC, HoldsC: h.Unit.HoldsC, Colder: h.Unit.Colder, HoldsSet: h.Unit.HoldsKnown, StopsC: h.Unit.StopsC, Guessed: h.Unit.StopsAt(h.Unit.HoldsC),
		Climate: h.Year != nil, Job: p.Circuit.Titled(), Units: units, Page: page}), nil
}

// coldReads is what it shows of the heat: no price.
func coldReads(w io.Writer, p *plan.Plan, _ quantity.System) error {
	if h := p.Heat; h != nil {
		if h.Asked != nil {
			fmt.Fprintf(w, "%v ", *h.Asked)
		}
		fmt.Fprintf(w, "%v %v %v %v %v %v %v %v %v\n", h.Airs, h.Loss.AirC, h.Loss.WaterC, h.Unit.HoldsC, h.Unit.HoldsKnown, h.Unit.Colder, h.Unit.StopsC, h.Unit.StopsTaken, h.Year != nil)
	}
	return nil
}
