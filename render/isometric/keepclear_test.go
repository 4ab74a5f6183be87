package isometric

import (
	"strings"
	"testing"

	"dryfit/render/scene"
)

// What is to be kept clear is drawn on the overview with its name and in the legend; no label
// stands on its outline, and the pipes that go round it in the cabinet go round it on the page:
// not one of the door's edges is hidden or left out.
func TestKeptClearIsDrawn(t *testing.T) {
	for file, what := range map[string]string{"past-the-door": "door", "sunk-in-deck": "steps"} {
		pages := drawnFile(t, "../../graph/plan/testdata/jobs/"+file+".toml")
		seen := 0
		for n, page := range pages {
			edges, name, legend := 0, false, false
			for _, it := range page.Items {
				switch it := it.(type) {
				case scene.Shape:
					if it.Name == "keep-clear" {
						edges += len(penLines(it))
						if len(it.Style.Dash) == 0 || it.Style.Fill {
							t.Errorf("%s, sheet %d: the outline is not dashed, or hides what is behind it", file, n+1)
						}
					}
				case scene.Text:
					name = name || it.Text == what
					legend = legend || it.Text == "kept clear"
				}
			}
			if edges == 0 && !legend && !name {
				continue // nothing near it on this sheet
			}
			seen++
			if edges != 9 || !legend || !name { // six of the outline, three to the near corner
				t.Errorf("%s, sheet %d: %d edges, name %v, legend %v", file, n+1, edges, name, legend)
			}
			for _, c := range clashes(page) {
				if strings.Contains(c, "keep-clear") && strings.Contains(c, "label") {
					t.Errorf("%s, sheet %d: %s", file, n+1, c)
				}
			}
		}
		if seen == 0 {
			t.Errorf("%s: the %s is on no sheet", file, what)
		}
	}
}
