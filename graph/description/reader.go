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
