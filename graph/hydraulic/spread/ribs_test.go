package spread

import (
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/route/laying"
)

// What settles the ribs of corrugated hose is a finger, for some are smooth inside: a gauge was asked for,
// of "old hose-corrugated pipe". Flexible pipe has ribs by which no other spec is meant.
func TestRibsAreFelt(t *testing.T) {
	for _, c := range []struct {
		spec, what string
		felt       bool
	}{{"hose-corrugated", "the ribs of old corrugated hose", true}, {"flex-metric", "the ribs of old flex-metric pipe", false}} {
		text := strings.NewReplacer(`spec = "pvc-pn10"`, `spec = "`+c.spec+`"`, "KIND", "filter", "WHAT", "").Replace(ownRowText)
		d, ds := description.Read("ribs.toml", []byte(text))
		if d == nil || graph.HasErrors(ds) {
			t.Fatal(ds)
		}
		told := false
		for _, f := range Of(nil, laying.Of(d.At(graph.After)), "", nil, nil).Moves {
			if f.What == c.what {
				told = true
				if felt := strings.Contains(string(f.Reading), "felt at an open end"); felt != c.felt {
					t.Errorf("%s: %s", c.what, f.Reading)
				}
			}
		}
		if !told {
			t.Errorf("nothing is told of %s", c.what)
		}
	}
}
