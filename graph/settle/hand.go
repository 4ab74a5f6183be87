package settle

import (
	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// settleHandle settles how a hand valve stands: where its handle is, and what it passes there by a Kv
// of its own. An old one of which nobody says it is taken as open; a new one is opened when it is
// fitted, and nothing is said of it.
func (s *Stage) settleHandle(out *Part) {
	p := out.Part
	if !p.Kind.IsHandValve() {
		return
	}
	v := p.Valve
	if v == nil {
		v = &graph.ValveData{}
	}
	switch {
	case v.PositionSet:
		out.Position = words(v.Position.Words(), given(p.KeyPos["position"]))
	case p.Existing && v.Kv <= 0:
		out.Position = words(graph.Opening(1).Words(), assumed("nobody says how it stands; look at its handle"))
	}
	if v.Kv > 0 {
		from := given(p.KeyPos["kv"])
		if unit := s.Circuit.TheUnit(); unit != nil && !from.Pos.IsValid() { // the tool's, which sets it
			from = ofKeys(Key{unit.ID, "rated flow"})
			if l := UnitLimits(s.cat, unit); !l.Rated.Known {
				from = ofKeys(Key{unit.ID, "least flow"})
			}
		}
		out.Kv = number(v.Kv, quantity.Kv, from)
	}
}

// HandRoom is the room that a hand needs at pipe of a size, mm beyond the outside of the pipe
// or nut: for a "spanner" at a nut, the "handle" or "wheel" of a valve, the "saw" at a cut, the
// primer's "brush" at a joint. assumed says that nobody measured it; ok is false where no row
// has the size.
func (s *Stage) HandRoom(what string, size catalog.Size) (mm float64, assumed, ok bool) {
	row, ok := s.cat.HandRoom(what, size)
	return row.RoomMM, !row.Own, ok
}
