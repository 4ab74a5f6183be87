package field

import (
	"encoding/json"
	"strings"

	"dryfit/graph/description/meaning"
	"dryfit/graph/description/schema"
)

// Describe adds what a value means and an example, written as TOML, to its shape.
func Describe(s schema.Shape, means string, examples []string) schema.Shape {
	var out schema.Shape
	if means != "" {
		out = out.With("description", means)
	}
	out = append(out, s...)
	var shown []any
	for _, e := range examples {
		if json.Valid([]byte(e)) {
			shown = append(shown, json.RawMessage(e))
		}
	}
	if len(shown) > 0 {
		out = out.With("examples", shown)
	}
	return out
}

// ShapeIn is the shape of one key with its meaning and an example, each from the first of the
// tables that has it; the field's own example comes first.
func ShapeIn[T any](f Field[T], tables ...string) schema.Shape {
	means := ""
	var like []string
	for _, table := range tables {
		if means == "" {
			means = meaning.Of(table, f.Key)
		}
		if like == nil {
			like = meaning.Examples(table, f.Key)
		}
	}
	own := f.Like
	if _, after, ok := strings.Cut(f.need, f.Key+" = "); ok {
		own = after
	}
	if json.Valid([]byte(own)) {
		like = []string{own}
	}
	s := Describe(f.Shape(), means, like)
	if f.Foreign {
		s = s.With("deprecated", true)
	}
	return s
}

// KeyShape is a shape with the meaning of a key of a table, and an example.
func KeyShape(s schema.Shape, table, key string) schema.Shape {
	return Describe(s, meaning.Of(table, key), meaning.Examples(table, key))
}

// TableShape is the shape of a table read by the fields; table holds their meanings.
func TableShape[T any](fields []Field[T], table string) schema.Shape {
	var keys schema.Shape
	for _, f := range fields {
		if f.Shape != nil {
			keys = keys.With(f.Key, ShapeIn(f, table))
		}
	}
	required, either := Needs(fields)
	s := schema.Table(keys, required)
	if len(either) > 0 {
		s = s.With("anyOf", either)
	}
	return s
}

// Needs returns the keys that can't be left out, and those of which one will do.
func Needs[T any](fields []Field[T]) (required []string, either []schema.Shape) {
	for _, f := range fields {
		switch {
		case f.Shape == nil || f.need == "":
		case f.instead == "":
			required = append(required, f.Key)
		default:
			either = append(either, schema.Has(f.Key), schema.Has(f.instead))
		}
	}
	return required, either
}
