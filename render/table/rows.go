package table

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/render/table/form"
)

// rowWords prints what a row says in one column: a quantity in the style's units, and so the
// amounts in the words of a built-in one.
func rowWords(s catalog.Said, style form.Style) string {
	if s.Is {
		return amountWords(s, style.Units)
	}
	if s.Prose != "" {
		return s.Prose.In(style.Units)
	}
	if _, words := s.Value.(string); !words && style.Units == quantity.InchSystem {
		return valueWords(inInch(s.Value))
	}
	return valueWords(s.Value)
}

// amountWords prints an amount of a row as the table says it; where that is in units of another
// system, those of the reader stand behind it.
func amountWords(s catalog.Said, units quantity.System) string {
	said, read := valueWords(s.Value), settledWords(s.Amount.Value, s.Amount.Dimension, units)
	if mm := s.Amount.Value; s.Amount.Dimension == quantity.Length && strings.HasSuffix(said, " mm") && mm != form.Round(mm, 4) { // given in inches: in mm it is nobody's number
		if n := 64 * quantity.In(mm, quantity.Length, "in"); units == quantity.InchSystem && form.Round(n, 6) == form.Round(n, 0) {
			return quantity.Closely(mm).In(units)
		}
		return read
	}
	unit := func(words string) string { return words[strings.LastIndexByte(words, ' ')+1:] }
	if q, err := quantity.Parse(read, s.Amount.Dimension); err == nil && q.Value == s.Amount.Value {
		return read
	} else if unit(said) == unit(read) {
		return said
	}
	return said + " (" + read + ")"
}

// inInch is a list or a table with its quantities, which are texts, in inch units.
func inInch(v any) any {
	switch v := v.(type) {
	case string:
		q, err := quantity.Parse(v, quantity.Flow, quantity.Head, quantity.Pressure, quantity.Temperature, quantity.Power)
		if err != nil {
			q, err = quantity.Parse(v, quantity.Length)
		}
		if err != nil {
			return v
		}
		return quantity.Format(q.Value, q.Dimension, quantity.InchSystem)
	case []any:
		out := make([]any, len(v))
		for i := range v {
			out[i] = inInch(v[i])
		}
		return out
	case catalog.Table:
		out := slices.Clone(v)
		for i := range out {
			out[i].Value = inInch(out[i].Value)
		}
		return out
	}
	return v
}

// valueWords prints a value as one reads it: a list with commas, a table by its keys.
func valueWords(v any) string {
	switch v := v.(type) {
	case float64:
		return quantity.Trim(form.Round(v, 6))
	case bool:
		return "yes"
	case []any:
		var out []string
		between := ", "
		for _, item := range v {
			if inner, ok := item.([]any); ok { // a point
				var point []string
				for _, x := range inner {
					point = append(point, valueWords(x))
				}
				if out = append(out, strings.Join(point, " ")); len(inner) > 2 {
					between = "; "
				}
			} else {
				out = append(out, valueWords(item))
			}
		}
		return strings.Join(out, between)
	case catalog.Table:
		var out []string
		for _, one := range v {
			out = append(out, one.Key+" "+valueWords(one.Value))
		}
		return strings.Join(out, ", ")
	}
	return fmt.Sprint(v)
}

// RowText prints one catalogue row whole.
func RowText(r catalog.Row, s form.Style) []byte {
	b := form.Block{Title: r.Name}
	for f := range r.Says() {
		if f.Key != "name" {
			b.Lines = append(b.Lines, fmt.Sprintf("  %-26s %s", f.Heading, rowWords(f, s)))
		}
	}
	if r.Origin != "" {
		b.Lines = append(b.Lines, fmt.Sprintf("  %-26s %s", "from", r.Origin))
	}
	return form.Text([]form.Block{b}, s)
}

// RowsText prints catalogue rows, a line each.
func RowsText(rows []catalog.Row, s form.Style) []byte {
	g := form.NewGrid(form.Column{Head: "name"}, form.Column{Head: "kind"}, form.Column{Head: "dimension"}, form.Column{Head: "loss"}, form.Column{Head: "known"})
	for _, r := range rows {
		from := r.Grade
		if r.Own {
			from = "yours: " + r.Origin
		}
		g.Add(r.Name, r.Kind, dimensionText(s, r), rowLoss(s, r), from)
	}
	return form.Text([]form.Block{{Grid: g}}, s)
}

func dimensionText(s form.Style, r catalog.Row) string {
	long := func(mm float64) string { return settledWords(mm, quantity.Length, s.Units) }
	switch {
	case r.BoreMM > 0:
		return "bore " + long(r.BoreMM)
	case r.TakeOffMM > 0:
		return "take-off " + long(r.TakeOffMM)
	case r.LengthMM > 0:
		return "length " + long(r.LengthMM)
	case r.RoomMM > 0:
		return "room " + long(r.RoomMM)
	}
	return ""
}

func rowLoss(s form.Style, r catalog.Row) string {
	switch {
	case r.LoverD > 0:
		return "L/D " + quantity.Trim(r.LoverD)
	case r.K > 0:
		return "K " + quantity.Trim(r.K)
	case r.Kv > 0:
		return quantity.Kv.Of(r.Kv).In(s.Units)
	case r.LossFlow > 0:
		return s.Pressure(r.LossDropPa) + " at " + s.Flow(r.LossFlow)
	}
	return ""
}

// RowsCSV prints catalogue rows: a column for every key that one of them says, as a
// description would write it.
func RowsCSV(rows []catalog.Row) []byte {
	keys := []string{}
	seen := map[string]bool{}
	for _, r := range rows {
		for f := range r.Says() {
			if !seen[f.Key] && f.Key != "name" {
				seen[f.Key] = true
				keys = append(keys, f.Key)
			}
		}
	}
	var out [][]string
	for _, r := range rows {
		have := map[string]string{}
		for f := range r.Says() {
			have[f.Key] = valueWords(f.Value)
		}
		line := []string{form.Cell(r.Name)}
		have["from"] = r.Origin
		for _, k := range append(keys[:len(keys):len(keys)], "from") {
			line = append(line, form.Cell(have[k]))
		}
		out = append(out, line)
	}
	return form.WriteCSV(append(append([]string{"name"}, keys...), "from"), out)
}

// RowsJSON prints catalogue rows as objects of texts.
func RowsJSON(rows []catalog.Row) ([]byte, error) {
	type pair struct {
		Key   string `json:"key"`
		Value string `json:"value"`
	}
	type rowJSON struct {
		Name   string `json:"name"`
		Own    bool   `json:"own_row"`
		From   string `json:"from"` // file and line
		Fields []pair `json:"fields"`
	}
	out := struct {
		Rows []rowJSON `json:"rows"`
	}{[]rowJSON{}}
	for _, r := range rows {
		one := rowJSON{Name: r.Name, Own: r.Own, From: r.Origin, Fields: []pair{}}
		for f := range r.Says() {
			if f.Key != "name" {
				one.Fields = append(one.Fields, pair{f.Key, valueWords(f.Value)})
			}
		}
		out.Rows = append(out.Rows, one)
	}
	return form.WriteJSON(out)
}

// UnitsText prints every unit a description may use.
func UnitsText(units []quantity.UnitInfo, s form.Style) []byte {
	g := form.NewGrid(form.Column{Head: "unit"}, form.Column{Head: "for"}, form.Column{Head: "example"})
	for _, u := range units {
		g.Add(u.Symbol, u.Dimension.String(), u.Example)
	}
	return form.Text([]form.Block{{Grid: g}}, s)
}
