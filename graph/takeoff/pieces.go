package takeoff

import (
	"bytes"
	"errors"
	"strconv"
	"strings"
	"unicode/utf8"

	"dryfit/catalog/quantity"
	"dryfit/catalog/tables"
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
	k, _ := tables.Kerf("")
	return k.MM
}

// ParsePieces reads a plain list of pieces as CSV: a header that names the columns length
// and quantity, in either order, then a line for each length, with its unit: "1250 mm,3".
// The header decides what stands between columns: a comma, a semicolon or a tab. Decimals have
// a point, or a comma where commas don't part columns, the same all through the list; a list
// that can be read both ways, with different lengths, is refused. The quantity may be left out
// and is 1 then. Pieces are numbered from 1 in the order of the list. Empty lines and lines
// that begin with # are passed over. Every mistake is found, with its place; with one there
// are no pieces.
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
	case len(r.rows) == 0:
		r.fail(1, 1, "there are no pieces under the header", listHint)
	}
	pieces := r.pieces()
	if len(r.found) > 0 {
		return nil, graph.SortDiagnostics(r.found)
	}
	return pieces, nil
}

const listHint = `the first line is "length,quantity"; then a line for each length, like "1250 mm,3"`

// listReader is a list being read.
type listReader struct {
	file             string
	header           bool
	length, quantity int // columns
	columns          int
	separator        byte // between columns; 0 until the header is read
	rows             []listRow
	count            int // pieces so far
	found            []graph.Diagnostic
}

func (r *listReader) fail(line, column int, message, hint quantity.Text) {
	r.found = append(r.found, graph.Diagnostic{Pos: graph.Pos{File: r.file, Line: line, Column: column},
		Rule: "reading", Severity: graph.Error, Message: message, Hint: hint})
}

// cell is one field of a line with its column, in characters from 1.
type cell struct {
	text   string
	column int
}

// separatorOf returns what parts the columns of a header: a semicolon, a tab or a comma. A
// header of one column has a semicolon, so that a comma in its lines is a decimal one.
func separatorOf(header string) byte {
	for _, c := range ";\t," {
		if strings.ContainsRune(header, c) {
			return byte(c)
		}
	}
	return ';'
}

// cells splits a line at its separator. A field in double quotes may hold it; a doubled quote
// in it is one.
func cells(line string, sep byte) (out []cell, ok bool) {
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
	if !r.header {
		r.separator = separatorOf(text)
	}
	fields, ok := cells(text, r.separator)
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
			r.fail(number, f.column, graph.Say("the column %s is there twice", name), listHint)
		default:
			hint := quantity.Text(listHint)
			if near, ok := quantity.Nearest(name, []string{"length", "quantity"}); ok {
				hint = graph.Say("did you mean %q? %s", near, listHint)
			}
			r.fail(number, f.column, graph.Say("unknown column %q", f.text), hint)
		}
	}
	if r.length < 0 && len(r.found) == 0 {
		r.fail(number, 1, "the header names no column length", listHint)
	}
}

// readPiece reads one line of a length and its count.
func (r *listReader) readPiece(number int, fields []cell) {
	if len(fields) > r.columns {
		hint := quantity.Text("take out what is too much")
		if r.separator == ',' {
			hint = "a decimal comma splits a field: write a point, or part the columns with semicolons in every line"
		}
		r.fail(number, fields[r.columns].column, graph.Say("the line has %d fields, the header %d", len(fields), r.columns), hint)
		return
	}
	if r.length >= len(fields) || fields[r.length].text == "" {
		r.fail(number, 1, "the length is missing", listHint)
		return
	}
	n := 1
	if r.quantity >= 0 && r.quantity < len(fields) && fields[r.quantity].text != "" {
		f := fields[r.quantity]
		var err error
		n, err = strconv.Atoi(f.text)
		if err != nil || n < 1 || n > mostPieces {
			r.fail(number, f.column, graph.Say("%q is not a count from 1 to %d", f.text, mostPieces), "write a whole number")
			return
		}
	}
	if r.count += n; r.count > mostPieces {
		r.fail(number, 1, graph.Say("the list has more than %d pieces", mostPieces), "split it")
		return
	}
	length := fields[r.length]
	row := listRow{cell: length, line: number, count: n}
	row.point, row.comma = readingsOf(length.text)
	if !row.point.ok() && !row.comma.ok() {
		r.failLength(row, len(fields))
		return
	}
	r.rows = append(r.rows, row)
}

// failLength says why a length can't be read either way.
func (r *listReader) failLength(row listRow, fields int) {
	if fields < r.columns && strings.ContainsAny(row.cell.text, ",;") {
		r.fail(row.line, row.cell.column, graph.Say("the line has %d field, the header %d", fields, r.columns),
			graph.Say("the header parts its columns with %q: do so in every line", r.separator))
		return
	}
	column, message, hint := row.cell.column, quantity.Text(""), quantity.Text("")
	err := row.point.err
	if err == nil || row.comma.err != nil && row.point.said == "" {
		err = row.comma.err
	}
	var e *quantity.Error
	if errors.As(err, &e) {
		message, hint = quantity.Text(e.Message), quantity.Text(e.Hint)
		if e.Text == row.cell.text {
			column += utf8.RuneCountInString(e.Text[:min(max(e.Offset, 0), len(e.Text))])
		}
	} else if err != nil {
		message = quantity.OfError(err)
	}
	r.fail(row.line, column, message, hint)
}
