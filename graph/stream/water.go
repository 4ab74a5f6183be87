package stream

import (
	"slices"

	"dryfit/graph"
)

// Apart reports whether a part stands in another body of water than the one the unit heats: a
// tub of its own with pipes that never meet the unit's, as a spa beside a swim spa in one cabinet.
// What heats there, its jets and its set point are none of the unit's business. The unit's water
// is that which [retrofit] cuts or counts its place from; with no request that of its pipes, and
// where none of these is there that of the pump that heats. A part with no pipe, or with no tub on its pipes, is not
// apart: nothing tells that it is.
func (n *Net) Apart(p *graph.Part) bool { return n.apartFrom(p, n.waters()) }

// OtherSources are the heat exchangers by which another source than the units and elements heats the unit's water,
// be it a boiler or a collector: nothing of that source is described.
func (n *Net) OtherSources() []*graph.Part {
	return slices.DeleteFunc(n.Circuit.OfKind(graph.HeatExchanger), n.Apart)
}

func (n *Net) apartFrom(p *graph.Part, w waters) bool {
	i, ok := n.parts[p.ID]
	return ok && w.heated >= 0 && w.of[i] != w.heated && w.tub[w.of[i]]
}

// waters are the bodies of water of a circuit: parts that pipes join, whichever way.
type waters struct {
	of     []int        // of each part: the body it is in
	tub    map[int]bool // bodies with a tub
	heated int          // the unit's; -1 where nothing tells, or there is but one
}

// findWaters follows the water runs from part to part. Air joins no water.
func (n *Net) findWaters() waters {
	w := waters{of: make([]int, len(n.Circuit.Parts)), tub: map[int]bool{}, heated: -1}
	for i := range w.of {
		w.of[i] = -1
	}
	for start, p := range n.Circuit.Parts {
		if w.of[start] < 0 {
			n.flood(w, start)
		}
		if p.Kind == graph.Tub {
			w.tub[w.of[start]] = true
		}
	}
	if len(w.tub) < 2 {
		return w
	}
	if at, ok := n.parts[n.heatedPart()]; ok && w.tub[w.of[at]] {
		w.heated = w.of[at]
	}
	return w
}

// flood marks all that pipes join to a part.
func (n *Net) flood(w waters, start int) {
	w.of[start] = start
	for list := []int{start}; len(list) > 0; {
		at := list[len(list)-1]
		list = list[:len(list)-1]
		for _, r := range n.atPart[at] {
			if !n.carriesWater(r) {
				continue
			}
			for _, next := range n.ends[r] {
				if w.of[next] < 0 {
					w.of[next] = start
					list = append(list, next)
				}
			}
		}
	}
}

// heatedPart is the id of a part in the water that the unit heats; "" where nothing tells.
func (n *Net) heatedPart() string {
	unit, asked := n.Circuit.TheUnit(), n.Circuit.Retrofit
	if asked != nil && asked.Remove {
		asked = nil
	}
	switch {
	case n.Circuit.HeatedAt != "":
		return n.Circuit.HeatedAt
	case n.Circuit.AskedWater() != "":
		return n.Circuit.AskedWater()
	case asked == nil && unit == nil:
		return ""
	case asked == nil && len(n.At(unit)) > 0:
		return unit.ID
	}
	if p := n.heaterPump(func(*graph.Part) bool { return false }); p != nil {
		return p.ID
	}
	return ""
}
