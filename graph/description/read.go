package description

import (
	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
	"dryfit/graph/description/pipework"
)

// Read reads a description. It returns the circuit, or nil and what is wrong with the file,
// sorted by place: everything that can be found in one go. Every finding has a place.
func Read(file string, data []byte) (*graph.Circuit, []graph.Diagnostic) {
	return ReadWith(file, data, nil)
}

// ReadWith is Read with rows laid over the embedded catalogue before the description's own.
func ReadWith(file string, data []byte, extra []catalog.Row) (*graph.Circuit, []graph.Diagnostic) {
	go catalog.Embedded() // its rows are read while the file is
	r := &field.Reader{File: located.New(file, data)}
	top, ok := r.Decode()
	if !ok {
		return nil, r.Findings()
	}
	r.Circuit = &graph.Circuit{File: file}
	r.Elsewhere = tablesWith
	r.Catalog = catalog.Embedded().With(extra)
	unknownTables(r, top)
	r.Sizes = map[catalog.Spec][]catalog.Size{}
	r.Parts, r.Looks = map[string]*graph.Part{}, map[string]*graph.Part{}
	r.Spots = map[any]field.Spots{}
	r.Joined = pipework.PortsJoined(top)
	readTables(r, top)
	pipework.Link(r)
	depthAgrees(r)
	r.JoinersLeft()
	if len(r.Found) > 0 {
		return nil, inItsUnits(r.Findings(), r.Circuit.Job.Units)
	}
	r.Circuit.Catalog = r.Catalog
	return r.Circuit, nil
}

// inItsUnits are findings of a file that is not read, worded in the units it asks for: there is no
// circuit to ask later.
func inItsUnits(ds []graph.Diagnostic, units string) []graph.Diagnostic {
	if units == "" {
		return ds
	}
	system := quantity.SystemOf(units)
	in := func(t *quantity.Text) { *t = quantity.Text(t.In(system)) }
	for i := range ds {
		in(&ds[i].Message)
		in(&ds[i].Hint)
		ds[i].Hint = hintIn(ds[i].Hint, system)
		for k := range ds[i].Related {
			in(&ds[i].Related[k].Message)
		}
	}
	return ds
}

// ReadCatalog reads a file of catalogue rows, [[catalog.KIND]] or [[KIND]] tables, and checks
// them.
func ReadCatalog(file string, data []byte) ([]catalog.Row, []graph.Diagnostic) {
	r := &field.Reader{File: located.New(file, data)}
	top, ok := r.Decode()
	if !ok {
		return nil, r.Findings()
	}
	t, _ := top.V.(map[string]any)
	rows, problems := catalog.DecodeFile(t, file)
	proseOfRows(r, top)
	if inner, ok := top.In("catalog"); ok {
		proseOfRows(r, inner)
	}
	problems = checked(rows, problems)
	if inner, ok := top.In("catalog"); ok {
		addProblems(r, inner, problems)
	} else {
		addProblems(r, top, problems)
	}
	if len(rows) == 0 && len(r.Found) == 0 {
		r.Add(graph.Pos{File: r.Name, Line: 1, Column: 1}, "[[catalog.KIND]] tables, such as [[catalog.pump]], each with its name; or leave the file out",
			"this catalogue holds no rows")
	}
	r.JoinersLeft()
	if len(r.Found) > 0 {
		return nil, r.Findings()
	}
	return rows, nil
}
