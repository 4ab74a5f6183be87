package takeoff

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/shopspring/decimal"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/takeoff/stock"
)

const (
	mostPieces    = 5000    // of a plain list
	mostListBytes = 1 << 20 // read
)

// DefaultKerfMM is what one saw cut takes where nobody said, mm: the catalogue's for its
// default tool.
func DefaultKerfMM() float64 {
	k, _ := catalog.Kerf("")
	return k.MM
}

// ParseStock reads a length of stock as it is typed: "3000 mm @ 9.60", "5 m" without a
// price, "1740 mm @ 0 x 1" for one offcut in the van. The price is of one bar; a count after
// x limits how many there are. A price of 0 means that it is in the van.
func ParseStock(text string) (stock.Supply, error) {
	teach := func(format string, args ...any) error {
		return fmt.Errorf("stock %q: %s; write a length and its price, like %q, or %q for one offcut in the van",
			text, fmt.Sprintf(format, args...), "3000 mm @ 9.60", "1740 mm @ 0 x 1")
	}
	length, rest, priced := strings.Cut(text, "@")
	if !priced {
		if at := strings.LastIndex(text, " x "); at >= 0 {
			length, rest = text[:at], text[at:]
		}
	}
	q, err := quantity.Parse(strings.TrimSpace(length), quantity.Length)
	if err != nil {
		return stock.Supply{}, fmt.Errorf("stock %q: %w", text, err)
	}
	if !stock.Plannable(q.Value) {
		return stock.Supply{}, teach("a bar is longer than 0 and at most %g m", stock.MostLengthMM/1000)
	}
	out := stock.Supply{LengthMM: q.Value}
	price, count, counted := strings.Cut(rest, "x")
	if counted {
		n, err := strconv.Atoi(strings.TrimSpace(count))
		if err != nil || n < 1 || n > mostPieces {
			return stock.Supply{}, teach("%q is not a count from 1 to %d", strings.TrimSpace(count), mostPieces)
		}
		out.Count = n
	}
	if priced {
		out.Price, err = parsePrice(strings.TrimSpace(price))
		if err != nil {
			return stock.Supply{}, teach("%v", err)
		}
		out.Offcut = out.Price.Decimal.IsZero()
		if out.Offcut && !counted {
			return stock.Supply{}, teach("of what costs nothing say how many there are: %q", strings.TrimSpace(text)+" x 1")
		}
	}
	return out, nil
}

// mostPrice is more than any bar costs, in any currency.
const mostPrice = 1_000_000

// parsePrice reads a price: decimal digits with a point, at most four behind it.
func parsePrice(text string) (decimal.NullDecimal, error) {
	if text == "" {
		return decimal.NullDecimal{}, errors.New("the price is missing")
	}
	if strings.Contains(text, ",") {
		return decimal.NullDecimal{}, fmt.Errorf("write the price %q with a point: %q", text, strings.ReplaceAll(text, ",", "."))
	}
	whole, frac, _ := strings.Cut(text, ".")
	if whole == "" || !digits(whole) || !digits(frac) || len(whole) > 7 || len(frac) > 4 {
		return decimal.NullDecimal{}, fmt.Errorf("%q is not a price", text)
	}
	d, err := decimal.NewFromString(text)
	if err != nil || d.GreaterThan(decimal.NewFromInt(mostPrice)) {
		return decimal.NullDecimal{}, fmt.Errorf("%q is not a price", text)
	}
	return decimal.NewNullDecimal(d), nil
}

func digits(s string) bool {
	for i := range len(s) {
		if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return true
}

// ParsePieces reads a plain list of pieces as CSV: a header that names the columns length
// and quantity, in either order, then a line for each length, with its unit: "1250 mm,3".
// The quantity may be left out and is 1 then. Pieces are numbered from 1 in the order of the
// list. Empty lines and lines that begin with # are passed over. Every mistake is found, with
// its place; with one there are no pieces.
func ParsePieces(file string, data []byte) ([]stock.Demand, []graph.Diagnostic) {
	r := &listReader{file: file, length: -1, quantity: -1}
	switch {
	case len(data) > mostListBytes:
		r.fail(1, 1, "the list is larger than 1 MB", "split it")
		return nil, r.found
	case !utf8.Valid(data):
		r.fail(1, 1, "the list is not UTF-8 text", "save it as UTF-8")
		return nil, r.found
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	for i, line := range strings.Split(string(data), "\n") {
		if len(r.found) >= 100 {
			break
		}
		r.line(i+1, strings.TrimSuffix(line, "\r"))
	}
	switch {
	case len(r.found) > 0:
	case !r.header:
		r.fail(1, 1, "the list is empty", listHint)
	case len(r.pieces) == 0:
		r.fail(1, 1, "there are no pieces under the header", listHint)
	}
	if len(r.found) > 0 {
		return nil, graph.SortDiagnostics(r.found)
	}
	return r.pieces, nil
}

const listHint = `the first line is "length,quantity"; then a line for each length, like "1250 mm,3"`

// listReader is a list being read.
type listReader struct {
	file             string
	header           bool
	length, quantity int // columns
	columns          int
	pieces           []stock.Demand
	found            []graph.Diagnostic
}

func (r *listReader) fail(line, column int, message, hint string) {
	r.found = append(r.found, graph.Diagnostic{Pos: graph.Pos{File: r.file, Line: line, Column: column},
		Rule: "reading", Severity: graph.Error, Message: message, Hint: hint})
}

// cell is one field of a line with its column, in characters from 1.
type cell struct {
	text   string
	column int
}

// cells splits a line at its commas (or semicolons, as some spreadsheets write). A field in
// double quotes may hold them; a doubled quote in it is one.
func cells(line string) (out []cell, ok bool) {
	sep := byte(',')
	if strings.Contains(line, ";") && !strings.Contains(line, ",") {
		sep = ';'
	}
	for at := 0; ; {
		start := at
		for at < len(line) && line[at] == ' ' {
			at++
		}
		column := utf8.RuneCountInString(line[:at]) + 1
		if at < len(line) && line[at] == '"' {
			var b strings.Builder
			at++
			for {
				end := strings.IndexByte(line[at:], '"')
				if end < 0 {
					return nil, false
				}
				b.WriteString(line[at : at+end])
				at += end + 1
				if at >= len(line) || line[at] != '"' {
					break
				}
				b.WriteByte('"')
				at++
			}
			for at < len(line) && line[at] == ' ' {
				at++
			}
			if at < len(line) && line[at] != sep {
				return nil, false
			}
			out = append(out, cell{strings.TrimSpace(b.String()), column})
		} else {
			end := strings.IndexByte(line[start:], sep)
			if end < 0 {
				end = len(line) - start
			}
			at = start + end
			out = append(out, cell{strings.TrimSpace(line[start:at]), column})
		}
		if at >= len(line) {
			return out, true
		}
		at++ // the separator
	}
}

// line reads one line.
func (r *listReader) line(number int, text string) {
	if t := strings.TrimSpace(text); t == "" || t[0] == '#' {
		return
	}
	for i, c := range []rune(text) {
		if c < ' ' && c != '\t' || c == 0x7f {
			r.fail(number, i+1, "the line holds a control character", "write plain text")
			return
		}
	}
	fields, ok := cells(text)
	switch {
	case !ok:
		r.fail(number, 1, "a quoted field does not end, or goes on behind its quotes", `write "" for a quote inside quotes`)
	case !r.header:
		r.readHeader(number, fields)
	case r.length < 0: // the header was wrong: said already
	default:
		r.readPiece(number, fields)
	}
}

func (r *listReader) readHeader(number int, fields []cell) {
	r.header, r.columns = true, len(fields)
	for i, f := range fields {
		switch name := strings.ToLower(f.text); {
		case name == "length" && r.length < 0:
			r.length = i
		case name == "quantity" && r.quantity < 0:
			r.quantity = i
		case name == "length" || name == "quantity":
			r.fail(number, f.column, fmt.Sprintf("the column %s is there twice", name), listHint)
		default:
			hint := listHint
			if near, ok := quantity.Nearest(name, []string{"length", "quantity"}); ok {
				hint = fmt.Sprintf("did you mean %q? %s", near, listHint)
			}
			r.fail(number, f.column, fmt.Sprintf("unknown column %q", f.text), hint)
		}
	}
	if r.length < 0 && len(r.found) == 0 {
		r.fail(number, 1, "the header names no column length", listHint)
	}
}

func (r *listReader) readPiece(number int, fields []cell) {
	if len(fields) > r.columns {
		f := fields[r.columns]
		r.fail(number, f.column, fmt.Sprintf("the line has %d fields, the header %d", len(fields), r.columns),
			"a decimal comma splits a field: write a point")
		return
	}
	if r.length >= len(fields) || fields[r.length].text == "" {
		r.fail(number, 1, "the length is missing", listHint)
		return
	}
	length := fields[r.length]
	q, err := quantity.Parse(length.text, quantity.Length)
	if err != nil {
		column, hint := length.column, ""
		var e *quantity.Error
		message := err.Error()
		if errors.As(err, &e) {
			column += utf8.RuneCountInString(e.Text[:min(max(e.Offset, 0), len(e.Text))])
			message, hint = e.Message, e.Hint
		}
		r.fail(number, column, message, hint)
		return
	}
	if !stock.Plannable(q.Value) {
		r.fail(number, length.column, fmt.Sprintf("%q is no length to cut: it is longer than 0 and at most %g m", length.text, stock.MostLengthMM/1000), "")
		return
	}
	n := 1
	if r.quantity >= 0 && r.quantity < len(fields) && fields[r.quantity].text != "" {
		f := fields[r.quantity]
		n, err = strconv.Atoi(f.text)
		if err != nil || n < 1 || n > mostPieces {
			r.fail(number, f.column, fmt.Sprintf("%q is not a count from 1 to %d", f.text, mostPieces), "write a whole number")
			return
		}
	}
	if len(r.pieces)+n > mostPieces {
		r.fail(number, 1, fmt.Sprintf("the list has more than %d pieces", mostPieces), "split it")
		return
	}
	for range n {
		r.pieces = append(r.pieces, stock.Demand{Number: len(r.pieces) + 1, LengthMM: math.Round(q.Value*1e6) / 1e6})
	}
}
