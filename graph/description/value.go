package description

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// value is one value of the file, by what key it is known, and where it stands.
type value struct {
	v   any
	at  *place
	key string
}

// blankText marks a blank of a template.
const blankText = "?"

// valuePos returns where the value starts; keyPos where its key does.
func (r *reader) valuePos(v value) graph.Pos {
	if v.at == nil {
		return graph.Pos{File: r.file, Line: 1, Column: 1}
	}
	return r.pos(v.at.val)
}

func (r *reader) keyPos(v value) graph.Pos {
	if v.at == nil {
		return graph.Pos{File: r.file, Line: 1, Column: 1}
	}
	return r.pos(v.at.key)
}

// in returns the value of a key of a table.
func (v value) in(key string) (value, bool) {
	t, ok := v.v.(map[string]any)
	if !ok {
		return value{}, false
	}
	x, ok := t[key]
	if !ok {
		return value{}, false
	}
	return value{v: x, at: v.at.under(key), key: key}, true
}

func (p *place) under(key string) *place {
	if p == nil {
		return nil
	}
	return p.keys[key]
}

// keys returns the keys of a table as they come in the file.
func (v value) keys() []string {
	t, _ := v.v.(map[string]any)
	out := make([]string, 0, len(t))
	if v.at != nil {
		for _, k := range v.at.order {
			if _, ok := t[k]; ok {
				out = append(out, k)
			}
		}
	}
	if len(out) < len(t) { // a key without a place: none is known to happen
		var rest []string
		for k := range t {
			if !slices.Contains(out, k) {
				rest = append(rest, k)
			}
		}
		slices.Sort(rest)
		out = append(out, rest...)
	}
	return out
}

// items returns the elements of a list, and whether it is one.
func (v value) items() ([]value, bool) {
	var out []value
	add := func(i int, x any) {
		at := v.at
		if at != nil && i < len(at.items) {
			at = at.items[i]
		}
		out = append(out, value{v: x, at: at, key: v.key})
	}
	switch list := v.v.(type) {
	case []any:
		for i, x := range list {
			add(i, x)
		}
	case []map[string]any:
		for i, x := range list {
			add(i, x)
		}
	default:
		return nil, false
	}
	return out, true
}

// blank reports a blank of a template that is still to be filled in.
func (r *reader) blank(v value, write string) bool {
	if v.v != blankText {
		return false
	}
	r.fail(v, "write "+write, "%s is still blank", said(v.key))
	return true
}

// typeWords name the TOML types as a user sees them.
func typeWord(x any) string {
	switch x := x.(type) {
	case string:
		return "text"
	case int64, float64:
		return "a bare number"
	case bool:
		return "true or false"
	case time.Time:
		return "a date"
	case map[string]any:
		return "a table"
	case []any, []map[string]any:
		return "a list"
	default:
		return fmt.Sprintf("a %T", x)
	}
}

// wrongType reports a value of another TOML type than is wanted.
func (r *reader) wrongType(v value, want, write string) {
	r.fail(v, "write "+write, "%s is %s; it wants %s", said(v.key), typeWord(v.v), want)
}

// text reads a text. Control characters written as escapes are refused like bare ones;
// tabs and line ends are fine.
func (r *reader) text(v value, write string) (string, bool) {
	s, ok := v.v.(string)
	if !ok {
		r.wrongType(v, "a text in quotes", write)
		return "", false
	}
	if r.blank(v, write) {
		return "", false
	}
	for _, c := range s {
		if isControl(c) && c != '\n' && c != '\t' && c != '\r' {
			r.fail(v, "take it out", "%s holds the control character %s", said(v.key), codePoint(c))
			return "", false
		}
	}
	return s, true
}

// boolean reads true or false.
func (r *reader) boolean(v value) (bool, bool) {
	b, ok := v.v.(bool)
	if !ok && !r.blank(v, "true or false, without quotes") {
		r.wrongType(v, "true or false", "it without quotes: "+v.key+" = true")
	}
	return b, ok
}

// number reads a bare number from low to high.
func (r *reader) number(v value, low, high float64) (float64, bool) {
	var x float64
	switch n := v.v.(type) {
	case int64:
		x = float64(n)
	case float64:
		x = n
	default:
		if !r.blank(v, "a number, without quotes") {
			r.wrongType(v, "a bare number", "it without quotes and unit: "+v.key+" = 1.5")
		}
		return 0, false
	}
	if math.IsNaN(x) || x < low || x > high {
		r.fail(v, fmt.Sprintf("write a number from %s to %s", quantity.Trim(low), quantity.Trim(high)),
			"%s is %s: from %s to %s is plausible", said(v.key), quantity.Trim(x), quantity.Trim(low), quantity.Trim(high))
		return 0, false
	}
	return x, true
}

// count reads a whole number from low to high.
func (r *reader) count(v value, low, high int) (int, bool) {
	n, ok := v.v.(int64)
	if !ok {
		example := v.key + " = " + strconv.Itoa(max(low, 12))
		if s, ok := v.v.(string); ok && s != blankText {
			if n, err := strconv.Atoi(strings.TrimSpace(s)); err == nil {
				example = v.key + " = " + strconv.Itoa(n)
			}
		}
		if !r.blank(v, "a whole number, without quotes: "+example) {
			r.wrongType(v, "a whole number", "it without quotes and unit: "+example)
		}
		return 0, false
	}
	if n < int64(low) || n > int64(high) {
		r.fail(v, fmt.Sprintf("write a whole number from %d to %d", low, high), "%s is %d: from %d to %d is plausible", said(v.key), n, low, high)
		return 0, false
	}
	return int(n), true
}
