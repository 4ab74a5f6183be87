package catalog

import (
	"bytes"
	"encoding/csv"
	"sync"
)

// openings are the opening curves of the hand valve kinds, for rows that have none of their
// own. They say how much of its full-open Kv a valve keeps: see data/openings.csv for where
// each comes from.
var openings = sync.OnceValue(func() map[string][][2]float64 {
	out := map[string][][2]float64{}
	for _, line := range openingTable() {
		var r Row
		v, err := cellValue(points, line[1])
		if err == nil {
			err = setOpening(&r, v)
		}
		if err != nil {
			panic("catalog: openings.csv: " + err.Error())
		}
		out[line[0]] = r.Opening
	}
	return out
})

// OpeningSource says where the opening curve of a hand valve kind comes from.
func OpeningSource(kind string) string {
	for _, line := range openingTable() {
		if line[0] == kind {
			return line[2]
		}
	}
	return ""
}

func openingTable() [][]string { return embeddedTable("openings.csv") }

// embeddedTable returns the lines of an embedded table, without its heads.
func embeddedTable(name string) [][]string {
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
	return lines[1:]
}
