package detail

import (
	"os"
	"strings"
	"testing"

	"dryfit/graph/description"
	"dryfit/graph/route/laying"
	"dryfit/render/scene"
)

// Of two bushes, one in the other, each is named by the sizes it is bought in: 75 x 50 and
// 50 x 32 mm in each tee, no one from 75 to 32.
func TestTwoBushesByTheirOwnSizes(t *testing.T) {
	data, err := os.ReadFile("testdata/two-bushes.toml")
	if err != nil {
		t.Fatal(err)
	}
	c, ds := description.Read("two-bushes.toml", data)
	if c == nil {
		t.Fatal(ds)
	}
	got := map[string]int{}
	for _, page := range Draw(Input{Layout: laying.Of(c)}) {
		for _, it := range page.Items {
			if text, ok := it.(scene.Text); ok && strings.HasPrefix(text.Text, "bush ") && strings.Contains(text.Text, " x ") {
				got[text.Text]++
			}
		}
	}
	if len(got) != 2 || got["bush 75 mm x 50 mm"] != 2 || got["bush 50 mm x 32 mm"] != 2 {
		t.Errorf("on the sheet: %v", got)
	}
}
