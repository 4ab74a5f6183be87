package spread

import (
	"testing"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/settle"
)

// Nobody takes the cartridge out of a bed of sand; common practice, no source.
func TestUnhindered(t *testing.T) {
	filter := func(media string) hydraulic.ModelPart {
		p := &graph.Part{Kind: graph.Filter, Filter: &graph.FilterData{Media: media}}
		return hydraulic.ModelPart{Part: p, Set: &settle.Part{Part: p}}
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
