package plan

import (
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// Built is the circuit as it stands once the work is done, with what each throttle was to be set by in
// its note: of the valve itself only a Kv was worked out, and no handle shows one. It is no reading, for
// nobody has read it. Where no flows were solved there is none.
func (p *Plan) Built() *graph.Circuit {
	out := p.Circuit.Built()
	if p.After == nil || p.After.Layout == nil {
		return out
	}
	for _, a := range p.toBeSet() {
		note := graph.Say("planned: %s through %s in mode %s; give what was read as a [[reading]]", quantity.Flow.Of(a.Flow), a.Unit, a.Mode)
		if to := out.Part(a.Valve); to != nil {
			to.Note = strings.TrimPrefix(to.Note+"; "+note.In(quantity.SystemOf(p.Circuit.Job.Units)), "; ")
		}
	}
	return out
}
