package live

import (
	"bytes"
	"fmt"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/whatif"
)

// wrongKeys are the errors of a job by the line of the key in the form that each stands at; those
// at line 0 belong to no key of the form.
type wrongKeys struct {
	at    map[int][]graph.Diagnostic
	lines []int        // in the order of the form
	said  map[int]bool // lines whose errors have been said
}

// errorsAt puts the errors of a description at their keys: at the key whose lines hold the place,
// else at the table that begins there. Blanks say of themselves what they want.
func errorsAt(j *whatif.Job, form []whatif.Table, found []graph.Diagnostic) *wrongKeys {
	w := &wrongKeys{at: map[int][]graph.Diagnostic{}, said: map[int]bool{}}
	for _, d := range graph.Errors(found) {
		if d.Blank {
			continue
		}
		line := 0
		if d.Pos.File == j.File {
			line = keyLine(form, d.Pos.Line)
		}
		if !slices.Contains(w.lines, line) {
			w.lines = append(w.lines, line)
		}
		w.at[line] = append(w.at[line], d)
	}
	slices.Sort(w.lines)
	return w
}

// keyLine is the line of the key or the table of a form that a line of the file belongs to; 0 for
// none.
func keyLine(form []whatif.Table, line int) int {
	for _, t := range form {
		if t.Line == line {
			return line
		}
		for i := range t.Fields {
			if l := t.Fields[i].Lines; l[0] <= line && line <= l[1] {
				return l[0]
			}
		}
	}
	return 0
}

// in reports whether there is an error in a table.
func (w *wrongKeys) in(t *whatif.Table) bool {
	return len(w.at[t.Line]) > 0 && t.Line > 0 || slices.ContainsFunc(t.Fields, func(f whatif.Field) bool { return len(w.at[f.Lines[0]]) > 0 })
}

// anchor names the place in the form where an error of a line stands; "" where there is none.
func (w *wrongKeys) anchor(line int) string {
	if line == 0 || len(w.at[line]) == 0 {
		return ""
	}
	return fmt.Sprintf(" id=\"line-%d\"", line)
}

// say says the errors of a line, before its first field, once.
func (w *wrongKeys) say(b *bytes.Buffer, line int, units quantity.System) {
	if w.said[line] || line == 0 {
		return
	}
	w.said[line] = true
	anchor := w.anchor(line)
	for _, d := range w.at[line] {
		fmt.Fprintf(b, "<p class=\"error\"%s>%s</p>\n", anchor, text(quantity.Capital(d.Message.In(units))+"."))
		if d.Hint != "" {
			fmt.Fprintf(b, "<p class=\"hint\">%s</p>\n", text(quantity.Capital(d.Hint.In(units))+"."))
		}
		anchor = ""
	}
}

// list names what is to be mended before the job can be built, each with the way to its key.
func (w *wrongKeys) list(b *bytes.Buffer, units quantity.System) {
	if len(w.lines) == 0 {
		return
	}
	b.WriteString("<p class=\"error\">To be mended before anything is built:</p>\n<ul>\n")
	for _, line := range w.lines {
		for _, d := range w.at[line] {
			words := text(d.Message.In(units))
			if line > 0 {
				words = fmt.Sprintf("<a href=\"#line-%d\">%s</a>", line, words)
			}
			fmt.Fprintf(b, "<li>%s", words)
			if d.Hint != "" {
				fmt.Fprintf(b, "<br><span class=\"hint\">%s</span>", text(d.Hint.In(units)))
			}
			b.WriteString("</li>\n")
		}
	}
	b.WriteString("</ul>\n")
}
