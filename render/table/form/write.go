package form

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"unicode/utf16"
	"unicode/utf8"

	"dryfit/graph"
)

// WriteJSON prints a value with two spaces of indent. Text is not HTML-escaped; what a
// terminal would obey instead of show is escaped, and reads back the same.
func WriteJSON(v any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	err := e.Encode(v)
	return escapeObeyed(b.Bytes()), err
}

// escapeObeyed writes characters that would be obeyed, but for ends of lines, as \u escapes.
func escapeObeyed(data []byte) []byte {
	out := make([]byte, 0, len(data))
	for _, c := range string(data) {
		if c == '\n' || !graph.Obeyed(c) {
			out = utf8.AppendRune(out, c)
			continue
		}
		for _, half := range utf16.Encode([]rune{c}) {
			out = fmt.Appendf(out, `\u%04x`, half)
		}
	}
	return out
}

// WriteCSV prints a header and rows; every text cell must have been through cell.
func WriteCSV(header []string, rows [][]string) []byte {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	w.Write(header)
	w.WriteAll(rows)
	return b.Bytes()
}
