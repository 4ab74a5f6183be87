package table

import (
	"fmt"
	"strings"
	"unicode"
)

// Plain shows control characters of a text, and marks that turn its direction, as \x..: a
// terminal, a page or a spreadsheet would obey them.
func Plain(text string) string { return plain(text) }

// plain shows control characters of a user's text instead of sending them to a terminal.
func plain(text string) string {
	var b strings.Builder
	for _, r := range text {
		switch {
		case unicode.IsControl(r), r == '\u2028', r == '\u2029', unicode.Is(unicode.Bidi_Control, r):
			fmt.Fprintf(&b, `\x%02x`, r)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// cell makes a text safe as a CSV cell: one that a spreadsheet would take for a formula
// gets a leading apostrophe.
func cell(text string) string {
	text = plain(text)
	if text != "" && strings.ContainsRune("=+-@", rune(text[0])) {
		return "'" + text
	}
	return text
}
