package description

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"sync"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/meaning"
	"dryfit/graph/description/pipework"
	"dryfit/graph/description/schema"
)

// Key is a key of a description, told to a person.
type Key struct {
	Path    []string // from its table; a name that the user gives is written in capitals
	Kinds   []string // of the parts that have it; nil: all of them, or it is no key of a part
	Means   string
	Form    string
	Example string // as TOML; "" where the form says it all
}

// named stands in a path for a name of the user's own.
const named = "NAME"

// Keys returns every key of a description, in the order of the schema, by which Read reads. They
// are worked out once, and are not to be changed.
func Keys() []Key { return allKeys() }

var allKeys = sync.OnceValue(keys)

func keys() []Key {
	var out []Key
	shapes := topShapes()
	for _, t := range topTables {
		path := []string{t.name}
		out = append(out, Key{Path: path, Means: meaning.Of("", t.name), Form: tableWords(t.list)})
		switch t.name {
		case "part":
			out = append(out, partKeys()...)
		case "catalog":
			out = append(out, keysIn(rowShape(), []string{"catalog", "KIND"}, nil)...)
		default:
			out = append(out, keysIn(shapes[t.name], path, nil)...)
		}
	}
	return out
}

// partKeys are the keys of a part: those that mean the same for several kinds once.
func partKeys() []Key {
	var out []Key
	at := map[string]int{}
	for _, kind := range graph.Kinds() {
		for _, f := range pipework.ReadFields(kind) {
			if f.Shape == nil {
				continue
			}
			s := field.ShapeIn(f, string(kind), sharedTable(kind), "part")
			for _, k := range append([]Key{keyOf(s, []string{"part", f.Key})}, keysIn(s, []string{"part", f.Key}, nil)...) {
				name := fmt.Sprint(k.Path, k.Means, k.Form)
				i, ok := at[name]
				if !ok {
					i = len(out)
					at[name] = i
					out = append(out, k)
				}
				if !slices.Contains(out[i].Kinds, string(kind)) {
					out[i].Kinds = append(out[i].Kinds, string(kind))
				}
			}
		}
	}
	for i := range out {
		if len(out[i].Kinds) == len(graph.Kinds()) {
			out[i].Kinds = nil
		}
	}
	return out
}

// keysIn lists the keys of the tables a shape may be, with what they hold.
func keysIn(s schema.Shape, path []string, out []Key) []Key {
	for _, k := range s {
		switch says := k.Says.(type) {
		case schema.Shape:
			switch k.Name {
			case "properties":
				for _, p := range says {
					shape, _ := p.Says.(schema.Shape)
					to := slices.Concat(path, []string{p.Name})
					if !slices.ContainsFunc(out, func(k Key) bool { return slices.Equal(k.Path, to) }) {
						out = append(out, keyOf(shape, to))
						out = keysIn(shape, to, out)
					}
				}
			case "items":
				out = keysIn(says, path, out)
			case "additionalProperties":
				out = keysIn(says, slices.Concat(path, []string{named}), out)
			}
		case []schema.Shape:
			if k.Name == "anyOf" {
				for _, one := range says {
					out = keysIn(one, path, out)
				}
			}
		}
	}
	return out
}

// keyOf tells a key by its shape.
func keyOf(s schema.Shape, path []string) Key {
	k := Key{Path: path, Form: formWords(s)}
	for _, word := range s {
		switch word.Name {
		case "description":
			k.Means, _ = word.Says.(string)
		case "examples":
			if list, ok := word.Says.([]any); ok && len(list) > 0 {
				raw, _ := list[0].(json.RawMessage)
				k.Example = tomlOf(raw)
			}
		}
	}
	return k
}

// says returns what a keyword of a shape says; nil where it has none of that name.
func says(s schema.Shape, name string) any {
	for _, k := range s {
		if k.Name == name {
			return k.Says
		}
	}
	return nil
}

func tableWords(list bool) string {
	if list {
		return "a table, as often as there are some"
	}
	return "a table"
}

// formWords says how a value is written.
func formWords(s schema.Shape) string {
	if words, ok := says(s, "enum").([]string); ok {
		return "one of: " + strings.Join(words, ", ")
	}
	if either, ok := says(s, "anyOf").([]schema.Shape); ok {
		var forms []string
		for _, one := range either {
			if f := formWords(one); f != "" && !slices.Contains(forms, f) {
				forms = append(forms, f)
			}
		}
		return strings.Join(forms, "; or ")
	}
	switch says(s, "type") {
	case "string":
		switch pattern := says(s, "pattern"); {
		case fmt.Sprint(pattern) == fmt.Sprint(says(schema.Quantity(), "pattern")):
			return "a text with its unit"
		case says(s, "format") == "date":
			return "a date, without quotes"
		}
		return "a text"
	case "boolean":
		return "true or false"
	case "integer":
		return fmt.Sprintf("a whole number%s", limits(s))
	case "number":
		return fmt.Sprintf("a bare number%s", limits(s))
	case "array":
		if item, ok := says(s, "items").(schema.Shape); ok {
			return "a list, each " + formWords(item)
		}
		return "a list"
	case "object":
		if _, ok := says(s, "additionalProperties").(schema.Shape); ok {
			return "a table, with a name before each"
		}
		return "a table"
	}
	return "a table or a list of tables"
}

func limits(s schema.Shape) string {
	low, high := says(s, "minimum"), says(s, "maximum")
	switch {
	case low != nil && high != nil:
		return fmt.Sprintf(", %v to %v", low, high)
	case low != nil:
		return fmt.Sprintf(", at least %v", low)
	}
	return ""
}

// tomlOf writes JSON as TOML does: tables in one line.
func tomlOf(raw json.RawMessage) string {
	d := json.NewDecoder(bytes.NewReader(raw))
	d.UseNumber()
	var value func() string
	value = func() string {
		t, err := d.Token()
		if err != nil {
			return ""
		}
		switch t := t.(type) {
		case json.Delim:
			var items []string
			for d.More() {
				if t == '{' {
					key, _ := d.Token()
					items = append(items, field.Key(fmt.Sprint(key))+" = "+value())
				} else {
					items = append(items, value())
				}
			}
			_, _ = d.Token()
			if t == '{' {
				return "{ " + strings.Join(items, ", ") + " }"
			}
			return "[" + strings.Join(items, ", ") + "]"
		case string:
			return field.Quote(t)
		}
		return fmt.Sprint(t)
	}
	return value()
}

// FindKeys returns the keys of a name: "volume" of every table that has one, "water.volume" of
// that one, "port.out.at" of a port whatever it is called, "pump.power" of that kind of part or row.
func FindKeys(name string) []Key {
	asked := strings.Split(name, ".")
	var out []Key
	for _, k := range Keys() {
		if k.called(asked) {
			out = append(out, k)
		}
	}
	if len(out) > 0 || len(asked) < 2 {
		return out
	}
	// a name of the user's own in a table of such names
	above := asked[:len(asked)-1]
	for _, k := range Keys() {
		if n := len(k.Path); n > 1 && k.Path[n-2] == named && (&Key{Path: k.Path[:n-2], Kinds: k.Kinds}).called(above) {
			return FindKeys(strings.Join(above, "."))
		}
	}
	return nil
}

// tablesWith returns the tables that have a key: "[water]", "[[run]]", "[[part]] with kind = "pump"".
func tablesWith(key string) []string {
	var out []string
	for _, k := range Keys() {
		if len(k.Path) != 2 || k.Path[1] != key {
			continue
		}
		at := slices.IndexFunc(topTables, func(t topTable) bool { return t.name == k.Path[0] })
		table := "[" + k.Path[0] + "]"
		if at >= 0 && topTables[at].list {
			table = "[" + table + "]"
		}
		switch {
		case len(k.Kinds) == 1:
			table += fmt.Sprintf(" with kind = %q", k.Kinds[0])
		case len(k.Kinds) > 1:
			table += " of some kinds"
		}
		if !slices.Contains(out, table) {
			out = append(out, table)
		}
	}
	return out
}

// Under returns the keys of the table a key holds, and by what name one of them is asked for; none of
// a key that holds no table.
func (k *Key) Under() (keys []string, asked string) {
	for _, under := range Keys() {
		n := len(k.Path)
		if len(under.Path) > n+1 && under.Path[n] == named {
			n++ // tables with names of the user's own hold the same keys
		}
		if len(under.Path) != n+1 || !slices.Equal(under.Path[:len(k.Path)], k.Path) || under.Path[n] == named {
			continue
		}
		if of := under.Kinds; k.Kinds != nil && of != nil && !slices.ContainsFunc(of, func(kind string) bool { return slices.Contains(k.Kinds, kind) }) {
			continue
		}
		if !slices.Contains(keys, under.Path[n]) {
			keys = append(keys, under.Path[n])
		}
		if asked == "" {
			asked = strings.Join(under.Path[len(k.Path)-1:], ".")
		}
	}
	return keys, asked
}

// called reports whether a name, parted at its points, is that of the key.
func (k *Key) called(asked []string) bool {
	if len(asked) > len(k.Path) {
		return false
	}
	tail := k.Path[len(k.Path)-len(asked):]
	for i, word := range asked {
		switch {
		case tail[i] == word:
		case tail[i] == named && i > 0:
		case tail[i] == "KIND" && (i == 0 && word == "catalog" || slices.Contains(catalog.KindNames(), word)):
		case tail[i] == "part" && i == 0 && slices.Contains(graph.Kinds(), graph.Kind(word)) && (k.Kinds == nil || slices.Contains(k.Kinds, word)):
		default:
			return false
		}
	}
	return true
}

// NearestKey returns the key whose name is most like another; "" where none is. Of a name with
// points the one before the last point is a table, and its keys are looked at first.
func NearestKey(name string) string {
	table, last := "", name
	if i := strings.LastIndexByte(name, '.'); i >= 0 {
		table, last = name[:i], name[i+1:]
	}
	var own, all []string
	for _, k := range Keys() {
		end := k.Path[len(k.Path)-1]
		if end == named {
			continue
		}
		all = append(all, end)
		if table != "" && len(k.Path) > 1 && k.Path[len(k.Path)-2] == table[strings.LastIndexByte(table, '.')+1:] {
			own = append(own, end)
		}
	}
	if near, ok := quantity.Nearest(last, own); ok {
		return table + "." + near
	}
	if near, ok := quantity.Nearest(last, all); ok {
		return near
	}
	return ""
}

// KeysOf returns the names of the keys of a table, such as "part" or "port"; none where there is
// no such table.
func KeysOf(table string) []string {
	var out []string
	for _, k := range Keys() {
		n := len(k.Path)
		above := slices.DeleteFunc(slices.Clone(k.Path[:n-1]), func(s string) bool { return s == named || s == "KIND" })
		if len(above) > 0 && above[len(above)-1] == table && k.Path[n-1] != named && !slices.Contains(out, k.Path[n-1]) {
			out = append(out, k.Path[n-1])
		}
	}
	return out
}
