package drawing

import (
	"fmt"
	"strings"

	"dryfit/graph/plan"
	"dryfit/render/scene"
	"dryfit/render/tag"
)

// capShare is the height of a capital of the drawings' face as a share of its em. Source: the
// OS/2 table of DejaVu Sans, sCapHeight 1493 of 2048.
const capShare = 1493.0 / 2048

// misread lists what a stranger would read wrong on a sheet: capitals under 1.8 mm (ISO 3098's
// least, from memory), letters on other letters or nearer to them than 0.3 mm beside them, and a
// tag that the circuit has not.
func misread(s *scene.Scene, view string, p *plan.Plan) []string {
	known := map[string]bool{}
	if view == "schematic" {
		names := tag.Of(p.Circuit, p.Net())
		for _, part := range p.Circuit.Parts {
			known[names.Tag(part.ID)] = true
		}
	}
	var out []string
	var texts []scene.Text
	for _, it := range s.Items {
		a, ok := it.(scene.Text)
		if !ok || strings.TrimSpace(a.Text) == "" || a.Name == "not-to-be-built" { // that is written across
			continue
		}
		if high := a.SizeMM * capShare; high < 1.8-1e-6 {
			out = append(out, fmt.Sprintf("capitals of %q are %.2f mm high", a.Text, high))
		}
		for _, b := range texts {
			if upright(a) && upright(b) && tooNear(a, b) {
				out = append(out, fmt.Sprintf("%q and %q run into each other", a.Text, b.Text))
			}
		}
		if view == "schematic" && strings.HasPrefix(a.Name, "label:") && a.Bold && isTagLike(a.Text) && !known[a.Text] {
			out = append(out, fmt.Sprintf("%q stands on the sheet and is no part's tag", a.Text))
		}
		texts = append(texts, a)
	}
	return out
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
