package detail

import (
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"dryfit/graph/description"
	"dryfit/graph/route/laying"
	"dryfit/render/scene"
)

// Both pipes to the unit of this job are hose behind a valve. The detail shows what the hand
// holds there: valve, short piece, barb, hose, with the number of each and of their joints, and
// the joint of a bush in its tee.
func TestBarbBehindAValve(t *testing.T) {
	data, err := os.ReadFile("../isometric/testdata/hose.toml")
	if err != nil {
		t.Fatal(err)
	}
	c, ds := description.Read("hose.toml", data)
	if c == nil {
		t.Fatal(ds)
	}
	lay := laying.Of(c)
	pages := Draw(Input{Layout: lay})
	if len(pages) != 1 {
		t.Fatalf("%d sheets", len(pages))
	}
	var words []string
	teeth := 0
	for _, it := range pages[0].Items {
		switch it := it.(type) {
		case scene.Text:
			words = append(words, it.Text)
		case scene.Shape:
			if it.Name == "barb" {
				teeth++
			}
		}
	}
	if teeth == 0 || !slices.Contains(words, "barb 1-1/2 in x 38 mm") {
		t.Errorf("no barb on the sheet: %q", words)
	}
	// what the layout says of V2's inlet: its short piece, its barb, the hose beyond
	for i := range lay.Joints {
		j := &lay.Joints[i]
		at := j.A + " " + j.B
		for _, here := range []string{"barb at v2.in", "reducing-bush at tee-a.branch", "reducing-bush at tee-b.branch"} {
			if strings.Contains(at, here) && !slices.Contains(words, "J"+strconv.Itoa(j.Number)) {
				t.Errorf("joint %d, %s, is not on the sheet", j.Number, at)
			}
		}
	}
	for i := range lay.Pieces {
		p := &lay.Pieces[i]
		if strings.Contains(p.To.Fitting, "barb at v2.in") && strings.Contains(p.From.Fitting, "v2.in") && !slices.Contains(words, strconv.Itoa(p.Number)) {
			t.Errorf("piece %d on which the barb stands has no circle", p.Number)
		}
	}
}
