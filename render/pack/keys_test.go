package pack

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/render/book"
	"dryfit/render/table/form"
)

// deskChapters speak to whoever writes the description: what was found, and what is typed back.
var deskChapters = []string{"findings", "as-built"}

// What is read at the tub names no key of the description, calls no part, pipe or mode by an id
// that is no word of the trade, and says what it is made from in none of the file's tables.
func TestPapersNameNoKeys(t *testing.T) {
	plans := map[string]*plan.Plan{"circulation": demoPlan(t, "circulation")}
	for _, name := range []string{"hose-circulation", "second-unit", "round-on-hose"} {
		plans[name] = jobPlan(t, name)
	}
	key := regexp.MustCompile(`\[\[?[a-z][a-z-]*\]`)
	for name, p := range plans {
		ids := map[string]bool{}
		for _, part := range p.Circuit.Parts {
			ids[part.ID] = strings.ContainsAny(part.ID, "-0123456789") && !isKind(part.ID)
		}
		for _, m := range p.Circuit.AllModes() {
			ids[m.Name] = strings.Contains(m.Name, "-")
		}
		b := bookOf(p, form.Style{Units: quantity.MetricSystem}, Options{}, nil)
		for _, c := range b.Chapters {
			if slices.Contains(deskChapters, c.ID) {
				continue
			}
			for _, text := range textsOf(c) {
				if key.MatchString(text) {
					t.Errorf("%s, %s: a key of the description: %s", name, c.ID, text)
				}
				for _, w := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" ,;:()\"", r) }) {
					if ids[w] {
						t.Errorf("%s, %s: %s by its id: %s", name, c.ID, w, text)
					}
				}
			}
		}
	}
}

// textsOf is everything a chapter says.
func textsOf(c book.Chapter) []string {
	out := []string{c.Title}
	for _, it := range c.Items {
		out = append(append(out, it.Text, it.Block.Title), it.Lines...)
		out = append(out, it.Block.Lines...)
		if it.Block.Grid == nil {
			continue
		}
		for _, row := range it.Block.Grid.Rows {
			out = append(out, row...)
		}
	}
	return out
}
