package plan

import (
	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// Built is the circuit as it stands once the work is done, with what a throttle was set by as a
// reading: of the valve itself only a Kv was worked out, and no handle shows one. It is read to a
// hundredth of a m³/h. Where no flows were solved there is none.
func (p *Plan) Built() *graph.Circuit {
	out := p.Circuit.Built()
	if p.After == nil || p.After.Layout == nil {
		return out
	}
	if by := p.throttle(); by != nil {
		unit := p.unitID()
		out.Readings = append(out.Readings, graph.Reading{At: unit, Part: unit, Mode: by.Mode, Flow: quantity.Neat(quantity.Round(by.Flow*3600, 2)/3600, quantity.Flow, quantity.MetricSystem)})
	}
	return out
}
