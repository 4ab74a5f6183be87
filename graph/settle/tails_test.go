package settle_test

import (
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/settle"
)

// A tee between hoses is the same however it is said: by nothing, by its tails, or as made for
// hose of a size. Hose goes onto it directly, and there is no barb to buy or to look for. Held for
// every size of hose there is.
func TestTeeForHoseHasTails(t *testing.T) {
	const text = `
[pipe]
spec = "hose"
size = "SIZE"

[[part]]
id = "bath"
kind = "tub"
ports = ["left", "right", "back"]

[[part]]
id = "y"
kind = "tee"
existing = true
SAID

[[part]]
id = "pump"
kind = "pump"
existing = true

[[run]]
from = "bath.left"
to = "y.run-in"
existing = true
length = "700 mm"

[[run]]
from = "bath.right"
to = "y.branch"
existing = true
length = "500 mm"

[[run]]
from = "y.run-out"
to = "pump.in"
existing = true
length = "300 mm"

[[run]]
from = "pump.out"
to = "bath.back"
existing = true
length = "1 m"
`
	sizes := catalog.Embedded().PipeSizes(catalog.HosePipe)
	if len(sizes) < 5 {
		t.Fatalf("only %d sizes of hose", len(sizes))
	}
	for _, size := range sizes {
		for _, said := range []string{`ends = "barb"`, `spec = "hose"`, `spec = "hose"` + "\nsize = \"SIZE\""} {
			file := strings.ReplaceAll(strings.Replace(text, "SAID", said, 1), "SIZE", size.String())
			c, ds := description.Read("y.toml", []byte(file))
			if c == nil || graph.HasErrors(ds) {
				t.Fatal(ds)
			}
			for _, r := range settle.Of(c.At(graph.After)).Runs {
				for k := range r.Ends {
					if e := &r.Ends[k]; e.Ref.Part == "y" && len(e.Adaptors) > 0 {
						t.Errorf("hose of %s, tee with %q: a %s at %s", size, said, e.Adaptors[0].Kind, e.Ref)
					}
				}
			}
		}
	}
}
