package order

import (
	"bytes"
	"fmt"
	"math"
	"strings"

	"github.com/xuri/excelize/v2"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/graph/takeoff"
	"dryfit/render/table/form"
	"dryfit/render/tag"
)

// The names of the sheets.
const (
	sheetOrder  = "Order"
	sheetPick   = "Pick"
	sheetPieces = "Pieces"
)

// XLSX writes the workbook. Texts are texts: nothing in it is a formula. Equal plans give
// equal contents.
func XLSX(p *plan.Plan, units quantity.System) ([]byte, error) {
	f := excelize.NewFile()
	defer func() { _ = f.Close() }() // nothing of it lies on disk
	w := &writer{f: f, units: units, names: tag.Of(p.Circuit, p.Net())}
	if err := f.SetSheetName("Sheet1", sheetOrder); err != nil {
		return nil, err
	}
	w.order(p)
	w.pick(p)
	w.pieces(p)
	if w.err != nil {
		return nil, fmt.Errorf("writing the workbook: %w", w.err)
	}
	var out bytes.Buffer
	if err := f.Write(&out); err != nil {
		return nil, fmt.Errorf("writing the workbook: %w", err)
	}
	return out.Bytes(), nil
}

// writer fills sheets; after an error it does nothing more.
type writer struct {
	f     *excelize.File
	units quantity.System
	names *tag.Names // what the papers call what the file names by its ids
	err   error
}

// rows fills a sheet: a bold head that stays in sight, and the widths of its columns.
func (w *writer) rows(sheet string, head []string, widths []float64, rows [][]any) {
	if w.err != nil {
		return
	}
	do := func(err error) {
		if w.err == nil {
			w.err = err
		}
	}
	if i, _ := w.f.GetSheetIndex(sheet); i < 0 {
		_, err := w.f.NewSheet(sheet)
		do(err)
	}
	bold, err := w.f.NewStyle(&excelize.Style{Font: &excelize.Font{Bold: true}})
	do(err)
	for i, h := range head {
		cell, err := excelize.CoordinatesToCellName(i+1, 1)
		do(err)
		do(w.f.SetCellStr(sheet, cell, h))
		do(w.f.SetCellStyle(sheet, cell, cell, bold))
		col, err := excelize.ColumnNumberToName(i + 1)
		do(err)
		do(w.f.SetColWidth(sheet, col, col, widths[i]))
	}
	for r, row := range rows {
		for i, v := range row {
			cell, err := excelize.CoordinatesToCellName(i+1, r+2)
			do(err)
			if text, ok := v.(string); ok {
				do(w.f.SetCellStr(sheet, cell, form.Plain(text)))
			} else {
				do(w.f.SetCellValue(sheet, cell, v))
			}
		}
	}
	do(w.f.SetPanes(sheet, &excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"}))
}

// order is grouped by what is bought together, with what is known of the prices.
func (w *writer) order(p *plan.Plan) {
	o := takeoff.NewOrder(p.Bill)
	var rows [][]any
	for _, l := range o.Lines {
		it := l.Item
		many, unit := w.amount(&l)
		row := []any{l.Group, it.Name, string(it.Spec), it.Size, it.Ends, many, unit, it.Code, "", ""}
		if l.Sum.Valid {
			row[8], row[9] = it.Price, l.Sum.Decimal.InexactFloat64()
		}
		rows = append(rows, row)
	}
	total := []any{"", "sum of what has a price", "", "", "", "", "", "", "", o.Known.InexactFloat64()}
	rows = append(rows, total)
	if o.Unknown > 0 {
		rows = append(rows, []any{"", fmt.Sprintf("%d lines without a price are not in it", o.Unknown)})
	}
	money := strings.TrimSpace("sum " + p.Circuit.Job.Currency)
	w.rows(sheetOrder, []string{"group", "item", "spec", "size", "ends", "quantity with spares", "unit", "code", "price of one", money},
		[]float64{22, 44, 12, 14, 16, 12, 7, 14, 12, 12}, rows)
}

// pick is what a hand takes from the shelf, with where it goes.
func (w *writer) pick(p *plan.Plan) {
	var rows [][]any
	for _, l := range takeoff.NewOrder(p.Bill).Lines {
		it := l.Item
		measure := ""
		if it.Measure {
			measure = "measure it first"
		}
		many, unit := w.amount(&l)
		rows = append(rows, []any{"", many, unit, it.Name, it.Size, it.Ends, measure, w.where(it.Where)})
	}
	w.rows(sheetPick, []string{"taken", "quantity", "unit", "item", "size", "ends", "note", "where"}, []float64{7, 10, 7, 44, 14, 16, 16, 50}, rows)
}

// amount is how much of a line is bought, and of what: metres as feet where the papers are in inches, but
// where their price is of a metre.
func (w *writer) amount(l *takeoff.OrderLine) (float64, string) {
	n, unit := l.Quantity.InexactFloat64(), l.Item.Unit
	if unit == "m" && w.units == quantity.InchSystem && !l.Sum.Valid {
		return math.Round(n/0.3048*100) / 100, "ft"
	}
	return n, unit
}

// where names the places of an item as the papers do.
func (w *writer) where(ids []string) string {
	named := make([]string, len(ids))
	for i, id := range ids {
		named[i] = w.names.Cell(id)
	}
	return strings.Join(named, "; ")
}

// measures names the parts that are measured first, each before its colon.
func (w *writer) measures(list []string) string {
	named := make([]string, len(list))
	for i, what := range list {
		named[i] = w.names.Text(what)
		if id, rest, ok := strings.Cut(what, ": "); ok && w.names.Tags()[id] != "" {
			named[i] = w.names.Tag(id) + ": " + rest
		}
	}
	return strings.Join(named, "; ")
}

// pieces is the cut list.
func (w *writer) pieces(p *plan.Plan) {
	var rows [][]any
	if p.Cuts != nil && p.WhyNot() == "" {
		for _, c := range p.Cuts.Pieces {
			measure := ""
			if c.Measure {
				measure = "measure first: " + w.measures(c.MeasureWhat)
			}
			if c.OverMM > 0 {
				measure = strings.TrimPrefix(measure+"; over length: "+c.OverWords().In(w.units), "; ")
			}
			if words := c.ShortWords(); words != "" {
				measure = strings.TrimPrefix(measure+"; "+words.In(w.units), "; ")
			}
			if c.OnSite {
				measure = strings.TrimPrefix(measure+"; cut on site", "; ")
			}
			var cut any = quantity.Round(c.SawMM(), 1)
			if w.units == quantity.InchSystem {
				cut = quantity.Format(c.SawMM(), quantity.Length, w.units)
			}
			rows = append(rows, []any{"", c.Number, w.names.Run(c.Run.ID), string(c.Spec), c.Size.String(), cut, w.names.End(c.From.Fitting), w.names.End(c.To.Fitting), measure})
		}
	}
	length := "cut mm"
	if w.units == quantity.InchSystem {
		length = "cut"
	}
	w.rows(sheetPieces, []string{"cut", "piece", "run", "spec", "size", length, "from", "to", "note"}, []float64{6, 7, 22, 12, 10, 12, 30, 30, 40}, rows)
}
