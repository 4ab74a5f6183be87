package laying

import (
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
)

// A valve of a size the catalogue has none of is measured, and its length written on it, where it stands
// in the file; where [retrofit] asked for it there is no part to write that on, and the hint says what
// can be written there.
func TestHintOfAValveWithoutALength(t *testing.T) {
	for _, c := range []struct {
		inFile     bool
		want, none string
	}{{true, "measure it and write length", "isolators"}, {false, "leave isolators out in [retrofit]", "write length"}} {
		s := newSketch(catalog.PVCSch40, inch(1)) // butterfly valves begin at 1 1/2 in
		v := s.part(graph.ButterflyValve, "v")
		if c.inFile {
			v.KeyPos = map[string]graph.Pos{"kind": v.Pos}
		}
		s.part(graph.Filter, "a").Existing = true
		s.part(graph.Filter, "b").Existing = true
		s.run("a.out", "v.in", right(400))
		s.run("v.out", "b.in", right(400))
		hint := ""
		for _, d := range Of(s.c).Findings {
			if strings.Contains(d.Message.String(), "nobody says how long butterfly-valve") {
				hint = d.Hint.String()
			}
		}
		if !strings.Contains(hint, c.want) || strings.Contains(hint, c.none) || !strings.Contains(hint, "[[catalog.butterfly-valve]]") {
			t.Errorf("in the file %v: %q", c.inFile, hint)
		}
	}
}
