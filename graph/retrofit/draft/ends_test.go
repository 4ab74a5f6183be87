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

// Where two legs go the same way nothing can be seen of where they meet: a tape is held to what comes
// next. By hand: legs of 500, 400 and 300 mm in one line between a socket whose face is 60 mm from the
// centre and one 35 mm from its stop.
func TestLegEndsWithoutABend(t *testing.T) {
	path := &route.Path{Run: &graph.Run{ID: "line", Spec: "pvc-sch40"},
		Points: []graph.Vec{{}, {X: 500}, {X: 900}, {X: 1200}, {X: 1500, Z: 300}},
		Stops:  []route.End{{Fitting: "tee.run-out", TakeOffMM: 30, DepthMM: 30}, {}, {}, {Fitting: "elbow-45 at bend 3 of line", Kind: "elbow-45", DepthMM: 35}, {}}}
	for _, c := range []struct {
		leg          int
		from, to     string
		held, behind float64
	}{
		{1, "face of the tee.run-out", "face of the elbow-45 at bend 3 of line", 0, 400 + 300 - 35},
		{2, "face of the tee.run-out", "face of the elbow-45 at bend 3 of line", 500 - 60, 300 - 35},
		{3, "face of the tee.run-out", "face of the elbow-45 at bend 3 of line", 500 + 400 - 60, 0},
	} {
		start, finish := LegEnds(path, c.leg)
		if start.Datum() != c.from || finish.Datum() != c.to || start.OverMM() != c.held || finish.OverMM() != c.behind {
			t.Errorf("leg %d: %q %g mm before it, %q %g mm behind it; want %q %g, %q %g", c.leg, start.Datum(), start.OverMM(), finish.Datum(), finish.OverMM(), c.from, c.held, c.to, c.behind)
		}
		if c.leg == 2 && (start.Face() != 0 || finish.Face() != 0 || start.Bend || finish.Bend) {
			t.Errorf("leg 2 has pipe of its own from end to end: %+v, %+v", start, finish)
		}
	}
	bent := &route.Path{Run: path.Run, Points: []graph.Vec{{}, {X: 900}, {X: 1200, Z: 300}}, Stops: make([]route.End, 3)}
	if _, finish := LegEnds(bent, 1); finish.Datum() != "middle of bend 1 of line" {
		t.Errorf("round a bend without a fitting: %q", finish.Datum())
	}
}
