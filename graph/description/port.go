package description

import (
	"math"
	"slices"
	"strings"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/description/located"
	"dryfit/graph/description/schema"
)

// userPortsField is the list of ports of a part whose ports the description names. They are
// read before the other keys, which may speak of them.
func userPortsField() field[graph.Part] {
	f := needed(field[graph.Part]{
		shape: func() schema.Shape { return schema.List(schema.Text(), 1) },
		key:   "ports",
		read:  func(*reader, located.Value, *graph.Part) {},
		write: func(from *graph.Part) string {
			var out []string
			for _, p := range from.Ports {
				out = append(out, quote(p.Name))
			}
			return list(out)
		},
	}, `the names of its ports, such as ports = ["skimmer", "return"]`)
	f.needOf = func(r *reader, v located.Value) string { return "the names of its ports: ports = " + portsMeant(r, v) }
	return f
}

// portsMeant returns the list of ports a part was meant to have: those that runs join, else an
// example for its kind.
func portsMeant(r *reader, v located.Value) string {
	id, _ := v.In("id")
	kind, _ := v.In("kind")
	var out []string
	for _, name := range r.joined[textOf(id)] {
		out = append(out, quote(name))
	}
	switch {
	case len(out) > 0:
		return list(out)
	case textOf(kind) == string(graph.Tub):
		return `["skimmer", "return"]`
	}
	return `["in", "left", "right"]`
}

func textOf(v located.Value) string {
	s, _ := v.V.(string)
	return s
}

// portsJoined returns the ports that runs name, by part, each once and in the order of the file.
func portsJoined(top located.Value) map[string][]string {
	out := map[string][]string{}
	runs, _ := top.In("run")
	items, _ := runs.Items()
	for _, run := range items {
		for _, end := range []string{"to", "from"} {
			v, _ := run.In(end)
			part, port, ok := strings.Cut(textOf(v), ".")
			if ok && port != "" && len(out[part]) < maxPorts && !slices.Contains(out[part], port) {
				out[part] = append(out[part], port)
			}
		}
	}
	return out
}

func readUserPorts(r *reader, part, v located.Value, p *graph.Part) {
	write := "a list of names: " + portsMeant(r, part)
	items, ok := v.Items()
	if !ok {
		if !r.Blank(v, write) {
			r.WrongType(v, "a list of names", write)
		}
		return
	}
	if len(items) == 0 {
		r.Fail(v, "write "+write, "there are no ports")
	}
	if len(items) > maxPorts {
		r.Fail(v, "a part of so many ports is several parts", "there are %d ports; at most %d are read", len(items), maxPorts)
		return
	}
	for _, item := range items {
		name, ok := r.Text(item, write)
		if !ok || !goodID(r, item, name) {
			continue
		}
		if p.Port(name) != nil {
			r.Fail(item, "give each port a name of its own", "the port %s is there twice", located.Said(name))
			continue
		}
		p.Ports = append(p.Ports, graph.Port{Name: name, Pos: r.ValuePos(item)})
	}
}

// portFields are the keys of port.<name>.
var portFields = []field[graph.Port]{
	{
		key:   "at",
		shape: pointShape,
		read: func(r *reader, v located.Value, into *graph.Port) {
			at, ok := readPoint(r, v, portPlace, `the way from the part's first port, such as ["right 300 mm", "up 120 mm"]`)
			if !ok { // reported: neither missed as well, nor in one place with another
				at = graph.Vec{X: math.NaN(), Y: math.NaN(), Z: math.NaN()}
			}
			into.At = &at
		},
		write: func(from *graph.Port) string {
			if from.At == nil {
				return ""
			}
			return placeText(*from.At)
		},
	},
	{
		key:   "faces",
		shape: func() schema.Shape { return schema.Word(directionWords...) },
		read: func(r *reader, v located.Value, into *graph.Port) {
			way := r.direction(v)
			into.Faces = &way
		},
		write: func(from *graph.Port) string {
			if from.Faces == nil {
				return ""
			}
			return directionText(*from.Faces)
		},
	},
	sizeField("size", func(p *graph.Port) *catalog.Size { return &p.Size }),
	boolField("air", func(p *graph.Port) *bool { return &p.Air }),
	qtyField("cover-rating", flow, func(p *graph.Port) *float64 { return &p.CoverRating }),
}

// portPlacesField is the table port, with a table for each port it says something about.
func portPlacesField() field[graph.Part] {
	return field[graph.Part]{
		key:   "port",
		shape: func() schema.Shape { return schema.Map(tableShape(portFields, "port")) },
		read: func(r *reader, v located.Value, into *graph.Part) {
			if _, ok := v.V.(map[string]any); !ok {
				r.WrongType(v, "a table", `port.out = { at = ["right 300 mm", "up 120 mm"], faces = "up" }`)
				return
			}
			for _, name := range v.Keys() {
				c, _ := v.In(name)
				q := portNamed(r, into, name)
				if q == nil {
					r.Add(r.KeyPos(c), located.Near(name, portNames(into)), "%s has no port %s", graph.A(into.Kind), located.Said(name))
					continue
				}
				readTable(r, c, "the port "+located.Said(name), portFields, q)
				q.Pos = r.KeyPos(c)
			}
		},
		write: func(from *graph.Part) string {
			var out []string
			for i := range from.Ports {
				if s := inline(portFields, &from.Ports[i]); s != "" {
					out = append(out, key(from.Ports[i].Name)+" = "+s)
				}
			}
			if len(out) == 0 {
				return ""
			}
			return "{ " + strings.Join(out, ", ") + " }"
		},
	}
}

// portNamed returns the part's port, and makes the air port of a kind that may have one.
func portNamed(r *reader, p *graph.Part, name string) *graph.Port {
	if q := p.Port(name); q != nil {
		return q
	}
	if name != p.Kind.AirPort() || name == "" {
		return nil
	}
	p.Ports = append(p.Ports, graph.Port{Name: name, Air: true})
	return &p.Ports[len(p.Ports)-1]
}

// portNames returns the names of the part's ports, with the air port it may have.
func portNames(p *graph.Part) []string {
	var out []string
	for _, q := range p.Ports {
		out = append(out, q.Name)
	}
	if air := p.Kind.AirPort(); air != "" && !slices.Contains(out, air) {
		out = append(out, air)
	}
	return out
}

// pointShape is a place: one component, or a list of them.
func pointShape() schema.Shape {
	return schema.Either(legShape(false), schema.List(legShape(false), 0))
}

// portShape is a part and one of its ports.
func portShape() schema.Shape { return schema.Matching(`^[^.]+\.[^.]+$`) }

// readPoint reads a place: components from where it is counted from, in any order; write says
// what to write there.
func readPoint(r *reader, v located.Value, l limit, write string) (graph.Vec, bool) {
	items, ok := v.Items()
	if !ok {
		items = []located.Value{v}
	}
	var at graph.Vec
	fine := true
	for _, item := range items {
		s, ok := item.V.(string)
		if !ok || s == located.Blank {
			if !r.Blank(item, write) {
				r.WrongType(item, "a direction and a length", write)
			}
			fine = false
			continue
		}
		by, ok := r.components(item, s, l)
		at, fine = at.Add(by), fine && ok
	}
	return at, fine
}

// placeText writes a place as a list of components.
func placeText(at graph.Vec) string {
	var out []string
	for _, c := range components(at) {
		out = append(out, quote(c))
	}
	return "[" + strings.Join(out, ", ") + "]"
}
