package plan

import "dryfit/graph/retrofit"

// Straights lists the straights of old pipe a cut may be asked for in, in the order of the
// runs, each with the best place in it: those cutin looks at. None where nothing is to be built
// in.
func (p *Plan) Straights() []retrofit.Place {
	if p.searched == nil || p.Asked.Retrofit == nil || p.Asked.Retrofit.Remove {
		return nil
	}
	var out []retrofit.Place
	for _, place := range retrofit.Places(p.Asked, p.searched.Layout) {
		if !place.MeasureFirst {
			out = append(out, place)
		}
	}
	return out
}
