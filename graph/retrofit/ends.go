package retrofit

import (
	"fmt"
	"strings"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/route"
)

// end is what a leg meets at one of its ends, mm.
type end struct {
	takeOff float64 // from the leg's end to the stop of the socket
	depth   float64 // of the socket
	name    string  // in words
	bend    bool    // an elbow or a pump: what a check wants to be far from
	through bool    // flexible pipe goes on round a bend: no fitting
	hose    bool    // the pipe is hose, and goes over a barb
}

// face is from the leg's end to the face of the socket.
func (e end) face() float64 { return e.takeOff + e.depth }

// datum names what a tape is held to at this end, in words: the face of a socket where its
// depth is known.
func (e end) datum() string {
	switch {
	case e.through:
		return "middle of " + e.name
	case e.hose:
		return "end of the hose at " + e.name
	case e.depth == 0:
		return "end of the pipe inside " + e.name + " (the depth of its socket is not known: measure it, and take it off what the tape reads from its face)"
	}
	return "face of the " + e.name
}

// legEnds returns what leg (from 1) of a path meets at its start and its end.
func legEnds(path *route.Path, leg int) (start, finish end) {
	at := func(point int) end {
		if point >= len(path.Stops) {
			return end{}
		}
		s := path.Stops[point]
		e := end{takeOff: s.TakeOffMM, depth: s.DepthMM, name: s.Fitting,
			bend: strings.HasPrefix(s.Kind, "elbow") || s.Kind == string(graph.Pump),
			hose: path.Run.Spec.Family() == catalog.Hose}
		switch {
		case e.name != "":
		case point == 0:
			e.name = path.Run.From.String()
		case point == len(path.Points)-1:
			e.name = path.Run.To.String()
		default:
			e.name, e.through = fmt.Sprintf("bend %d of %s", point, path.Run.ID), true
		}
		return e
	}
	return at(leg - 1), at(leg)
}
