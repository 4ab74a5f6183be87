package drawing

import (
	"crypto/sha256"
	"encoding/hex"

	"dryfit/graph/description"
	"dryfit/graph/plan"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// Fingerprint tells one description from another: eight digits of the SHA-256 of what was asked
// for, as dryfit writes it. Remarks and spaces do not change it; every value does.
func Fingerprint(p *plan.Plan) string {
	c := p.Asked
	if c == nil {
		c = p.Circuit
	}
	sum := sha256.Sum256(description.Write(c))
	return hex.EncodeToString(sum[:4])
}

// Number numbers pages through, in their title blocks, and puts the description's fingerprint
// there.
func Number(pages []*scene.Scene, fingerprint string) {
	sheet.Number(pages)
	for _, s := range pages {
		items := s.Items[:0:0]
		for _, it := range s.Items {
			t, ok := it.(scene.Text)
			if ok && t.Name == "title:Print" {
				continue // of an earlier numbering
			}
			items = append(items, it)
			if ok && t.Name == "title:Sheet" {
				at := t.At
				at.X -= 2.4 // the right-hand edge of the date's cell
				items = append(items, scene.Text{At: at, Text: "no. " + fingerprint, SizeMM: sheet.LeastEm, Anchor: scene.End, Name: "title:Print"})
			}
		}
		s.Items = items
	}
}
