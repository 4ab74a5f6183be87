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

// A barb between hose and pipe that no row joins is told by both, whichever way round it stands, with what
// each does go to: by one size alone the hint named sizes the catalogue has. Between two that a row joins
// nothing is told.
func TestHintOfABarbBetweenTwoSizes(t *testing.T) {
	for _, c := range []struct {
		hose      catalog.Size
		hoseFirst bool
		none      bool
	}{{inch(1.25), true, true}, {inch(1.25), false, true}, {inch(1.5), true, false}, {inch(1.5), false, false}} {
		s := newSketch(catalog.PVCSch40, inch(1.5))
		s.part(graph.Barb, "barb")
		s.part(graph.Filter, "a").Existing = true
		s.part(graph.Filter, "b").Existing = true
		in := s.run("a.out", "barb.in", right(400))
		out := s.run("barb.out", "b.in", right(400))
		soft := out
		if c.hoseFirst {
			soft = in
		}
		soft.Spec, soft.Size = catalog.HosePipe, c.hose
		told := ""
		for _, d := range Of(s.c).Findings {
			if strings.Contains(d.Message.String(), `"barb" is from stop to stop`) {
				told = d.Message.String() + ": " + d.Hint.String()
			}
		}
		if told != "" != c.none {
			t.Errorf("%v: %q", c, told)
		}
		for _, word := range []string{"no barb from", "hose 1-1/4 in goes to 1-1/4 in", "pvc-sch40 1-1/2 in goes to 1-1/2 in", "[[catalog.barb]]"} {
			if c.none && !strings.Contains(told, word) {
				t.Errorf("%v: %q lacks %q", c, told, word)
			}
		}
	}
}
