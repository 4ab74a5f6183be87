package table

import (
	"fmt"
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
)

// field is one number of a row, for showing it whole.
type field struct {
	key  string
	text string
}

// rowFields lists what a catalogue row holds, leaving out what does not apply.
func rowFields(r catalog.Row) []field {
	var out []field
	add := func(key, text string) {
		if text != "" {
			out = append(out, field{key, text})
		}
	}
	number := func(key string, v float64, unit string, scale float64) {
		if v != 0 {
			add(key, quantity.Trim(round(v*scale, 4))+unit)
		}
	}
	add("kind", r.Kind)
	add("spec", string(r.Spec))
	add("size", r.Size.String())
	add("other size", r.Size2.String())
	add("other spec", string(r.Spec2))
	number("outside diameter", r.OutsideMM, " mm", 1)
	number("wall (least)", r.WallMM, " mm", 1)
	number("bore (mean)", r.BoreMM, " mm", 1)
	number("bore (least wall)", r.BoreMinWallMM, " mm", 1)
	number("roughness", r.RoughnessMM, " mm", 1)
	number("take-off", r.TakeOffMM, " mm", 1)
	number("branch take-off", r.BranchTakeOffMM, " mm", 1)
	number("length, stop to stop", r.LengthMM, " mm", 1)
	number("socket depth", r.SocketMM, " mm", 1)
	if r.TolMinusMM != 0 || r.TolPlusMM != 0 {
		add("tolerance", fmt.Sprintf("-%s/+%s mm", quantity.Trim(r.TolMinusMM), quantity.Trim(r.TolPlusMM)))
	}
	add("ends", r.Ends)
	number("L/D", r.LoverD, "", 1)
	number("L/D, branch", r.LoverDBranch, "", 1)
	number("K", r.K, "", 1)
	if r.KHigh != 0 {
		add("K range", quantity.Trim(r.KLow)+" to "+quantity.Trim(r.KHigh))
	}
	number("Kv", r.Kv, " m3/h", 1)
	if r.LossFlow != 0 {
		add("loss", fmt.Sprintf("%s kPa at %s m3/h", quantity.Trim(round(r.LossDropPa/1000, 3)), quantity.Trim(round(r.LossFlow*3600, 3))))
	}
	number("cracking pressure", r.CrackingPa, " kPa", 1e-3)
	if r.CrackingHighPa != 0 {
		add("cracking range", fmt.Sprintf("%s to %s kPa", quantity.Trim(round(r.CrackingLowPa/1000, 2)), quantity.Trim(round(r.CrackingHighPa/1000, 2))))
	}
	number("pressure rating", r.RatingPa, " bar", 1e-5)
	number("least flow", r.Least, " m3/h", 3600)
	number("rated flow", r.Rated, " m3/h", 3600)
	number("most flow", r.Most, " m3/h", 3600)
	number("spread of the loss", r.SpreadPct, " %", 1)
	if r.Measure {
		add("measure", "the length is a guess: measure the part first")
	}
	for _, s := range r.Speeds {
		add("speed "+s.Name, curveText(s.Curve))
	}
	if len(r.Curve) > 0 {
		add("curve", curveText(r.Curve))
	}
	add("source", r.Source)
	add("tag", r.Tag)
	add("note", r.Note)
	add("from", r.Origin)
	return out
}

func curveText(points [][2]float64) string {
	var out []string
	for _, p := range points {
		out = append(out, fmt.Sprintf("%s m3/h %s m", quantity.Trim(round(p[0]*3600, 2)), quantity.Trim(round(p[1], 2))))
	}
	return strings.Join(out, ", ")
}

// RowText prints one catalogue row whole.
func RowText(r catalog.Row, s Style) []byte {
	b := Block{Title: r.Name}
	for _, f := range rowFields(r) {
		b.Lines = append(b.Lines, fmt.Sprintf("  %-22s %s", f.key, f.text))
	}
	return Text([]Block{b}, s)
}

// RowsText prints catalogue rows, a line each.
func RowsText(rows []catalog.Row, s Style) []byte {
	g := newGrid(column{head: "name"}, column{head: "kind"}, column{head: "dimension"}, column{head: "loss"}, column{head: "known"})
	for _, r := range rows {
		from := r.Tag
		if r.Own {
			from = "yours: " + r.Origin
		}
		g.add(r.Name, r.Kind, dimension(r), lossText(r), from)
	}
	return Text([]Block{{Grid: g}}, s)
}

func dimension(r catalog.Row) string {
	switch {
	case r.BoreMM > 0:
		return "bore " + fixed(r.BoreMM, 1) + " mm"
	case r.TakeOffMM > 0:
		return "take-off " + fixed(r.TakeOffMM, 1) + " mm"
	case r.LengthMM > 0:
		return "length " + fixed(r.LengthMM, 1) + " mm"
	}
	return ""
}

func lossText(r catalog.Row) string {
	switch {
	case r.LoverD > 0:
		return "L/D " + quantity.Trim(r.LoverD)
	case r.K > 0:
		return "K " + quantity.Trim(r.K)
	case r.Kv > 0:
		return "Kv " + quantity.Trim(r.Kv)
	case r.LossFlow > 0:
		return fmt.Sprintf("%s kPa at %s m3/h", fixed(r.LossDropPa/1000, 1), fixed(r.LossFlow*3600, 1))
	}
	return ""
}

// RowsCSV prints catalogue rows: name, then every field as "key=value".
func RowsCSV(rows []catalog.Row) []byte {
	keys := []string{}
	seen := map[string]bool{}
	for _, r := range rows {
		for _, f := range rowFields(r) {
			if !seen[f.key] {
				seen[f.key] = true
				keys = append(keys, f.key)
			}
		}
	}
	var out [][]string
	for _, r := range rows {
		have := map[string]string{}
		for _, f := range rowFields(r) {
			have[f.key] = f.text
		}
		line := []string{cell(r.Name)}
		for _, k := range keys {
			line = append(line, cell(have[k]))
		}
		out = append(out, line)
	}
	return writeCSV(append([]string{"name"}, keys...), out)
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
		Fields []pair `json:"fields"`
	}
	out := struct {
		Rows []rowJSON `json:"rows"`
	}{[]rowJSON{}}
	for _, r := range rows {
		one := rowJSON{Name: r.Name, Own: r.Own, Fields: []pair{}}
		for _, f := range rowFields(r) {
			one.Fields = append(one.Fields, pair{f.key, f.text})
		}
		out.Rows = append(out.Rows, one)
	}
	return writeJSON(out)
}

// UnitsText prints every unit a description may use.
func UnitsText(units []quantity.UnitInfo, s Style) []byte {
	g := newGrid(column{head: "unit"}, column{head: "for"}, column{head: "example"})
	for _, u := range units {
		g.add(u.Symbol, u.Dimension.String(), u.Example)
	}
	return Text([]Block{{Grid: g}}, s)
}
