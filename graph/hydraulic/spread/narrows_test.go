package spread

import (
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/route/laying"
)

// What is told to be measured first of a pump nobody knows is its curve; written into the file as that
// line says, it makes the unit's flow known to less than half of what it was.
func TestWhatIsMeasuredFirstNarrows(t *testing.T) {
	text := strings.Replace(setText, `kv = "KV m3/h"`, `position = "shut"`, 1)
	ranges := func(text string) *Ranges {
		c, ds := description.Read("narrows.toml", []byte(text))
		if c == nil || graph.HasErrors(ds) {
			t.Fatal(ds)
		}
		return Of(nil, laying.Of(c.At(graph.After)), "unit", nil, nil)
	}
	wide := ranges(text)
	first := wide.MeasureFirst[0]
	if first.Part != "pump" || !strings.Contains(string(first.Reading), "write them as its curve, and known as measured") {
		t.Fatalf("measure first: %s, by %s", first.What, first.Reading)
	}
	narrow := ranges(strings.Replace(text, `type = "circulation-pump-1.5in"`, `known = "measured"
curve = [["0 m3/h", "6.9 m"], ["5 m3/h", "4.6 m"], ["8.5 m3/h", "1.2 m"]]`, 1))
	width := func(r *Ranges) float64 {
		unit := r.Of("on", graph.After).Parts[5]
		return (unit.High - unit.Low) / unit.Likely
	}
	if !(width(narrow) < width(wide)/2) {
		t.Errorf("the unit's flow is known to %.0f %% before, to %.0f %% after", 100*width(wide), 100*width(narrow))
	}
}
