package main

import (
	"errors"
	"fmt"
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/cmd/dryfit/world"
	"dryfit/graph"
	"dryfit/render/table"
)

func catalogVerb() *verb {
	return &verb{
		name: "catalog", args: "list|show|check|units",
		does: "list, show and check catalogue rows; units prints every unit",
		more: "list [WORD…]     rows whose name has every word\n" +
			"show NAME        one row with every number and its source\n" +
			"check [FILE…]    check the built-in rows, or the rows of your files\n" +
			"units            every unit a description may use",
		example: "dryfit catalog list elbow sch40\ndryfit catalog show \"elbow-90 pvc-sch40 2 in\"\ndryfit catalog check my-fittings.toml",
		run:     runCatalog,
	}
}

func runCatalog(v *verb, args []string, w *world.World) int {
	var j job
	f := v.flags()
	formats := []string{"text", "csv", "json"}
	j.add(f, formats...)
	if code, done := j.start(v, f, formats, args, w); done {
		return code
	}
	if f.NArg() == 0 {
		return world.Complain(w, errors.New("catalog wants a word: list, show, check or units"))
	}
	word, rest := f.Arg(0), f.Args()[1:]
	if word == "check" {
		return j.checkCatalog(append(rest, j.catalogs...), w)
	}
	rows, bad, code := j.readCatalogs(j.catalogs, w)
	if code != world.Done {
		return code
	}
	if graph.HasErrors(bad) {
		return j.say(bad, w)
	}
	cat := catalog.Embedded().With(rows)
	switch word {
	case "list":
		return j.listCatalog(cat, rest, w)
	case "show":
		return j.showCatalog(cat, rest, w)
	case "units":
		if j.format != "text" {
			return world.Complain(w, errors.New("catalog units prints text only"))
		}
		return w.Write(j.output, table.UnitsText(quantity.Units(), j.style(w)))
	}
	return world.Complain(w, wrongWord("the word after catalog", word, []string{"list", "show", "check", "units"}))
}

func (j *job) listCatalog(cat *catalog.Catalog, words []string, w *world.World) int {
	var found []catalog.Row
	for _, row := range cat.Rows() {
		if hasAll(row.Kind+" "+row.Name, words) {
			found = append(found, row)
		}
	}
	if len(found) == 0 {
		return world.Complain(w, fmt.Errorf("no catalogue row has %q in its kind or name; the kinds are %s", strings.Join(words, " "), strings.Join(cat.Kinds(), ", ")))
	}
	return j.printRows(found, w)
}

func hasAll(name string, words []string) bool {
	for _, word := range words {
		if !strings.Contains(strings.ToLower(name), strings.ToLower(word)) {
			return false
		}
	}
	return true
}

func (j *job) printRows(rows []catalog.Row, w *world.World) int {
	var out []byte
	var err error
	switch j.format {
	case "csv":
		out = table.RowsCSV(rows)
	case "json":
		out, err = table.RowsJSON(rows)
	default:
		out = table.RowsText(rows, j.style(w))
	}
	if err != nil {
		return world.Complain(w, err)
	}
	return w.Write(j.output, out)
}

// whereRowsAre says how the rows are listed that a name may be meant for.
func whereRowsAre(cat *catalog.Catalog, word string) string {
	for _, row := range cat.Rows() {
		if hasAll(row.Kind+" "+row.Name, []string{word}) {
			return "dryfit catalog list " + word + " prints those it may be"
		}
	}
	return "dryfit catalog list prints them all, dryfit catalog list KIND those of a kind: " + strings.Join(cat.Kinds(), ", ")
}

func (j *job) showCatalog(cat *catalog.Catalog, rest []string, w *world.World) int {
	name := strings.Join(rest, " ")
	if name == "" {
		return world.Complain(w, errors.New("catalog show wants a row's name: dryfit catalog list prints them"))
	}
	row, ok := cat.Row(name)
	if !ok {
		err := fmt.Errorf("no catalogue row %q", name)
		if near := cat.Nearest(name); near != "" {
			err = fmt.Errorf("no catalogue row %q; did you mean %q?", name, near)
		} else {
			err = fmt.Errorf("%w (%s)", err, whereRowsAre(cat, strings.Fields(name)[0]))
		}
		return world.Complain(w, err)
	}
	if j.format == "text" {
		return w.Write(j.output, table.RowText(row, j.style(w)))
	}
	return j.printRows([]catalog.Row{row}, w)
}

// checkCatalog checks the built-in rows, or those of files laid over them.
func (j *job) checkCatalog(files []string, w *world.World) int {
	rows, findings, code := j.readCatalogs(files, w)
	if code != world.Done {
		return code
	}
	if len(files) == 0 {
		rows = catalog.Embedded().Rows()
		for _, p := range catalog.Check(rows) {
			findings = append(findings, graph.Diagnostic{
				Pos: graph.Pos{File: p.Origin}, Rule: "catalog", Severity: graph.Error, Message: quantity.Text(p.String()),
			})
		}
	}
	if code := j.say(graph.SortDiagnostics(findings), w); code != world.Done {
		return code
	}
	what := "rows"
	if len(rows) == 1 {
		what = "row"
	}
	return w.Write(j.output, fmt.Appendf(nil, "%d %s, nothing to mend\n", len(rows), what))
}
