package graph

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Inert returns a user's text in which nothing is left that a terminal, a page or a
// spreadsheet would obey instead of show: control characters, marks that turn the direction
// of text, and those without a width are shown as \x and their number.
func Inert(text string) string {
	if strings.IndexFunc(text, Obeyed) < 0 && utf8.ValidString(text) {
		return text
	}
	var b strings.Builder
	for _, c := range text {
		if Obeyed(c) {
			fmt.Fprintf(&b, `\x%02x`, c)
		} else {
			b.WriteRune(c)
		}
	}
	return b.String()
}

// Obeyed reports whether a character is not shown but acted on: control and format characters
// (direction, joining, no width) and separators of lines and paragraphs.
func Obeyed(c rune) bool {
	if c < 0x7f { // most of every text: no table is asked
		return c < ' '
	}
	return unicode.In(c, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp)
}
