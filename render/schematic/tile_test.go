package schematic

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// What is too much for A4 is cut into sheets of A4: every name stands on one of them, as often as
// on the one sheet of A3, in letters that can be read (1.8 mm, ISO 3098 from memory), and every
// match line on two, each of which names the other's number.
func TestCutIntoSheets(t *testing.T) {
	names := func(pages []*scene.Scene) map[string]int {
		out := map[string]int{}
		for _, p := range pages {
			for _, it := range p.Items {
				if x, ok := it.(scene.Text); ok && strings.HasPrefix(x.Name, "label") && x.Name != "label:match" {
					out[x.Name+" "+x.Text]++
				}
			}
		}
		return out
	}
	c := read(t, "testdata/every-kind.toml")
	pages, whole := Draw(Input{Circuit: c, Sheet: 4}), names(Draw(Input{Circuit: c, Page: a3}))
	if len(pages) < 2 || len(whole) < 40 {
		t.Fatalf("%d sheets, %d names", len(pages), len(whole))
	}
	got := names(pages)
	for name, n := range whole {
		if got[name] != n {
			t.Errorf("%q stands %d times, on one sheet %d", name, got[name], n)
		}
	}
	where := map[string][]int{}
	goes := map[string][]string{}
	note := regexp.MustCompile(`([A-Z](?:, [A-Z])*) on sheet (\d+)`)
	for n, p := range pages {
		if p.WidthMM*p.HeightMM != 297*210 {
			t.Errorf("sheet %d is %g by %g mm", n+1, p.WidthMM, p.HeightMM)
		}
		words := ""
		for _, it := range p.Items {
			x, ok := it.(scene.Text)
			if !ok {
				continue
			}
			if x.SizeMM < sheet.LeastEm-1e-9 {
				t.Errorf("sheet %d: %q is %.2f mm high", n+1, x.Text, x.SizeMM)
			}
			if x.Name == "label:match" {
				where[x.Text] = append(where[x.Text], n+4)
			}
			if x.Name == "note" {
				words += " " + x.Text
			}
		}
		for _, m := range note.FindAllStringSubmatch(words, -1) {
			for _, name := range strings.Split(m[1], ", ") {
				goes[name] = append(goes[name], m[2])
			}
		}
	}
	for name, on := range where {
		if len(on) != 2 || len(goes[name]) != 2 || goes[name][0] != strconv.Itoa(on[1]) || goes[name][1] != strconv.Itoa(on[0]) {
			t.Errorf("match line %s stands on sheets %v, and its notes say %v", name, on, goes[name])
		}
	}
}
