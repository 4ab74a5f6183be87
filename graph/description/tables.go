package description

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
	"dryfit/graph/description/meaning"
	"dryfit/graph/description/pipework"
)

// topTable is one of the tables that stand by themselves.
type topTable struct {
	name string
	list bool // [[name]]
	read func(r *field.Reader, v located.Value)
}

// topTables are the tables of a description in the order in which they are read: what a
// later one names must have been read before.
var topTables = []topTable{
	{"water", false, readWater}, // what a metre of it weighs
	{"catalog", false, ownRows},
	{"pipe", false, readPipe},
	{"job", false, readJob},
	{"site", false, readSite},
	{"part", true, pipework.ReadPart},
	{"cabinet", false, pipework.ReadCabinet},
	{"run", true, pipework.ReadRun},
	{"mode", true, pipework.ReadMode},
	{"retrofit", false, pipework.ReadRetrofit},
	{"stock", true, readStock},
	{"accept", true, readAccept},
	{"reading", true, readReading},
	{"prices", false, readPrices},
	{"heat-loss", false, readHeatLoss},
	{"cover", false, readCover},
	{"shell", true, readShell},
	{"use", false, readUse},
	{"climate", false, readClimate},
	{"tariff", false, readTariff},
	{"supply", true, readSupply},
}

// unknownTables reports the tables a description does not have.
func unknownTables(r *field.Reader, top located.Value) {
	var names []string
	for _, t := range topTables {
		names = append(names, t.name)
	}
	for _, key := range top.Keys() {
		if !slices.Contains(names, key) {
			c, _ := top.In(key)
			unknownTable(r, top, c, names)
		}
	}
}

// readTables reads every table of the file.
func readTables(r *field.Reader, top located.Value) {
	for _, t := range topTables {
		v, ok := top.In(t.name)
		if ok && t.list {
			readList(r, v, t.read)
		} else if ok {
			readSingle(r, v, t.read)
		}
		if t.name == "water" {
			weighWater(r)
		}
	}
	if _, ok := top.In("part"); !ok && !slices.Contains(r.Unread, "part") {
		r.Add(graph.Pos{File: r.Name, Line: 1, Column: 1}, "dryfit new writes a description to start from",
			"there is no [[part]]: a description says which parts there are and which runs join them")
	}
}

// unknownTable reports a table a description does not have. It is read as the one that was meant;
// where it can't be, what would follow from its not being read is not reported as well.
func unknownTable(r *field.Reader, top, c located.Value, names []string) {
	hint := located.Near(c.Key, names)
	meant, near := quantity.Nearest(c.Key, names)
	for _, k := range graph.Kinds() {
		if string(k) == c.Key {
			meant, near, hint = "part", false, fmt.Sprintf("write [[part]], with kind = %q below it", k)
		}
	}
	r.Add(r.KeyPos(c), hint, "a description has no table %s", located.Said(c.Key))
	if !near || !top.TakenAs(c.Key, meant) {
		r.Unread = append(r.Unread, meant)
	}
}

// mostOf is how many of a [[name]] are read, and what to do where there are more. Runs are bounded by
// the ports they join.
var mostOf = map[string]struct {
	many       int
	what, hint string
}{
	"part":    {field.MaxParts, "parts", "a description holds one tub; split the file"},
	"mode":    {field.MaxModes, "modes", "leave out the modes that are not used"},
	"stock":   {field.MaxStock, "lengths of stock", "leave out those that are not cut from"},
	"accept":  {field.MaxAccepted, "accepted promises", "accept each once"},
	"reading": {field.MaxReadings, "readings", "of those read at one place keep the surest"},
	"shell":   {field.MaxShells, "walls of the shell", "take walls alike together"},
	"supply":  {field.MaxSupplies, "supplies", "leave out those that nothing of the tub hangs on"},
}

// readList reads [[name]] tables.
func readList(r *field.Reader, v located.Value, read func(*field.Reader, located.Value)) {
	items, ok := v.Items()
	if !ok {
		r.Unread = append(r.Unread, v.Key)
		r.Add(r.KeyPos(v), fmt.Sprintf("write [[%s]], once for each", v.Key), "%s is one table; there may be several", located.Said(v.Key))
		return
	}
	if m, ok := mostOf[v.Key]; ok && len(items) > m.many {
		r.Unread = append(r.Unread, v.Key)
		r.Add(r.KeyPos(v), m.hint, "there are %d %s; at most %d are read", len(items), m.what, m.many)
		return
	}
	for _, item := range items {
		read(r, item)
	}
}

// readSingle reads a [name] table.
func readSingle(r *field.Reader, v located.Value, read func(*field.Reader, located.Value)) {
	if _, ok := v.V.(map[string]any); !ok {
		r.Unread = append(r.Unread, v.Key)
		if _, several := v.Items(); several {
			r.Add(r.KeyPos(v), fmt.Sprintf("write [%s] once, with single brackets", v.Key), "there is just one table %s", located.Said(v.Key))
			return
		}
		r.WrongType(v, "a table", fmt.Sprintf("[%s] and its keys below it", v.Key))
		return
	}
	read(r, v)
}

// ownRows reads [[catalog.KIND]] and lays the rows over the catalogue.
func ownRows(r *field.Reader, v located.Value) {
	t, _ := v.V.(map[string]any)
	mistypedRows(r, v)
	proseOfRows(r, v)
	rows, problems := catalog.DecodeRows(t, r.Name)
	addProblems(r, v, checked(rows, problems))
	r.Catalog = r.Catalog.With(rows).InWater(r.Metre)
}

// proseOfRows says which texts of the rows of each kind are only shown.
func proseOfRows(r *field.Reader, v located.Value) {
	for _, kind := range v.Keys() {
		rows, _ := v.In(kind)
		items, _ := rows.Items()
		for _, row := range items {
			for _, key := range row.Keys() {
				if c, _ := row.In(key); catalog.Prose(key) {
					r.IsProse(c)
				}
			}
		}
	}
}

// mistypedRows tells the kinds and keys of rows that are near to one there is, and has them read as
// those, so that a part that names the row finds it.
func mistypedRows(r *field.Reader, v located.Value) {
	near := func(v located.Value, names []string, tell func(c located.Value)) {
		for _, key := range v.Keys() {
			c, _ := v.In(key)
			if meant, ok := quantity.Nearest(key, names); ok && !slices.Contains(names, key) && v.TakenAs(key, meant) {
				tell(c)
			}
		}
	}
	kinds, columns := catalog.KindNames(), catalog.ColumnNames()
	near(v, kinds, func(c located.Value) {
		r.Add(r.KeyPos(c), located.Near(c.Key, kinds), "the catalogue has no kind %s", located.Said(c.Key))
	})
	for _, kind := range v.Keys() {
		rows, _ := v.In(kind)
		items, _ := rows.Items()
		for _, row := range items {
			near(row, columns, func(c located.Value) { r.UnknownKey(c, "a row of kind "+kind, columns) })
			for _, key := range row.Keys() {
				mistypedNested(row, key, near, r.UnknownKey)
			}
		}
	}
}

// mistypedNested does the same in the tables that a key of a row holds, one or a list.
func mistypedNested(row located.Value, key string, near func(located.Value, []string, func(located.Value)), tell func(located.Value, string, []string)) {
	keys := catalog.NestedKeys(key)
	if keys == nil {
		return
	}
	held, _ := row.In(key)
	tables, list := held.Items()
	if !list {
		tables = []located.Value{held}
	}
	for _, t := range tables {
		near(t, keys, func(c located.Value) { tell(c, "a table of "+key, keys) })
	}
}

// checked returns what is wrong with rows: how they are written, else what they say.
func checked(rows []catalog.Row, problems []catalog.Problem) []catalog.Problem {
	if len(problems) > 0 {
		return problems
	}
	return catalog.Check(rows)
}

// howWritten says what a key of a catalogue row that lacks it looks like, and what it means; ""
// where that is not known.
func howWritten(kind, key string) string {
	like := meaning.Examples("row", key)
	if len(like) == 0 || !slices.Contains(catalog.KindNames(), kind) {
		return ""
	}
	return fmt.Sprintf("write %s, such as %s: %s", key, tomlOf(json.RawMessage(like[0])), meaning.Of("row", key))
}

// columnHint names the keys of a row that are most like one there is not: all of them are too many
// for a hint.
func columnHint(key string) string {
	names := catalog.ColumnNames()
	near := quantity.MostLike(key, names, 3)
	return fmt.Sprintf("the nearest are %s, %s and %s; dryfit check --explain catalog lists all %d keys of a row", near[0], near[1], near[2], len(names))
}

// addProblems reports what is wrong with catalogue rows at the keys they name.
func addProblems(r *field.Reader, v located.Value, problems []catalog.Problem) {
	rows := map[string][]located.Value{} // of each kind, taken apart once
	for _, p := range problems {
		at := v
		if kind, ok := v.In(p.Kind); ok {
			at = kind
			if _, ok := rows[p.Kind]; !ok {
				rows[p.Kind], _ = kind.Items()
			}
			if items := rows[p.Kind]; p.Index < len(items) {
				at = items[p.Index]
			}
		}
		pos := r.KeyPos(at)
		message := p.Message
		if key, ok := at.In(p.Key); ok && slices.Contains(catalog.ColumnNames(), p.Key) {
			pos = r.ValuePos(key)
		} else if ok {
			pos = r.KeyPos(key)
		}
		if plain := message.String(); plain == string(message) { // of a user's words, not of amounts
			message = quantity.Text(located.Inert(plain))
		}
		if !strings.Contains(message.String(), p.Key) {
			message = quantity.Say("%s: %s", p.Key, message)
		}
		hint := p.Hint
		switch {
		case hint != "":
		case p.Key == "":
			hint = located.ThereAre(catalog.KindNames())
		case !slices.Contains(catalog.ColumnNames(), p.Key):
			hint = columnHint(p.Key)
		default:
			if _, said := at.In(p.Key); !said {
				hint = howWritten(p.Kind, p.Key)
			}
		}
		r.Add(pos, located.Inert(hint), "%s", message)
	}
}
