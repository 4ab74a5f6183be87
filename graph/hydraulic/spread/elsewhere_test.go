package spread

import (
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/route/laying"
)

// Only a valve past the unit is set by what the unit shows; one in the line to the tub is not turned for
// it. The same valve, part open, in the one place and the other.
func TestValveElsewhereIsNotSetByTheUnit(t *testing.T) {
	text := strings.Replace(setText, `kv = "KV m3/h"`, `position = "60 %"`, 1)
	text = strings.Replace(text, "[[part]]\nid = \"unit\"", "[[part]]\nid = \"old\"\nkind = \"ball-valve\"\nposition = \"60 %\"\n[[part]]\nid = \"unit\"", 1)
	text = strings.Replace(text, "to = \"tub.b\"\nlength = \"3 m\"", "to = \"old.in\"\nlength = \"3 m\"\n[[run]]\nfrom = \"old.out\"\nto = \"tub.b\"\nlength = \"1 m\"", 1)
	c, ds := description.Read("two.toml", []byte(text))
	if c == nil || graph.HasErrors(ds) {
		t.Fatal(ds)
	}
	told := map[string]int{}
	r := Of(nil, laying.Of(c.At(graph.After)), "unit", nil, nil)
	for _, f := range r.MeasureFirst { // none of the two is fitted yet
		if f.ToBeSet || strings.Contains(string(f.Reading), "display") || f.Part == "unit" && strings.Contains(string(f.Reading), "gauge") {
			t.Errorf("measured first, of new work: %s: %s", f.Said(), f.Reading)
		}
	}
	for _, f := range r.Moves {
		if !strings.HasPrefix(f.What, "where the ") && !strings.HasPrefix(f.What, "the Kv of") {
			continue
		}
		told[f.Part]++
		if !f.ToBeSet {
			t.Errorf("%s: not said to be set once it is fitted", f.Said())
		}
		if got := strings.Contains(string(f.Reading), "display"); got != (f.Part == "bypass") {
			t.Errorf("%s: %s", f.Said(), f.Reading)
		}
	}
	if told["bypass"] == 0 || told["old"] == 0 {
		t.Errorf("told of each valve: %v", told)
	}
}
