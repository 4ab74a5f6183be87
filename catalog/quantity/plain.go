package quantity

import (
	"strings"
	"sync"
)

// mostExact is the number up to which a float64 holds every whole number.
const mostExact = 1 << 53

// plainly reads what nearly every quantity is, one number and its unit, as a catalogue has
// thousands of them: a decimal ("1.5 m"), a fraction ("3/4 in"), or both ("1-1/2 in"), of no more
// digits than a float64 holds. Not ok is all the rest, what is wrong as well. It is exact as
// everything here is: what stands over the line and under it are whole numbers that a float64
// holds, and their quotient is rounded once, as IEEE 754 has it.
func plainly(text string, want []Dimension) (q Quantity, ok bool) {
	top, rest := digitsOf(text)
	under := int64(1)
	if len(rest) == len(text) || rest == "" {
		return q, false
	}
	switch {
	case rest[0] == '.':
		decimals, behind := digitsOf(rest[1:])
		n := len(rest) - 1 - len(behind)
		if n == 0 || n > 8 {
			return q, false
		}
		for range n {
			under *= 10
		}
		top, rest = top*under+decimals, behind
	case rest[0] == '/':
		if under, rest = digitsOf(rest[1:]); under == 0 {
			return q, false
		}
	case rest[0] == '-' || rest[0] == ' ':
		over, behind := digitsOf(rest[1:])
		if len(behind) == len(rest)-1 { // no number: a unit
			break
		}
		if !strings.HasPrefix(behind, "/") {
			return q, false
		}
		if under, rest = digitsOf(behind[1:]); over >= under {
			return q, false
		}
		top = top*under + over
	}
	return inUnit(text, strings.TrimLeft(rest, " "), want, top, under)
}

// digitsOf reads the digits at the start of a text, at most eight: so many, and as many again
// behind a point, a float64 holds.
func digitsOf(text string) (n int64, rest string) {
	at := 0
	for at < len(text) && at < 8 && isDigit(text[at]) {
		n = 10*n + int64(text[at]-'0')
		at++
	}
	return n, text[at:]
}

// inUnit is a number, top over under, in a unit.
func inUnit(text, unit string, want []Dimension, top, under int64) (q Quantity, ok bool) {
	for i := range unitTable {
		u := &unitTable[i]
		if !u.spells(unit) || !wanted(want, u.Dimension) {
			continue
		}
		f := wholeOf()[i]
		if f.top == 0 || top > mostExact/f.top || under > mostExact/f.under {
			return q, false
		}
		return Quantity{Text: text, Dimension: u.Dimension, Value: float64(top*f.top) / float64(under*f.under), Unit: u.Symbol}, true
	}
	return q, false
}

// whole is a factor as whole numbers, one over the other; 0 over 0 where it has none that small,
// or its unit begins elsewhere than at nothing.
type whole struct{ top, under int64 }

// wholeOf holds the factor of each line of unitTable, worked out once; never written to.
var wholeOf = sync.OnceValue(func() []whole {
	out := make([]whole, len(unitTable))
	for i, u := range unitTable {
		f := exactOf()[u.Factor]
		if u.Offset == "" && f.Num().IsInt64() && f.Denom().IsInt64() {
			out[i] = whole{f.Num().Int64(), f.Denom().Int64()}
		}
	}
	return out
})
