package field

import (
	"slices"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/description/located"
)

// Reader holds what reading one file needs and finds.
type Reader struct {
	*located.File
	Catalog *catalog.Catalog
	Circuit *graph.Circuit
	Metric  bool     // [pipe] is metric: which sizes an example shows
	Metre   float64  // Pa of a metre of the water
	Legs    int      // how many so far
	Unread  []string // tables that are there but could not be read

	// Elsewhere tells the tables that have a key; nil where nobody knows.
	Elsewhere func(key string) []string

	Sizes  map[catalog.Spec][]catalog.Size // in the catalogue, looked up once
	Parts  map[string]*graph.Part          // by id
	Looks  map[string]*graph.Part          // by how an id looks
	Missed map[string]int                  // names runs give to parts nobody describes: which of what was found tells it
	Twice  []int                           // which of what was found tells of a part's id used twice, until what the second was called is known
	Loose  []string                        // ids of the parts at which an end of a run was not understood
	Joined map[string][]string             // ports that runs name, by part
	Spots  map[any]Spots                   // where what was read stands, by its pointer
}

// HasPrice reports whether there is a part, a kind or a row of the catalogue of a name, which may then
// have a price.
func (r *Reader) HasPrice(item string) bool {
	_, part := r.Parts[item]
	_, row := r.Catalog.Row(item)
	return part || row || slices.Contains(graph.Kinds(), graph.Kind(item)) || slices.Contains(r.Catalog.Kinds(), item)
}
