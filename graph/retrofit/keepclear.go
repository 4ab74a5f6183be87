package retrofit

import (
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/retrofit/draft"
)

// standing tells the parts what the request says of where the unit stands: the way its ports look, and what
// is to be kept clear.
func standing(d *draft.Draft, unit *graph.Part, stand *graph.Stand) {
	facing(d, unit, stand)
	holdClear(d, unit, stand)
}

// holdClear gives what is to be kept clear for the unit's pipes to a part, so that the plan holds it
// when it is written out and changed: to the one whose port it is counted from, which stays where it is;
// where that is a new tee, or nobody said how the part's ports lie, to the unit.
func holdClear(d *draft.Draft, unit *graph.Part, stand *graph.Stand) {
	if stand == nil || len(stand.KeepClear) == 0 {
		return
	}
	holder, shift := unit.ID, stand.At.Scale(-1)
	if p := d.Part(stand.From.Part); p != nil {
		if at, ok := fromFirst(p, stand.From.Port); ok {
			holder, shift = p.ID, at
		}
	}
	for i, p := range d.Parts {
		if p.ID != holder {
			continue
		}
		held := *p
		held.KeepClear = append([]graph.KeepClear(nil), p.KeepClear...)
		for _, k := range stand.KeepClear {
			k.From, k.To = toNanometres(k.From.Add(shift)), toNanometres(k.To.Add(shift))
			held.KeepClear = append(held.KeepClear, k)
		}
		d.Parts[i] = &held
	}
}

// toNanometres leaves out what a sum of amounts of other units is off by, so that it is written as a
// person would.
func toNanometres(v graph.Vec) graph.Vec {
	return graph.Vec{X: quantity.Round(v.X, 6), Y: quantity.Round(v.Y, 6), Z: quantity.Round(v.Z, 6)}
}

// fromFirst is where a port of a part is, counted from its first; false where nobody said.
func fromFirst(p *graph.Part, port string) (graph.Vec, bool) {
	for i := range p.Ports {
		switch q := &p.Ports[i]; {
		case q.Name != port:
		case i == 0:
			return graph.Vec{}, true
		case q.At != nil:
			return *q.At, true
		}
	}
	return graph.Vec{}, false
}
