package quantity

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Capital is a text as it begins a sentence: its first letter large, in any alphabet. What begins
// with a digit, a quote or an amount stays.
func Capital[T ~string](s T) T { return first(s, unicode.ToTitle) }

// Small is a text as it goes on within a sentence: its first letter small.
func Small[T ~string](s T) T { return first(s, unicode.ToLower) }

// Listed is a list as it is said, with a word before its last: "a", "a and b", "a, b and c".
func Listed(words []string, last string) string {
	if n := len(words) - 1; n > 0 {
		return strings.Join(words[:n], ", ") + " " + last + " " + words[n]
	}
	return strings.Join(words, "")
}

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
