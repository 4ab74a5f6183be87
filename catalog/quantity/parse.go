package quantity

import (
	"fmt"
	"math/big"
	"slices"
	"strings"
)

// Quantity is a number with a unit.
type Quantity struct {
	Text      string    // as written
	Dimension Dimension // what it measures
	Value     float64   // in the dimension's base unit
	Unit      string    // symbol of the unit written; of the first, in a compound
}

// Limits of the text of a quantity.
const (
	longestText   = 64 // bytes
	longestDigits = 18 // of a number, zeros in front not counted: every float64 fits

	longestDecimals = 40 // digits after the point
)

// Parse reads a quantity: a number, a space or none, and a unit. The number is decimal with
// a point ("1.5"), a fraction ("3/4") or a whole number and a fraction ("1 1/2", "1-1/2");
// feet and inches, and hours, minutes and seconds, may follow each other ("12 ft 6-1/2 in").
// The value is worked out exactly and rounded once. A negative value is read as such.
//
// Where want is not empty the unit must measure one of these dimensions; "m" and "ft" are a
// head only where a head is wanted and a length is not. A cross-section may be told by North America's
// gauge of wire ("10 AWG"). The error is an *Error.
func Parse(text string, want ...Dimension) (Quantity, error) {
	if q, ok := plainly(text, want); ok {
		return q, nil
	}
	r := &reader{text: text, want: want}
	q, err := r.quantity()
	if err != nil {
		if at, name, plain := OtherSpace(text); at >= 0 {
			if _, other := Parse(plain, want...); other == nil {
				return Quantity{}, r.fail(at, fmt.Sprintf("write %q, with the space of the keyboard", plain), "%s has a space that no key types, %s", quoted(text), name)
			}
		}
		switch section, told := gauge(text, want); {
		case section != "":
			return Parse(section, want...)
		case told:
			err.Message, err.Hint = quoted(text)+" is no gauge of wire", "gauges of wire go from 4/0 AWG to 40 AWG; larger ones are told by their cross-section"
		}
		return Quantity{}, err
	}
	return q, nil
}

// part is one number with its unit.
type part struct {
	number *big.Rat
	unit   UnitInfo
	at     int  // of the number
	unitAt int  // of the unit
	whole  bool // the number has no fraction
}

// reader walks through the text of one quantity.
type reader struct {
	text string
	at   int
	want []Dimension
}

func (r *reader) fail(at int, hint, format string, args ...any) *Error {
	return &Error{Text: r.text, Offset: at, Message: fmt.Sprintf(format, args...), Hint: hint}
}

func (r *reader) quantity() (Quantity, *Error) {
	if len(r.text) > longestText {
		return Quantity{}, r.fail(longestText, "a quantity is at most "+fmt.Sprint(longestText)+" bytes long",
			"%s is too long for a quantity", quoted(r.text))
	}
	r.space()
	if r.at == len(r.text) {
		return Quantity{}, r.fail(0, fitHint(r.want), "%s is empty, not a quantity", quoted(r.text))
	}
	negative := r.accept('-')
	if !negative {
		r.accept('+')
	}
	var parts []part
	for len(parts) == 0 || r.at < len(r.text) {
		p, err := r.part(len(parts) > 0)
		if err != nil {
			return Quantity{}, err
		}
		parts = append(parts, p)
		r.space()
	}
	if len(parts) > 1 {
		if err := r.checkChain(parts); err != nil {
			return Quantity{}, err
		}
	}
	return r.sum(parts, negative), nil
}

// sum adds the parts exactly and rounds once.
func (r *reader) sum(parts []part, negative bool) Quantity {
	first := parts[0].unit
	if negative {
		parts[0].number.Neg(parts[0].number)
	}
	total := first.exact(parts[0].number)
	for _, p := range parts[1:] {
		more := p.unit.exact(p.number)
		if negative {
			more.Neg(more)
		}
		total.Add(total, more)
	}
	value, _ := total.Float64()
	return Quantity{Text: r.text, Dimension: first.Dimension, Value: value, Unit: first.Symbol}
}

// checkChain makes sure that a compound is one the trade writes: units of one chain, from
// large to small, all but the last whole, none reaching the next larger.
func (r *reader) checkChain(parts []part) *Error {
	for i := 1; i < len(parts); i++ {
		large, small := parts[i-1], parts[i]
		if !follows(large.unit.Symbol, small.unit.Symbol) {
			return r.fail(small.at, `only feet and inches ("12 ft 6 in") or hours, minutes and seconds may follow each other`,
				"%s after %s makes no quantity in %s", small.unit.Symbol, large.unit.Symbol, quoted(r.text))
		}
		if !large.whole {
			return r.fail(large.at, "only the last number of a compound may have a fraction",
				"%s has a fraction before its last number", quoted(r.text))
		}
		most := new(big.Rat).Quo(exactOf()[large.unit.Factor], exactOf()[small.unit.Factor])
		if small.number.Cmp(most) >= 0 {
			return r.fail(small.at, fmt.Sprintf("%s %s make 1 %s", most.RatString(), small.unit.Symbol, large.unit.Symbol),
				"%s has too many %s after its %s", quoted(r.text), small.unit.Symbol, large.unit.Symbol)
		}
	}
	return nil
}

// follows reports whether the small unit may follow the large one.
func follows(large, small string) bool {
	for _, c := range chains {
		if i, j := slices.Index(c, large), slices.Index(c, small); i >= 0 && j > i {
			return true
		}
	}
	return false
}

// part reads a number and its unit.
func (r *reader) part(more bool) (part, *Error) {
	p := part{at: r.at}
	var err *Error
	if p.number, p.whole, err = r.number(); err != nil {
		return p, err
	}
	r.space()
	p.unitAt = r.at
	word := r.unitWord()
	if word == "" {
		return p, r.missingUnit(more)
	}
	p.unit, err = r.unit(word, p.unitAt)
	return p, err
}

func (r *reader) missingUnit(more bool) *Error {
	if more {
		return r.fail(r.at, fitHint(r.want), "the last number of %s has no unit", quoted(r.text))
	}
	return r.fail(r.at, fitHint(r.want), "%s has no unit", quoted(r.text))
}

// unitWord takes the text of a unit: all up to a space that a number follows, or the end.
func (r *reader) unitWord() string {
	start := r.at
	for r.at < len(r.text) {
		if r.text[r.at] == ' ' {
			next := strings.TrimLeft(r.text[r.at:], " ")
			if next == "" || isDigit(next[0]) || next[0] == '-' || next[0] == '.' {
				break
			}
		}
		r.at++
	}
	return r.text[start:r.at]
}

// unit finds the unit a word stands for.
func (r *reader) unit(word string, at int) (UnitInfo, *Error) {
	var other *UnitInfo
	for i := range unitTable {
		u := &unitTable[i]
		if !u.spells(word) {
			continue
		}
		if wanted(r.want, u.Dimension) {
			return *u, nil
		}
		if other == nil {
			other = u
		}
	}
	if other != nil {
		return UnitInfo{}, r.fail(at, fitHint(r.want), "%s is %s, but %s is wanted",
			quoted(r.text), dimensionWords[other.Dimension].a, wantWords(r.want))
	}
	return UnitInfo{}, r.fail(at, r.unitHint(word), "unknown unit %s in %s", quoted(word), quoted(r.text))
}

// unitHint says what a word that is no unit here may be meant for.
func (r *reader) unitHint(word string) string {
	fits := fitHint(r.want)
	if whole := r.thousands(); whole != "" {
		return fmt.Sprintf("write %q: nothing stands between thousands", whole)
	}
	switch ours, known := inOurs(word, r.want); {
	case ours != "":
		return fmt.Sprintf("1 %s is %s; %s", word, ours, fits)
	case known:
		return fits
	}
	near := r.mended()
	if near == "" {
		near = nearUnit(word, r.want)
	}
	if near == "" {
		return fits
	}
	return fmt.Sprintf("did you mean %q? %s", near, fits)
}

func (r *reader) space() {
	for r.at < len(r.text) && r.text[r.at] == ' ' {
		r.at++
	}
}

func (r *reader) accept(c byte) bool {
	if r.at < len(r.text) && r.text[r.at] == c {
		r.at++
		return true
	}
	return false
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }
