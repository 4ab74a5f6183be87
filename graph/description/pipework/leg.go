package pipework

import (
	"slices"
	"strings"

	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
	"dryfit/graph/description/schema"
)

// legsExample is how legs are written.
const legsExample = `legs = ["right 450 mm", "up 300 mm"]`

// legsField is a list of legs.
func legsField[T any](name string, at func(*T) *[]graph.Leg) field.Field[T] {
	return legsFieldOf(name, false, at)
}

// openLegsField is a list of legs of which some may be left open, as "right ?" is.
func openLegsField[T any](name string, at func(*T) *[]graph.Leg) field.Field[T] {
	return legsFieldOf(name, true, at)
}

func legsFieldOf[T any](name string, open bool, at func(*T) *[]graph.Leg) field.Field[T] {
	return field.Field[T]{
		Key: name,
		Shape: func() schema.Shape {
			return schema.List(schema.Either(legShape(open), field.TableShape(LegFields, "leg")), 1)
		},
		Read: func(r *field.Reader, v located.Value, into *T) {
			*at(into) = readLegs(r, v, open)
		},
		Write: func(from *T) string {
			var out []string
			for i := range *at(from) {
				out = append(out, LegText(&(*at(from))[i]))
			}
			return field.List(out)
		},
	}
}

// legShape is a direction and a length; with open, or a direction whose length is left open.
func legShape(open bool) schema.Shape {
	if open {
		return schema.Matching(`^\s*(left|right|up|down|back|front)\s+(.*[0-9]|\?)`)
	}
	return schema.Matching(`^\s*(left|right|up|down|back|front)\s.*[0-9]`)
}

func readLegs(r *field.Reader, v located.Value, open bool) []graph.Leg {
	items, ok := v.Items()
	if !ok {
		if !r.Blank(v, legsExample) {
			r.WrongType(v, "a list of legs", legsExample)
		}
		return nil
	}
	if len(items) == 0 {
		r.Fail(v, "write "+legsExample+`, or length = "0 mm" where the two parts touch`, "there are no legs")
	}
	if r.Legs += len(items); r.Legs > field.MaxLegs {
		if r.Legs-len(items) <= field.MaxLegs {
			r.Fail(v, "a description holds one tub; split the file", "there are more than %d legs", field.MaxLegs)
		}
		return nil
	}
	var out []graph.Leg
	for _, item := range items {
		l := graph.Leg{Surroundings: graph.NothingSaid(), Pos: r.ValuePos(item)}
		switch x := item.V.(type) {
		case string:
			switch way, isOpen := openLeg(x); {
			case isOpen && open:
				l.By, l.Open, l.Written = way, true, graph.Written(x)
			case isOpen:
				r.Fail(item, `write its length, such as "right 450 mm"; only to-unit and from-unit may have an open leg`, "the leg %s is open: nothing closes it", located.Said(x))
			case !r.Blank(item, `a direction and a length, such as "right 450 mm"`):
				l.By, _ = r.Components(item, x, field.LegLength)
				l.Written = graph.Written(x)
			}
		case map[string]any:
			field.ReadTable(r, item, "a leg", LegFields, &l)
		default:
			r.WrongType(item, "a direction and a length", `"right 450 mm"; "right 300 mm back 300 mm" for one that slants`)
		}
		out = append(out, l)
	}
	return out
}

// LegFields are the keys of a leg written as a table.
var LegFields = slices.Concat([]field.Field[graph.Leg]{
	field.Needed(field.Field[graph.Leg]{
		Key:   "leg",
		Shape: func() schema.Shape { return legShape(false) },
		Read: func(r *field.Reader, v located.Value, into *graph.Leg) {
			s, ok := r.Text(v, `a direction and a length, such as "right 450 mm"`)
			if ok {
				into.By, _ = r.Components(v, s, field.LegLength)
				into.Written = graph.Written(s)
			}
		},
		Write: func(from *graph.Leg) string { return field.Quote(strings.Join(field.Components(from.By), " ")) },
	}, `where it goes: leg = "right 450 mm"`),
}, field.Surroundings(func(l *graph.Leg) *graph.Surroundings { return &l.Surroundings }))

// LegText writes one leg of a run.
func LegText(l *graph.Leg) string {
	if l.Open {
		return field.Quote(strings.Trim(field.DirectionText(l.By), `"`) + " " + located.Blank)
	}
	if l.Surroundings == graph.NothingSaid() {
		return LegFields[0].Write(l)
	}
	return field.Inline(LegFields, l)
}
