package form

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"dryfit/graph"
)

// Plain shows what a terminal, a page or a spreadsheet would obey.
func Plain(text string) string { return graph.Inert(text) }

func plain(text string) string { return graph.Inert(text) }

// formulaSigns begin what a spreadsheet runs: those of the keyboard, the full-width forms that
// some take for them, and the bar that begins a command in an exchange of data.
const formulaSigns = "=+-@|＝＋－＠｜−"

// Cell makes a text safe as a CSV cell: one that a spreadsheet would take for a formula
// gets a leading apostrophe.
func Cell(text string) string {
	text = plain(text)
	first := strings.TrimLeftFunc(text, unicode.IsSpace) // spaces are passed over by some
	if c, n := utf8.DecodeRuneInString(first); n > 0 && strings.ContainsRune(formulaSigns, c) {
		return "'" + text
	}
	return text
}
