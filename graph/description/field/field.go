package field

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/located"
	"dryfit/graph/description/schema"
)

// Field is one key of a table: how it is read into a T and written from one. A table is a
// list of fields, in the order in which they are written.
type Field[T any] struct {
	Key   string
	need  string // what to write where the key is missing; "" where it may be left out
	Read  func(r *Reader, v located.Value, into *T)
	Write func(from *T) string // its value as TOML; "" leaves the key out

	NeedOf  func(r *Reader, v located.Value) string // need, where it depends on the rest of the file
	Like    string                                  // an example of the value, as TOML; "" for none
	instead string                                  // another key that does as well as a needed one; "" for none
	Foreign bool                                    // belongs to another table, and is read only to say so
	Shape   func() schema.Shape                     // what its value may be; nil only where it is foreign
}

// Needed marks a field that must be there.
func Needed[T any](f Field[T], write string) Field[T] {
	f.need = write
	return f
}

// NeededOr marks a field that must be there where another key is not.
func NeededOr[T any](f Field[T], instead, write string) Field[T] {
	f.need, f.instead = write, instead
	return f
}

// KeysOf returns the keys of the fields.
func KeysOf[T any](fields []Field[T]) []string {
	out := make([]string, 0, len(fields))
	for _, f := range fields {
		if !f.Foreign {
			out = append(out, f.Key)
		}
	}
	return out
}

// ReadTable reads a table by its fields, in their order, and returns where its keys stand; what names
// the table in messages.
func ReadTable[T any](r *Reader, v located.Value, what string, fields []Field[T], into *T) map[string]graph.Pos {
	if _, ok := v.V.(map[string]any); !ok {
		r.WrongType(v, "a table", tableForm(fields))
		return nil
	}
	where := map[string]graph.Pos{}
	at := func(key string) int { return slices.IndexFunc(fields, func(f Field[T]) bool { return f.Key == key }) }
	meant := r.Mistyped(v, what, KeysOf(fields), func(key string) bool { return at(key) >= 0 })
	for _, key := range v.Keys() {
		c, _ := v.In(key)
		where[key] = r.KeyPos(c)
	}
	for i := range fields { // in their order, whatever the file's: one may hang on another
		c, written := v.In(fields[i].Key)
		if !written || i != at(fields[i].Key) {
			continue
		}
		found := len(r.Found)
		if fields[i].Read(r, c, into); slices.Contains(meant, fields[i].Key) {
			r.Found = r.Found[:found] // it may be another that was meant
		}
	}
	for _, f := range fields {
		if f.need == "" || slices.Contains(meant, f.Key) {
			continue
		}
		_, written := v.In(f.Key)
		if f.instead != "" && !written {
			_, written = v.In(f.instead)
		}
		if !written {
			need := f.need
			if f.NeedOf != nil {
				need = f.NeedOf(r, v)
			}
			r.Missing(v, what, f.Key, need)
		}
	}
	return where
}

// tableForm shows a table that reads: with the keys it needs, else with the first there is an
// example of.
func tableForm[T any](fields []Field[T]) string {
	var needs, first string
	for _, f := range fields {
		form := f.Key + " = " + f.Like
		if at := strings.Index(f.need, f.Key+" = "); at >= 0 {
			form = f.need[at:]
		} else if f.Like == "" {
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

// Mistyped tells the keys of a table that it does not have, and has each read as the key it is nearest
// to, so that nothing else is found only because that one is missing. It returns the keys that were
// meant.
func (r *Reader) Mistyped(v located.Value, what string, keys []string, known func(string) bool) (meant []string) {
	for _, key := range v.Keys() {
		if known(key) {
			continue
		}
		c, _ := v.In(key)
		r.UnknownKey(c, what, keys)
		if r.Many() {
			continue
		}
		if k, ok := quantity.Nearest(key, keys); ok {
			meant = append(meant, k)
			v.TakenAs(key, k)
		}
	}
	return meant
}

// UnknownKey reports a key its table does not have.
func (r *Reader) UnknownKey(c located.Value, what string, keys []string) {
	hint := r.NearAmong(c.Key, func() []string { return keys })
	if where, ok := elsewhere[c.Key]; ok {
		hint = where
	} else if where := r.tablesOf(c.Key, keys); where != "" {
		hint = where
	}
	r.Add(r.KeyPos(c), hint, "%s has no key %s", what, located.Said(c.Key))
}

// tablesOf tells where a key belongs that its table has not, nor one that is spelled like it: in another
// table. Of one that stands in many it is "".
func (r *Reader) tablesOf(key string, own []string) string {
	const few = 3
	if _, near := quantity.Nearest(key, own); near || r.Elsewhere == nil || r.Many() {
		return ""
	}
	tables := r.Elsewhere(key)
	if len(tables) == 0 || len(tables) > few {
		return ""
	}
	return fmt.Sprintf("%s is a key of %s: write it there", key, strings.Join(tables, " and of "))
}

// elsewhere tells of a key that another table has in its own words where it belongs.
var elsewhere = map[string]string{
	"volume": "volume is a key of [water], how much is in all tubs that share it: write it there",
	"phases": "say it of what stands on all three: phases = 3 on a pump, an element or a blower, and among electric of a unit",
}

// Missing reports a key that must be there, at the table's own place.
func (r *Reader) Missing(v located.Value, what, key, write string) {
	r.Add(r.KeyPos(v), "write "+write, "%s has no %s", what, key)
}

// WriteFields writes a table's keys, a line each.
func WriteFields[T any](b *strings.Builder, fields []Field[T], from *T) {
	for _, f := range fields {
		if s := f.Write(from); s != "" {
			b.WriteString(f.Key)
			b.WriteString(" = ")
			b.WriteString(s)
			b.WriteByte('\n')
		}
	}
}

// Inline writes a table as { key = value, … }; "" where it has nothing to say.
func Inline[T any](fields []Field[T], from *T) string {
	var parts []string
	for _, f := range fields {
		if s := f.Write(from); s != "" {
			parts = append(parts, f.Key+" = "+s)
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return "{ " + strings.Join(parts, ", ") + " }"
}

// List writes values as [a, b, …]; "" where there are none.
func List(values []string) string {
	if len(values) == 0 {
		return ""
	}
	return "[" + strings.Join(values, ", ") + "]"
}
