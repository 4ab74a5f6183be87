package description

import (
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/located"
	"dryfit/graph/description/schema"
)

// field is one key of a table: how it is read into a T and written from one. A table is a
// list of fields, in the order in which they are written.
type field[T any] struct {
	key   string
	need  string // what to write where the key is missing; "" where it may be left out
	read  func(r *reader, v located.Value, into *T)
	write func(from *T) string // its value as TOML; "" leaves the key out

	needOf  func(r *reader, v located.Value) string // need, where it depends on the rest of the file
	like    string                                  // an example of the value, as TOML; "" for none
	instead string                                  // another key that does as well as a needed one; "" for none
	foreign bool                                    // belongs to another table, and is read only to say so
	shape   func() schema.Shape                     // what its value may be; nil only where it is foreign
}

// needed marks a field that must be there.
func needed[T any](f field[T], write string) field[T] {
	f.need = write
	return f
}

// neededOr marks a field that must be there where another key is not.
func neededOr[T any](f field[T], instead, write string) field[T] {
	f.need, f.instead = write, instead
	return f
}

// keysOf returns the keys of the fields.
func keysOf[T any](fields []field[T]) []string {
	out := make([]string, 0, len(fields))
	for _, f := range fields {
		if !f.foreign {
			out = append(out, f.key)
		}
	}
	return out
}

// readTable reads a table by its fields and returns where its keys stand; what names the
// table in messages.
func readTable[T any](r *reader, v located.Value, what string, fields []field[T], into *T) map[string]graph.Pos {
	if _, ok := v.V.(map[string]any); !ok {
		r.WrongType(v, "a table", tableForm(fields))
		return nil
	}
	where := map[string]graph.Pos{}
	var meant []string // by mistyped keys
	for _, key := range v.Keys() {
		c, _ := v.In(key)
		where[key] = r.KeyPos(c)
		i := slices.IndexFunc(fields, func(f field[T]) bool { return f.key == key })
		if i < 0 {
			if !r.Many() {
				k, _ := quantity.Nearest(key, keysOf(fields))
				meant = append(meant, k)
			}
			r.unknownKey(c, what, keysOf(fields))
			continue
		}
		fields[i].read(r, c, into)
	}
	for _, f := range fields {
		if f.need == "" || slices.Contains(meant, f.key) {
			continue
		}
		_, written := v.In(f.key)
		if f.instead != "" && !written {
			_, written = v.In(f.instead)
		}
		if !written {
			need := f.need
			if f.needOf != nil {
				need = f.needOf(r, v)
			}
			r.missing(v, what, f.key, need)
		}
	}
	return where
}

// tableForm shows a table that reads: with the keys it needs, else with the first there is an
// example of.
func tableForm[T any](fields []field[T]) string {
	var needs, first string
	for _, f := range fields {
		form := f.key + " = " + f.like
		if at := strings.Index(f.need, f.key+" = "); at >= 0 {
			form = f.need[at:]
		} else if f.like == "" {
			continue
		}
		if f.need != "" {
			needs += ", " + form
		}
		if first == "" {
			first = ", " + form
		}
	}
	if needs == "" {
		needs = first
	}
	return "{ " + strings.TrimPrefix(needs, ", ") + " }"
}

// unknownKey reports a key its table does not have.
func (r *reader) unknownKey(c located.Value, what string, keys []string) {
	hint := r.NearAmong(c.Key, func() []string { return keys })
	r.Add(r.KeyPos(c), hint, "%s has no key %s", what, located.Said(c.Key))
}

// missing reports a key that must be there, at the table's own place.
func (r *reader) missing(v located.Value, what, key, write string) {
	r.Add(r.KeyPos(v), "write "+write, "%s has no %s", what, key)
}

// writeFields writes a table's keys, a line each.
func writeFields[T any](b *strings.Builder, fields []field[T], from *T) {
	for _, f := range fields {
		if s := f.write(from); s != "" {
			b.WriteString(f.key)
			b.WriteString(" = ")
			b.WriteString(s)
			b.WriteByte('\n')
		}
	}
}

// inline writes a table as { key = value, … }; "" where it has nothing to say.
func inline[T any](fields []field[T], from *T) string {
	var parts []string
	for _, f := range fields {
		if s := f.write(from); s != "" {
			parts = append(parts, f.key+" = "+s)
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return "{ " + strings.Join(parts, ", ") + " }"
}

// list writes values as [a, b, …]; "" where there are none.
func list(values []string) string {
	if len(values) == 0 {
		return ""
	}
	return "[" + strings.Join(values, ", ") + "]"
}
