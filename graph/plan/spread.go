package plan

import (
	"dryfit/graph"
	"dryfit/graph/hydraulic"
)

// spread solves the circuit again over the spreads of what is not known exactly.
func (p *Plan) spread(want Want) {
	if want&Ranges == 0 || p.After == nil {
		return
	}
	unit := ""
	if u := unitOf(p.After.Circuit, p.Asked.Retrofit); u != nil {
		unit = u.ID
	}
	p.Ranges = hydraulic.Spread(p.Before.layout(), p.After.Layout, unit)
}

// unitOf returns the unit a job is about: the one to be fitted, else the only one.
func unitOf(c *graph.Circuit, r *graph.Retrofit) *graph.Part {
	if r != nil {
		if p := c.Part(r.Unit); p != nil {
			return p
		}
	}
	return c.TheUnit()
}
