package description

import (
	"slices"
	"strings"

	"dryfit/graph"
	"dryfit/graph/description/located"
	"dryfit/graph/description/schema"
)

// legsExample is how legs are written.
const legsExample = `legs = ["right 450 mm", "up 300 mm"]`

// legsField is a list of legs.
func legsField[T any](name string, at func(*T) *[]graph.Leg) field[T] {
	return legsFieldOf(name, false, at)
}

// openLegsField is a list of legs of which some may be left open, as "right ?" is.
func openLegsField[T any](name string, at func(*T) *[]graph.Leg) field[T] {
	return legsFieldOf(name, true, at)
}

func legsFieldOf[T any](name string, open bool, at func(*T) *[]graph.Leg) field[T] {
	return field[T]{
		key: name,
		shape: func() schema.Shape {
			return schema.List(schema.Either(legShape(open), tableShape(legFields, "leg")), 1)
		},
		read: func(r *reader, v located.Value, into *T) {
			*at(into) = readLegs(r, v, open)
		},
		write: func(from *T) string {
			var out []string
			for i := range *at(from) {
				out = append(out, legText(&(*at(from))[i]))
			}
			return list(out)
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

func readLegs(r *reader, v located.Value, open bool) []graph.Leg {
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
	if r.legs += len(items); r.legs > MaxLegs {
		if r.legs-len(items) <= MaxLegs {
			r.Fail(v, "a description holds one tub; split the file", "there are more than %d legs", MaxLegs)
		}
		return nil
	}
	var out []graph.Leg
	for _, item := range items {
		l := graph.Leg{Place: graph.NoPlace(), Pos: r.ValuePos(item)}
		switch x := item.V.(type) {
		case string:
			switch way, isOpen := openLeg(x); {
			case isOpen && open:
				l.By, l.Open = way, true
			case isOpen:
				r.Fail(item, `write its length, such as "right 450 mm"; only to-unit and from-unit may have an open leg`, "the leg %s is open: nothing closes it", located.Said(x))
			case !r.Blank(item, `a direction and a length, such as "right 450 mm"`):
				l.By, _ = r.components(item, x, legLength)
			}
		case map[string]any:
			readTable(r, item, "a leg", legFields, &l)
		default:
			r.WrongType(item, "a direction and a length", `"right 450 mm"`)
		}
		out = append(out, l)
	}
	return out
}

// legFields are the keys of a leg written as a table.
var legFields = slices.Concat([]field[graph.Leg]{
	needed(field[graph.Leg]{
		key:   "leg",
		shape: func() schema.Shape { return legShape(false) },
		read: func(r *reader, v located.Value, into *graph.Leg) {
			s, ok := r.Text(v, `a direction and a length, such as "right 450 mm"`)
			if ok {
				into.By, _ = r.components(v, s, legLength)
			}
		},
		write: func(from *graph.Leg) string { return quote(strings.Join(components(from.By), " ")) },
	}, `where it goes: leg = "right 450 mm"`),
}, placeFields(func(l *graph.Leg) *graph.Place { return &l.Place }))

func legText(l *graph.Leg) string {
	if l.Open {
		return quote(strings.Trim(directionText(l.By), `"`) + " " + located.Blank)
	}
	if l.Place == graph.NoPlace() {
		return legFields[0].write(l)
	}
	return inline(legFields, l)
}
