package description

import (
	"encoding/json"
	"strings"

	"dryfit/graph/description/meaning"
	"dryfit/graph/description/schema"
)

// describe adds what a value means and an example, written as TOML, to its shape.
func describe(s schema.Shape, means string, examples []string) schema.Shape {
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

// fieldShape is the shape of one key with its meaning in the first of the sections that has it.
func fieldShape[T any](f field[T], sections ...string) schema.Shape {
	means := ""
	for _, section := range sections {
		if means == "" {
			means = meaning.Of(section, f.key)
		}
	}
	like := f.like
	if _, after, ok := strings.Cut(f.need, f.key+" = "); ok {
		like = after
	}
	s := describe(f.shape(), means, []string{like})
	if f.foreign {
		s = s.With("deprecated", true)
	}
	return s
}

// tableShape is the shape of a table read by the fields; section holds their meanings.
func tableShape[T any](fields []field[T], section string) schema.Shape {
	var keys schema.Shape
	for _, f := range fields {
		if f.shape != nil {
			keys = keys.With(f.key, fieldShape(f, section))
		}
	}
	required, either := needs(fields)
	s := schema.Table(keys, required)
	if len(either) > 0 {
		s = s.With("anyOf", either)
	}
	return s
}

// needs returns the keys that can't be left out, and those of which one will do.
func needs[T any](fields []field[T]) (required []string, either []schema.Shape) {
	for _, f := range fields {
		switch {
		case f.shape == nil || f.need == "":
		case f.instead == "":
			required = append(required, f.key)
		default:
			either = append(either, schema.Has(f.key), schema.Has(f.instead))
		}
	}
	return required, either
}
