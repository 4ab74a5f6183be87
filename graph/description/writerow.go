package description

import (
	"fmt"
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph/description/field"
)

// rowValue writes what a column of a row says as TOML.
func rowValue(v any) string {
	switch v := v.(type) {
	case string:
		return field.Quote(v)
	case float64:
		return quantity.Trim(v)
	case []any:
		out := make([]string, len(v))
		for i, item := range v {
			out[i] = rowValue(item)
		}
		return field.List(out)
	case catalog.Table:
		out := make([]string, len(v))
		for i, one := range v {
			out[i] = one.Key + " = " + rowValue(one.Value)
		}
		return "{ " + strings.Join(out, ", ") + " }"
	}
	return fmt.Sprint(v)
}

// writeRows writes the user's own rows, so that the description stands alone.
func writeRows(b *strings.Builder, c *catalog.Catalog) {
	if c == nil {
		return
	}
	for row := range c.All() {
		if !row.Own {
			continue
		}
		b.WriteString("\n[[catalog." + field.Key(row.Kind) + "]]\n")
		for s := range row.SaysItself() {
			if s.Key != "kind" { // it is in the name of the table
				b.WriteString(s.Key + " = " + rowValue(s.Value) + "\n")
			}
		}
	}
}
