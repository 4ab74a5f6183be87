package catalog

import (
	"errors"
	"fmt"
	"maps"
	"slices"

	"dryfit/catalog/quantity"
)

// mostRows is how many rows one file may add.
const mostRows = 5000

// DecodeRows reads the rows of [[catalog.KIND]] tables: tables is what TOML decodes for the
// key "catalog", from a kind to its tables. Keys have the names of ColumnNames; what is
// wrong is reported with the kind, the index of the table and the key, and the other rows
// are still read. Rows get Own and origin. A row without a name is given the one the
// catalogue would give it ("elbow-90 pvc-sch40 2 in"), and so takes the place of that row.
func DecodeRows(tables map[string]any, origin string) ([]Row, []Problem) {
	rows, problems := decodeRows(tables, origin)
	for i := range rows {
		rows[i].Own = true
	}
	return rows, problems
}

// DecodeFile reads the rows of a whole catalogue file: [[catalog.KIND]] tables, or [[KIND]]
// tables at the top.
func DecodeFile(file map[string]any, origin string) ([]Row, []Problem) {
	inner, ok := file["catalog"].(map[string]any)
	if !ok {
		return DecodeRows(file, origin)
	}
	rows, problems := DecodeRows(inner, origin)
	for _, key := range slices.Sorted(maps.Keys(file)) {
		if key != "catalog" {
			problems = append(problems, Problem{Kind: key, Origin: origin,
				Message: quantity.Say("unknown table %q", key), Hint: "a catalogue file holds [[catalog.KIND]] tables"})
		}
	}
	return rows, problems
}

func decodeRows(all map[string]any, origin string) (rows []Row, problems []Problem) {
	for _, kind := range slices.Sorted(maps.Keys(all)) {
		if !isKind(kind) {
			var e *quantity.Error
			errors.As(unknown("kind", kind, KindNames()), &e)
			if name := pointed(kind, all[kind]); name != "" {
				e.Hint = fmt.Sprintf("write a name with a point in quotes: [[catalog.%q]]", name)
			} else if of, ok := styleKinds[kind]; ok {
				e.Hint = fmt.Sprintf("write [[catalog.%s]], and below it style = %q", of, kind)
			}
			problems = append(problems, Problem{Kind: kind, Origin: origin, Message: quantity.Text(e.Message), Hint: e.Hint})
			continue
		}
		list := tables(all[kind])
		if list == nil {
			problems = append(problems, Problem{Kind: kind, Origin: origin,
				Message: quantity.Say("%q is not a table", kind), Hint: fmt.Sprintf("write [[catalog.%s]] and the keys below it", kind)})
			continue
		}
		for i, t := range list {
			if len(rows) == mostRows {
				return rows, append(problems, Problem{Kind: kind, Index: i, Origin: origin,
					Message: quantity.Say("there are more than %d rows", mostRows)})
			}
			row, bad := decodeRow(kind, t, origin)
			for _, p := range bad {
				p.Kind, p.Index, p.Origin = kind, i, origin
				problems = append(problems, p)
			}
			rows = append(rows, row)
		}
	}
	return rows, problems
}

// pointed returns the kind that a table name without quotes was meant for: TOML reads
// elbow-22.5 as a table 5 in a table elbow-22.
func pointed(kind string, table any) string {
	inner, _ := table.(map[string]any)
	for _, key := range slices.Sorted(maps.Keys(inner)) {
		if name := kind + "." + key; isKind(name) {
			return name
		}
	}
	return ""
}

// mayBeZero are the columns in which zero says what leaving them out does. Any other would be taken
// for left out, and filled from the row below.
var mayBeZero = []string{"tol-minus", "tol-plus", "roughness", "k-low", "loss-low", "head-share-low", "cracking", "cracking-low", "spread"}

func decodeRow(kind string, t map[string]any, origin string) (Row, []Problem) {
	r := Row{Kind: kind, Origin: origin}
	var bad []Problem
	for _, c := range columns { // in this order: a size wants to know the spec
		v, ok := t[c.name]
		if !ok {
			continue
		}
		if c.name == "kind" {
			bad = append(bad, Problem{Key: "kind", Message: "the kind is in the name of the table", Hint: "leave this key out"})
			continue
		}
		if err := c.set(&r, v); err != nil {
			bad = append(bad, problemOf(c.name, err))
		} else if c.num != nil && c.num(&r) == 0 && c.dim != quantity.Temperature && !slices.Contains(mayBeZero, c.name) {
			hint := "leave the key out where it does not apply or nobody knows it"
			if c.name == "length" {
				hint += `; where the part has none, write length = "0 mm" on the part`
			}
			bad = append(bad, Problem{Key: c.name, Message: "is zero", Hint: hint})
		}
	}
	for _, key := range slices.Sorted(maps.Keys(t)) {
		if _, ok := findColumn(key); !ok {
			bad = append(bad, problemOf(key, unknown("key", key, ColumnNames())))
		}
	}
	if r.Name == "" {
		r.Name = r.defaultName()
	}
	for i := range bad {
		bad[i].Row = r.Name
	}
	return r, bad
}

// problemOf turns an error into a problem, with the hint it may carry.
func problemOf(key string, err error) Problem {
	// Only an error that is nothing but that of a quantity: one around it says more.
	if e, ok := err.(*quantity.Error); ok { //nolint:errorlint
		return Problem{Key: key, Message: quantity.Text(e.Message), Hint: e.Hint}
	}
	return Problem{Key: key, Message: quantity.OfError(err)}
}

// defaultName is the name of a row that was given none: kind or style, spec and size.
func (r Row) defaultName() string {
	name := r.Kind
	if r.Style != "" {
		name = r.Style
	}
	if r.Spec != "" {
		name += " " + string(r.Spec)
	}
	if !r.Size.IsZero() {
		name += " " + pair(r.Size, r.Size2)
	}
	return name
}
