package table

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
)

// writeJSON prints a value with two spaces of indent. Text is not HTML-escaped.
func writeJSON(v any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	err := e.Encode(v)
	return b.Bytes(), err
}

// writeCSV prints a header and rows; every text cell must have been through cell.
func writeCSV(header []string, rows [][]string) []byte {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	w.Write(header)
	w.WriteAll(rows)
	return b.Bytes()
}
