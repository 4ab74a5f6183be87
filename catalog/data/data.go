// Package data holds the files of the catalogue: rows of pipe, fittings, valves and equipment,
// and sheets of what holds for all of a size, a spec or a kind.
package data

import (
	"bytes"
	"embed"
	"encoding/csv"
	"strconv"

	"dryfit/catalog/quantity"
)

// Files are the files by their names.
//
//go:embed *.csv *.toml
var Files embed.FS

// Sheet is a file that holds no rows of the catalogue: its lines without the heads. What can't
// be read in it is a mistake of the program's own data, and panics; a test reads every one of
// them.
type Sheet struct {
	Name  string
	Lines [][]string
}

// Read returns a sheet by its file's name.
func Read(name string) Sheet {
	raw, err := Files.ReadFile(name)
	if err != nil {
		panic("catalog: " + err.Error())
	}
	in := csv.NewReader(bytes.NewReader(raw))
	in.Comment = '#'
	lines, err := in.ReadAll()
	if err != nil || len(lines) < 2 {
		panic("catalog: " + name + " can't be read")
	}
	return Sheet{name, lines[1:]}
}

// Amount is a quantity of the dimension in its base unit. It panics where the text is none: the sheets are
// built in.
func (s Sheet) Amount(text string, d quantity.Dimension) float64 {
	q, err := quantity.Parse(text, d)
	if err != nil {
		panic("catalog: " + s.Name + ": " + err.Error())
	}
	return q.Value
}

// Number is a bare number; it panics where the text is none.
func (s Sheet) Number(text string) float64 {
	n, err := strconv.ParseFloat(text, 64)
	if err != nil {
		panic("catalog: " + s.Name + ": " + err.Error())
	}
	return n
}
