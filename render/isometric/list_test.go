package isometric

import (
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/settle"
)

// The list of pieces that have no place on a drawing says of each how sure its length is, as the cut list does:
// one that is cut on site has none yet, one that hangs on a part to be measured its star. Both were listed with
// a length like any other.
func TestListedPiecesKeepTheirSigns(t *testing.T) {
	c := &graph.Circuit{Job: graph.Job{Name: "bare"}, Parts: []*graph.Part{{ID: "a", Kind: graph.Pump}, {ID: "b", Kind: graph.Filter}}}
	size := catalog.Size{Nominal: 2}
	words := func(pieces ...route.Piece) string {
		var out []string
		for _, page := range Draw(Input{Layout: &route.Layout{Circuit: c, Stage: settle.Of(c), Pieces: pieces, Positions: map[string]graph.Vec{}}}) {
			for _, l := range textsOf(page) {
				out = append(out, l.Text)
			}
		}
		return strings.Join(out, "\n")
	}
	all := words(route.Piece{Number: 1, Size: size, CutMM: 411}, route.Piece{Number: 2, Size: size, CutMM: 512, Measure: true}, route.Piece{Number: 3, Size: size, CutMM: 613, OnSite: true})
	for _, want := range []string{"411 mm: ", "512 mm*: ", "cut on site+: ", "measured first", "when the unit stands"} {
		if !strings.Contains(all, want) {
			t.Errorf("no %q in:\n%s", want, all)
		}
	}
	if strings.Contains(all, "613 mm") {
		t.Errorf("a piece that is cut on site has a length:\n%s", all)
	}
	if sure := words(route.Piece{Number: 1, Size: size, CutMM: 411}); strings.Contains(sure, "*") || strings.Contains(sure, "+") {
		t.Errorf("signs where there are none:\n%s", sure)
	}
}
