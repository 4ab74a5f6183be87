package draft

import (
	"fmt"
	"strings"

	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/settle"
)

// Nipple returns the shortest piece between two sockets, mm: both depths and the bead.
func Nipple(depthA, depthB float64) float64 { return depthA + depthB + settle.BeadMM }

// End is what a leg meets at one of its ends, mm.
type End struct {
	TakeOff float64 // from the leg's end to the stop of the socket
	Depth   float64 // of the socket
	Name    string  // in words
	Bend    bool    // an elbow or a pump: what a check wants to be far from
	through bool    // flexible pipe goes on round a bend: no fitting
	on      bool    // pipe goes straight on: no fitting, and no bend
	Hose    bool    // the pipe is hose, and goes over a barb
	seen    *End    // where pipe goes straight on: the end that can be seen
	further float64 // how far that lies beyond the leg's end
}

// Face is from the leg's end to the face of the socket.
func (e End) Face() float64 { return e.TakeOff + e.Depth }

// OverMM is how far beyond the face a tape is held: hose lies over its barb, to its end; and where
// pipe goes straight on nothing can be seen of the leg's end, so to what comes next.
func (e End) OverMM() float64 {
	switch {
	case e.seen != nil:
		return e.further - e.seen.Face() + e.seen.OverMM()
	case e.Hose && !e.through && !e.on:
		return e.Depth
	}
	return 0
}

// Bent returns how far from the leg's end the straight begins, and whether a bend is there: below 0 where pipe
// goes straight on, from what comes next.
func (e End) Bent() (mm float64, bend bool) {
	if e.seen != nil {
		mm, bend = e.seen.Bent()
		return mm - e.further, bend
	}
	return e.TakeOff, e.Bend
}

// Datum names what a tape is held to at this end, in words: the face of a socket where its
// depth is known.
func (e End) Datum() string {
	switch {
	case e.seen != nil:
		return e.seen.Datum()
	case e.through:
		return "middle of " + e.Name
	case e.Hose:
		return "end of the hose at " + e.Name
	case e.Depth == 0:
		return "end of the pipe inside " + e.Name + " (the depth of its socket is not known: measure it, and take it off what the tape reads from its face)"
	}
	return "face of the " + e.Name
}

// LegEnds returns what leg (from 1) of a path meets at its start and its end.
func LegEnds(path *route.Path, leg int) (start, finish End) {
	at := func(point int) End {
		if point >= len(path.Stops) {
			return End{}
		}
		s := path.Stops[point]
		e := End{TakeOff: s.TakeOffMM, Depth: s.DepthMM, Name: s.Fitting,
			Bend: strings.HasPrefix(s.Kind, "elbow") || s.Kind == string(graph.Pump),
			Hose: path.Run.Spec.IsHose()}
		switch {
		case e.Name != "":
		case point == 0:
			e.Name = path.Run.From.String()
		case point == len(path.Points)-1:
			e.Name = path.Run.To.String()
		case straightOn(path, point):
			e.Name, e.on = fmt.Sprintf("end of leg %d of %s", point, path.Run.ID), true
		default:
			e.Name, e.through = fmt.Sprintf("bend %d of %s", point, path.Run.ID), true
		}
		return e
	}
	beyond := func(point, way int) End {
		e := at(point)
		for k := point; e.on; {
			e.further += path.Points[k+way].Sub(path.Points[k]).Len()
			k += way
			if next := at(k); !next.on {
				e.seen = &next
				break
			}
		}
		return e
	}
	return beyond(leg-1, -1), beyond(leg, 1)
}

// straightOn reports whether the two legs that meet at a point of a path go the same way.
func straightOn(path *route.Path, point int) bool {
	return path.Points[point].Sub(path.Points[point-1]).AngleTo(path.Points[point+1].Sub(path.Points[point])) < graph.StraightDeg
}
