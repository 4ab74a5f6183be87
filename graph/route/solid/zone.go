package solid

import (
	"math"

	"dryfit/graph"
	"dryfit/graph/settle"
)

// What a unit wants free round its case where its sheet is not at hand, mm: 300 to 500 where it
// draws its air, 500 to 600 at its service panel, 1500 to 2500 before a fan that blows to the
// side and 1500 above one that blows up. Source: heat pump manuals (from memory); the unit's
// own sheet beats them.
const (
	behindMM  = 300
	serviceMM = 600
	fanMM     = 1500
)

// Zone is room a unit wants free beside its case.
type Zone struct {
	What      string    // in words: "before its fan"
	Key       string    // of the unit's clearances that says how much it is
	Way       graph.Vec // outwards from the case
	NeedMM    float64
	Assumed   bool      // nobody gave NeedMM
	Low, High graph.Vec // the zone
	Ports     bool      // the unit's own pipes stand there too
}

// Zones are the zones of a unit with a case between two corners. Where nobody said which way
// it blows there is none before its fan and none behind it; the service panel is taken to be
// where its ports look unless something is said.
func Zones(u *graph.Part, low, high graph.Vec, faces []graph.Vec) []Zone {
	if u.Unit == nil {
		return nil
	}
	var out []Zone
	add := func(what, key string, way graph.Vec, said graph.Amount, otherwise float64) {
		z := Zone{What: what, Key: key, Way: way, NeedMM: said.Or(otherwise), Assumed: !said.Set, Low: low, High: high}
		for _, f := range faces {
			z.Ports = z.Ports || f.Dot(way) > 0.99
		}
		beside(&z)
		if z.NeedMM > 0 {
			out = append(out, z)
		}
	}
	c := u.Unit.Clearances
	if blows, ok := graph.Directions()[u.Unit.Blows]; ok {
		add("before its fan", "fan", blows, c.Fan, fanMM)
		if blows.Z == 0 {
			add("behind it, where it draws its air", "behind", blows.Scale(-1), c.Behind, behindMM)
		} else {
			for _, w := range walls[:4] {
				add("at its "+sideOf[w.way]+", where it draws its air", "behind", w.way, c.Behind, behindMM)
			}
		}
	}
	service, said := graph.Directions()[u.Unit.ServiceSide]
	if !said && len(faces) > 0 {
		service = faces[0]
	}
	if service != (graph.Vec{}) && service.Z > -0.5 {
		add("at its service side", "service", service, c.Service, serviceMM)
	}
	return out
}

var sideOf = map[graph.Vec]string{{X: -1}: "left", {X: 1}: "right", {Y: -1}: "front", {Y: 1}: "back"}

// beside moves the corners of a zone from the case to the room beside it.
func beside(z *Zone) {
	for _, a := range [][3]*float64{{&z.Low.X, &z.High.X, &z.Way.X}, {&z.Low.Y, &z.High.Y, &z.Way.Y}, {&z.Low.Z, &z.High.Z, &z.Way.Z}} {
		switch {
		case *a[2] > 0.5:
			*a[0], *a[1] = *a[1], *a[1]+z.NeedMM
		case *a[2] < -0.5:
			*a[0], *a[1] = *a[0]-z.NeedMM, *a[0]
		}
	}
}

// Case is the box of a unit's case: as described, counted from its inlet, else what the catalogue
// takes one to fill behind its ports.
func Case(u *graph.Part, body settle.Body, in, outlet graph.Vec, face func(port string) graph.Vec) (low, high graph.Vec) {
	if u.Box != nil {
		return Box(in.Add(u.Box[0]), in.Add(u.Box[1])).Bounds()
	}
	low, high, _ = caseOf(body, []mouth{{place: in, way: face(graph.In)}, {place: outlet, way: face(graph.Out)}})
	return low, high
}

// UnitRoom is what is found of a zone: how much of it is free, and what stands in it.
type UnitRoom struct {
	Zone
	FreeMM float64
	By     string // "" where nothing stands in it
	ByPos  graph.Pos
	Guess  bool // the case is taken as what is behind its ports
}

// UnitRooms holds the zones of a unit against everything else that has a place: what was there,
// the new work but for its own pipes where they join it, and the walls of the cabinet it stands
// in, or the cabinet beside it.
func (s *Bodies) UnitRooms(u *graph.Part) []UnitRoom {
	lay := s.lay
	in, ok := lay.Positions[u.ID+"."+graph.In]
	outlet, okOut := lay.Positions[u.ID+"."+graph.Out]
	group, tied := lay.Groups[u.ID+"."+graph.In]
	if !ok || !okOut || !tied || lay.Groups[u.ID+"."+graph.Out] != group {
		return nil
	}
	face := func(port string) graph.Vec {
		if q := u.Port(port); q != nil && q.Faces != nil {
			return q.Faces.Unit()
		}
		return lay.Ways[u.ID+"."+port]
	}
	low, high := Case(u, lay.Stage.Part(u.ID).Body, in, outlet, face)
	solids := append(s.obstacles(), s.cabinetBeside(low, high)...)
	own := s.beside(u)
	var out []UnitRoom
	for _, z := range Zones(u, low, high, []graph.Vec{face(graph.In), face(graph.Out)}) {
		r := UnitRoom{Zone: z, FreeMM: z.NeedMM, Guess: u.Box == nil}
		for i := range solids {
			o := &solids[i]
			if o.group != group || o.body >= 0 && s.All[o.body].Part == u.ID || o.body >= 0 && z.Ports && (s.All[o.body].New || own[s.All[o.body].Run] || own[s.All[o.body].Part]) {
				continue
			}
			if o.body < 0 && o.name != "the cabinet" && !within(low, high, o) {
				continue // the wall of a cabinet it does not stand in
			}
			if free, meets := inZone(&z, o); meets && free < r.FreeMM-touchMM {
				r.FreeMM, r.By, r.ByPos = free, o.name, o.pos
			}
		}
		out = append(out, r)
	}
	return out
}

// beside are the ids of a unit's own pipes and of what stands in them next to it: they come to it
// through the room before its ports.
func (s *Bodies) beside(u *graph.Part) map[string]bool {
	own, parts := map[string]bool{}, map[string]bool{u.ID: true}
	for range 3 {
		for _, r := range s.lay.Circuit.Runs {
			if parts[r.From.Part] != parts[r.To.Part] || parts[r.From.Part] && !own[r.ID] {
				own[r.ID] = true
			}
		}
		for _, r := range s.lay.Circuit.Runs {
			if own[r.ID] {
				parts[r.From.Part], parts[r.To.Part] = true, true
			}
		}
	}
	for id := range parts {
		own[id] = true
	}
	delete(own, "")
	return own
}

// cabinetBeside is the cabinet as one solid where a case stands outside of it.
func (s *Bodies) cabinetBeside(low, high graph.Vec) []obstacle {
	c := s.lay.Circuit.Cabinet
	if c == nil {
		return nil
	}
	origin, ok := s.lay.Positions[c.From.String()]
	if !ok {
		return nil
	}
	l, h := least(c.Corner, c.Far).Add(origin), most(c.Corner, c.Far).Add(origin)
	if low.X < h.X-touchMM && high.X > l.X+touchMM && low.Y < h.Y-touchMM && high.Y > l.Y+touchMM && low.Z < h.Z-touchMM && high.Z > l.Z+touchMM {
		return nil
	}
	return []obstacle{{Box(l, h), l, h, "the cabinet", c.Pos, -1, s.lay.Groups[c.From.String()]}}
}

// within reports whether the middle of a case lies before the inner face of a wall.
func within(low, high graph.Vec, wall *obstacle) bool {
	m := low.Add(high).Scale(0.5)
	inside := 0
	for _, a := range [][3]float64{{wall.low.X, wall.high.X, m.X}, {wall.low.Y, wall.high.Y, m.Y}, {wall.low.Z, wall.high.Z, m.Z}} {
		if a[2] >= a[0]-touchMM && a[2] <= a[1]+touchMM {
			inside++
		}
	}
	return inside == 2
}

// inZone tells how far from the case an obstacle stands, where it stands in the zone at all.
func inZone(z *Zone, o *obstacle) (free float64, meets bool) {
	for _, a := range [][4]float64{{z.Low.X, z.High.X, o.low.X, o.high.X}, {z.Low.Y, z.High.Y, o.low.Y, o.high.Y}, {z.Low.Z, z.High.Z, o.low.Z, o.high.Z}} {
		if a[2] >= a[1]-touchMM || a[3] <= a[0]+touchMM {
			return 0, false
		}
	}
	switch w := z.Way; {
	case w.X+w.Y+w.Z > 0:
		free = w.Dot(o.low) - w.Dot(z.Low)
	default:
		free = w.Dot(o.high) - w.Dot(z.High)
	}
	return math.Max(0, free), true
}
