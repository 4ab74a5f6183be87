package solid

import (
	"math"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
)

// wall is one side of the cabinet.
type wall struct {
	name string
	way  graph.Vec // outwards
}

var walls = []wall{
	{"left side", graph.Vec{X: -1}}, {"right side", graph.Vec{X: 1}},
	{"front", graph.Vec{Y: -1}}, {"back", graph.Vec{Y: 1}},
	{"floor", graph.Vec{Z: -1}}, {"top", graph.Vec{Z: 1}},
}

// checkCabinet finds new work that stands in a wall of the cabinet: anything but straight
// pipe that goes square through it, which wants a hole and no more.
func (s *Bodies) checkCabinet(lay *route.Layout) []graph.Diagnostic {
	out := s.cabinetElsewhere(lay)
	said := map[string]bool{}
	found := s.inWalls(lay)
	for i, in := range found {
		b, w := &s.All[in.body], in.wall
		if b.Guess && slices.ContainsFunc(found, func(o walled) bool {
			return o.body == in.body && o.depth > in.depth
		}) || b.Guess && slices.ContainsFunc(found[:i], func(o walled) bool { return o.body == in.body && o.depth == in.depth }) {
			continue // one measurement settles it: the deepest wall
		}
		if said[b.thing()+w.name] {
			continue
		}
		said[b.thing()+w.name] = true
		d := graph.Diagnostic{Pos: b.Pos, Rule: "clash", Severity: graph.Error, Of: []string{b.Part},
			Message: graph.Say("%s stands in the %s of the cabinet: %s of it are beyond", b.Name, w.name, quantity.Closely(in.depth)),
			Hint:    graph.Say("keep it at least %s farther inside, or go straight through the wall with pipe alone", quantity.Closely(math.Ceil(in.depth))),
			Related: []graph.Related{{Pos: lay.Circuit.Cabinet.Pos, Message: "the cabinet is described here"}}}
		d.Behind = s.besidePart(in.body, lay.Circuit.Cabinet.From.Part, func(m *Body) bool {
			low, high, _, _ := room(lay)
			depth, _ := m.inWall(w, low, high)
			return depth > touchMM
		})
		if !in.sure {
			d.Severity = graph.Warning
			d.Message = graph.Say("%s may stand in the %s of the cabinet: as it is taken to be %s of it are beyond", b.Name, w.name, quantity.Closely(in.depth))
			d.Hint = graph.Say("measure: %s; or keep it %s farther inside", b.Assumed, quantity.Closely(math.Ceil(in.depth)))
		}
		out = append(out, d)
	}
	return out
}

// cabinetElsewhere tells that no legs tie the cabinet to the new work, of which nothing is then held against
// its walls.
func (s *Bodies) cabinetElsewhere(lay *route.Layout) []graph.Diagnostic {
	c := lay.Circuit.Cabinet
	if c == nil {
		return nil
	}
	_, _, group, ok := room(lay)
	stands := -1 // the group of the new work
	for i := range s.All {
		if b := &s.All[i]; b.New && b.Group >= 0 {
			if ok && b.Group == group {
				return nil
			}
			stands = b.Group
		}
	}
	if stands < 0 {
		return nil
	}
	hint := quantity.Text("measure the legs between them")
	if ref, ok := lay.TiedPort(stands, func(p *graph.Part) bool { return p.Existing }); ok {
		hint = graph.Say("%s, or count its corners from a port that legs tie to the new work: at-from = \"%s\"", hint, ref)
	}
	return []graph.Diagnostic{elsewhere(c, hint)}
}

func elsewhere(c *graph.Cabinet, hint quantity.Text) graph.Diagnostic {
	return graph.Diagnostic{Pos: c.Pos, Rule: "clash", Severity: graph.Warning, Hint: hint,
		Message: graph.Say("the cabinet is counted from %s, and no legs tie that to the new work: 0 of its walls are held against that, and no hole in them is told", c.From)}
}

// walled is a body that stands in a wall.
type walled struct {
	body  int
	wall  wall
	depth float64
	sure  bool
}

// inWalls are the bodies of the new work that stand in a wall of the cabinet.
func (s *Bodies) inWalls(lay *route.Layout) []walled {
	low, high, group, ok := room(lay)
	if !ok {
		return nil
	}
	var out []walled
	for i := range s.All {
		b := &s.All[i]
		if !b.New || b.Group != group {
			continue
		}
		for _, w := range walls {
			if depth, sure := b.inWall(w, low, high); depth > touchMM {
				out = append(out, walled{i, w, depth, sure})
			}
		}
	}
	return out
}

// room is the inside of the cabinet between two corners, and the group its place is tied to; ok is
// false where nobody described it.
func room(lay *route.Layout) (low, high graph.Vec, group int, ok bool) {
	c := lay.Circuit.Cabinet
	if c == nil {
		return low, high, -1, false
	}
	origin, known := lay.Positions[c.From.String()]
	group, tied := lay.Groups[c.From.String()]
	return least(c.Corner, c.Far).Add(origin), most(c.Corner, c.Far).Add(origin), group, known && tied
}

// inWall is how far a body stands beyond a wall it also stands inside of, and whether that
// is sure; 0 where it does not, or goes square through as straight pipe.
func (b *Body) inWall(w wall, low, high graph.Vec) (depth float64, sure bool) {
	for _, shapes := range [][]Shape{b.Core, b.Likely} {
		for _, s := range shapes {
			if p, q := s.Axis(); b.Part == "" && len(b.Likely) == 1 && s.form == cylinder && math.Abs(q.Sub(p).Unit().Dot(w.way)) > 0.999 {
				continue
			}
			l, h := s.Bounds()
			at := w.way.Dot(high)
			beyond, inside := w.way.Dot(h), w.way.Dot(l)
			if w.way.X+w.way.Y+w.way.Z < 0 {
				at, beyond, inside = w.way.Dot(low), w.way.Dot(l), w.way.Dot(h)
			}
			if inside >= at-touchMM || beyond <= at+touchMM || !overlapsBeside(w.way, l, h, low, high) {
				continue
			}
			depth = math.Max(depth, beyond-at)
		}
		if depth > touchMM {
			return depth, !sure && len(b.Core) > 0 && &shapes[0] == &b.Core[0]
		}
	}
	return 0, false
}

// overlapsBeside reports whether a box lies over the wall, seen along the wall's way.
func overlapsBeside(way, l, h, low, high graph.Vec) bool {
	apart := func(l, h, low, high, along float64) bool { return along == 0 && (h < low || l > high) }
	return !apart(l.X, h.X, low.X, high.X, way.X) && !apart(l.Y, h.Y, low.Y, high.Y, way.Y) && !apart(l.Z, h.Z, low.Z, high.Z, way.Z)
}
