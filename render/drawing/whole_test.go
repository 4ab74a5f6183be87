package drawing

import (
	"os"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/render/scene"
)

// A schematic that goes on is cut across pipes and the tub, whatever that is called: every other sign stands whole on one
// sheet. The unit was on two, its one wall alone on the second.
func TestSignsAreWhole(t *testing.T) {
	data, err := os.ReadFile("../../graph/plan/testdata/jobs/round-on-hose.toml")
	if err != nil {
		t.Fatal(err)
	}
	for _, tub := range []string{"tub", "spa"} {
		text := strings.NewReplacer(`id = "tub"`, `id = "`+tub+`"`, `"tub.`, `"`+tub+`.`).Replace(string(data))
		p := planOf(t, "round.toml", []byte(text))
		pages := drawn(t, p, "schematic", quantity.MetricSystem)
		on := map[string]map[int]bool{}
		for n, page := range pages {
			for _, it := range page.Items {
				if s, ok := it.(scene.Shape); ok && strings.HasPrefix(s.Name, "symbol:") {
					if on[s.Name] == nil {
						on[s.Name] = map[int]bool{}
					}
					on[s.Name][n] = true
				}
			}
		}
		signs := 0
		for _, part := range p.Circuit.Parts {
			sheets := len(on["symbol:"+part.ID])
			if part.Kind != graph.Tub && sheets > 1 {
				t.Errorf("%s: the sign of %q stands on %d sheets of %d", tub, part.ID, sheets, len(pages))
			}
			signs += min(sheets, 1)
		}
		if len(pages) < 2 || signs < 10 {
			t.Fatalf("%s: %d sheets, %d signs", tub, len(pages), signs)
		}
	}
}
