package order

import (
	"bytes"
	"fmt"
	"math"
	"strings"

	"github.com/xuri/excelize/v2"

	"dryfit/catalog/quantity"
	"dryfit/graph"
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
	w := &writer{f: f, units: units, job: p.Circuit.Titled(), names: tag.Of(p.Circuit, p.Net())}
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

// writer fills sheets; err is the first thing that went wrong.
type writer struct {
	f     *excelize.File
	units quantity.System
	job   graph.Job
	names *tag.Names // what the papers call what the file names by its ids
	err   error
}

// money is a price or a sum: a number shown with two places at the least.
type money float64

// rows fills a sheet: a bold head that stays in sight and on every page, and the widths of its columns.
func (w *writer) rows(sheet string, head []string, widths []float64, rows [][]any) {
	if i, _ := w.f.GetSheetIndex(sheet); i < 0 {
		_, err := w.f.NewSheet(sheet)
		w.do(err)
	}
	bold := w.style(&excelize.Style{Font: &excelize.Font{Bold: true}, Alignment: wrapped})
	plain := w.style(&excelize.Style{Alignment: wrapped})
	places := "0.00##"
	priced := w.style(&excelize.Style{Alignment: wrapped, CustomNumFmt: &places})
	for i, h := range head {
		w.cell(sheet, i+1, 1, h, bold)
		col, err := excelize.ColumnNumberToName(i + 1)
		w.do(err)
		w.do(w.f.SetColWidth(sheet, col, col, widths[i]))
	}
	for r, row := range rows {
		for i, v := range row {
			if m, ok := v.(money); ok {
				w.cell(sheet, i+1, r+2, float64(m), priced)
			} else {
				w.cell(sheet, i+1, r+2, v, plain)
			}
		}
	}
	last, err := excelize.CoordinatesToCellName(len(head), len(rows)+1)
	w.do(err)
	w.do(w.f.SetSheetDimension(sheet, "A1:"+last)) // some read no farther
	w.do(w.f.SetPanes(sheet, &excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"}))
	w.paper(sheet)
}

// wrapped keeps a long text within its column, on paper too.
var wrapped = &excelize.Alignment{WrapText: true, Vertical: "top"}

// cell writes one cell: a text as a text, never as a formula.
func (w *writer) cell(sheet string, col, row int, v any, style int) {
	name, err := excelize.CoordinatesToCellName(col, row)
	w.do(err)
	if text, ok := v.(string); ok {
		w.do(w.f.SetCellStr(sheet, name, form.Plain(text)))
	} else {
		w.do(w.f.SetCellValue(sheet, name, v))
	}
	w.do(w.f.SetCellStyle(sheet, name, name, style))
}

// paper is how a sheet prints: all columns on one page's width, the head on each page, the job above
// it and the page below.
func (w *writer) paper(sheet string) {
	landscape, one, many, fit := "landscape", 1, 0, true
	w.do(w.f.SetPageLayout(sheet, &excelize.PageLayoutOptions{Orientation: &landscape, FitToWidth: &one, FitToHeight: &many}))
	w.do(w.f.SetSheetProps(sheet, &excelize.SheetPropsOptions{FitToPage: &fit}))
	w.do(w.f.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", RefersTo: sheet + "!$1:$1", Scope: sheet}))
	w.do(w.f.SetHeaderFooter(sheet, &excelize.HeaderFooterOptions{OddHeader: "&L" + heading(w.job) + "&R&A", OddFooter: "&Rpage &P of &N"}))
}

// headingRunes is as long as a job's name and reference may be above a sheet: programs that read it
// take 255 characters of a header (common practice, from memory), and an & is written twice in it.
const headingRunes = 100

// heading names the job as a header of a sheet writes it.
func heading(j graph.Job) string {
	name := []rune(strings.Trim(j.Name+", "+j.Reference, ", "))
	if len(name) > headingRunes {
		name = append(name[:headingRunes-1], '…')
	}
	return strings.ReplaceAll(form.Plain(string(name)), "&", "&&")
}

// do keeps the first error.
func (w *writer) do(err error) {
	if w.err == nil {
		w.err = err
	}
}

func (w *writer) style(s *excelize.Style) int {
	n, err := w.f.NewStyle(s)
	w.do(err)
	return n
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
			row[8], row[9] = money(l.Each.Decimal.InexactFloat64()), money(l.Sum.Decimal.InexactFloat64())
		}
		rows = append(rows, row)
	}
	total := []any{"", "sum of what has a price", "", "", "", "", "", "", "", money(o.Known.InexactFloat64())}
	rows = append(rows, total)
	if o.Unknown > 0 {
		rows = append(rows, []any{"", fmt.Sprintf("%d lines without a price are not in it", o.Unknown)})
	}
	in := func(what string) string { return strings.TrimSpace(what + " " + p.Circuit.Job.Currency) }
	w.rows(sheetOrder, []string{"group", "item", "spec", "size", "ends", "quantity with spares", "unit", "code", in("price of one"), in("sum")},
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
func (w *writer) where(places []takeoff.Place) string {
	return strings.Join(w.names.Places(takeoff.Counted(places)), "; ")
}

// measures names the parts that are measured first, each before its colon, in the trade's words.
func (w *writer) measures(list []string) string {
	named := make([]string, len(list))
	for i, what := range list {
		named[i] = w.names.Text(what)
		if id, rest, ok := strings.Cut(what, ": "); ok && w.names.Tags()[id] != "" {
			named[i] = w.names.Tag(id) + ": " + rest
		}
		named[i] = tag.Measured(named[i])
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
				measure = strings.TrimPrefix(measure+"; over length: "+tag.Joints(c.OverWords().In(w.units)), "; ")
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
