package description

import (
	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/description/located"
)

// reader holds what reading one file needs and finds.
type reader struct {
	*located.File
	catalog *catalog.Catalog
	circuit *graph.Circuit
	metric  bool     // [pipe] is metric: which sizes an example shows
	metre   float64  // Pa of a metre of the water
	legs    int      // how many so far
	unread  []string // tables that are there but could not be read

	sizes  map[catalog.Spec][]catalog.Size // in the catalogue, looked up once
	parts  map[string]*graph.Part          // by id
	loose  []string                        // ids of the parts at which an end of a run was not understood
	joined map[string][]string             // ports that runs name, by part
	spots  map[any]spots                   // where what was read stands, by its pointer
}

// Read reads a description. It returns the circuit, or nil and what is wrong with the file,
// sorted by place: everything that can be found in one go. Every finding has a place.
func Read(file string, data []byte) (*graph.Circuit, []graph.Diagnostic) {
	return ReadWith(file, data, nil)
}

// ReadWith is Read with rows laid over the embedded catalogue before the description's own.
func ReadWith(file string, data []byte, extra []catalog.Row) (*graph.Circuit, []graph.Diagnostic) {
	r := &reader{File: located.New(file, data)}
	top, ok := r.Decode()
	if !ok {
		return nil, r.Findings()
	}
	r.circuit = &graph.Circuit{File: file}
	r.catalog = catalog.Embedded().With(extra)
	r.weigh()
	r.sizes = map[catalog.Spec][]catalog.Size{}
	r.parts = map[string]*graph.Part{}
	r.spots = map[any]spots{}
	r.joined = portsJoined(top)
	r.tables(top)
	r.link()
	if len(r.Found) > 0 {
		return nil, r.Findings()
	}
	r.circuit.Catalog = r.catalog
	return r.circuit, nil
}

// ReadCatalog reads a file of catalogue rows, [[catalog.KIND]] or [[KIND]] tables, and checks
// them.
func ReadCatalog(file string, data []byte) ([]catalog.Row, []graph.Diagnostic) {
	r := &reader{File: located.New(file, data)}
	top, ok := r.Decode()
	if !ok {
		return nil, r.Findings()
	}
	t, _ := top.V.(map[string]any)
	rows, problems := catalog.DecodeFile(t, file)
	problems = checked(rows, problems)
	if inner, ok := top.In("catalog"); ok {
		r.problems(inner, problems)
	} else {
		r.problems(top, problems)
	}
	if len(r.Found) > 0 {
		return nil, r.Findings()
	}
	return rows, nil
}
