package book

import (
	"bytes"
	"crypto/sha256"
	_ "embed" // the page's template, style and script
	"encoding/base64"
	"fmt"
	"html/template"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"dryfit/render/scene"
	"dryfit/render/table/form"
)

//go:embed page.html.tmpl
var pageTemplate string

//go:embed page.css
var pageStyle string

//go:embed page.js
var pageScript string

// readerChapters is a line of the contents: one reader and what is for him.
type readerChapters struct {
	Name     string
	Chapters []Chapter
}

// HTML writes the book as one page that needs nothing beside it but the drawings' own files
// where one is opened alone. Whatever a user wrote is text.
func (b *Book) HTML() ([]byte, error) {
	t, err := parsePage()
	if err != nil {
		return nil, err
	}
	sum := sha256.Sum256([]byte(pageScript))
	var out bytes.Buffer
	err = t.Execute(&out, struct {
		Book    *Book
		Head    []string
		Asked   []string
		Readers []readerChapters
		CSS     template.CSS
		Script  template.JS
		Policy  string
		First   string
	}{b, b.head(), b.asked(), b.readers(), template.CSS(pageStyle + b.pageRules()), template.JS(pageScript),
		"default-src 'none'; style-src 'unsafe-inline'; img-src 'self'; script-src 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'", b.first()})
	if err != nil {
		return nil, err
	}
	return AmountsKept(Inert(out.Bytes())), nil
}

func parsePage() (*template.Template, error) {
	return template.New("page").Funcs(template.FuncMap{
		"class": cellClass, "headClass": headClass, "kind": kindName, "shape": shape, "svg": inlineSVG,
		"bookmarkID": bookmarkID,
		"stepID":     func(first, i int) string { return fmt.Sprintf("step-%d", first+i) },
	}).Parse(pageTemplate)
}

// Style is the style sheet of the page, for whoever shows chapters in a page of his own.
func Style() string { return pageStyle }

// HTML writes one chapter as it stands in the page of its book.
func (c *Chapter) HTML() ([]byte, error) {
	t, err := parsePage()
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	if err := t.ExecuteTemplate(&out, "chapter", c); err != nil {
		return nil, err
	}
	return AmountsKept(Inert(out.Bytes())), nil
}

// first is the id of the first chapter.
func (b *Book) first() string {
	if len(b.Chapters) == 0 {
		return ""
	}
	return b.Chapters[0].ID
}

// head is what stands under the title.
func (b *Book) head() []string {
	var out []string
	for _, x := range []struct{ name, text string }{
		{"reference", b.Job.Reference}, {"revision", b.Job.Revision}, {"date", b.Job.Date}, {"prepared by", b.Job.PreparedBy},
		{"description", b.File}, {"fingerprint", b.Stamp},
	} {
		if x.text != "" {
			out = append(out, x.name+" "+x.text)
		}
	}
	return out
}

// asked lists the questions that items answer, in their order, each once.
func (b *Book) asked() []string {
	var out []string
	for _, c := range b.Chapters {
		for _, it := range c.Items {
			if it.Bookmark != "" && !slices.Contains(out, it.Bookmark) {
				out = append(out, it.Bookmark)
			}
		}
	}
	return out
}

// bookmarkID is the anchor of a question: its letters in lower case, with hyphens between words.
func bookmarkID(question string) string {
	words := strings.FieldsFunc(strings.ToLower(question), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	return "asked-" + strings.Join(words, "-")
}

// readers lists the chapters by whom they are for; what is for everybody stands first.
func (b *Book) readers() []readerChapters {
	var out []readerChapters
	add := func(name string, holds func(Reader) bool) {
		r := readerChapters{Name: name}
		for _, c := range b.Chapters {
			if holds(c.For) {
				r.Chapters = append(r.Chapters, c)
			}
		}
		if len(r.Chapters) > 0 {
			out = append(out, r)
		}
	}
	add("Everybody:", func(r Reader) bool { return r == Everybody })
	add("The fitter:", func(r Reader) bool { return r != Everybody && r&Fitter != 0 })
	add("The electrician:", func(r Reader) bool { return r != Everybody && r&Electrician != 0 })
	add("The owner:", func(r Reader) bool { return r != Everybody && r&Owner != 0 })
	return out
}

func kindName(k Kind) string {
	return [...]string{"words", "lead", "heading", "hold", "alert", "bullets", "steps", "table", "blanks", "sheet", "picture", "photo"}[k]
}

func shape(s *scene.Scene) string {
	if s.HeightMM > s.WidthMM {
		return "portrait"
	}
	return "landscape"
}

// inlineSVG puts a sheet into the page: its XML head has no place there. Package scene
// escapes every text.
func inlineSVG(it Item) template.HTML {
	s := string(scene.SVG(it.Scene))
	i := strings.Index(s, "<svg")
	if i < 0 {
		return ""
	}
	label := template.HTMLEscapeString(it.Text)
	return template.HTML(`<svg role="img" aria-label="` + label + `"` + s[i+len("<svg"):])
}

// Inert shows control characters and marks of direction that came in with a user's text;
// ends of lines and tabs stay.
func Inert(page []byte) []byte {
	lines := strings.Split(string(page), "\n")
	for i, l := range lines {
		cells := strings.Split(l, "\t")
		for k, c := range cells {
			cells[k] = form.Plain(c)
		}
		lines[i] = strings.Join(cells, "\t")
	}
	return []byte(strings.Join(lines, "\n"))
}

// headClass sets the head of a column to the right, and gives room to one of long texts.
func headClass(g *form.Grid, i int) string {
	switch {
	case g.IsRight(i):
		return "r"
	case i < len(g.Widest) && g.Widest[i] > 0:
		return "w"
	}
	return ""
}

// cellClass sets a cell to the right, and keeps a short one on a line.
func cellClass(g *form.Grid, i int, text string) string {
	switch {
	case g.IsRight(i):
		return "r"
	case utf8.RuneCountInString(text) <= shortCell:
		return "s"
	}
	return ""
}

// shortCell is how many characters a cell has that is kept on one line.
const shortCell = 14
