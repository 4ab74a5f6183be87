package description

import (
	"dryfit/graph"
	"dryfit/graph/description/located"
)

// spots are the places of the values a later look wants to point at, by key.
type spots map[string]located.Value

// note remembers where a value stands, for a look after everything has been read.
func (r *reader) note(of any, key string, v located.Value) {
	if r.spots[of] == nil {
		r.spots[of] = spots{}
	}
	r.spots[of][key] = v
}

// idPos returns where the id of a part or run stands; fallback where it was not written.
func (r *reader) idPos(of any, fallback graph.Pos) graph.Pos {
	if v, ok := r.spots[of]["id"]; ok {
		return r.ValuePos(v)
	}
	return fallback
}
