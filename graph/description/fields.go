package description

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/located"
	"dryfit/graph/description/schema"
)

// textField is a text in quotes.
func textField[T any](name, write string, at func(*T) *string) field[T] {
	return field[T]{
		key:   name,
		shape: schema.Text,
		read: func(r *reader, v located.Value, into *T) {
			if s, ok := r.Text(v, write); ok {
				*at(into) = s
			}
		},
		write: func(from *T) string {
			if s := *at(from); s != "" {
				return quote(s)
			}
			return ""
		},
	}
}

// textsField is a list of texts; one text alone will do.
func textsField[T any](name, write string, at func(*T) *[]string) field[T] {
	return field[T]{
		key:   name,
		shape: func() schema.Shape { return schema.Either(schema.Text(), schema.List(schema.Text(), 0)) },
		read: func(r *reader, v located.Value, into *T) {
			items, ok := v.Items()
			if !ok {
				items = []located.Value{v}
			}
			for _, i := range items {
				if s, ok := r.Text(i, write); ok {
					*at(into) = append(*at(into), s)
				}
			}
		},
		write: func(from *T) string {
			var out []string
			for _, s := range *at(from) {
				out = append(out, quote(s))
			}
			return list(out)
		},
	}
}

// wordField is one word out of a few.
func wordField[T any](name string, words []string, at func(*T) *string) field[T] {
	return field[T]{
		key:   name,
		shape: func() schema.Shape { return schema.Word(words...) },
		like:  quote(words[0]),
		read: func(r *reader, v located.Value, into *T) {
			s, ok := r.Text(v, quotedList(words))
			switch {
			case !ok:
			case slices.Contains(words, s):
				*at(into) = s
			default:
				r.Fail(v, located.Near(s, words), "%s can't be %s", located.Said(name), located.Said(s))
			}
		},
		write: func(from *T) string {
			if s := *at(from); s != "" {
				return quote(s)
			}
			return ""
		},
	}
}

func quotedList(words []string) string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = fmt.Sprintf("%q", w)
	}
	return strings.Join(out, " or ")
}

// boolField is true or false.
func boolField[T any](name string, at func(*T) *bool) field[T] {
	return field[T]{
		key:   name,
		shape: schema.Flag,
		like:  "true",
		read: func(r *reader, v located.Value, into *T) {
			if b, ok := r.Bool(v); ok {
				*at(into) = b
			}
		},
		write: func(from *T) string {
			if *at(from) {
				return "true"
			}
			return ""
		},
	}
}

// maybeField is true or false, or nothing said.
func maybeField[T any](name string, at func(*T) **bool) field[T] {
	return field[T]{
		key:   name,
		shape: schema.Flag,
		like:  "true",
		read: func(r *reader, v located.Value, into *T) {
			if b, ok := r.Bool(v); ok {
				*at(into) = &b
			}
		},
		write: func(from *T) string {
			if b := *at(from); b != nil {
				return fmt.Sprint(*b)
			}
			return ""
		},
	}
}

// wayField is one of the six directions.
func wayField[T any](name string, at func(*T) *graph.Vec) field[T] {
	return field[T]{
		key:   name,
		shape: func() schema.Shape { return schema.Word(directionWords...) },
		like:  `"up"`,
		read: func(r *reader, v located.Value, into *T) {
			*at(into) = r.direction(v)
		},
		write: func(from *T) string { return directionText(*at(from)) },
	}
}

// countField is a whole number from low to high; 0 is not written.
func countField[T any](name string, low, high int, at func(*T) *int) field[T] {
	return field[T]{
		key:   name,
		shape: func() schema.Shape { return schema.Whole(low, high) },
		like:  fmt.Sprint(low),
		read: func(r *reader, v located.Value, into *T) {
			if n, ok := r.Count(v, low, high); ok {
				*at(into) = n
			}
		},
		write: func(from *T) string {
			if n := *at(from); n != 0 {
				return fmt.Sprint(n)
			}
			return ""
		},
	}
}

// numberField is a bare number from low to high; said, where it is not nil, remembers that
// it was given.
func numberField[T any](name string, low, high float64, at func(*T) *float64, given func(*T) *bool) field[T] {
	return field[T]{
		key:   name,
		shape: func() schema.Shape { return schema.Number(low, high) },
		like:  quantity.Trim(max(low, min(1, high))),
		read: func(r *reader, v located.Value, into *T) {
			if x, ok := r.Number(v, low, high); ok {
				*at(into) = x
				if given != nil {
					*given(into) = true
				}
			}
		},
		write: func(from *T) string {
			x := *at(from)
			if given != nil && !*given(from) || given == nil && x == 0 {
				return ""
			}
			return quantity.Trim(x)
		},
	}
}

// sizeField is a nominal pipe size.
func sizeField[T any](name string, at func(*T) *catalog.Size) field[T] {
	return field[T]{
		key:   name,
		shape: schema.Quantity,
		like:  `"2 in"`,
		read: func(r *reader, v located.Value, into *T) {
			if s, ok := r.size(v); ok {
				*at(into) = s
			}
		},
		write: func(from *T) string { return sizeText(*at(from)) },
	}
}

// size reads a nominal pipe size.
func (r *reader) size(v located.Value) (catalog.Size, bool) {
	const write = `a size such as "1 1/2 in" or "50 mm"`
	switch x := v.V.(type) {
	case string:
		if r.Blank(v, write) || r.tooLong(v, x) {
			return catalog.Size{}, false
		}
		s, err := catalog.ParseSize(x, r.metric)
		if err != nil {
			r.quantityError(v, err)
			if r.Found[len(r.Found)-1].Hint == "" || !strings.ContainsAny(x, "abcdefghijklmnopqrstuvwxyz") {
				r.Found[len(r.Found)-1].Hint = "write " + write
			}
			return catalog.Size{}, false
		}
		return s, true
	case int64, float64:
		r.Fail(v, "write it in quotes with its unit: "+write, "%s is a bare number: inch and metric pipe don't fit each other", located.Said(v.Key))
	default:
		r.WrongType(v, "a size with its unit, in quotes", write)
	}
	return catalog.Size{}, false
}

// specShape is the name of a spec of pipe.
func specShape() schema.Shape {
	var words []string
	for _, s := range catalog.Specs() {
		words = append(words, string(s))
	}
	return schema.Word(words...)
}

// specField is the spec of pipe.
func specField[T any](name string, at func(*T) *catalog.Spec) field[T] {
	return field[T]{
		key:   name,
		shape: specShape,
		read: func(r *reader, v located.Value, into *T) {
			s, ok := r.Text(v, `a spec such as "pvc-sch40"`)
			switch {
			case !ok:
			case slices.Contains(r.specs(), s):
				*at(into) = catalog.Spec(s)
			default:
				r.Fail(v, located.Near(s, r.specs()), "there is no pipe spec %s", located.Said(s))
			}
		},
		write: func(from *T) string {
			if s := *at(from); s != "" {
				return quote(string(s))
			}
			return ""
		},
	}
}

// knownField says how well something is known.
func knownField[T any](at func(*T) *graph.Knowledge) field[T] {
	grades := []graph.Knowledge{graph.Measured, graph.DataSheet, graph.Assumed}
	var words []string
	for _, g := range grades {
		words = append(words, g.String())
	}
	return field[T]{
		key:   "known",
		shape: func() schema.Shape { return schema.Word(words...) },
		read: func(r *reader, v located.Value, into *T) {
			s, ok := r.Text(v, quotedList(words))
			if !ok {
				return
			}
			if i := slices.Index(words, s); i >= 0 {
				*at(into) = grades[i]
				return
			}
			r.Fail(v, located.Near(s, words), "%s can't be %s", located.Said("known"), located.Said(s))
		},
		write: func(from *T) string {
			if k := *at(from); k != graph.Assumed {
				return quote(k.String())
			}
			return ""
		},
	}
}

// tableField is a table within a table.
func tableField[T, U any](name, what string, fields []field[U], at func(*T) *U) field[T] {
	return field[T]{
		key:   name,
		shape: func() schema.Shape { return tableShape(fields, what) },
		read: func(r *reader, v located.Value, into *T) {
			if !r.Blank(v, tableForm(fields)) {
				readTable(r, v, what, fields, at(into))
			}
		},
		write: func(from *T) string { return inline(fields, at(from)) },
	}
}

// maybeTable is a table within a table that may be left out altogether.
func maybeTable[T, U any](name, what string, fields []field[U], at func(*T) **U) field[T] {
	return field[T]{
		key:   name,
		shape: func() schema.Shape { return tableShape(fields, what) },
		read: func(r *reader, v located.Value, into *T) {
			if !r.Blank(v, tableForm(fields)) {
				u := new(U)
				readTable(r, v, what, fields, u)
				*at(into) = u
			}
		},
		write: func(from *T) string {
			if *at(from) == nil {
				return ""
			}
			return inline(fields, *at(from))
		},
	}
}

// formerly reads a field under the name it had before, and never writes it so.
func formerly[T any](name string, f field[T]) field[T] {
	f.key, f.foreign = name, true
	f.write = func(*T) string { return "" }
	return f
}

// placeFields say what the surroundings of pipe allow.
func placeFields[T any](at func(*T) *graph.Place) []field[T] {
	return []field[T]{
		qtyOr("clear", clearRoom, -1, func(t *T) *float64 { return &at(t).ClearMM }),
		maybeField("reachable", func(t *T) **bool { return &at(t).Reachable }),
		qtyOr("play", endPlay, -1, func(t *T) *float64 { return &at(t).PlayMM }),
		maybeField("pushes-aside", func(t *T) **bool { return &at(t).PushesAside }),
		formerly("spring-aside", maybeField("pushes-aside", func(t *T) **bool { return &at(t).PushesAside })),
	}
}
