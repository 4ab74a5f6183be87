package live

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"html/template"
	"path/filepath"
	"regexp"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/graph/whatif"
	"dryfit/render/book"
	"dryfit/render/drawing"
	"dryfit/render/pack"
	"dryfit/render/photo"
)

// Section is one piece of the page, replaced as a whole when it changes.
type Section struct {
	ID   string // letters, digits and hyphens, unique
	Key  string // of a drawing: what it is drawn from, see drawing.Key
	HTML string // "" where the job has nothing to show there
}

// The beginnings of the ids of sections: a chapter's and a drawing's own name follows.
const (
	ChapterPrefix = "chapter-"
	DrawingPrefix = "drawing-"
)

// quickChapters are those that need no ranges and no heat: they come first.
var quickChapters = []string{"answer"}

// Order lists the sections of the page from the top.
func Order() []string {
	out := []string{AnswerID, ControlsID, BeginID, HeadID, FindingsID, ChapterPrefix + "answer", CutID}
	for _, v := range drawing.Views() {
		out = append(out, DrawingPrefix+v)
	}
	return out // chapters follow in the order in which they come
}

// Quick makes what can be said at once: what the unit gets and what can be turned, the head of
// the page, the answer, and the findings with the lines of the file around them.
func Quick(s *whatif.Study) ([]Section, error) {
	j, p := &s.Job, s.Plan
	units := j.System(p.Circuit)
	out := []Section{
		{ID: AnswerID, HTML: AnswerHTML(&whatif.Answer{Job: *j, Plan: p}, nil)}, {ID: ControlsID, HTML: ControlsHTML(s)},
		{ID: CutID, HTML: CutHTML(s)},
		{ID: HeadID, HTML: headHTML(p.Circuit.Job, j.File) + paperHTML(j)}, {ID: FindingsID, HTML: FindingsHTML(j, p.Findings, units)},
	}
	chapters, err := chaptersOf(p, units, func(id string) bool { return contains(quickChapters, id) })
	return append(out, chapters...), err
}

// Full makes every section of words and numbers; the plan holds what pack.Wants says.
func Full(j *whatif.Job, p *plan.Plan) ([]Section, error) {
	units := j.System(p.Circuit)
	out := []Section{{ID: FindingsID, HTML: FindingsHTML(j, p.Findings, units)}}
	photos, err := photosOf(j)
	if err != nil {
		return nil, err
	}
	chapters, err := chaptersOf(p, units, func(id string) bool { return id != "findings" }, photos...)
	return append(out, chapters...), err
}

// chaptersOf writes the chapters of the book that are wanted.
func chaptersOf(p *plan.Plan, units quantity.System, want func(id string) bool, photos ...photo.Photo) ([]Section, error) {
	var out []Section
	for _, c := range pack.Chapters(p, units, photos...) {
		if !want(c.ID) {
			continue
		}
		for i, it := range c.Items {
			if it.Kind == book.Photo { // another picture under the same name is fetched anew
				sum := sha256.Sum256(it.Photo.JPEG)
				c.Items[i].File += "?" + hex.EncodeToString(sum[:8])
			}
		}
		text, err := c.HTML()
		if err != nil {
			return nil, err
		}
		out = append(out, Section{ID: ChapterPrefix + c.ID, HTML: string(text)})
	}
	return out, nil
}

// photosOf returns the pictures of a job.
func photosOf(j *whatif.Job) ([]photo.Photo, error) {
	var out []photo.Photo
	for _, f := range j.Photos {
		p, err := photo.Of(f.Name, f.Data)
		if err != nil {
			return nil, fmt.Errorf("photo %s %w", f.Name, err)
		}
		out = append(out, p)
	}
	return out, nil
}

// Drawing makes the section of one view. Where the page has it already, by its key, it is
// not drawn again, and ok is false.
func Drawing(p *plan.Plan, view string, units quantity.System, have string) (s Section, ok bool, err error) {
	key, err := drawing.Key(p, view, units)
	if err != nil || key == have {
		return Section{}, false, err
	}
	items, err := pack.Sheets(p, view, units)
	if err != nil {
		return Section{}, false, err
	}
	s = Section{ID: DrawingPrefix + view, Key: key}
	if len(items) == 0 {
		return s, true, nil
	}
	title, _, _ := strings.Cut(items[0].Text, ", sheet ")
	c := book.Chapter{ID: s.ID, Title: title, Items: items}
	text, err := c.HTML()
	s.HTML = string(text)
	return s, true, err
}

// HeadID is the section with the name of the job, FindingsID the one with what is wrong.
const (
	HeadID     = "head"
	FindingsID = "findings"
)

// PlainHeadHTML is the head of a page whose job can't be read: its file.
func PlainHeadHTML(file string) string { return headHTML(graph.Job{}, filepath.Base(file)) }

func headHTML(job graph.Job, file string) string {
	name := job.Name
	if name == "" {
		name = file
	}
	var b bytes.Buffer
	fmt.Fprintf(&b, "<h1>%s</h1>\n", text(name))
	var words []string
	for _, w := range []string{job.Reference, job.Date, job.PreparedBy, file} {
		if w != "" && w != name {
			words = append(words, text(w))
		}
	}
	fmt.Fprintf(&b, "<p class=\"head\">%s</p>\n", strings.Join(words, " · "))
	for _, n := range job.Notes {
		fmt.Fprintf(&b, "<p>%s</p>\n", text(n))
	}
	return b.String()
}

// paperHTML says how the whole pack is made of a job that is looked at.
func paperHTML(j *whatif.Job) string {
	words := []string{"dryfit pack -o pack"}
	if j.Units != "" {
		words = append(words, "--units "+j.Units)
	}
	names := []string{j.File}
	for _, c := range j.Catalogs {
		names = append(names, c.Name)
	}
	for i, name := range names {
		switch { // what every shell reads as it is written
		case strings.ContainsAny(name, "\"$`!%'") || strings.HasPrefix(name, "-"):
			return ""
		case !plainName.MatchString(name):
			names[i] = `"` + name + `"`
		}
	}
	for _, c := range names[1:] {
		words = append(words, "--catalog "+c)
	}
	return fmt.Sprintf("<p class=\"note writes\">For paper, and to take along: <kbd>%s</kbd>, where dryfit was started.</p>\n", text(strings.Join(append(words, names[0]), " ")))
}

// plainName is a name that no shell takes apart.
var plainName = regexp.MustCompile(`^[\pL\pN._/:@+,-]+$`)

// text makes what a user wrote inert in a page.
func text(s string) string { return template.HTMLEscapeString(graph.Inert(s)) }

func contains(list []string, s string) bool {
	for _, l := range list {
		if l == s {
			return true
		}
	}
	return false
}
