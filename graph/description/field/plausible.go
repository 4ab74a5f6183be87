package field

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/located"
)

// smallest is the smallest quantity that is read, in whatever base unit: what is smaller was
// not meant, and would not be written again exactly.
const smallest = 1e-12

// Quantity reads a quantity within its limit.
func (r *Reader) Quantity(v located.Value, l Limit) (quantity.Quantity, bool) {
	text, ok := r.unitText(v, l)
	if !ok {
		return quantity.Quantity{}, false
	}
	return r.parse(v, text, 0, l)
}

// unitText returns the text of a quantity; a bare number is an error that says which units fit.
func (r *Reader) unitText(v located.Value, l Limit) (string, bool) {
	switch x := v.V.(type) {
	case string:
		if r.Blank(v, l.what+fmt.Sprintf(", such as %q", l.Example())) || r.tooLong(v, x) {
			return "", false
		}
		return x, true
	case int64:
		r.bare(v, strconv.FormatInt(x, 10), l)
	case float64:
		r.bare(v, quantity.Trim(x), l)
	default:
		r.WrongType(v, l.what+" with its unit, in quotes", fmt.Sprintf("%q", l.Example()))
	}
	return "", false
}

// tooLong reports a text that can't be a quantity or a leg for its sheer length.
func (r *Reader) tooLong(v located.Value, text string) bool {
	if len(text) <= maxText {
		return false
	}
	r.Fail(v, "shorten it", "%s is %d bytes long; at most %d are read", located.Said(v.Key), len(text), maxText)
	return true
}

// bare reports a number without a unit, as the quantities' own reader words it.
func (r *Reader) bare(v located.Value, number string, l Limit) {
	d := r.Fail(v, fmt.Sprintf("write it in quotes with its unit, such as %q", l.Example()), "%s is a bare number: %s has a unit", located.Said(v.Key), l.what)
	var qe *quantity.Error
	if _, err := quantity.Parse(number, l.dims()...); errors.As(err, &qe) && qe.Hint != "" {
		d.Hint = graph.Say("write it in quotes with its unit; %s", qe.Hint)
	}
}

// parse reads a quantity from a text that stands so many bytes into the value.
func (r *Reader) parse(v located.Value, text string, offset int, l Limit) (quantity.Quantity, bool) {
	q, err := quantity.Parse(text, l.dims()...)
	if err != nil {
		d := r.Fail(v, "", "%s", err.Error())
		var qe *quantity.Error
		if errors.As(err, &qe) {
			d.Message, d.Hint = quantity.Text(qe.Message), quantity.Text(qe.Hint)
			if meant := l.plausible(qe.Meant); len(qe.Meant) > 1 && len(meant) == 1 {
				d.Hint = quantity.Text(fmt.Sprintf("write %q", meant[0]))
			}
			offset += qe.Offset
		}
		r.Shift(d, v, offset)
		return q, false
	}
	d := r.implausible(v, q, l)
	if d != nil {
		r.Shift(d, v, offset)
	}
	return q, d == nil
}

// plausible returns those of some texts that are quantities within the limit.
func (l Limit) plausible(texts []string) []string {
	var fit []string
	for _, text := range texts {
		q, err := quantity.Parse(text, l.dims()...)
		if err != nil {
			continue
		}
		if slices.ContainsFunc(l.bounds, func(b bound) bool {
			return b.dim == q.Dimension && q.Value >= b.least && q.Value <= b.most
		}) {
			fit = append(fit, text)
		}
	}
	return fit
}

// implausible reports a quantity outside its limit.
func (r *Reader) implausible(v located.Value, q quantity.Quantity, l Limit) *graph.Diagnostic {
	for _, b := range l.bounds {
		if b.dim != q.Dimension {
			continue
		}
		written := located.Inert(strings.TrimSpace(q.Text))
		switch {
		case q.Value == 0 && l.positive:
			return r.Fail(v, fmt.Sprintf("write what it is, such as %q", l.Example()), "%s is zero", l.what)
		case q.Value != 0 && math.Abs(q.Value) < smallest:
			return r.Fail(v, fmt.Sprintf("write what it is, such as %q", l.Example()), "%s can't be as small as %s", l.what, written)
		case q.Value < 0 && b.least >= 0:
			return r.Fail(v, negativeHint(l), "%s can't be negative: %s", l.what, written)
		case q.Value < b.least:
			return r.Fail(v, rangeHint(b), "%s is %s: that is less than %s", l.what, written, b.words(b.low, b.least))
		case q.Value > b.most:
			return r.Fail(v, rangeHint(b), "%s is %s: that is more than %s", l.what, written, b.words(b.high, b.most))
		}
		return nil
	}
	return r.Fail(v, "", "%s can't be %s", l.what, graph.A(q.Dimension.String()))
}

// rangeHint asks what is most likely wrong with a quantity outside its bounds.
func rangeHint(b bound) string {
	if b.dim == quantity.Share {
		return fmt.Sprintf("write a share from %s to %s", b.low, b.high)
	}
	return string(quantity.Say("is the unit right? from %s to %s is plausible", b.words(b.low, b.least), b.words(b.high, b.most)))
}

// words are an end of the bound as it stands in the table, in inch units as much in round numbers.
func (b bound) words(text string, value float64) quantity.Text {
	inch := quantity.Format(value, b.dim, quantity.InchSystem)
	switch number, unit, _ := strings.Cut(inch, " "); {
	case b.dim == quantity.Length && math.Abs(value) >= 3048: // ten feet
		inch = quantity.Trim(quantity.Round(value/304.8, 0)) + " ft"
	case strings.HasSuffix(number, ".0"):
		inch = strings.TrimSuffix(number, ".0") + " " + unit
	}
	return quantity.Either(text, inch)
}

func negativeHint(l Limit) string {
	if l.what == LegLength.what || l.what == PortPosition.what {
		return "write the opposite direction: left for right, down for up, front for back"
	}
	return fmt.Sprintf("write it without the minus, such as %q", l.Example())
}
