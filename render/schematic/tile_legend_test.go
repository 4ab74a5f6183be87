package schematic

import (
	"strings"
	"testing"

	"dryfit/render/scene"
)

// The legend of each sheet of a schematic that is cut into several has the lines that stand on it, and no
// others: a sheet of old pipe alone knew new pipe and the cut.
func TestLegendOfEachSheetHasItsLines(t *testing.T) {
	c := read(t, "testdata/every-kind.toml")
	without := map[string]int{}
	for n, p := range Draw(Input{Circuit: c}) {
		drawn, told := map[string]bool{}, map[string]bool{}
		for _, it := range p.Items {
			switch it := it.(type) {
			case scene.Shape:
				id, isRun := strings.CutPrefix(it.Name, "run:")
				switch {
				case strings.HasPrefix(it.Name, "cut:"):
					drawn["cut existing pipe"] = true
				case !isRun || c.Run(id) == nil:
				case it.Style.StrokeMM == penNew:
					drawn["new pipe"] = true
				default:
					drawn["existing pipe"] = true
				}
			case scene.Text:
				told[it.Text] = true
			}
		}
		for _, kind := range []string{"new pipe", "existing pipe", "cut existing pipe"} {
			if drawn[kind] != told[kind] {
				t.Errorf("sheet %d: %s drawn %v, in the legend %v", n+1, kind, drawn[kind], told[kind])
			}
			if !drawn[kind] {
				without[kind]++
			}
		}
	}
	if len(without) == 0 {
		t.Error("every sheet has every kind of line: nothing is tried")
	}
}
