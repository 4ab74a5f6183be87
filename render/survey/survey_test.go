package survey

import (
	"slices"
	"strings"
	"testing"

	"dryfit/graph/description"
	"dryfit/render/book"
	"dryfit/render/scene"
	papers "dryfit/render/sheet"
)

// Every blank of every template has its line on the sheets, under its table and key, and every
// pipe with a blank its number on the drawing, no two texts of which lie on each other.
func TestEveryBlankHasItsLine(t *testing.T) {
	for _, circuit := range description.Templates() {
		template, err := description.Template(circuit)
		if err != nil {
			t.Fatal(err)
		}
		want := 0
		for _, line := range strings.Split(string(template), "\n") {
			if value, _, _ := strings.Cut(line, "#"); strings.Contains(value, `"?"`) {
				want++
			}
		}
		b, err := Book(circuit, template, papers.Page{})
		if err != nil {
			t.Fatal(err)
		}
		rows, numbers := 0, map[string]bool{}
		for _, c := range b.Chapters {
			for _, it := range c.Items {
				if it.Kind != book.Blanks || c.ID != "pipes" && c.ID != "values" {
					continue
				}
				for _, r := range it.Block.Grid.Rows {
					rows++
					if c.ID == "pipes" {
						numbers[r[0]] = true
					} else if r[2] == "" {
						t.Errorf("%s: nobody says what %s of %s is", circuit, r[1], r[0])
					}
					if !strings.HasPrefix(r[0]+r[1], "[") && !strings.HasPrefix(r[1], "[") || r[0] == "[[part]] " {
						t.Errorf("%s: a blank without its table: %q", circuit, r)
					}
				}
			}
		}
		if rows != want || len(numbers) < 3 {
			t.Errorf("%s: %d lines for %d blanks, %d pipes", circuit, rows, want, len(numbers))
		}
		var texts []scene.Text
		for _, s := range b.Scenes() {
			for _, it := range s.Items {
				if x, ok := it.(scene.Text); ok && s.WidthMM == 297 {
					if x.Name == "label:pipe" {
						delete(numbers, x.Text)
						for _, o := range texts {
							if scene.Bounds(o).Grow(-0.3).Overlaps(scene.Bounds(x).Grow(-0.3)) {
								t.Errorf("%s: %q lies on %q", circuit, x.Text, o.Text)
							}
						}
					}
					texts = append(texts, x)
				}
			}
			texts = nil
		}
		if len(numbers) > 0 {
			t.Errorf("%s: not on the drawing: %v", circuit, numbers)
		}
	}
}

// What a unit's flow asks for stands in the key's line, and a remark of the template beside it.
func TestBlanks(t *testing.T) {
	s, err := read("[[part]]\nid = \"u\"\nkind = \"heat-pump\"\nflow = { least = \"?\", rated = \"?\" }\nset-point = \"?\"   # what it is set to\n# off = \"?\"\n[[run]]\nfrom = \"u.out\"\nto = \"tub.in\"\nlength = \"?\"\n")
	if err != nil {
		t.Fatal(err)
	}
	want := []blank{{"[[part]] u", "flow: least, rated", "from the unit's sheet", 0}, {"[[part]] u", "set-point", "what it is set to", 0}, {"[[run]] u.out to tub.in", "length", "", 1}}
	if !slices.Equal(s.blanks, want) {
		t.Errorf("got %+v, want %+v", s.blanks, want)
	}
	if _, err := read("[[run]]\nfrom = \"nowhere\"\n"); err == nil {
		t.Error("a run from no port is read")
	}
}

// What the template takes out stands on the sheet of the circuit as it stands, crossed, and not on
// that of the new work.
func TestWhatGoesIsNotDrawnAsStaying(t *testing.T) {
	text, err := description.Template("plug-in")
	if err != nil {
		t.Fatal(err)
	}
	s, err := read(string(text))
	if err != nil {
		t.Fatal(err)
	}
	gone := ""
	for _, r := range s.circuit.Runs {
		if r.Removed {
			gone = "run:" + r.ID
		}
	}
	pages := s.circuitSheets(papers.Page{})
	if gone == "" || len(pages) != 2 {
		t.Fatalf("%q goes; %d sheets", gone, len(pages))
	}
	for i, want := range []bool{true, false} {
		drawn := false
		for _, it := range pages[i].Items {
			x, ok := it.(scene.Shape)
			drawn = drawn || ok && x.Name == gone
		}
		if drawn != want {
			t.Errorf("sheet %d: what goes is drawn: %t", i+1, drawn)
		}
	}
}

// The sheets of a survey are numbered through, nothing in their title blocks is cut off, and
// the head of the drawings has no page to itself where the one before it has room.
func TestSurveySheetsAreWhole(t *testing.T) {
	for _, circuit := range description.Templates() {
		template, err := description.Template(circuit)
		if err != nil {
			t.Fatal(err)
		}
		b, err := Book(circuit, template, papers.Page{})
		if err != nil {
			t.Fatal(err)
		}
		var numbers []string
		for _, s := range b.Scenes() {
			for _, it := range s.Items {
				x, ok := it.(scene.Text)
				if !ok || !strings.HasPrefix(x.Name, "title:") {
					continue
				}
				if strings.Contains(x.Text, "…") {
					t.Errorf("%s: cut off: %q", circuit, x.Text)
				}
				if x.Name == "title:Sheet" {
					numbers = append(numbers, x.Text)
				}
			}
		}
		want := []string{"1 of 2", "2 of 2"}
		if len(numbers) == 3 { // as it stands, and with the new work
			want = []string{"1 of 3", "2 of 3", "3 of 3"}
		}
		if !slices.Equal(numbers, want) {
			t.Errorf("%s: the sheets are %v", circuit, numbers)
		}
		if last := b.Chapters[len(b.Chapters)-1]; last.ID != "drawings" || last.NewPage {
			t.Errorf("%s: %q begins a page of its own with one line on it", circuit, last.Title)
		}
	}
}
