package graph

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Inert returns a user's text in which nothing is left that a terminal, a page or a
// spreadsheet would obey instead of show: control characters, marks that turn the direction
// of text, and those without a width are shown as \x and their number. Joiners between letters
// stay: the words they are part of are shown with them.
func Inert(text string) string {
	if strings.IndexFunc(text, Obeyed) < 0 && utf8.ValidString(text) {
		return text
	}
	var b strings.Builder
	for i, c := range text {
		if Obeyed(c) && !Joins(text, i) {
			fmt.Fprintf(&b, `\x%02x`, c)
		} else {
			b.WriteRune(c)
		}
	}
	return b.String()
}

// Joiner reports whether a character joins or parts the letters beside it and is not shown itself, as
// Persian and Hindi are written with it: the zero width non-joiner and joiner. Source: The Unicode
// Standard, chapter 23.2, cursive connection and ligatures, from memory.
func Joiner(c rune) bool { return c == 0x200c || c == 0x200d }

// Joins reports whether a joiner stands at a byte of a text between two letters, the marks on the one
// before it counted as part of it. Anywhere else it does nothing but make two texts look the same.
func Joins(text string, at int) bool {
	c, n := utf8.DecodeRuneInString(text[at:])
	if !Joiner(c) {
		return false
	}
	before, _ := utf8.DecodeLastRuneInString(text[:at])
	behind, _ := utf8.DecodeRuneInString(text[at+n:])
	return unicode.In(before, unicode.L, unicode.M) && unicode.IsLetter(behind)
}

// Obeyed reports whether a character is not shown but acted on: control and format characters
// (direction, joining, no width) and separators of lines and paragraphs.
func Obeyed(c rune) bool {
	if c < 0x7f { // most of every text: no table is asked
		return c < ' '
	}
	return unicode.In(c, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp)
}
