package catalog

import (
	"bytes"
	"encoding/csv"
	"strconv"

	"dryfit/catalog/quantity"
)

// sheet is an embedded table that holds no rows of the catalogue: its lines without the heads.
// What can't be read in it is a mistake of the program's own data, and panics; a test reads
// every one of them.
type sheet struct {
	name  string
	lines [][]string
}

func readSheet(name string) sheet {
	raw, err := data.ReadFile("data/" + name)
	if err != nil {
		panic("catalog: " + err.Error())
	}
	in := csv.NewReader(bytes.NewReader(raw))
	in.Comment = '#'
	lines, err := in.ReadAll()
	if err != nil || len(lines) < 2 {
		panic("catalog: " + name + " can't be read")
	}
	return sheet{name, lines[1:]}
}

func (s sheet) amount(text string, d quantity.Dimension) float64 {
	q, err := quantity.Parse(text, d)
	if err != nil {
		panic("catalog: " + s.name + ": " + err.Error())
	}
	return q.Value
}

func (s sheet) number(text string) float64 {
	n, err := strconv.ParseFloat(text, 64)
	if err != nil {
		panic("catalog: " + s.name + ": " + err.Error())
	}
	return n
}

func (s sheet) size(text string) Size {
	size, err := ParseSize(text, false)
	if err != nil {
		panic("catalog: " + s.name + ": " + err.Error())
	}
	return size
}
