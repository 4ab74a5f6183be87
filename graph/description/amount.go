package description

import (
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/located"
	"dryfit/graph/description/schema"
)

// qtyField is a quantity of which 0 means that it was not given.
func qtyField[T any](name string, l limit, at func(*T) *float64) field[T] {
	return qtyOr(name, l, 0, at)
}

// qtyOr is a quantity of which some value means that it was not given.
func qtyOr[T any](name string, l limit, none float64, at func(*T) *float64) field[T] {
	return field[T]{
		key:   name,
		shape: schema.Quantity,
		like:  quote(l.example()),
		read: func(r *reader, v located.Value, into *T) {
			if q, ok := r.quantity(v, l); ok {
				*at(into) = r.baseValue(q)
			}
		},
		write: func(from *T) string {
			if x := *at(from); x != none {
				return exactIn(x, l)
			}
			return ""
		},
	}
}

// qtySet is a quantity with a flag that remembers that it was given.
func qtySet[T any](name string, l limit, at func(*T) *float64, given func(*T) *bool) field[T] {
	return field[T]{
		key:   name,
		shape: schema.Quantity,
		like:  quote(l.example()),
		read: func(r *reader, v located.Value, into *T) {
			if q, ok := r.quantity(v, l); ok {
				*at(into), *given(into) = r.baseValue(q), true
			}
		},
		write: func(from *T) string {
			if !*given(from) {
				return ""
			}
			return exactIn(*at(from), l)
		},
	}
}

// qtyGiven is a quantity of which zero is a value: a flag remembers that it was given. What
// the tool itself built in has one of its own without the flag.
func qtyGiven[T any](name string, l limit, at func(*T) *float64, given func(*T) *bool) field[T] {
	f := qtySet(name, l, at, given)
	f.write = func(from *T) string {
		if !*given(from) && *at(from) == 0 {
			return ""
		}
		return exactIn(*at(from), l)
	}
	return f
}

// baseValue returns the value in the base unit of the limit's first dimension: where a
// pressure is wanted a head is metres of the water pumped.
func (r *reader) baseValue(q quantity.Quantity) float64 {
	if q.Dimension == quantity.Head {
		return q.Value * r.metre
	}
	return q.Value
}

func exactIn(x float64, l limit) string {
	if l.bounds[0].dim == quantity.Share {
		return percent(x)
	}
	return exactText(x, l.bounds[0].dim)
}

// openingField is how far a hand valve is open.
func openingField[T any](name string, at func(*T) *graph.Opening, given func(*T) *bool) field[T] {
	return field[T]{
		key:   name,
		shape: openingShape,
		read: func(r *reader, v located.Value, into *T) {
			if o, ok := r.opening(v); ok {
				*at(into), *given(into) = o, true
			}
		},
		write: func(from *T) string {
			if !*given(from) {
				return ""
			}
			return openingText(*at(from))
		},
	}
}

// openingShape is "open", "shut" or a share.
func openingShape() schema.Shape {
	return schema.Either(schema.Word("open", "shut", "closed"), schema.Quantity())
}

// opening reads "open", "shut" or a share.
func (r *reader) opening(v located.Value) (graph.Opening, bool) {
	const write = `"open", "shut" or a share such as "30 %"`
	s, ok := v.V.(string)
	if !ok {
		r.WrongType(v, "how far it is open", write)
		return 0, false
	}
	switch s {
	case "open":
		return 1, true
	case "shut", "closed":
		return 0, true
	case located.Blank:
		r.Blank(v, write)
		return 0, false
	}
	if r.tooLong(v, s) {
		return 0, false
	}
	if !strings.ContainsAny(s, "0123456789") {
		r.Fail(v, "write "+write, "a valve can't stand at %s", located.Said(s))
		return 0, false
	}
	q, ok := r.parse(v, s, 0, share)
	return graph.Opening(q.Value), ok
}

func openingText(o graph.Opening) string {
	switch o {
	case 0:
		return quote("shut")
	case 1:
		return quote("open")
	}
	return percent(float64(o))
}

// amountField is a quantity of which zero is a value.
func amountField[T any](name string, l limit, at func(*T) *graph.Amount) field[T] {
	return field[T]{
		like:  quote(l.example()),
		key:   name,
		shape: schema.Quantity,
		read: func(r *reader, v located.Value, into *T) {
			if q, ok := r.quantity(v, l); ok {
				*at(into) = graph.Given(r.baseValue(q))
			}
		},
		write: func(from *T) string {
			if a := *at(from); a.Set {
				return exactIn(a.V, l)
			}
			return ""
		},
	}
}

// numberAmount is a bare number of which zero is a value.
func numberAmount[T any](name string, low, high float64, at func(*T) *graph.Amount) field[T] {
	return numberField(name, low, high,
		func(t *T) *float64 { return &at(t).V }, func(t *T) *bool { return &at(t).Set })
}
