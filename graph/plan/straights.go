package plan

import "dryfit/graph/retrofit"

// Straights lists the straights of old pipe a cut may be asked for in, in the order of the
// runs, each with the best place in it: those cutin looks at. None where nothing is to be built
// in.
func (p *Plan) Straights() []retrofit.Place {
	if p.searched == nil || p.searched.Layout == nil || p.Asked.Retrofit == nil || p.Asked.Retrofit.Remove {
		return nil
	}
	var out []retrofit.Place
	for _, place := range retrofit.NewSite(p.Asked, p.searched.Layout).Places() {
		if !place.MeasureFirst {
			out = append(out, place)
		}
	}
	return out
}
