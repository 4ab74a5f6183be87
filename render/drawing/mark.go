package drawing

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strings"

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
	for n, s := range pages {
		items := s.Items[:0:0]
		for _, it := range s.Items {
			t, ok := it.(scene.Text)
			switch {
			case ok && t.Name == "title:Print":
				continue // of an earlier numbering
			case ok && t.Name == "title:Sheet":
				t.Text = fmt.Sprintf("%d of %d", n+1, len(pages))
				items = append(items, t)
				at := t.At
				at.X -= 2.4 // the right-hand edge of the date's cell
				items = append(items, scene.Text{At: at, Text: "no. " + fingerprint, SizeMM: sheet.LeastEm, Anchor: scene.End, Name: "title:Print"})
				continue
			}
			items = append(items, it)
		}
		s.Items = items
		if name, _, ok := strings.Cut(s.Name, ", sheet "); ok || len(pages) > 1 {
			s.Name = fmt.Sprintf("%s, sheet %d of %d", name, n+1, len(pages))
		}
	}
}
