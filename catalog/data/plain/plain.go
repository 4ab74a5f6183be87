// Package plain reads TOML, fast where it is written as most of it is: tables in brackets, keys without
// quotes, texts on one line without escapes, decimal numbers, days, lists. What else TOML allows, and what is
// wrong, it leaves to a decoder, which takes several times as long.
package plain

import (
	"strconv"

	"github.com/BurntSushi/toml"
	"github.com/pelletier/go-toml/v2/unstable"
)

// Decode returns what a text in UTF-8 says: string, int64, float64, bool, time.Time, []any, map[string]any
// and, of tables in double brackets, []map[string]any. Errors are those of package toml of BurntSushi.
func Decode(text []byte) (top map[string]any, err error) {
	if top, ok := read(text); ok {
		return top, nil
	}
	_, err = toml.Decode(string(text), &top)
	return top, err
}

// read returns what the decoder would, or false where anything in the text is not plain, or wrong.
func read(text []byte) (top map[string]any, ok bool) {
	root := &table{values: map[string]any{}}
	current := root
	var p unstable.Parser
	p.Reset(text)
	for p.NextExpression() {
		e := p.Expression()
		ok := false
		switch e.Kind {
		case unstable.Table, unstable.ArrayTable:
			current, ok = root.header(e)
		case unstable.KeyValue:
			ok = current.say(e)
		}
		if !ok {
			return nil, false
		}
	}
	return root.values, p.Error() == nil
}

// table is one in brackets or braces, with those under it that may still grow: opened by a header, of
// those in double brackets the last, or begun by a key with a point.
type table struct {
	values map[string]any
	opened map[string]*table
	begun  map[string]*table
}

// add returns a new table, noted in a list of those that may grow.
func add(list *map[string]*table, name string) *table {
	if *list == nil {
		*list = map[string]*table{}
	}
	t := &table{values: map[string]any{}}
	(*list)[name] = t
	return t
}

// header opens the table of [a.b] or [[a.b]]. One that was opened before, if only on the way to
// another, is not plain.
func (t *table) header(e *unstable.Node) (*table, bool) {
	for it := e.Key(); it.Next(); {
		name, ok := nameOf(it.Node())
		if !ok {
			return nil, false
		}
		was, taken := t.values[name]
		list, isList := was.([]map[string]any)
		next := t.opened[name]
		switch {
		case !it.IsLast() && next != nil:
			t = next
		case it.IsLast() && e.Kind == unstable.ArrayTable && (isList || !taken):
			next = add(&t.opened, name)
			t.values[name] = append(list, next.values)
			t = next
		case !taken:
			next = add(&t.opened, name)
			t.values[name] = next.values
			t = next
		default:
			return nil, false
		}
	}
	return t, true
}

// say enters a key and its value; one with points in the table it leads to.
func (t *table) say(e *unstable.Node) bool {
	for it := e.Key(); it.Next(); {
		name, ok := nameOf(it.Node())
		_, taken := t.values[name]
		next := t.begun[name]
		switch {
		case !ok || taken && (it.IsLast() || next == nil):
			return false
		case it.IsLast():
			t.values[name], ok = valueOf(e.Value())
			return ok
		case next == nil:
			next = add(&t.begun, name)
			t.values[name] = next.values
		}
		t = next
	}
	return false
}

// nameOf returns a key that is written without quotes.
func nameOf(key *unstable.Node) (string, bool) {
	for _, c := range key.Data {
		if !(c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || isDigit(c) || c == '-' || c == '_') {
			return "", false
		}
	}
	return string(key.Data), int(key.Raw.Length) == len(key.Data) && len(key.Data) > 0
}

func valueOf(v *unstable.Node) (any, bool) {
	switch v.Kind {
	case unstable.String:
		return string(v.Data), int(v.Raw.Length) == len(v.Data)+len(`""`)
	case unstable.Bool:
		return v.Data[0] == 't', true
	case unstable.Integer:
		if !isInteger(v.Data) {
			return nil, false
		}
		n, err := strconv.ParseInt(string(v.Data), 10, 64)
		return n, err == nil
	case unstable.Float:
		if !isDecimal(v.Data) {
			return nil, false
		}
		n, err := strconv.ParseFloat(string(v.Data), 64)
		return n, err == nil
	case unstable.Array:
		list := []any{}
		for it := v.Children(); it.Next(); {
			if it.Node().Kind == unstable.Comment {
				continue
			}
			item, ok := valueOf(it.Node())
			if !ok {
				return nil, false
			}
			list = append(list, item)
		}
		return list, true
	case unstable.InlineTable:
		inside := &table{values: map[string]any{}}
		for it := v.Children(); it.Next(); {
			if it.Node().Kind != unstable.KeyValue || !inside.say(it.Node()) {
				return nil, false
			}
		}
		return inside.values, true
	case unstable.LocalDate:
		var day map[string]any
		_, err := toml.Decode("day = "+string(v.Data), &day)
		return day["day"], err == nil
	}
	return nil, false
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// isInteger reports whether a number is digits alone, the first of several not 0, with a minus at most.
func isInteger(text []byte) bool {
	if len(text) > 1 && text[0] == '-' {
		text = text[1:]
	}
	for _, c := range text {
		if !isDigit(c) {
			return false
		}
	}
	return len(text) == 1 || len(text) > 1 && text[0] != '0'
}

// isDecimal reports whether a number is an integer, a point and digits.
func isDecimal(text []byte) bool {
	for i, c := range text {
		if c == '.' {
			rest := text[i+1:]
			for _, c := range rest {
				if !isDigit(c) {
					return false
				}
			}
			return len(rest) > 0 && isInteger(text[:i])
		}
	}
	return false
}
