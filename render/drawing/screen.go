package drawing

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/plan"
	"dryfit/graph/retrofit"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// Screen draws a view for a screen: as Pages, but without the number that tells one print from
// another, so that a picture changes only where what it shows does.
func Screen(p *plan.Plan, name string, units quantity.System) ([]*scene.Scene, error) {
	var out []*scene.Scene
	for _, v := range views() {
		if v.name != name {
			continue
		}
		pages, err := v.pages(p, sheet.Page{}, units)
		if err != nil {
			return nil, fmt.Errorf("drawing the %s: %w", v.name, err)
		}
		out = append(out, pages...)
	}
	sheet.Number(out) // a view may be drawn in two goes, as before and after the work
	warnAcross(out, faultOf(p, units))
	return out, nil
}

// Key tells by what a view is drawn from: where two plans have the same key, Screen draws the
// same. It costs little beside the drawing.
func Key(p *plan.Plan, name string, units quantity.System) (string, error) {
	sum := sha256.New()
	fmt.Fprintln(sum, name, units)
	if d := p.Fault(); d != nil {
		fmt.Fprintln(sum, d.Message.In(units))
	}
	c := *p.Circuit
	c.Prices, c.Tariff, c.Use, c.Climate, c.Cover, c.Shells, c.HeatLoss, c.Supplies, c.Accepted = nil, nil, nil, nil, nil, nil, nil, nil, nil
	c.Offer = graph.Offer{}
	c.Stock = nil
	sum.Write(description.Write(&c))
	if p.Proposal != nil {
		for _, m := range []*retrofit.Marking{&p.Proposal.Marking, p.Proposal.SecondMarking} {
			if m != nil {
				fmt.Fprintf(sum, "%+v\n", *m)
			}
		}
	}
	for _, v := range views() {
		if v.name == name && v.reads != nil {
			if err := v.reads(sum, p, units); err != nil {
				return "", err
			}
		}
	}
	return hex.EncodeToString(sum.Sum(nil)[:12]), nil
}
