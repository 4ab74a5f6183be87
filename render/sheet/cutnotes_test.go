package sheet

import (
	"fmt"
	"strings"
	"testing"

	"dryfit/render/scene"
)

// Notes that do not go on a sheet are left out from the end, and the last line says which: it said "…", and nobody
// knew whether half a sentence or twenty notes were missing.
func TestNotesLeftOutAreNamed(t *testing.T) {
	for _, n := range []int{8, 40, 90} {
		var notes []string
		for i := 1; i <= n; i++ {
			notes = append(notes, fmt.Sprintf("note%d: %s", i, strings.Repeat("measure the outside diameter before ordering ", 3)))
		}
		s := New(A4, Landscape, Head{})
		s.Notes(notes...)
		var all []string
		for _, i := range s.Scene.Items {
			if x, ok := i.(scene.Text); ok && x.Name == "note" {
				all = append(all, x.Text)
			}
		}
		text := strings.Join(all, " ")
		whole, begun := 0, 0
		for i, note := range notes {
			if strings.Contains(text, fmt.Sprintf("note%d: ", i+1)) {
				begun++
			}
			if strings.Contains(text, note[:len(note)-1]) {
				whole++
			}
		}
		want := fmt.Sprintf("… notes %d to %d have no room here", whole+1, n)
		if whole+1 == n {
			want = fmt.Sprintf("… note %d has no room here", n)
		}
		if whole < n && all[len(all)-1] != want || whole == n && strings.Contains(text, "…") {
			t.Errorf("%d notes, %d begun and %d whole: the last line is %q, want %q", n, begun, whole, all[len(all)-1], want)
		}
		if n == 8 && whole < 8 || n == 90 && (whole < 8 || whole == n) {
			t.Errorf("%d notes: %d whole", n, whole)
		}
	}
}
