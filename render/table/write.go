package table

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"
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

// grid prints rows under a header; columns named in right are set to the right.
func grid(s Style, header []string, right []string, rows [][]string) string {
	t := table.NewWriter()
	t.SetStyle(table.StyleLight)
	t.Style().Options = table.Options{DrawBorder: false, SeparateColumns: false, SeparateHeader: true}
	t.Style().Format.Header = text.FormatDefault
	if s.Colour {
		t.Style().Color.Header = text.Colors{text.Bold}
	}
	head := make(table.Row, len(header))
	var config []table.ColumnConfig
	for i, h := range header {
		head[i] = h
		for _, r := range right {
			if r == h {
				config = append(config, table.ColumnConfig{Number: i + 1, Align: text.AlignRight, AlignHeader: text.AlignRight})
			}
		}
	}
	t.SetColumnConfigs(config)
	t.AppendHeader(head)
	for _, row := range rows {
		cells := make(table.Row, len(row))
		for i, c := range row {
			cells[i] = plain(c)
		}
		t.AppendRow(cells)
	}
	return trimLines(t.Render()) + "\n"
}

// trimLines cuts blanks off the ends of lines.
func trimLines(s string) string {
	lines := strings.Split(s, "\n")
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " ")
	}
	return strings.Join(lines, "\n")
}

// title prints a heading line.
func (s Style) title(t string) string {
	if s.Colour {
		return text.Bold.Sprint(t) + "\n"
	}
	return t + "\n"
}
