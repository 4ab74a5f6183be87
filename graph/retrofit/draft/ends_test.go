package draft

import (
	"testing"

	"dryfit/graph"
	"dryfit/graph/route"
)

// What a tape is held to is said in words, and where there is no face to hold it to, that is
// said too.
func TestDatum(t *testing.T) {
	for _, c := range []struct {
		e    End
		want string
	}{
		{End{Name: "filter.out", Depth: 34.9}, "face of the filter.out"},
		{End{Name: "bend 1 of hose", through: true, Hose: true}, "middle of bend 1 of hose"},
		{End{Name: "element.out", Hose: true}, "end of the hose at element.out"},
		{End{Name: "box.out"}, "end of the pipe inside box.out (the depth of its socket is not known: measure it, and take it off what the tape reads from its face)"},
	} {
		if got := c.e.Datum(); got != c.want {
			t.Errorf("%+v: %q, want %q", c.e, got, c.want)
		}
	}
}

// Where two legs go the same way no bend stands: what a tape is held to there is the end of the first.
func TestLegEndsWithoutABend(t *testing.T) {
	path := &route.Path{Run: &graph.Run{ID: "line", Spec: "pvc-sch40"},
		Points: []graph.Vec{{}, {X: 500}, {X: 900}, {X: 1200, Z: 300}}, Stops: make([]route.End, 4)}
	if _, finish := LegEnds(path, 1); finish.Datum() != "end of leg 1 of line" {
		t.Errorf("straight on: %q", finish.Datum())
	}
	if _, finish := LegEnds(path, 2); finish.Datum() != "middle of bend 2 of line" {
		t.Errorf("round a bend without a fitting: %q", finish.Datum())
	}
}
