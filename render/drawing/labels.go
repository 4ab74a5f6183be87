package drawing

import (
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/render/scene"
	"dryfit/render/sheet"
	"dryfit/render/sticker"
	"dryfit/render/tag"
)

// labelPages draws a label for every piece and every valve.
func labelPages(p *plan.Plan, page sheet.Page, units quantity.System) ([]*scene.Scene, error) {
	names := tag.Of(p.Circuit)
	var labels []sticker.Label
	if p.Cuts != nil {
		labels = sticker.OfPieces(p.Cuts.Pieces, names, units)
	}
	if p.After != nil {
		labels = append(labels, sticker.OfValves(p.After.Circuit, names, p.After.Solutions, fullKv(p))...)
	}
	return sticker.Draw(sticker.Input{Labels: labels, Job: p.Circuit.Job, Page: page}), nil
}

// Hand says what a hand does to set a valve that is set by its Kv: tag.Hand with what the
// catalogue knows of the valve.
func Hand(p *plan.Plan, v *graph.Part) string {
	if v.Valve == nil {
		return ""
	}
	return tag.Hand(v, v.Valve.Kv, fullKv(p)[v.ID])
}

// turbulent is the friction factor a handbook's L/D of a valve is meant for, at 2 in. Source:
// Crane TP-410, from memory.
const turbulent = 0.019

// fullKv is what each hand valve passes when open, m³/h by its id, as far as the catalogue tells.
func fullKv(p *plan.Plan) map[string]float64 {
	set := p.After.Layout.Stage
	out := map[string]float64{}
	for _, v := range p.After.Circuit.Parts {
		if !v.Kind.IsHandValve() {
			continue
		}
		if part := set.Part(v.ID); part != nil {
			row := part.Loss.Row
			k := row.K
			if row.LoverD > 0 {
				k = row.LoverD * turbulent
			}
			if out[v.ID] = tag.FullKv(k, part.Bore.V); k == 0 {
				out[v.ID] = row.Kv
			}
		}
	}
	return out
}
