// Package schema says what the values of a description may be in the words of JSON Schema
// (draft 2020-12), for editors that complete and check while somebody writes.
package schema

import (
	"bytes"
	"encoding/json"
)

// Shape is a schema: its keywords in the order in which they are printed.
type Shape []Keyword

// Keyword is one keyword and what it says.
type Keyword struct {
	Name string
	Says any
}

// MarshalJSON writes the keywords in their order.
func (s Shape) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, k := range s {
		if i > 0 {
			b.WriteByte(',')
		}
		for j, x := range []any{k.Name, k.Says} {
			if j > 0 {
				b.WriteByte(':')
			}
			text, err := plain(x)
			if err != nil {
				return nil, err
			}
			b.Write(text)
		}
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// plain is JSON in which "<" and ">" stand as they are.
func plain(x any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	err := e.Encode(x)
	return bytes.TrimSpace(b.Bytes()), err
}

// With returns the shape with a keyword more.
func (s Shape) With(name string, says any) Shape {
	return append(s[:len(s):len(s)], Keyword{name, says})
}

// Text is a text in quotes that is no blank of a template.
func Text() Shape {
	return Shape{{"type", "string"}, {"not", Shape{{"const", "?"}}}}
}

// Matching is a text that matches a regular expression.
func Matching(pattern string) Shape {
	return Shape{{"type", "string"}, {"pattern", pattern}}
}

// Quantity is a number with its unit, in quotes. What units there are a schema can't say.
func Quantity() Shape { return Matching("[0-9¼½¾⅛⅜⅝⅞]") }

// Word is one word out of a few.
func Word(words ...string) Shape { return Shape{{"enum", words}} }

// Flag is true or false.
func Flag() Shape { return Shape{{"type", "boolean"}} }

// Date is a TOML date; validators see it as a text.
func Date() Shape { return Matching("^[0-9]{4}-[0-9]{2}-[0-9]{2}$").With("format", "date") }

// Whole is a whole number from low to high.
func Whole(low, high int) Shape {
	return Shape{{"type", "integer"}, {"minimum", low}, {"maximum", high}}
}

// Number is a bare number from low to high.
func Number(low, high float64) Shape {
	return Shape{{"type", "number"}, {"minimum", low}, {"maximum", high}}
}

// List is a list of at least so many items.
func List(item Shape, least int) Shape {
	return Shape{{"type", "array"}, {"items", item}, {"minItems", least}}
}

// Exactly is a list of just so many items.
func Exactly(item Shape, n int) Shape { return List(item, n).With("maxItems", n) }

// Either is one shape or another.
func Either(shapes ...Shape) Shape { return Shape{{"anyOf", shapes}} }

// Map is a table whose keys the user names.
func Map(item Shape) Shape { return Shape{{"type", "object"}, {"additionalProperties", item}} }

// Table is a table of just these keys.
func Table(keys Shape, required []string) Shape {
	s := Shape{{"type", "object"}, {"properties", keys}, {"additionalProperties", false}}
	if len(required) > 0 {
		s = s.With("required", required)
	}
	return s
}

// Has asks for some keys of a table.
func Has(keys ...string) Shape { return Shape{{"required", keys}} }
