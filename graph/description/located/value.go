package located

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// Value is one value of the file, by what key it is known, and where it stands.
type Value struct {
	V   any
	at  *entry
	Key string
}

// Blank marks a blank of a template.
const Blank = "?"

// ValuePos returns where the value starts.
func (f *File) ValuePos(v Value) graph.Pos {
	if v.at == nil {
		return graph.Pos{File: f.Name, Line: 1, Column: 1}
	}
	return f.Pos(v.at.val)
}

// EndPos returns the place behind the value, which may lie some lines below its start.
func (f *File) EndPos(v Value) graph.Pos {
	if v.at == nil {
		return graph.Pos{File: f.Name, Line: 1, Column: 1}
	}
	return f.Pos(valueEnd(f.data, v.at.val))
}

// KeyPos returns where the key of the value starts.
func (f *File) KeyPos(v Value) graph.Pos {
	if v.at == nil {
		return graph.Pos{File: f.Name, Line: 1, Column: 1}
	}
	return f.Pos(v.at.key)
}

// In returns the value of a key of a table.
func (v Value) In(key string) (Value, bool) {
	t, ok := v.V.(map[string]any)
	if !ok {
		return Value{}, false
	}
	x, ok := t[key]
	if !ok {
		return Value{}, false
	}
	return Value{V: x, at: v.at.under(key), Key: key}, true
}

func (p *entry) under(key string) *entry {
	if p == nil {
		return nil
	}
	return p.keys[key]
}

// Keys returns the keys of a table as they come in the file.
func (v Value) Keys() []string {
	t, _ := v.V.(map[string]any)
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

// Items returns the elements of a list, and whether it is one.
func (v Value) Items() ([]Value, bool) {
	var out []Value
	add := func(i int, x any) {
		at := v.at
		if at != nil && i < len(at.items) {
			at = at.items[i]
		}
		out = append(out, Value{V: x, at: at, Key: v.Key})
	}
	switch list := v.V.(type) {
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

// Blank reports a blank of a template that is still to be filled in.
func (f *File) Blank(v Value, write string) bool {
	if v.V != Blank {
		return false
	}
	f.Fail(v, "write "+write, "%s is still blank", Said(v.Key)).Blank = true
	return true
}

// TypeWord names the TOML type of a value as a user sees it.
func TypeWord(x any) string {
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

// WrongType reports a value of another TOML type than is wanted.
func (f *File) WrongType(v Value, want, write string) {
	f.Fail(v, "write "+write, "%s is %s; it wants %s", Said(v.Key), TypeWord(v.V), want)
}

// Text reads a text.
func (f *File) Text(v Value, write string) (string, bool) {
	s, ok := v.V.(string)
	if !ok {
		f.WrongType(v, "a text in quotes", write)
		return "", false
	}
	if f.Blank(v, write) {
		return "", false
	}
	if n := utf8.RuneCountInString(s); n > MaxText {
		f.Fail(v, "it stands on papers: shorten it", "%s is %d characters long; at most %d are read", Said(v.Key), n, MaxText)
		return "", false
	}
	return s, true
}

// Bool reads true or false.
func (f *File) Bool(v Value) (bool, bool) {
	b, ok := v.V.(bool)
	if !ok && !f.Blank(v, "true or false, without quotes") {
		f.WrongType(v, "true or false", asBool(v))
	}
	return b, ok
}

// asBool is what is to be written for what was meant to be true or false: the one a text says, and both
// where it says neither. What is asked of it may be what keeps people safe: the wrong one would be written.
func asBool(v Value) string {
	s, _ := v.V.(string)
	switch strings.ToLower(strings.TrimSpace(s)) {
	case "true", "yes", "y", "on":
		return "it without quotes: " + v.Key + " = true"
	case "false", "no", "n", "off", "none":
		return "it without quotes: " + v.Key + " = false"
	}
	return v.Key + " = true or " + v.Key + " = false, without quotes"
}

// Number reads a bare number from low to high.
func (f *File) Number(v Value, low, high float64) (float64, bool) {
	var x float64
	switch n := v.V.(type) {
	case int64:
		x = float64(n)
	case float64:
		x = n
	default:
		if !f.Blank(v, "a number, without quotes") {
			f.WrongType(v, "a bare number", "it without quotes and unit: "+v.Key+" = "+asNumber(v, low, high))
		}
		return 0, false
	}
	if math.IsNaN(x) || x < low || x > high {
		f.Fail(v, fmt.Sprintf("write a number from %s to %s", quantity.Trim(low), quantity.Trim(high)),
			"%s is %s: from %s to %s is plausible", Said(v.Key), bare(x), quantity.Trim(low), quantity.Trim(high))
		return 0, false
	}
	if x != 0 && math.Abs(x) < smallestNumber {
		f.Fail(v, fmt.Sprintf("write a number from %s to %s", quantity.Trim(low), quantity.Trim(high)), "%s can't be as small as %s", Said(v.Key), bare(x))
		return 0, false
	}
	return x, true
}

// asNumber is how a text is written as a bare number that says one: with a comma for its point, with % behind
// it, or in quotes; what says none has an example of what may stand there.
func asNumber(v Value, low, high float64) string {
	s, _ := v.V.(string)
	s, share := strings.CutSuffix(strings.ReplaceAll(strings.TrimSpace(s), ",", "."), "%")
	if x, err := strconv.ParseFloat(strings.TrimSpace(s), 64); err == nil {
		if share {
			x = quantity.Round(x/100, 6)
		}
		if x >= low && x <= high {
			return quantity.Trim(x)
		}
	}
	return quantity.Trim(max(low, min(1.5, high)))
}

// smallestNumber is the smallest bare number that is read: what is smaller was not meant, and
// overflows where it divides.
const smallestNumber = 1e-6

// Count reads a whole number from low to high.
func (f *File) Count(v Value, low, high int) (int, bool) {
	n, ok := v.V.(int64)
	if !ok {
		example := v.Key + " = " + strconv.Itoa(max(low, 12))
		if s, ok := v.V.(string); ok && s != Blank {
			if n, err := strconv.Atoi(strings.TrimSpace(s)); err == nil {
				example = v.Key + " = " + strconv.Itoa(n)
			}
		}
		if x, broken := v.V.(float64); broken {
			f.broken(v, x, low, high)
			return 0, false
		}
		if !f.Blank(v, "a whole number, without quotes: "+example) {
			f.WrongType(v, "a whole number", "it without quotes and unit: "+example)
		}
		return 0, false
	}
	if n < int64(low) || n > int64(high) {
		f.Fail(v, fmt.Sprintf("write a whole number from %d to %d", low, high), "%s is %d: from %d to %d is plausible", Said(v.Key), n, low, high)
		return 0, false
	}
	return int(n), true
}

// broken says of a number with a point that it is to be a whole one: 16.0 is one but for how it is written.
func (f *File) broken(v Value, x float64, low, high int) {
	if x == math.Trunc(x) && x >= float64(low) && x <= float64(high) {
		f.Fail(v, fmt.Sprintf("write %s = %.0f", v.Key, x), "%s is written with a point or an exponent, and is a whole number", Said(v.Key))
		return
	}
	f.Fail(v, fmt.Sprintf("write a whole number from %d to %d", low, high), "%s is %s, which is no whole number", Said(v.Key), bare(x))
}

// bare is a bare number as TOML writes it: one with more digits than anybody reads with an exponent.
func bare(x float64) string {
	switch a := math.Abs(x); {
	case math.IsNaN(x):
		return "nan"
	case math.IsInf(x, 0):
		return strings.ToLower(strings.TrimPrefix(fmt.Sprint(x), "+"))
	case a >= 1e15, a != 0 && a < smallestNumber:
		return strconv.FormatFloat(x, 'g', -1, 64)
	}
	return quantity.Trim(x)
}

// Shift moves an error to the byte within a text where the trouble starts.
func (f *File) Shift(d *graph.Diagnostic, v Value, offset int) {
	if v.at != nil && v.at.plain {
		d.Pos = f.Pos(v.at.val + 1 + offset)
	}
}

// Single returns a table that holds the one value, under another key.
func Single(name string, v Value) Value {
	return Value{V: map[string]any{name: v.V}, at: &entry{keys: map[string]*entry{name: v.at}}}
}
