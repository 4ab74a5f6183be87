package takeoff

import (
	"fmt"
	"math"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/takeoff/stock"
)

// longestReadMM is the longest piece a mark between thousands is believed for, mm: above the
// longest bar that is sold (common practice, no source).
const longestReadMM = 20_000

// listRow is one line of a list: its length read both ways.
type listRow struct {
	cell         cell
	line         int
	count        int
	point, comma reading
}

// reading is a length as it reads with one mark for the decimals.
type reading struct {
	mm   float64
	text string // written so that it reads one way: a point for decimals, not three of them
	said string // the text that was read; "" where the marks make no number
	err  error
}

func (a reading) ok() bool { return a.err == nil && a.mm > 0 }

// readingsOf reads a length with a point for the decimals and a comma for the thousands, and
// the other way round.
func readingsOf(text string) (point, comma reading) {
	return readWith(text, '.', ','), readWith(text, ',', '.')
}

// readWith reads a length. Marks between thousands stand between groups of three digits behind a
// first of one to three that does not begin with 0; a length read by them is at most
// longestReadMM.
func readWith(text string, decimals, thousands byte) reading {
	plain, grouped, ok := plainNumbers(text, decimals, thousands)
	if !ok {
		_, err := quantity.Parse(text, quantity.Length)
		return reading{err: err}
	}
	q, err := quantity.Parse(plain, quantity.Length)
	switch {
	case err != nil:
		return reading{said: plain, err: err}
	case !stock.Plannable(q.Value):
		return reading{said: plain, err: fmt.Errorf("%q is no length to cut: it is longer than 0 and at most %g m", text, stock.MostLengthMM/1000)}
	case grouped && q.Value > longestReadMM:
		return reading{err: fmt.Errorf("%q is no length to cut", text)}
	}
	return reading{mm: math.Round(q.Value*1e6) / 1e6, text: plain, said: plain}
}

// plainNumbers writes the numbers of a text with a point for their decimals and without marks
// between thousands; grouped tells that there were some. ok is false where a number's marks
// make no sense.
func plainNumbers(text string, decimals, thousands byte) (plain string, grouped, ok bool) {
	var b strings.Builder
	for at := 0; at < len(text); {
		end := at
		for end < len(text) && (isDigit(text[end]) || (text[end] == '.' || text[end] == ',') && end > at && end+1 < len(text) && isDigit(text[end+1])) {
			end++
		}
		if end == at {
			b.WriteByte(text[at])
			at++
			continue
		}
		number, marked, fine := plainNumber(text[at:end], decimals, thousands)
		if !fine {
			return "", false, false
		}
		b.WriteString(number)
		grouped, at = grouped || marked, end
	}
	return b.String(), grouped, true
}

func plainNumber(text string, decimals, thousands byte) (plain string, grouped, ok bool) {
	whole, fraction, cut := strings.Cut(text, string(decimals))
	if strings.IndexByte(fraction, decimals) >= 0 || strings.IndexByte(fraction, thousands) >= 0 {
		return "", false, false
	}
	groups := strings.Split(whole, string(thousands))
	for i, g := range groups {
		if len(groups) > 1 && (i > 0 && len(g) != 3 || i == 0 && (len(g) > 3 || g[0] == '0')) {
			return "", false, false
		}
	}
	plain = strings.Join(groups, "")
	if cut {
		if short := strings.TrimRight(fraction, "0"); short != "" {
			fraction = short
		}
		if len(fraction) == 3 { // so that no one takes it for a thousand
			fraction += "0"
		}
		plain += "." + fraction
	}
	return plain, len(groups) > 1, true
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// pieces settles which mark the list writes its decimals with, and returns its pieces.
func (r *listReader) pieces() []stock.Demand {
	points, commas := true, true
	var onlyPoint, onlyComma, both *listRow // the first line of each kind
	for i := range r.rows {
		row := &r.rows[i]
		points, commas = points && row.point.ok(), commas && row.comma.ok()
		switch {
		case !row.comma.ok():
			onlyPoint = first(onlyPoint, row)
		case !row.point.ok():
			onlyComma = first(onlyComma, row)
		case row.point.mm != row.comma.mm:
			both = first(both, row)
		}
	}
	switch {
	case !points && !commas:
		r.fail(onlyComma.line, onlyComma.cell.column, graph.Say("%q has a decimal comma, and %q in line %d a point", onlyComma.cell.text, onlyPoint.cell.text, onlyPoint.line),
			"write all the list's decimals with the same mark")
	case points && commas && both != nil:
		r.fail(both.line, both.cell.column, graph.Say("%q can be read two ways: as %s, or as %s with a mark between the thousands", both.cell.text, decimalOf(both), thousandsOf(both)),
			graph.Say("write %q or %q, and so in every line", decimalOf(both), thousandsOf(both)))
	}
	var out []stock.Demand
	for _, row := range r.rows {
		mm := row.point.mm
		if !points {
			mm = row.comma.mm
		}
		for range row.count {
			out = append(out, stock.Demand{Number: len(out) + 1, LengthMM: mm})
		}
	}
	return out
}

func first(a, b *listRow) *listRow {
	if a != nil {
		return a
	}
	return b
}

// decimalOf and thousandsOf are the two ways a length can be read: the mark stands before its
// decimals, or between its thousands, which is the longer.
func decimalOf(row *listRow) string {
	if row.point.mm < row.comma.mm {
		return row.point.text
	}
	return row.comma.text
}

func thousandsOf(row *listRow) string {
	if row.point.mm < row.comma.mm {
		return row.comma.text
	}
	return row.point.text
}
