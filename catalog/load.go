package catalog

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
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
func load(files fs.FS) (rows []Row, problems []Problem) {
	raw, lines := make([][]byte, len(rowFiles)), 0
	for i, name := range rowFiles {
		text, err := fs.ReadFile(files, name)
		if err != nil {
			problems = append(problems, Problem{Origin: name, Message: quantity.OfError(err)})
			continue
		}
		raw[i] = text
		lines += bytes.Count(text, []byte("\n"))
	}
	rows = make([]Row, 0, lines)       // once: a row is large, and they are read at every start
	said := map[string]quantity.Text{} // a source is that of many rows
	for i, name := range rowFiles {
		if raw[i] == nil {
			continue
		}
		var bad []Problem
		had := len(rows)
		if path.Ext(name) == ".toml" {
			rows, bad = readTOML(rows, name, raw[i])
		} else {
			rows, bad = readCSV(rows, name, raw[i])
		}
		for k := range rows[had:] {
			readProse(&rows[had+k], said)
		}
		problems = append(problems, bad...)
	}
	return rows, problems
}

// readProse reads the amounts in a row's words, each text once.
func readProse(r *Row, said map[string]quantity.Text) {
	for k := range columns {
		if columns[k].prose == nil {
			continue
		}
		words := columns[k].prose(r)
		prose, ok := said[string(*words)]
		if !ok {
			prose = quantity.Prose(string(*words))
			said[string(*words)] = prose
		}
		*words = prose
	}
}

// readTOML adds the rows of a TOML file to those that are there.
func readTOML(rows []Row, name string, raw []byte) ([]Row, []Problem) {
	var all map[string]any
	if _, err := toml.Decode(string(raw), &all); err != nil {
		return rows, []Problem{{Origin: name, Message: quantity.OfError(err)}}
	}
	own, problems := decodeRows(all, name)
	return append(rows, own...), problems
}

// readCSV adds the rows of CSV: the first line names the columns, an empty cell says nothing,
// and a line that starts with # is a remark.
func readCSV(rows []Row, name string, raw []byte) ([]Row, []Problem) {
	in := csv.NewReader(bytes.NewReader(raw))
	in.Comment = '#'
	in.ReuseRecord = true
	heads, err := in.Read()
	if err != nil {
		return rows, []Problem{{Origin: name, Message: quantity.OfError(err)}}
	}
	found := make([]column, len(heads))
	for i, head := range heads {
		var ok bool
		if found[i], ok = findColumn(head); !ok {
			p := problemOf(head, unknown("column", head, ColumnNames()))
			p.Origin = name
			return rows, []Problem{p}
		}
	}
	var problems []Problem
	for {
		cells, err := in.Read()
		if errors.Is(err, io.EOF) {
			return rows, problems
		}
		if err != nil {
			return rows, append(problems, Problem{Origin: name, Message: quantity.OfError(err)})
		}
		line, _ := in.FieldPos(0)
		rows = append(rows, Row{Origin: name + ":" + strconv.Itoa(line)})
		row := &rows[len(rows)-1]
		for _, p := range readCells(row, found, cells) {
			p.Kind, p.Row, p.Origin = row.Kind, row.Name, row.Origin
			problems = append(problems, p)
		}
	}
}

// readCells reads the cells of one line into an empty row.
func readCells(r *Row, heads []column, cells []string) (bad []Problem) {
	for i := range heads {
		c := &heads[i]
		cell := strings.TrimSpace(cells[i])
		if cell == "" {
			continue
		}
		v, err := cellValue(c.form, cell)
		if err == nil {
			err = c.set(r, v)
		}
		if err != nil {
			bad = append(bad, problemOf(c.name, err))
		}
	}
	if r.Name == "" {
		r.Name = r.defaultName()
	}
	return bad
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
