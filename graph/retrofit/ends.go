package retrofit

import (
	"strings"

	"dryfit/graph"
	"dryfit/graph/route"
)

// end is what a leg meets at one of its ends, mm.
type end struct {
	takeOff float64 // from the leg's end to the stop of the socket
	depth   float64 // of the socket
	name    string  // in words
	bend    bool    // an elbow or a pump: what a check wants to be far from
}

// face is from the leg's end to the face of the socket.
func (e end) face() float64 { return e.takeOff + e.depth }

// legEnds returns what leg (from 1) of a path meets at its start and its end.
func legEnds(path *route.Path, leg int) (start, finish end) {
	at := func(point int) end {
		if point >= len(path.Stops) {
			return end{}
		}
		s := path.Stops[point]
		return end{takeOff: s.TakeOffMM, depth: s.DepthMM, name: s.Fitting,
			bend: strings.HasPrefix(s.Kind, "elbow") || s.Kind == string(graph.Pump)}
	}
	return at(leg - 1), at(leg)
}
