package description

import (
	"fmt"
	"strings"

	"dryfit/catalog"
	"dryfit/graph"
)

// topTables are the tables of a description in the order in which they are read: what a
// later one names must have been read before.
var topTables = []struct {
	name string
	list bool // [[name]]
	read func(r *reader, v value)
}{
	{"catalog", false, (*reader).ownRows},
	{"pipe", false, (*reader).pipe},
	{"job", false, (*reader).job},
	{"water", false, (*reader).water},
	{"site", false, (*reader).site},
	{"part", true, (*reader).part},
	{"run", true, (*reader).run},
	{"mode", true, (*reader).mode},
	{"retrofit", false, (*reader).retrofit},
	{"stock", true, (*reader).stock},
	{"prices", false, (*reader).prices},
	{"heat-loss", false, (*reader).heatLoss},
	{"cover", false, (*reader).cover},
	{"shell", true, (*reader).shell},
	{"use", false, (*reader).use},
	{"climate", false, (*reader).climate},
	{"tariff", false, (*reader).tariff},
	{"supply", true, (*reader).supply},
}

// tables reads every table of the file.
func (r *reader) tables(top value) {
	var names []string
	for _, t := range topTables {
		names = append(names, t.name)
	}
	for _, key := range top.keys() {
		if !oneOf(key, names) {
			c, _ := top.in(key)
			r.unknownTable(c, names)
		}
	}
	for _, t := range topTables {
		v, ok := top.in(t.name)
		if ok && t.list {
			r.list(v, t.read)
		} else if ok {
			r.single(v, t.read)
		}
	}
	if _, ok := top.in("part"); !ok && !oneOf("part", r.unread) {
		r.add(graph.Pos{File: r.file, Line: 1, Column: 1}, "dryfit new writes a description to start from",
			"there is no [[part]]: a description says which parts there are and which runs join them")
	}
}

// unknownTable reports a table a description does not have. What would follow from its not
// being read is not reported as well.
func (r *reader) unknownTable(c value, names []string) {
	hint := near(c.key, names)
	meant, _ := nearest(c.key, names)
	for _, k := range graph.Kinds() {
		if string(k) == c.key {
			meant, hint = "part", fmt.Sprintf("write [[part]], with kind = %q below it", k)
		}
	}
	r.unread = append(r.unread, meant)
	r.add(r.keyPos(c), hint, "a description has no table %s", said(c.key))
}

// list reads [[name]] tables.
func (r *reader) list(v value, read func(*reader, value)) {
	items, ok := v.items()
	if !ok {
		r.unread = append(r.unread, v.key)
		r.add(r.keyPos(v), fmt.Sprintf("write [[%s]], once for each", v.key), "%s is one table; there may be several", said(v.key))
		return
	}
	if v.key == "part" && len(items) > MaxParts {
		r.unread = append(r.unread, v.key)
		r.add(r.keyPos(v), "a description holds one tub; split the file", "there are %d parts; at most %d are read", len(items), MaxParts)
		return
	}
	if v.key == "mode" && len(items) > maxModes {
		r.add(r.keyPos(v), "leave out the modes that are not used", "there are %d modes; at most %d are read", len(items), maxModes)
		return
	}
	for _, item := range items {
		read(r, item)
	}
}

// single reads a [name] table.
func (r *reader) single(v value, read func(*reader, value)) {
	if _, ok := v.v.(map[string]any); !ok {
		r.unread = append(r.unread, v.key)
		if _, several := v.items(); several {
			r.add(r.keyPos(v), fmt.Sprintf("write [%s] once, with single brackets", v.key), "there is just one table %s", said(v.key))
			return
		}
		r.wrongType(v, "a table", fmt.Sprintf("[%s] and its keys below it", v.key))
		return
	}
	read(r, v)
}

// ownRows reads [[catalog.KIND]] and lays the rows over the catalogue.
func (r *reader) ownRows(v value) {
	t, _ := v.v.(map[string]any)
	rows, problems := catalog.DecodeRows(t, r.file)
	r.problems(v, problems)
	r.catalog = r.catalog.With(rows)
}

// problems reports what is wrong with catalogue rows at the keys they name.
func (r *reader) problems(v value, problems []catalog.Problem) {
	for _, p := range problems {
		at := v
		if kind, ok := v.in(p.Kind); ok {
			at = kind
			if items, ok := kind.items(); ok && p.Index < len(items) {
				at = items[p.Index]
			}
		}
		pos := r.keyPos(at)
		message := p.Message
		if key, ok := at.in(p.Key); ok {
			pos = r.valuePos(key)
			if !strings.Contains(message, p.Key) {
				message = p.Key + ": " + message
			}
		}
		hint := p.Hint
		switch {
		case hint != "":
		case p.Key == "":
			hint = thereAre(catalog.KindNames())
		case !oneOf(p.Key, catalog.ColumnNames()):
			hint = thereAre(catalog.ColumnNames())
		}
		r.add(pos, inert(hint), "%s", inert(message))
	}
}
