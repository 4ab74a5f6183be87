package quantity

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Amount is a number with its dimension, for a Text: in the dimension's base unit.
type Amount struct {
	Value     float64
	Dimension Dimension
	Grain     Grain
}

// Grain says how finely an amount is printed.
type Grain int

// The grains.
const (
	Usual   Grain = iota // what a tape or a gauge shows
	Fine                 // one figure more: what is read off a calliper
	About                // a rule of thumb: the round numbers a fitter would say
	AddedUp              // a length of pipe that is bought or added up: metres, or feet
	Close                // a length read off a rule to its finest line: a tenth of a mm, 1/32 in
	Given                // a limit: one figure more where it was given with it
)

// Of returns an amount of the dimension, given in its base unit.
func (d Dimension) Of(v float64) Amount { return Amount{Value: v, Dimension: d} }

// Finely is Of for what is measured more finely than is usual for the dimension, a diameter by
// calliper for one.
func (d Dimension) Finely(v float64) Amount { return Amount{Value: v, Dimension: d, Grain: Fine} }

// Closely is Finely for a length that is read off a rule: in inches it is a fraction.
func Closely(mm float64) Amount { return Amount{Value: mm, Dimension: Length, Grain: Close} }

// About is Of for a rule of thumb; about.go says how it is rounded.
func (d Dimension) About(v float64) Amount { return Amount{Value: v, Dimension: d, Grain: About} }

// Limit is Of for a limit that something is held against: with one decimal more than is usual where it
// comes out even with that and not without, as 1.05 m3/h does. Told as 1.1 nobody could see that 1.06 keeps it.
func (d Dimension) Limit(v float64) Amount { return Amount{Value: v, Dimension: d, Grain: Given} }

// Long is Of for a length of pipe that is bought or added up, mm.
func Long(mm float64) Amount { return Amount{Value: mm, Dimension: Length, Grain: AddedUp} }

// In prints the amount as Format does.
func (a Amount) In(s System) string { return a.print(s, a.more(s)) }

// more is how many decimals more than usual the amount has by itself: one, of a limit that was given with it.
func (a Amount) more(s System) int {
	if a.Grain != Given || a.Value == 0 {
		return 0
	}
	even := func(decimals int) bool {
		x := fromBase(a.Value, a.Dimension, a.form(s).unit)
		return math.Abs(x-Round(x, decimals)) <= 1e-9*math.Abs(x)
	}
	if usual := a.form(s).decimals; !even(usual) && even(usual+1) {
		return 1
	}
	return 0
}

// String prints the amount in metric units.
func (a Amount) String() string { return a.In(MetricSystem) }

// grains are the letters of the grains in a mark.
const grains = "tfalcg"

// closest is the least length that is read off a rule in inches, 1/16 in; below it stand decimals.
const closest = 25.4 / 16

// print prints the amount with so many decimals more than are usual, and says of a valve's
// coefficient which it is.
func (a Amount) print(s System, more int) string {
	switch {
	case a.Dimension == Kv && s == InchSystem:
		a.Dimension = Cv
		return "Cv " + a.number(s, more)
	case a.Dimension == Kv:
		return "Kv " + a.number(s, more)
	}
	return a.number(s, more)
}

// number prints the amount with so many decimals more than are usual.
func (a Amount) number(s System, more int) string {
	switch {
	case a.Grain == About:
		return a.about(s)
	case a.Grain == AddedUp && a.Dimension == Length:
		return addedUp(a.Value, s)
	}
	if a.Value == 0 && a.Dimension != Temperature {
		return "0 " + a.form(s).unit
	}
	if a.Grain == Close {
		if s == InchSystem && more == 0 && math.Abs(a.Value) >= closest {
			return inchesTo(a.Value, 32)
		}
		a.Grain = Fine
	}
	if math.IsNaN(a.Value) || math.IsInf(a.Value, 0) || more == 0 && a.Grain != Fine {
		return Format(a.Value, a.Dimension, s)
	}
	p := a.form(s)
	if p.unit == "in" && math.Abs(a.Value) >= 304.8 && more == 0 {
		return feetAndInches(a.Value)
	}
	if a.Grain == Fine {
		more++
	}
	text := strconv.FormatFloat(Round(fromBase(a.Value, a.Dimension, p.unit), p.decimals+more), 'f', p.decimals+more, 64)
	if a.Grain == Fine {
		text = trimZeros(text)
	}
	return text + " " + p.unit
}

// beside is how many decimals more an amount has beside a limit that has one more and lies within the
// last figure of it: as many as that.
func (a Amount) beside(limit Amount, s System) int {
	own := limit.more(s)
	if own == 0 {
		return 0
	}
	p, q := a.form(s), limit.form(s)
	if p.unit != q.unit || math.Abs(fromBase(a.Value-limit.Value, a.Dimension, p.unit)) >= math.Pow10(-p.decimals) {
		return 0
	}
	return max(0, q.decimals+own-p.decimals)
}

// Text is words in which quantities are still quantities: they get their units when the text
// is printed, by In. It is compared, sorted, joined and used as a key like any string, and
// comes out the same whatever units are asked for later.
//
// Say makes one. Words without a quantity may be written as they are: Text("out of room").
type Text string

// A quantity stands in a Text between two control characters, which no description can hold
// (the reader refuses them) and %q escapes.
const (
	amountStart = "\x01"
	amountEnd   = "\x02"
)

// Say makes a text as fmt.Sprintf does. Amounts, texts, and errors that have a Text keep
// their quantities; they are written by %s, or by %v. The arguments are used up.
func Say(form string, args ...any) Text {
	for i, a := range args {
		args[i] = kept(a)
	}
	return Text(fmt.Sprintf(form, args...))
}

// kept returns an argument in the form it has within a text.
func kept(a any) any {
	switch a := a.(type) {
	case Amount:
		return a.mark()
	case Text:
		return string(a)
	case error:
		return string(OfError(a))
	}
	return a
}

// OfError returns an error's message, its quantities kept where the error, or one it wraps
// with no words of its own, has a method Text.
func OfError(err error) Text {
	var t interface{ Text() Text }
	if errors.As(err, &t) {
		if e, ok := t.(error); ok {
			return Text(strings.Replace(err.Error(), e.Error(), string(t.Text()), 1))
		}
	}
	return Text(err.Error())
}

// form is the unit and the decimals of the amount; of a length in inch those of a rule that
// is read to hundredths.
func (a Amount) form(s System) form {
	if a.Dimension == Length && s == InchSystem {
		return form{"in", 2}
	}
	return printOf(a.Value, a.Dimension, s)
}

func (a Amount) mark() string {
	return amountStart + string(grains[a.Grain]) + strconv.Itoa(int(a.Dimension)) + "," + strconv.FormatFloat(a.Value, 'g', -1, 64) + amountEnd
}

// amountOf reads what mark writes, without the marks.
func amountOf(text string) (Amount, bool) {
	if text == "" {
		return Amount{}, false
	}
	dim, value, ok := strings.Cut(text[1:], ",")
	d, err := strconv.Atoi(dim)
	v, errV := strconv.ParseFloat(value, 64)
	ok = ok && err == nil && errV == nil && d >= 0 && d < int(dimensions)
	grain := strings.IndexByte(grains, text[0])
	return Amount{Value: v, Dimension: Dimension(d), Grain: Grain(max(0, grain))}, ok && grain >= 0
}

// Join joins texts as strings.Join does strings.
func Join(list []Text, between string) Text {
	words := make([]string, len(list))
	for i, t := range list {
		words[i] = string(t)
	}
	return Text(strings.Join(words, between))
}

// Worded prints texts in the units of a system, a string each; empty, not nil, where there
// are none.
func Worded(list []Text, s System) []string {
	out := make([]string, 0, len(list))
	for _, t := range list {
		out = append(out, t.In(s))
	}
	return out
}

// String prints the text in metric units.
func (t Text) String() string { return t.In(MetricSystem) }

// mostMore is how many decimals are added at most to tell two amounts apart.
const mostMore = 2

// In prints the text in the units of a system, each amount as Format prints it. Where two
// amounts of one dimension follow each other without a colon between, differ and would look
// alike ("gets 5.0 m3/h; its least is 5.0 m3/h"), both get decimals until they can be told
// apart, two at most.
func (t Text) In(s System) string {
	if !strings.Contains(string(t), amountStart) {
		return string(t)
	}
	words, amounts := Text(choose(string(t), s)).split()
	more := decimals(words, amounts, s)
	var b strings.Builder
	for i, w := range words {
		b.WriteString(w)
		if i < len(amounts) {
			number := amounts[i].print(s, more[i])
			if i+1 < len(amounts) && (words[i+1] == " to " || words[i+1] == " or ") {
				number = unitOnce(number, amounts[i], amounts[i+1], s)
			}
			b.WriteString(number)
		}
	}
	return b.String()
}

// split returns the words between the amounts, one more than there are amounts.
func (t Text) split() (words []string, amounts []Amount) {
	rest, word := string(t), ""
	for {
		before, after, ok := strings.Cut(rest, amountStart)
		word += before
		if !ok {
			return append(words, word), amounts
		}
		rest = after
		mark, after, closed := strings.Cut(after, amountEnd)
		if a, ok := amountOf(mark); closed && ok { // else the mark is none of ours, and left out
			words, amounts = append(words, word), append(amounts, a)
			word, rest = "", after
		}
	}
}

// decimals returns how many decimals more than usual each amount of a text gets.
func decimals(words []string, amounts []Amount, s System) []int {
	more := make([]int, len(amounts))
	var last [dimensions]int // index of the last amount of each dimension, from 1; 0: none
	for i, a := range amounts {
		if strings.Contains(words[i], ":") { // what follows a colon is said of something else
			last = [dimensions]int{}
		}
		more[i] = a.more(s)
		if j := last[a.Dimension] - 1; j >= 0 {
			apart, b := decimalsApart(a, amounts[j], s), amounts[j]
			more[i], more[j] = max(more[i], apart, a.beside(b, s)), max(more[j], apart, b.beside(a, s))
		}
		last[a.Dimension] = i + 1
	}
	return more
}

// decimalsApart returns how many decimals more it takes to tell two amounts apart; 0 where
// it takes none, or where no decimals worth printing would do.
func decimalsApart(a, b Amount, s System) int {
	if a.Value == b.Value {
		return 0
	}
	for more := 0; more <= mostMore; more++ {
		if a.print(s, more) != b.print(s, more) {
			return more
		}
	}
	return 0
}
