package catalog

import (
	"reflect"
	"testing"

	"dryfit/catalog/quantity"
)

// plainTable is what TOML would decode for what a column says.
func plainTable(v any) any {
	switch v := v.(type) {
	case Table:
		out := map[string]any{}
		for _, one := range v {
			out[one.Key] = plainTable(one.Value)
		}
		return out
	case []any:
		out := make([]any, len(v))
		for i := range v {
			out[i] = plainTable(v[i])
		}
		return out
	}
	return v
}

// What a column says of a row it reads back into the same field, laid over nothing it is
// taken from below, and no field of a row is without its column: of every row there is.
func TestColumnsSayWhatTheyRead(t *testing.T) {
	for _, row := range Embedded().Rows() {
		for _, words := range []*quantity.Text{&row.Source, &row.Note, &row.RatingsSource, &row.ElectricSource} {
			*words = quantity.Text(words.String()) // as a description would have them
		}
		again := Row{Origin: row.Origin, Heads: row.Heads, Pressed: row.Pressed}
		for i := range columns {
			c := &columns[i]
			if !c.says(&row) {
				continue
			}
			if err := c.set(&again, plainTable(c.get(&row))); err != nil {
				t.Fatalf("%s: %s says %v, and reads it not: %v", row.Name, c.name, c.get(&row), err)
			}
		}
		again.Heads, again.Pressed = row.Heads, row.Pressed
		for i := range again.Speeds {
			again.Speeds[i].Pressed = row.Speeds[i].Pressed
		}
		if !reflect.DeepEqual(again, row) {
			t.Fatalf("another row came back:\n%+v\n%+v", row, again)
		}
		laid := Row{Name: row.Name, Source: row.Source, Grade: row.Grade, Note: row.Note, Origin: row.Origin}.Over(row)
		laid.Pressed = row.Pressed
		if !reflect.DeepEqual(laid, row) {
			t.Fatalf("laid over it, nothing else came out:\n%+v\n%+v", row, laid)
		}
	}
}

// Every column has a name of its own, and is read; one that says nothing itself says what
// another one does.
func TestColumns(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range columns {
		if c.set == nil || seen[c.name] {
			t.Errorf("%q is read by nothing, or there twice", c.name)
		}
		seen[c.name] = true
		if c.get == nil && c.name != "cv" && c.name != "loss" {
			t.Errorf("%q says nothing", c.name)
		}
		for _, other := range c.unless {
			if _, ok := findColumn(other); !ok {
				t.Errorf("%q goes with %q, which is no column", c.name, other)
			}
		}
	}
}

// Every row there is can be shown, whatever it says: a quantity with its amount.
func TestEveryRowCanBeShown(t *testing.T) {
	for _, r := range Embedded().Rows() {
		for f := range r.Says() {
			if f.Key == "least-air" && (!f.Is || f.Amount.Value != *r.LeastAirC) {
				t.Errorf("%s: least air %+v", r.Name, f)
			}
		}
	}
}
