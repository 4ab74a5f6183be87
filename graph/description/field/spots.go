package field

import (
	"dryfit/graph"
	"dryfit/graph/description/located"
)

// Spots are the places of the values a later look wants to point at, by key.
type Spots map[string]located.Value

// Note remembers where a value stands, for a look after everything has been read.
func (r *Reader) Note(of any, key string, v located.Value) {
	if r.Spots[of] == nil {
		r.Spots[of] = Spots{}
	}
	r.Spots[of][key] = v
}

// IDPos returns where the id of a part or run stands; fallback where it was not written.
func (r *Reader) IDPos(of any, fallback graph.Pos) graph.Pos {
	if v, ok := r.Spots[of]["id"]; ok {
		return r.ValuePos(v)
	}
	return fallback
}
