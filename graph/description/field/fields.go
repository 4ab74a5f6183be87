package field

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

// Text is a text in quotes that is compared with others, or names something: an id, a speed, a file.
func Text[T any](name, write string, at func(*T) *string) Field[T] {
	return text(name, write, (*Reader).Text, at)
}

// Prose is a text in quotes that is only shown, in any language: a note, a reason.
func Prose[T any](name, write string, at func(*T) *string) Field[T] {
	return text(name, write, (*Reader).Prose, at)
}

func text[T any](name, write string, read func(*Reader, located.Value, string) (string, bool), at func(*T) *string) Field[T] {
	return Field[T]{
		Key:   name,
		Shape: schema.Text,
		Read: func(r *Reader, v located.Value, into *T) {
			if s, ok := read(r, v, write); ok {
				*at(into) = s
			}
		},
		Write: func(from *T) string {
			if s := *at(from); s != "" {
				return Quote(s)
			}
			return ""
		},
	}
}

// Texts is a list of texts that name something; one text alone will do.
func Texts[T any](name, write string, at func(*T) *[]string) Field[T] {
	return texts(name, write, (*Reader).Text, at)
}

// Proses is a list of texts that are only shown, as Prose is one; one text alone will do.
func Proses[T any](name, write string, at func(*T) *[]string) Field[T] {
	return texts(name, write, (*Reader).Prose, at)
}

func texts[T any](name, write string, read func(*Reader, located.Value, string) (string, bool), at func(*T) *[]string) Field[T] {
	return Field[T]{
		Key:   name,
		Shape: func() schema.Shape { return schema.Either(schema.Text(), schema.List(schema.Text(), 0)) },
		Read: func(r *Reader, v located.Value, into *T) {
			items, ok := v.Items()
			if !ok {
				items = []located.Value{v}
			}
			for _, i := range items {
				if s, ok := read(r, i, write); ok {
					*at(into) = append(*at(into), s)
				}
			}
		},
		Write: func(from *T) string {
			var out []string
			for _, s := range *at(from) {
				out = append(out, Quote(s))
			}
			return List(out)
		},
	}
}

// Word is one word out of a few.
func Word[T any](name string, words []string, at func(*T) *string) Field[T] {
	return Field[T]{
		Key:   name,
		Shape: func() schema.Shape { return schema.Word(words...) },
		Like:  Quote(words[0]),
		Read: func(r *Reader, v located.Value, into *T) {
			s, ok := r.Text(v, QuotedList(words))
			switch {
			case !ok:
			case slices.Contains(words, s):
				*at(into) = s
			default:
				r.Fail(v, located.Near(s, words), "%s can't be %s", located.Said(name), located.Said(s))
			}
		},
		Write: func(from *T) string {
			if s := *at(from); s != "" {
				return Quote(s)
			}
			return ""
		},
	}
}

// WordCalled is Word, whose hint knows what else its words are called, in small letters, where letters don't tell.
func WordCalled[T any](name string, words []string, called map[string]string, at func(*T) *string) Field[T] {
	f := Word(name, words, at)
	read := f.Read
	f.Read = func(r *Reader, v located.Value, into *T) {
		s, _ := v.V.(string)
		if word, ok := called[strings.ToLower(strings.TrimSpace(s))]; ok && !slices.Contains(words, s) {
			r.Fail(v, "write "+Quote(word), "%s can't be %s", located.Said(name), located.Said(s))
			return
		}
		read(r, v, into)
	}
	return f
}

// QuotedList lists words in quotes, for a hint.
func QuotedList(words []string) string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = fmt.Sprintf("%q", w)
	}
	return strings.Join(out, " or ")
}

// Bool is true or false.
func Bool[T any](name string, at func(*T) *bool) Field[T] {
	return Field[T]{
		Key:   name,
		Shape: schema.Flag,
		Like:  "true",
		Read: func(r *Reader, v located.Value, into *T) {
			if b, ok := r.Bool(v); ok {
				*at(into) = b
			}
		},
		Write: func(from *T) string {
			if *at(from) {
				return "true"
			}
			return ""
		},
	}
}

// Maybe is true or false, or nothing said.
func Maybe[T any](name string, at func(*T) **bool) Field[T] {
	return Field[T]{
		Key:   name,
		Shape: schema.Flag,
		Like:  "true",
		Read: func(r *Reader, v located.Value, into *T) {
			if b, ok := r.Bool(v); ok {
				*at(into) = &b
			}
		},
		Write: func(from *T) string {
			if b := *at(from); b != nil {
				return fmt.Sprint(*b)
			}
			return ""
		},
	}
}

// Way is one of the six directions.
func Way[T any](name string, at func(*T) *graph.Vec) Field[T] {
	return Field[T]{
		Key:   name,
		Shape: func() schema.Shape { return schema.Word(DirectionWords...) },
		Like:  `"up"`,
		Read: func(r *Reader, v located.Value, into *T) {
			*at(into) = r.Direction(v)
		},
		Write: func(from *T) string { return DirectionText(*at(from)) },
	}
}

// Count is a whole number from low to high; 0 is not written.
func Count[T any](name string, low, high int, at func(*T) *int) Field[T] {
	return Field[T]{
		Key:   name,
		Shape: func() schema.Shape { return schema.Whole(low, high) },
		Like:  fmt.Sprint(low),
		Read: func(r *Reader, v located.Value, into *T) {
			if n, ok := r.Count(v, low, high); ok {
				*at(into) = n
			}
		},
		Write: func(from *T) string {
			if n := *at(from); n != 0 {
				return fmt.Sprint(n)
			}
			return ""
		},
	}
}

// Phases is on how many phases something stands: 1, or between two of three, or 3.
func Phases[T any](name string, at func(*T) *int) Field[T] {
	f := Count(name, 1, 3, at)
	f.Like = "3"
	f.Read = func(r *Reader, v located.Value, into *T) {
		switch n, ok := r.Count(v, 1, 3); {
		case !ok:
		case n == 2:
			r.Fail(v, "write "+name+" = 3 for what stands on all three, and 1 for what stands on one or between two", "%s is 2", located.Said(name))
		default:
			*at(into) = n
		}
	}
	return f
}

// Number is a bare number from low to high; said, where it is not nil, remembers that
// it was given.
func Number[T any](name string, low, high float64, at func(*T) *float64, given func(*T) *bool) Field[T] {
	return Field[T]{
		Key:   name,
		Shape: func() schema.Shape { return schema.Number(low, high) },
		Like:  quantity.Trim(max(low, min(1, high))),
		Read: func(r *Reader, v located.Value, into *T) {
			if x, ok := r.Number(v, low, high); ok {
				*at(into) = x
				if given != nil {
					*given(into) = true
				}
			}
		},
		Write: func(from *T) string {
			x := *at(from)
			if given != nil && !*given(from) || given == nil && x == 0 {
				return ""
			}
			return quantity.Trim(x)
		},
	}
}

// Size is a nominal pipe size.
func Size[T any](name string, at func(*T) *catalog.Size) Field[T] {
	return Field[T]{
		Key:   name,
		Shape: schema.Quantity,
		Like:  `"2 in"`,
		Read: func(r *Reader, v located.Value, into *T) {
			if s, ok := r.size(v); ok {
				*at(into) = s
			}
		},
		Write: func(from *T) string { return SizeText(*at(from)) },
	}
}

// size reads a nominal pipe size.
func (r *Reader) size(v located.Value) (catalog.Size, bool) {
	const write = `a size such as "1 1/2 in" or "50 mm"`
	switch x := v.V.(type) {
	case string:
		if r.Blank(v, write) || r.tooLong(v, x) {
			return catalog.Size{}, false
		}
		s, err := catalog.ParseSize(x, r.Metric)
		if err != nil {
			r.quantityError(v, err)
			if r.Found[len(r.Found)-1].Hint == "" || !strings.ContainsAny(x, "abcdefghijklmnopqrstuvwxyz") {
				r.Found[len(r.Found)-1].Hint = "write " + write
			}
			for _, mark := range []string{`"`, "”", "″", "''", "’’"} { // as the trade writes inches
				if inches, marked := strings.CutSuffix(strings.TrimSpace(x), mark); marked {
					if meant, err := catalog.ParseSize(inches+" in", r.Metric); err == nil {
						r.Found[len(r.Found)-1].Hint = quantity.Text("write " + Quote(meant.String()))
					}
				}
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

// Spec is the spec of pipe.
func Spec[T any](name string, at func(*T) *catalog.Spec) Field[T] {
	return Field[T]{
		Key:   name,
		Shape: specShape,
		Read: func(r *Reader, v located.Value, into *T) {
			s, ok := r.Text(v, `a spec such as "pvc-sch40"`)
			switch {
			case !ok:
			case slices.Contains(r.specs(), s):
				*at(into) = catalog.Spec(s)
			default:
				hint := located.Near(s, r.specs())
				if strings.HasPrefix(hint, "there are") {
					hint += "; pipe that is none of them, such as copper, has no spec: write its bore on each of its runs, which is enough for the water, but not for a cut"
				}
				if strings.HasPrefix(strings.ToLower(s), "abs") { // ASTM D2661: outside as ASTM D1785, from memory
					hint = `inch pipe of ABS has the outside diameter of PVC: write spec = "pvc-sch40", and material = "abs" in [pipe] or on the run`
				}
				r.Fail(v, hint, "there is no pipe spec %s", located.Said(s))
			}
		},
		Write: func(from *T) string {
			if s := *at(from); s != "" {
				return Quote(string(s))
			}
			return ""
		},
	}
}

// Known says how well something is known.
func Known[T any](at func(*T) *graph.Knowledge) Field[T] {
	grades := []graph.Knowledge{graph.Measured, graph.DataSheet, graph.Assumed}
	var words []string
	for _, g := range grades {
		words = append(words, g.String())
	}
	return Field[T]{
		Key:   "known",
		Shape: func() schema.Shape { return schema.Word(words...) },
		Read: func(r *Reader, v located.Value, into *T) {
			s, ok := r.Text(v, QuotedList(words))
			if !ok {
				return
			}
			if i := slices.Index(words, s); i >= 0 {
				*at(into) = grades[i]
				return
			}
			r.Fail(v, located.Near(s, words), "%s can't be %s", located.Said("known"), located.Said(s))
		},
		Write: func(from *T) string {
			if k := *at(from); k != graph.Assumed {
				return Quote(k.String())
			}
			return ""
		},
	}
}

// Table is a table within a table.
func Table[T, U any](name, what string, fields []Field[U], at func(*T) *U) Field[T] {
	return Field[T]{
		Key:   name,
		Shape: func() schema.Shape { return TableShape(fields, what) },
		Read: func(r *Reader, v located.Value, into *T) {
			if !r.Blank(v, tableForm(fields)) {
				ReadTable(r, v, what, fields, at(into))
			}
		},
		Write: func(from *T) string { return Inline(fields, at(from)) },
	}
}

// MaybeTable is a table within a table that may be left out altogether.
func MaybeTable[T, U any](name, what string, fields []Field[U], at func(*T) **U) Field[T] {
	return Field[T]{
		Key:   name,
		Shape: func() schema.Shape { return TableShape(fields, what) },
		Read: func(r *Reader, v located.Value, into *T) {
			if !r.Blank(v, tableForm(fields)) {
				u := new(U)
				ReadTable(r, v, what, fields, u)
				*at(into) = u
			}
		},
		Write: func(from *T) string {
			if *at(from) == nil {
				return ""
			}
			return Inline(fields, *at(from))
		},
	}
}

// formerly reads a field under the name it had before, and never writes it so.
func formerly[T any](name string, f Field[T]) Field[T] {
	f.Key, f.Foreign = name, true
	f.Write = func(*T) string { return "" }
	return f
}

// Surroundings are the keys that say what stands round pipe, and what that allows.
func Surroundings[T any](at func(*T) *graph.Surroundings) []Field[T] {
	return []Field[T]{
		QtyOr("clear", clearRoom, -1, func(t *T) *float64 { return &at(t).ClearMM }),
		Maybe("reachable", func(t *T) **bool { return &at(t).Reachable }),
		QtyOr("play", endPlay, -1, func(t *T) *float64 { return &at(t).PlayMM }),
		Maybe("pushes-aside", func(t *T) **bool { return &at(t).PushesAside }),
		formerly("spring-aside", Maybe("pushes-aside", func(t *T) **bool { return &at(t).PushesAside })),
	}
}
