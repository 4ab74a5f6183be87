package description

import (
	"strings"

	"dryfit/graph"
	"dryfit/graph/description/located"
)

// boxCorners is a box while it is read: its two corners.
type boxCorners struct{ from, to graph.Vec }

// boxFields are the keys of a box: two opposite corners.
var boxFields = []field[boxCorners]{
	needed(cornerField("from", func(b *boxCorners) *graph.Vec { return &b.from }), `one corner: from = ["left 50 mm", "down 80 mm"]`),
	needed(cornerField("to", func(b *boxCorners) *graph.Vec { return &b.to }), `the opposite corner: to = ["right 300 mm", "up 250 mm", "back 200 mm"]`),
}

// cornerField is a point as a list of ways from a port.
func cornerField[T any](key string, at func(*T) *graph.Vec) field[T] {
	return field[T]{
		key: key,
		read: func(r *reader, v located.Value, into *T) {
			if corner, ok := r.portAt(v); ok {
				*at(into) = corner
			}
		},
		write: func(from *T) string { return corner(*at(from)) },
	}
}

// corner writes a point as a list of ways.
func corner(at graph.Vec) string {
	var out []string
	for _, c := range components(at) {
		out = append(out, quote(c))
	}
	if out == nil {
		out = []string{quote("right 0 mm")}
	}
	return "[" + strings.Join(out, ", ") + "]"
}

// boxField is what a part takes up, from its first port.
func boxField() field[graph.Part] {
	return field[graph.Part]{
		key: "box",
		read: func(r *reader, v located.Value, into *graph.Part) {
			var b boxCorners
			readTable(r, v, "the box", boxFields, &b)
			if r.flat(v, b.from, b.to) {
				return
			}
			into.Box = &graph.Span{b.from, b.to}
		},
		write: func(from *graph.Part) string {
			if from.Box == nil {
				return ""
			}
			return inline(boxFields, &boxCorners{from.Box[0], from.Box[1]})
		},
	}
}

// flat reports a box that is nothing along one of the axes.
func (r *reader) flat(v located.Value, a, b graph.Vec) bool {
	d := b.Sub(a)
	for _, axis := range []struct {
		by   float64
		word string
	}{{d.X, "left to right"}, {d.Y, "front to back"}, {d.Z, "bottom to top"}} {
		if axis.by == 0 {
			r.Add(r.KeyPos(v), "give two opposite corners, each with its way along all three axes",
				"the box is 0 mm from %s", axis.word)
			return true
		}
	}
	return false
}

// cabinetFields are the keys of [cabinet].
var cabinetFields = []field[graph.Cabinet]{
	needed(portField("at-from", func(c *graph.Cabinet) *graph.PortRef { return &c.From }), `the port the corners are counted from, such as at-from = "tub.skimmer"`),
	needed(cornerField("from", func(c *graph.Cabinet) *graph.Vec { return &c.Corner }), `one corner of the room inside: from = ["left 200 mm", "down 700 mm", "front 600 mm"]`),
	needed(cornerField("to", func(c *graph.Cabinet) *graph.Vec { return &c.Far }), `the opposite corner: to = ["right 1900 mm", "up 150 mm", "back 100 mm"]`),
}

// portField is a port of a part, as "part.port".
func portField[T any](key string, at func(*T) *graph.PortRef) field[T] {
	return field[T]{
		key: key,
		read: func(r *reader, v located.Value, into *T) {
			if s, ok := r.Text(v, `a port, such as "tub.skimmer"`); ok {
				part, port, _ := strings.Cut(s, ".")
				*at(into) = graph.PortRef{Part: part, Port: port, Pos: r.ValuePos(v)}
			}
		},
		write: func(from *T) string {
			if p := *at(from); p.Part != "" {
				return quote(p.String())
			}
			return ""
		},
	}
}

func (r *reader) cabinet(v located.Value) {
	c := &graph.Cabinet{Pos: r.KeyPos(v)}
	c.KeyPos = readTable(r, v, "[cabinet]", cabinetFields, c)
	at, ok := v.In("at-from")
	if !ok || c.From.Part == "" {
		return
	}
	p, known := r.parts[c.From.Part]
	switch {
	case !known:
		r.Fail(at, located.Near(c.From.Part, partIDs(r.circuit)), "there is no part %s", located.Said(c.From.Part))
		return
	case p.Port(c.From.Port) == nil:
		r.Fail(at, located.Near(c.From.Port, portNames(p)), "%s has no port %s", located.Said(p.ID), located.Said(c.From.Port))
		return
	case !p.Existing:
		r.Fail(at, "count from something that is there already, and stays", "%s is new work", located.Said(p.ID))
		return
	}
	if _, ok := v.In("to"); ok && !r.flat(v, c.Corner, c.Far) {
		r.circuit.Cabinet = c
	}
}

func partIDs(c *graph.Circuit) []string {
	var out []string
	for _, p := range c.Parts {
		out = append(out, p.ID)
	}
	return out
}
