package table

import (
	"strings"
	"unicode"

	"dryfit/graph"
)

// Plain shows what a terminal, a page or a spreadsheet would obey.
func Plain(text string) string { return graph.Inert(text) }

func plain(text string) string { return graph.Inert(text) }

// formulaSigns begin what a spreadsheet runs: those of the keyboard, the full-width forms that
// some take for them, and the bar that begins a command in an exchange of data.
const formulaSigns = "=+-@|＝＋－＠｜−"

// cell makes a text safe as a CSV cell: one that a spreadsheet would take for a formula
// gets a leading apostrophe.
func cell(text string) string {
	text = plain(text)
	for _, c := range strings.TrimLeftFunc(text, unicode.IsSpace) { // spaces are passed over by some
		if strings.ContainsRune(formulaSigns, c) {
			return "'" + text
		}
		break
	}
	return text
}
