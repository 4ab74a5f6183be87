package quantity

import (
	"fmt"
	"math/big"
	"strconv"
	"strings"
)

// number reads a decimal, a fraction, or a whole number with a fraction; whole tells that
// it has none.
func (r *reader) number() (n *big.Rat, whole bool, err *Error) {
	start := r.at
	digits := r.digits()
	point := r.at+1 < len(r.text) && r.text[r.at] == '.' && isDigit(r.text[r.at+1])
	if digits == "" && !point {
		return nil, false, r.notANumber(start)
	}
	switch r.peek() {
	case '.':
		r.at++
		decimals := r.digits()
		if decimals == "" {
			return nil, false, r.fail(start, "write a digit after the point, or leave it out", "%s has no digit after its point", quoted(r.text))
		}
		n, err = r.rat(start, digits+"."+decimals, "1")
	case '/':
		n, err = r.over(start, digits)
	case ' ', '-':
		n, whole, err = r.mixed(start, digits)
	default:
		n, err = r.rat(start, digits, "1")
		whole = true
	}
	if err != nil {
		return nil, false, err
	}
	return n, whole, r.afterNumber()
}

// mixed reads what may follow a whole number: a fraction after a space or a hyphen.
func (r *reader) mixed(start int, digits string) (*big.Rat, bool, *Error) {
	whole, err := r.rat(start, digits, "1")
	if err != nil {
		return nil, false, err
	}
	back, hyphen := r.at, r.text[r.at] == '-'
	if hyphen {
		r.at++
	} else {
		r.space()
	}
	top := r.at
	digits = r.digits()
	if digits == "" || r.peek() != '/' {
		if hyphen {
			return nil, false, r.fail(back, `write one value; a whole number and a fraction go "1-1/2 in"`, "%s is not one number", quoted(r.text))
		}
		r.at = back
		return whole, true, nil
	}
	fraction, err := r.over(top, digits)
	if err != nil {
		return nil, false, err
	}
	if fraction.Cmp(big.NewRat(1, 1)) >= 0 {
		return nil, false, r.fail(top, "the fraction after a whole number is less than one", "%s has a fraction of one or more after a whole number", quoted(r.text))
	}
	return whole.Add(whole, fraction), false, nil
}

// over reads the slash and the lower number of a fraction.
func (r *reader) over(start int, top string) (*big.Rat, *Error) {
	r.at++
	bottom := r.digits()
	if bottom == "" {
		return nil, r.fail(r.at, `write a fraction as "3/4"`, "%s has no number under its fraction", quoted(r.text))
	}
	if strings.Trim(bottom, "0") == "" {
		return nil, r.fail(start, "", "%s divides by nothing", quoted(r.text))
	}
	return r.rat(start, top, bottom)
}

// rat makes the number from the digits over and under its fraction; top may have a point.
func (r *reader) rat(start int, top, bottom string) (*big.Rat, *Error) {
	whole, decimals, _ := strings.Cut(top, ".")
	if len(strings.TrimLeft(whole+decimals, "0")) > longestDigits || len(decimals) > longestDecimals || len(bottom) > longestDigits {
		return nil, r.fail(start, fmt.Sprintf("a number has at most %d digits", longestDigits), "%s has too many digits", quoted(r.text))
	}
	a, errA := strconv.ParseInt(whole+decimals, 10, 64)
	b, errB := strconv.ParseInt(bottom, 10, 64)
	if errA != nil || errB != nil {
		return nil, r.notANumber(start)
	}
	n := big.NewRat(a, b)
	if decimals == "" {
		return n, nil
	}
	if len(decimals) > longestDigits { // a very small number: 0.000…
		scale := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(len(decimals))), nil)
		return n.Quo(n, new(big.Rat).SetInt(scale)), nil
	}
	scale := int64(1)
	for range decimals {
		scale *= 10
	}
	return n.Quo(n, big.NewRat(scale, 1)), nil
}

// afterNumber refuses what may not follow a number directly.
func (r *reader) afterNumber() *Error {
	rest := r.text[r.at:]
	switch {
	case strings.HasPrefix(rest, ","):
		return r.comma()
	case strings.HasPrefix(rest, "."):
		return r.fail(r.at, "a number has one point, and no points between its thousands", "%s is not a number", quoted(r.text))
	case len(rest) > 1 && (rest[0] == 'e' || rest[0] == 'E') && (isDigit(rest[1]) || rest[1] == '-' || rest[1] == '+'):
		return r.fail(r.at, "write the number out", "%s has an exponent", quoted(r.text))
	case strings.ContainsRune(fractions, firstRune(strings.TrimLeft(rest, " "))):
		return r.fail(r.at+len(rest)-len(strings.TrimLeft(rest, " ")), `write the fraction with a slash: "1-1/2 in"`, "%s has a fraction in one character", quoted(r.text))
	case strings.ContainsRune("⁄∕", firstRune(rest)):
		return r.fail(r.at, `write a fraction as "3/4", with the slash of the keyboard`, "%s has a stroke that no key types", quoted(r.text))
	case strings.HasPrefix(rest, "/"):
		return r.fail(r.at, `write a fraction as "3/4"`, "%s is not a number", quoted(r.text))
	}
	return nil
}

// comma shows the point form of a number with a decimal comma, and where its digits may be thousands
// the form without.
func (r *reader) comma() *Error {
	e := r.fail(r.at, "write a number without marks between its thousands", "%s has a decimal comma", quoted(r.text))
	if strings.Count(r.text, ",") != 1 || strings.Contains(r.text, ".") {
		return e
	}
	e.Meant = []string{strings.Replace(r.text, ",", ".", 1)}
	e.Hint = fmt.Sprintf("write %q", e.Meant[0])
	after := strings.TrimLeft(r.text[r.at+1:], "0123456789")
	if len(r.text)-r.at-1-len(after) == 3 {
		e.Meant = append(e.Meant, strings.Replace(r.text, ",", "", 1))
		e.Hint += fmt.Sprintf(", or %q if thousands were meant", e.Meant[1])
	}
	return e
}

// fractions are those that have a character of their own.
const fractions = "½¼¾⅛⅜⅝⅞⅓⅔"

// notANumber says that no number starts here.
func (r *reader) notANumber(start int) *Error {
	hint := fitHint(r.want)
	rest := r.text[start:]
	switch {
	case strings.HasPrefix(rest, "−") || strings.HasPrefix(rest, "–"):
		hint = "write minus as the hyphen of the keyboard"
	case strings.HasPrefix(strings.TrimSpace(r.text), "- "):
		hint = fmt.Sprintf("write %q", "-"+strings.TrimLeft(strings.TrimSpace(r.text)[1:], " "))
	case strings.ContainsRune(fractions, firstRune(rest)):
		hint = `write the fraction with a slash: "1/2 in"`
	}
	return r.fail(start, hint, "%s does not start with a number", quoted(r.text))
}

func firstRune(s string) rune {
	for _, c := range s {
		return c
	}
	return ' '
}

func (r *reader) digits() string {
	start := r.at
	for r.at < len(r.text) && isDigit(r.text[r.at]) {
		r.at++
	}
	return r.text[start:r.at]
}

func (r *reader) peek() byte {
	if r.at < len(r.text) {
		return r.text[r.at]
	}
	return 0
}
