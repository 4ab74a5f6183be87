package catalog

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"slices"
	"strconv"
	"strings"
	"sync"

	"github.com/BurntSushi/toml"

	"dryfit/catalog/data"
	"dryfit/catalog/quantity"
)

// Embedded returns the catalogue that comes with the program.
func Embedded() *Catalog { return embedded() }

var embedded = sync.OnceValue(func() *Catalog {
	rows, problems := load(data.Files)
	if len(problems) > 0 {
		panic("catalog: " + problems[0].Origin + ": " + problems[0].String())
	}
	return newCatalog(rows)
})

// rowFiles are the files of rows in data, in the order of the catalogue.
var rowFiles = []string{
	"pipes.csv", "elbows.csv", "tees.csv", "couplings.csv", "unions.csv", "bushes.csv",
	"transitions.csv", "valves.csv", "checks.csv", "small.csv", "hands.csv", "equipment.toml",
}

// load reads every row file.
func load(files fs.FS) ([]Row, []Problem) {
	var problems []Problem
	said := map[string]quantity.Text{} // a source is that of many rows
	var all [][]Row
	for _, name := range rowFiles {
		raw, err := fs.ReadFile(files, name)
		if err != nil {
			problems = append(problems, Problem{Origin: name, Message: quantity.OfError(err)})
			continue
		}
		read := readCSV
		if path.Ext(name) == ".toml" {
			read = readTOML
		}
		r, bad := read(name, raw)
		for i := range r {
			for k := range columns {
				if columns[k].prose == nil {
					continue
				}
				words := columns[k].prose(&r[i])
				prose, ok := said[string(*words)]
				if !ok {
					prose = quantity.Prose(string(*words))
					said[string(*words)] = prose
				}
				*words = prose
			}
		}
		all = append(all, r)
		problems = append(problems, bad...)
	}
	return slices.Concat(all...), problems
}

func readTOML(name string, raw []byte) ([]Row, []Problem) {
	var all map[string]any
	if _, err := toml.Decode(string(raw), &all); err != nil {
		return nil, []Problem{{Origin: name, Message: quantity.OfError(err)}}
	}
	return decodeRows(all, name)
}

// readCSV reads rows from CSV: the first line names the columns, an empty cell says nothing,
// and a line that starts with # is a remark.
func readCSV(name string, raw []byte) (rows []Row, problems []Problem) {
	in := csv.NewReader(strings.NewReader(string(raw)))
	in.Comment = '#'
	heads, err := in.Read()
	if err != nil {
		return nil, []Problem{{Origin: name, Message: quantity.OfError(err)}}
	}
	found := make([]column, len(heads))
	for i, head := range heads {
		var ok bool
		if found[i], ok = findColumn(head); !ok {
			p := problemOf(head, unknown("column", head, ColumnNames()))
			p.Origin = name
			return nil, []Problem{p}
		}
	}
	rows = make([]Row, 0, strings.Count(string(raw), "\n"))
	for {
		cells, err := in.Read()
		if errors.Is(err, io.EOF) {
			return rows, problems
		}
		if err != nil {
			return rows, append(problems, Problem{Origin: name, Message: quantity.OfError(err)})
		}
		line, _ := in.FieldPos(0)
		row, bad := csvRow(found, cells)
		row.Origin = fmt.Sprintf("%s:%d", name, line)
		for _, p := range bad {
			p.Kind, p.Row, p.Origin = row.Kind, row.Name, row.Origin
			problems = append(problems, p)
		}
		rows = append(rows, row)
	}
}

func csvRow(heads []column, cells []string) (Row, []Problem) {
	var r Row
	var bad []Problem
	for i, c := range heads {
		cell := strings.TrimSpace(cells[i])
		if cell == "" {
			continue
		}
		v, err := cellValue(c.form, cell)
		if err == nil {
			err = c.set(&r, v)
		}
		if err != nil {
			bad = append(bad, problemOf(c.name, err))
		}
	}
	if r.Name == "" {
		r.Name = r.defaultName()
	}
	return r, bad
}

// cellValue turns the text of a cell into what TOML would decode. Points are written
// "50 %: 20 %; 100 %: 100 %", a list of single values "3 m; 5 m".
func cellValue(f form, cell string) (any, error) {
	switch f {
	case number:
		n, err := strconv.ParseFloat(cell, 64)
		if err != nil {
			return nil, fmt.Errorf("%q is not a number", cell)
		}
		return n, nil
	case truth:
		if cell != "yes" {
			return nil, fmt.Errorf("%q is neither yes nor empty", cell)
		}
		return true, nil
	case points:
		var out []any
		for item := range strings.SplitSeq(cell, ";") {
			first, second, two := strings.Cut(item, ":")
			if two {
				out = append(out, []any{strings.TrimSpace(first), strings.TrimSpace(second)})
			} else {
				out = append(out, strings.TrimSpace(first))
			}
		}
		return out, nil
	case table:
		return nil, errors.New("a table can't stand in a cell")
	}
	return cell, nil
}
