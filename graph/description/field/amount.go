package field

import (
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/located"
	"dryfit/graph/description/schema"
)

// Qty is a quantity of which 0 means that it was not given.
func Qty[T any](name string, l Limit, at func(*T) *float64) Field[T] {
	return QtyOr(name, l, 0, at)
}

// QtyOr is a quantity of which some value means that it was not given.
func QtyOr[T any](name string, l Limit, none float64, at func(*T) *float64) Field[T] {
	return amount(name, l, func(into *T, x float64) { *at(into) = x }, func(from *T) (float64, bool) { return *at(from), *at(from) != none })
}

// QtySet is a quantity with a flag that remembers that it was given.
func QtySet[T any](name string, l Limit, at func(*T) *float64, given func(*T) *bool) Field[T] {
	return amount(name, l, func(into *T, x float64) { *at(into), *given(into) = x, true }, func(from *T) (float64, bool) { return *at(from), *given(from) })
}

// QtyGiven is a quantity of which zero is a value: a flag remembers that it was given. What
// the tool itself built in has one of its own without the flag.
func QtyGiven[T any](name string, l Limit, at func(*T) *float64, given func(*T) *bool) Field[T] {
	return amount(name, l, func(into *T, x float64) { *at(into), *given(into) = x, true }, func(from *T) (float64, bool) { return *at(from), *given(from) || *at(from) != 0 })
}

// amount is a quantity that set keeps; said returns it, and whether it is to be written.
func amount[T any](name string, l Limit, set func(*T, float64), said func(*T) (float64, bool)) Field[T] {
	return Field[T]{
		Key:   name,
		Shape: schema.Quantity,
		Like:  Quote(l.Example()),
		Read: func(r *Reader, v located.Value, into *T) {
			if q, ok := r.Quantity(v, l); ok {
				set(into, r.BaseValue(q))
			}
		},
		Write: func(from *T) string {
			x, ok := said(from)
			if !ok {
				return ""
			}
			return ExactIn(x, l)
		},
	}
}

// BaseValue returns the value in the base unit of the limit's first dimension: where a
// pressure is wanted a head is metres of the water pumped.
func (r *Reader) BaseValue(q quantity.Quantity) float64 {
	if q.Dimension == quantity.Head {
		return q.Value * r.Metre
	}
	return q.Value
}

// ExactIn writes a value of the limit's dimension so that it reads back to the same value.
func ExactIn(x float64, l Limit) string {
	if l.bounds[0].dim == quantity.Share {
		return Percent(x)
	}
	return ExactText(x, l.bounds[0].dim)
}

// Opening is how far a hand valve is open.
func Opening[T any](name string, at func(*T) *graph.Opening, given func(*T) *bool) Field[T] {
	return Field[T]{
		Key:   name,
		Shape: OpeningShape,
		Read: func(r *Reader, v located.Value, into *T) {
			if o, ok := r.Opening(v); ok {
				*at(into), *given(into) = o, true
			}
		},
		Write: func(from *T) string {
			if !*given(from) {
				return ""
			}
			return OpeningText(*at(from))
		},
	}
}

// OpeningShape is "open", "shut" or a share.
func OpeningShape() schema.Shape {
	return schema.Either(schema.Word("open", "shut", "closed"), schema.Quantity())
}

// Opening reads "open", "shut" or a share.
func (r *Reader) Opening(v located.Value) (graph.Opening, bool) {
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
	q, ok := r.parse(v, s, 0, Share)
	return graph.Opening(q.Value), ok
}

// OpeningText writes how far a valve is open.
func OpeningText(o graph.Opening) string {
	switch o {
	case 0:
		return Quote("shut")
	case 1:
		return Quote("open")
	}
	return Percent(float64(o))
}

// Amount is a quantity of which zero is a value.
func Amount[T any](name string, l Limit, at func(*T) *graph.Amount) Field[T] {
	return Field[T]{
		Like:  Quote(l.Example()),
		Key:   name,
		Shape: schema.Quantity,
		Read: func(r *Reader, v located.Value, into *T) {
			if q, ok := r.Quantity(v, l); ok {
				*at(into) = graph.Given(r.BaseValue(q))
			}
		},
		Write: func(from *T) string {
			if a := *at(from); a.Set {
				return ExactIn(a.V, l)
			}
			return ""
		},
	}
}

// NumberAmount is a bare number of which zero is a value.
func NumberAmount[T any](name string, low, high float64, at func(*T) *graph.Amount) Field[T] {
	return Number(name, low, high,
		func(t *T) *float64 { return &at(t).V }, func(t *T) *bool { return &at(t).Set })
}
