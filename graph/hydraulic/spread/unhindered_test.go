package spread

import (
	"testing"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
)

// Nobody takes the cartridge out of a bed of sand; common practice, no source.
func TestUnhindered(t *testing.T) {
	filter := func(media string) hydraulic.ModelPart {
		return hydraulic.ModelPart{Part: &graph.Part{Kind: graph.Filter, Filter: &graph.FilterData{Media: media}}}
	}
	for want, parts := range map[string][]hydraulic.ModelPart{
		"open with the cartridge out":                                {filter("")},
		"open with the filter's own valve set to lead past the sand": {filter("sand")},
		"open": nil,
	} {
		if got := unhindered(&hydraulic.Model{Parts: parts}); got != want {
			t.Errorf("%d filters: %q, want %q", len(parts), got, want)
		}
	}
}
