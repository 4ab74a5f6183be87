package isometric

import (
	"path/filepath"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/lots"
	"dryfit/graph/route"
	"dryfit/graph/settle"
	"dryfit/render/isometric/picture"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// On a narrow page in inches, and on a large one, nothing overlaps and every piece has its number.
func TestEveryPage(t *testing.T) {
	for _, file := range demos(t) {
		in := input(t, file)
		if !lots.Named(filepath.Base(file), "large-circulation.toml", "two-speed.toml", "plunge-pool.toml", "hose.toml") {
			continue
		}
		for text, units := range map[string]quantity.System{"a4 portrait": quantity.InchSystem, "a3 landscape": quantity.MetricSystem} {
			if text == "a3 landscape" && !strings.Contains(file, "large-circulation") && !strings.Contains(file, "two-speed") {
				continue // what takes little of an A3 says no more than what takes much
			}
			page, err := sheet.ParsePage(text)
			if err != nil {
				t.Fatal(err)
			}
			in.Page, in.Units = page, units
			pages := Draw(in)
			seen := map[string]bool{}
			for k, s := range pages {
				for _, c := range clashes(s) {
					t.Errorf("%s, %s, units %v, sheet %d of %d: %s", file, text, units, k+1, len(pages), c)
				}
				for _, it := range s.Items {
					if l, ok := it.(scene.Text); ok && l.Name == "label:piece" {
						seen[l.Text] = true
					}
				}
			}
			for i := range in.Layout.Pieces {
				p := &in.Layout.Pieces[i]
				if path := in.Layout.Path(p.Run.ID); path.Located && !seen[picture.Number(p.Number)] {
					t.Errorf("%s, %s: piece %d is on no sheet", file, text, p.Number)
				}
			}
		}
	}
}

// A circuit without any place is an empty sheet with its notes, not a failure.
func TestNothingLocated(t *testing.T) {
	c := &graph.Circuit{Job: graph.Job{Name: "bare"},
		Parts: []*graph.Part{{ID: "a", Kind: graph.Pump}, {ID: "b", Kind: graph.Filter}},
		Runs:  []*graph.Run{{ID: "hose", From: graph.PortRef{Part: "a", Port: "out"}, To: graph.PortRef{Part: "b", Port: "in"}, HasLength: true, LengthMM: 900}}}
	pages := Draw(Input{Layout: &route.Layout{Circuit: c, Stage: settle.Of(c), Paths: []route.Path{{Run: c.Runs[0]}}, Positions: map[string]graph.Vec{}}})
	if len(pages) != 1 {
		t.Fatalf("%d pages, want 1", len(pages))
	}
	said := false
	for _, it := range pages[0].Items {
		if l, ok := it.(scene.Text); ok && strings.Contains(l.Text, "Not drawn") && strings.Contains(l.Text, "P1 to F1") {
			said = true
		}
	}
	if !said {
		t.Error("the run without legs is not named")
	}
}
