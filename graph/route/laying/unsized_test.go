package laying_test

import (
	"slices"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/route"
	"dryfit/graph/route/laying"
)

// Pipe that is described by its bore alone, for its flow, has no dimensions to cut by: that
// is said, and is no mistake.
func TestNoSize(t *testing.T) {
	const text = `
[[part]]
id = "tub"
kind = "tub"
ports = ["s", "a", "b"]
[[part]]
id = "pump"
kind = "pump"
[[part]]
id = "t"
kind = "tee"
[[run]]
id = "s"
from = "tub.s"
to = "pump.in"
length = "1 m"
bore = "50 mm"
[[run]]
id = "d"
from = "pump.out"
to = "t.run-in"
length = "1 m"
bore = "50 mm"
fittings = { elbow-90 = 1 }
[[run]]
id = "a"
from = "t.run-out"
to = "tub.a"
length = "36 m"
bore = "40 mm"
[[run]]
id = "b"
from = "t.branch"
to = "tub.b"
length = "36 m"
bore = "80 mm"
`
	c, ds := description.Read("unsized.toml", []byte(text))
	if c == nil || graph.HasErrors(ds) {
		t.Fatalf("the description is wrong: %v", ds)
	}
	lay := laying.Of(c.At(graph.After))
	findings := slices.Concat(lay.Findings, route.Assemble(lay).Findings)
	said := false
	for _, d := range findings {
		if d.Severity == graph.Error {
			t.Errorf("%s: %s", d.Rule, d.Message)
		}
		said = said || d.Message == "d has no size: what its elbow-90 measures is not known"
	}
	if !said {
		t.Errorf("nothing says that d has no size: %v", findings)
	}
}
