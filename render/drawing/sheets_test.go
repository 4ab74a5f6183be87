package drawing

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/description"
	"dryfit/graph/plan"
	"dryfit/render/scene"
	"dryfit/render/tag"
)

// capShare is the height of a capital of the drawings' face as a share of its em. Source: the
// OS/2 table of DejaVu Sans, sCapHeight 1493 of 2048.
const capShare = 1493.0 / 2048

// Every sheet of every demo in both units, and of every job in inches, as a stranger reads it: no capital under
// 1.8 mm (ISO 3098's least, from memory), no letters on other letters or nearer to them than
// 0.3 mm beside them, the number of every piece in a circle on a sheet of pipes, and no tag on
// a sheet that the circuit has not.
func TestSheetsAreRead(t *testing.T) {
	plans := map[string]*plan.Plan{}
	for name, p := range demos(t) {
		plans[name] = p
	}
	jobs, _ := filepath.Glob("../../graph/plan/testdata/jobs/*.toml")
	if len(jobs) < 4 {
		t.Fatalf("%d jobs", len(jobs))
	}
	for _, file := range jobs {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		c, _ := description.Read(filepath.Base(file), data)
		if c == nil {
			t.Fatalf("%s: no circuit", file)
		}
		p, err := plan.Make(c, Wants("all"))
		if err != nil {
			t.Fatal(err)
		}
		plans["job "+filepath.Base(file)] = p
	}
	for name, p := range plans {
		for _, units := range []quantity.System{quantity.MetricSystem, quantity.InchSystem} {
			if units == quantity.MetricSystem && strings.HasPrefix(name, "job ") {
				continue // texts are longer in inches
			}
			readSheets(t, fmt.Sprintf("%s, units %v", name, units), p, units)
		}
	}
}

func readSheets(t *testing.T, name string, p *plan.Plan, units quantity.System) {
	t.Helper()
	known := map[string]bool{}
	for _, part := range p.Circuit.Parts {
		known[tag.Of(p.Circuit, p.Net()).Tag(part.ID)] = true
	}
	ringed := map[string]bool{}
	for _, view := range Views() {
		pages := drawn(t, p, view, units)
		for n, s := range pages {
			where := fmt.Sprintf("%s: %s %d", name, view, n+1)
			var texts []scene.Text
			for _, it := range s.Items {
				if x, ok := it.(scene.Text); ok && strings.TrimSpace(x.Text) != "" {
					texts = append(texts, x)
				}
			}
			for i, a := range texts {
				if high := a.SizeMM * capShare; high < 1.8-1e-6 {
					t.Errorf("%s: capitals of %q are %.2f mm high", where, a.Text, high)
				}
				for _, b := range texts[:i] {
					if upright(a) && upright(b) && tooNear(a, b) {
						t.Errorf("%s: %q and %q run into each other", where, a.Text, b.Text)
					}
				}
				switch {
				case view == "isometric" && a.Tag == "label:piece":
					ringed[a.Text] = true
				case view == "schematic" && strings.HasPrefix(a.Tag, "label:") && a.Bold && isTagLike(a.Text) && !known[a.Text]:
					t.Errorf("%s: %q stands on the sheet and is no part's tag", where, a.Text)
				}
			}
		}
	}
	if p.Cuts == nil {
		return
	}
	for _, piece := range p.Cuts.Pieces {
		if !ringed[fmt.Sprint(piece.Number)] {
			t.Errorf("%s: piece %d of the cut list has its circle on no sheet", name, piece.Number)
		}
	}
}

func upright(x scene.Text) bool { return x.TurnDeg == 0 && x.SkewDeg == 0 }

// tooNear reports whether the letters of two texts touch, or on one line stand nearer than
// 0.3 mm.
func tooNear(a, b scene.Text) bool {
	const near = 0.3
	x, y := letters(a), letters(b)
	x.MinX, x.MaxX = x.MinX-near, x.MaxX+near
	return x.Overlaps(y)
}

// letters is what capitals and digits of a text cover.
func letters(x scene.Text) scene.Box {
	b := scene.Bounds(x)
	base := x.At.Y
	if x.Middle {
		base += capShare / 2 * x.SizeMM
	}
	b.MinY, b.MaxY = base-capShare*x.SizeMM, base
	return b
}

// isTagLike reports whether a text is capitals and a number.
func isTagLike(text string) bool {
	letters := strings.TrimRight(text, "0123456789")
	return letters != "" && letters != text && letters == strings.ToUpper(letters) && !strings.ContainsAny(letters, " -/.") && letters != "X"
}
