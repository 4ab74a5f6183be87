package tag

import (
	"testing"

	"dryfit/graph"
	"dryfit/graph/stream"
)

func TestTags(t *testing.T) {
	c := &graph.Circuit{Parts: []*graph.Part{
		{ID: "tub", Kind: graph.Tub}, {ID: "iso", Kind: graph.BallValve}, {ID: "v1", Kind: graph.GateValve},
		{ID: "V3", Kind: graph.ButterflyValve}, {ID: "other", Kind: graph.GateValve}, {ID: "x2", Kind: graph.CheckValve},
	}}
	got := Tags(c, stream.NewNet(c))
	for id, want := range map[string]string{"tub": "", "iso": "V2", "v1": "V1", "V3": "V3", "other": "V4", "x2": "CV1"} {
		if got[id] != want {
			t.Errorf("tag of %s is %q, want %q", id, got[id], want)
		}
	}
	for _, k := range graph.Kinds() {
		if l, ok := tagLetters[k]; !ok {
			t.Errorf("%s has no letters", k)
		} else if len(l) > 2 {
			t.Errorf("%s has %q", k, l)
		}
	}
}
