package sheet

import (
	"fmt"
	"strings"

	"dryfit/render/scene"
)

// Number numbers pages through, in their title blocks and their names.
func Number(pages []*scene.Scene) {
	for n, s := range pages {
		for i, it := range s.Items {
			if t, ok := it.(scene.Text); ok && t.Name == "title:Sheet" {
				t.Text = fmt.Sprintf("%d of %d", n+1, len(pages))
				s.Items[i] = t
			}
		}
		if name, _, ok := strings.Cut(s.Name, ", sheet "); ok || len(pages) > 1 {
			s.Name = fmt.Sprintf("%s, sheet %d of %d", name, n+1, len(pages))
		}
	}
}

// MatchLetter names the n-th match line of a drawing, from 0: A to Z, then AA.
func MatchLetter(n int) string {
	if n < 26 {
		return string(rune('A' + n))
	}
	return MatchLetter(n/26-1) + MatchLetter(n%26)
}
