package pipework

import (
	"math"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
)

// recessMM is how far a box may reach past the stop of a port in it, mm: its own socket, or a
// nut sunk into the case. Common practice, no source.
const recessMM = 60

// boxBehindPorts finds a port of a part whose own box stands in the way of its pipe: the corners
// or the way the port looks are wrong, and what the pipe then runs into is no fault of the pipe.
// faces is how ports look that say nothing themselves; zero: nobody said.
func boxBehindPorts(r *field.Reader, p *graph.Part, faces graph.Vec) {
	if p.Box == nil || len(p.Ports) == 0 || p.Kind == graph.Tub { // under a tub's rim pipe goes as it must
		return
	}
	origin, _ := p.PortAt(0) // corners and places are counted from the first port
	if faces.Len() == 0 && boxFarFromPorts(r, p, origin) {
		return
	}
	for i := range p.Ports {
		q := &p.Ports[i]
		way := faces
		switch {
		case q.Faces != nil && faces.Len() > 0: // it was asked when the part was read
			continue
		case q.Faces != nil:
			way = q.Faces.Unit()
		}
		at, ok := p.PortAt(i)
		if !ok {
			continue
		}
		before, meets := ahead(p.Box, at.Sub(origin), way)
		if !meets || before <= recessMM {
			continue
		}
		toward := strings.Trim(field.DirectionText(way), `"`)
		d := r.Add(p.KeyPos["box"], `count both corners from the middle of its first port, so that the box ends where the ports look; or mend which way they look`,
			"port %s faces %s, and %s of its box stand before it: no pipe can leave %s there", q.Name, toward, quantity.Closely(before), located.Said(p.ID))
		if q.Pos.Line > 0 {
			located.Related(d, q.Pos, "the port is here")
		}
		located.Related(d, p.Pos, "the part is here")
		return
	}
}

// standOutMM is how far the ports of a part may stand out of its box, mm: a tail, a union or a
// valve head of its own that the box leaves out. Common practice, no source.
const standOutMM = 300

// boxFarFromPorts finds a box that none of its part's own ports comes near: its corners were
// counted from somewhere else.
func boxFarFromPorts(r *field.Reader, p *graph.Part, origin graph.Vec) bool {
	nearest, port := math.Inf(1), ""
	for i, q := range p.Ports {
		at, ok := p.PortAt(i)
		if !ok {
			continue
		}
		if off := beside(p.Box, at.Sub(origin)); off < nearest {
			nearest, port = off, q.Name
		}
	}
	if nearest <= standOutMM {
		return false
	}
	d := r.Add(p.KeyPos["box"], "count both corners from the middle of its first port; what stands in the way there and is no part of it is a box of keep-clear, or a part of its own",
		"the box of %s stands %s from its nearest port, %s: no part of it lies there", located.Said(p.ID), quantity.Closely(nearest), port)
	located.Related(d, p.Pos, "the part is here")
	return true
}

// beside is how far a place is from a box, mm; 0 within it.
func beside(box *graph.Span, at graph.Vec) float64 {
	a, b := box[0].Sub(at), box[1].Sub(at)
	out := func(a, b float64) float64 { return max(min(a, b), -max(a, b), 0) }
	return graph.Vec{X: out(a.X, b.X), Y: out(a.Y, b.Y), Z: out(a.Z, b.Z)}.Len()
}

// ahead is how much of a box lies before a port that looks along an axis, and whether the middle
// of its pipe meets the box at all.
func ahead(box *graph.Span, at, way graph.Vec) (mm float64, meets bool) {
	a, b := box[0].Sub(at), box[1].Sub(at)
	for _, axis := range [][3]float64{{a.X, b.X, way.X}, {a.Y, b.Y, way.Y}, {a.Z, b.Z, way.Z}} {
		low, high := min(axis[0], axis[1]), max(axis[0], axis[1])
		switch {
		case axis[2] > 0.99:
			mm, meets = high, true
		case axis[2] < -0.99:
			mm, meets = -low, true
		case math.Abs(axis[2]) > 0.01 || low > -1 || high < 1: // a port at an angle, or at the box's edge
			return 0, false
		}
	}
	return mm, meets
}
