package book

import (
	"strings"
	"testing"

	"dryfit/render/table/form"
)

// What paper can't show as it was written is said on its first page, wherever in the book it stands; of
// letters the font has nothing is said.
func TestLettersPaperLacks(t *testing.T) {
	for _, c := range []struct {
		text string
		want string
	}{
		{"Wanna z pompą, Μπανιέρα, Ванна, 90° ≤ 2 × 3", ""},
		{"浴缸", "Paper has a box for each letter of Han. As it was written it is in index.html and job.toml."},
		{"हॉट टब 浴缸", "Paper has a box for each letter of Devanagari and Han. As it was written it is in index.html and job.toml."},
		{"حوض", "What is written in Arabic stands letter by letter from the left. As it was written it is in index.html and job.toml."},
	} {
		for place, put := range map[string]func(*Book){
			"name":  func(b *Book) { b.Job.Name = c.text },
			"note":  func(b *Book) { b.Job.Notes = []string{c.text} },
			"words": func(b *Book) { b.Chapters[0].Say(c.text) },
			"table": func(b *Book) {
				b.Chapters[0].Tables(form.Block{Grid: &form.Grid{Header: []string{"what"}, Rows: [][]string{{c.text}}}})
			},
		} {
			b := sample()
			put(b)
			if got := b.letters(); got != c.want {
				t.Errorf("%q as %s: %q, want %q", c.text, place, got, c.want)
			}
		}
	}
	b := sample()
	b.Bare, b.Job.Name = true, "浴缸"
	if got := b.letters(); !strings.HasSuffix(got, " it is in job.toml.") {
		t.Errorf("of an offer, which has no page: %q", got)
	}
}
