package book

import (
	"fmt"
	"strings"

	"dryfit/render/sheet"
)

// text is the paper of the book's text: as asked, but no larger than A4, on which nobody would
// want to read it.
func (b *Book) text() (w, h float64) {
	if b.Paper == sheet.Letter {
		return sheet.Letter.Size(sheet.Portrait)
	}
	return sheet.A4.Size(sheet.Portrait)
}

// pageRules are the sizes of paper in the style of a page: its text's, and its sheets', each on a
// page as large as the sheet is, half a millimetre short so that none spills over.
func (b *Book) pageRules() string {
	var out strings.Builder
	w, h := b.text()
	fmt.Fprintf(&out, "@page { size: %gmm %gmm; margin: 14mm 14mm 16mm; }\n", w, h)
	seen := map[string]bool{}
	for _, s := range b.Scenes() {
		if name := shape(s); !seen[name] {
			seen[name] = true
			fmt.Fprintf(&out, "@page sheet-%s { size: %gmm %gmm; margin: 0; }\n@media print { figure.%s { width: %gmm; height: %gmm; } }\n",
				name, s.WidthMM, s.HeightMM, name, s.WidthMM, s.HeightMM-0.5)
		}
	}
	return out.String()
}
