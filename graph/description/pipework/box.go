package pipework

import (
	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
	"dryfit/graph/description/schema"
)

// boxCorners is a box while it is read: its two corners.
type boxCorners struct{ from, to graph.Vec }

// BoxFields are the keys of a box: two opposite corners.
var BoxFields = []field.Field[boxCorners]{
	field.Needed(cornerField("from", func(b *boxCorners) *graph.Vec { return &b.from }), `one corner: from = ["left 50 mm", "down 80 mm"]`),
	field.Needed(cornerField("to", func(b *boxCorners) *graph.Vec { return &b.to }), `the opposite corner: to = ["right 300 mm", "up 250 mm", "back 200 mm"]`),
}

// boxField is what a part takes up, from its first port.
func boxField() field.Field[graph.Part] {
	return field.Field[graph.Part]{
		Key:   "box",
		Shape: func() schema.Shape { return field.TableShape(BoxFields, "box") },
		Read: func(r *field.Reader, v located.Value, into *graph.Part) {
			var b boxCorners
			before := len(r.Found)
			field.ReadTable(r, v, "the box", BoxFields, &b)
			if len(r.Found) > before { // what its corners are is not known
				return
			}
			if thinBox(r, v, b.from, b.to) {
				return
			}
			into.Box = &graph.Span{b.from, b.to}
		},
		Write: func(from *graph.Part) string {
			if from.Box == nil {
				return ""
			}
			return field.Inline(BoxFields, &boxCorners{from.Box[0], from.Box[1]})
		},
	}
}

// thinBox reports a box that has no room in it.
func thinBox(r *field.Reader, v located.Value, a, b graph.Vec) bool {
	if flat(b.Sub(a)) {
		r.Add(r.KeyPos(v), "give two opposite corners that differ left to right, front to back and in height", "the box has no room in it")
		return true
	}
	return false
}

// CabinetFields are the keys of [cabinet].
var CabinetFields = []field.Field[graph.Cabinet]{
	field.Needed(portField("at-from", func(c *graph.Cabinet) *graph.PortRef { return &c.From }), `the port the corners are counted from, such as at-from = "tub.skimmer"`),
	field.Needed(cornerField("from", func(c *graph.Cabinet) *graph.Vec { return &c.Corner }), `one corner of the room inside: from = ["left 200 mm", "down 700 mm", "front 600 mm"]`),
	field.Needed(cornerField("to", func(c *graph.Cabinet) *graph.Vec { return &c.Far }), `the opposite corner: to = ["right 1900 mm", "up 150 mm", "back 100 mm"]`),
}

// portField is a port of a part that is there.
func portField[T any](key string, at func(*T) *graph.PortRef) field.Field[T] {
	return field.Field[T]{
		Key:   key,
		Shape: portShape,
		Read: func(r *field.Reader, v located.Value, into *T) {
			if ref, ok := readPortRef(r, v, `a part of the old work and its port, such as "tub.skimmer"`); ok {
				*at(into) = ref
			}
		},
		Write: func(from *T) string {
			if p := *at(from); p.Part != "" {
				return field.Quote(p.String())
			}
			return ""
		},
	}
}

// ReadCabinet reads [cabinet].
func ReadCabinet(r *field.Reader, v located.Value) {
	c := &graph.Cabinet{Pos: r.KeyPos(v)}
	c.KeyPos = field.ReadTable(r, v, "[cabinet]", CabinetFields, c)
	_, whole := v.In("to")
	if originOf(r, v, c.From) && whole && !thinBox(r, v, c.Corner, c.Far) {
		r.Circuit.Cabinet = c
	}
}
