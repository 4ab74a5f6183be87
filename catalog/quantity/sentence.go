package quantity

import (
	"strconv"
	"unicode"
	"unicode/utf8"
)

// Capital is a text as it begins a sentence: its first letter large, in any alphabet. What begins
// with a digit, a quote or an amount stays.
func Capital[T ~string](s T) T { return first(s, unicode.ToTitle) }

// Small is a text as it goes on within a sentence: its first letter small.
func Small[T ~string](s T) T { return first(s, unicode.ToLower) }

// Counted says how many there are of something: "1 point", "2 points".
func Counted(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return strconv.Itoa(n) + " " + word + "s"
}

func first[T ~string](s T, as func(rune) rune) T {
	r, n := utf8.DecodeRuneInString(string(s))
	if r == utf8.RuneError {
		return s
	}
	return T(string(as(r))) + s[n:]
}
