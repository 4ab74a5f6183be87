package pipework

import (
	"math"
	"slices"
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
	"dryfit/graph/description/schema"
)

// userPortsField is the list of ports of a part whose ports the description names. They are
// read before the other keys, which may speak of them.
func userPortsField() field.Field[graph.Part] {
	f := field.Needed(field.Field[graph.Part]{
		Shape: func() schema.Shape { return schema.List(schema.Text(), 1) },
		Key:   "ports",
		Read:  func(*field.Reader, located.Value, *graph.Part) {},
		Write: func(from *graph.Part) string {
			var out []string
			for _, p := range from.Ports {
				out = append(out, field.Quote(p.Name))
			}
			return field.List(out)
		},
	}, `the names of its ports, such as ports = ["skimmer", "return"]`)
	f.NeedOf = func(r *field.Reader, v located.Value) string {
		return "the names of its ports: ports = " + portsMeant(r, v)
	}
	return f
}

// portsMeant returns the list of ports a part was meant to have: those that runs join, else an
// example for its kind.
func portsMeant(r *field.Reader, v located.Value) string {
	kind, _ := v.In("kind")
	var out []string
	for _, name := range portsNamed(r, v) {
		out = append(out, field.Quote(name))
	}
	switch {
	case len(out) > 0:
		return field.List(out)
	case textOf(kind) == string(graph.Tub):
		return `["skimmer", "return"]`
	}
	return `["in", "left", "right"]`
}

// portsNamed are the ports of a part that runs name.
func portsNamed(r *field.Reader, v located.Value) []string {
	id, _ := v.In("id")
	return r.Joined[textOf(id)]
}

func textOf(v located.Value) string {
	s, _ := v.V.(string)
	return s
}

// PortsJoined returns the ports that runs name, by part, each once and in the order of the file.
func PortsJoined(top located.Value) map[string][]string {
	out := map[string][]string{}
	runs, _ := top.In("run")
	items, _ := runs.Items()
	for _, run := range items {
		for _, end := range []string{"to", "from"} {
			v, _ := run.In(end)
			part, port, ok := strings.Cut(textOf(v), ".")
			if ok && port != "" && len(out[part]) < field.MaxPorts && !slices.Contains(out[part], port) {
				out[part] = append(out[part], port)
			}
		}
	}
	return out
}

func readUserPorts(r *field.Reader, part, v located.Value, p *graph.Part) {
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
	if len(items) > field.MaxPorts {
		r.Fail(v, "a part of so many ports is several parts", "there are %d ports; at most %d are read", len(items), field.MaxPorts)
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
	if p.Kind == graph.Manifold && len(items) == 1 && len(p.Ports) == 1 {
		names := []string{p.Ports[0].Name}
		for _, name := range portsNamed(r, part) {
			if name != names[0] {
				names = append(names, name)
			}
		}
		if len(names) > 1 {
			for i := range names {
				names[i] = field.Quote(names[i])
			}
			r.Fail(v, "name all of them: ports = "+field.List(names), "a manifold has two ports or more, and here is one")
			p.Ports = nil // what runs name is told by this
		}
	}
}

// PortFields are the keys of port.<name>.
var PortFields = []field.Field[graph.Port]{
	{
		Key:   "at",
		Shape: pointShape,
		Read: func(r *field.Reader, v located.Value, into *graph.Port) {
			at, ok := readPoint(r, v, field.PortPosition, `the way from the part's first port, such as ["right 300 mm", "up 120 mm"]`)
			if !ok { // reported: neither missed as well, nor in one place with another
				at = graph.Vec{X: math.NaN(), Y: math.NaN(), Z: math.NaN()}
			}
			into.At = &at
		},
		Write: func(from *graph.Port) string {
			if from.At == nil {
				return ""
			}
			return placeText(*from.At)
		},
	},
	{
		Key:   "faces",
		Shape: func() schema.Shape { return schema.Word(field.DirectionWords...) },
		Read: func(r *field.Reader, v located.Value, into *graph.Port) {
			way := r.Direction(v)
			into.Faces = &way
		},
		Write: func(from *graph.Port) string {
			if from.Faces == nil {
				return ""
			}
			return field.DirectionText(*from.Faces)
		},
	},
	field.Size("size", func(p *graph.Port) *catalog.Size { return &p.Size }),
	field.Bool("air", func(p *graph.Port) *bool { return &p.Air }),
	field.Qty("cover-rating", field.Flow, func(p *graph.Port) *float64 { return &p.CoverRating }),
}

// ofThePart are keys that stand beside the table port, for all ports of a part, and are written in it.
var ofThePart = func() (out []field.Field[graph.Port]) {
	for _, key := range []string{"below-water", "existing", "known", "spec", "ports-size"} {
		out = append(out, field.Field[graph.Port]{Key: key, Foreign: true, Read: func(r *field.Reader, v located.Value, _ *graph.Port) {
			hint := "that is said of the part, in [[part]] beside its ports"
			switch key {
			case "below-water":
				hint = `that is said of the part, of its first port: below-water = "450 mm" in [[part]] beside its ports; how much deeper another lies says its at, such as port.NAME.at = ["down 300 mm"]`
			case "ports-size":
				hint = `of one port it is size = "2 in"`
			}
			r.Add(r.KeyPos(v), hint, "a port has no %s", located.Said(key))
		}})
	}
	return out
}()

// portPositionsField is the table port, with a table for each port it says something about.
func portPositionsField() field.Field[graph.Part] {
	return field.Field[graph.Part]{
		Key:   "port",
		Shape: func() schema.Shape { return schema.Map(field.TableShape(PortFields, "port")) },
		Read: func(r *field.Reader, v located.Value, into *graph.Part) {
			if _, ok := v.V.(map[string]any); !ok {
				r.WrongType(v, "a table", `port.out = { at = ["right 300 mm", "up 120 mm"], faces = "up" }`)
				return
			}
			for _, name := range v.Keys() {
				c, _ := v.In(name)
				q := portNamed(into, name)
				if q == nil {
					NoPort(r, into, name, r.KeyPos(c), portNames(into))
					meant, near := quantity.Nearest(name, portNames(into))
					if _, twice := v.In(meant); !near || twice {
						continue
					}
					q = portNamed(into, meant) // and nothing follows from its not being read
				}
				field.ReadTable(r, c, "the port "+located.Said(name), slices.Concat(PortFields, ofThePart), q)
				q.Pos = r.KeyPos(c)
			}
		},
		Write: func(from *graph.Part) string {
			var out []string
			for i := range from.Ports {
				if s := field.Inline(PortFields, &from.Ports[i]); s != "" {
					out = append(out, field.Key(from.Ports[i].Name)+" = "+s)
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
func portNamed(p *graph.Part, name string) *graph.Port {
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
func readPoint(r *field.Reader, v located.Value, l field.Limit, write string) (graph.Vec, bool) {
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
		by, ok := r.Components(item, s, l)
		at, fine = at.Add(by), fine && ok
	}
	return at, fine
}

// placeText writes a place as a list of components.
func placeText(at graph.Vec) string {
	var out []string
	for _, c := range field.Components(at) {
		out = append(out, field.Quote(c))
	}
	return "[" + strings.Join(out, ", ") + "]"
}
