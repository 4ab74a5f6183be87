package live

import (
	"bytes"
	"fmt"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/whatif"
)

// around is how many lines of the file are shown before and after the one that is meant.
const around = 2

// mostShown is how many findings a page shows; a file that is wrong all over has one cause.
const mostShown = 60

// FindingsHTML lists findings, the errors first and the blanks apart from them, each with the lines
// of the file around it.
func FindingsHTML(j *whatif.Job, ds []graph.Diagnostic, units quantity.System) string {
	var b bytes.Buffer
	b.WriteString("<section aria-labelledby=\"findings\">\n<h2 id=\"findings\">Findings</h2>\n")
	if len(ds) == 0 {
		b.WriteString("<p>Nothing to mend.</p>\n</section>")
		return b.String()
	}
	files := map[string][]string{}
	lines := func(name string) []string {
		if l, ok := files[name]; ok {
			return l
		}
		files[name] = linesOf(j, name)
		return files[name]
	}
	var form []whatif.Table
	if graph.HasErrors(ds) {
		form = j.Form()
	}
	shown := 0
	for _, kind := range []struct {
		name     string
		severity graph.Severity
		blank    bool
	}{{"error", graph.Error, false}, {"blank", graph.Error, true}, {"warning", graph.Warning, false}, {"note", graph.Note, false}} {
		group := graph.ByMode(pick(ds, kind.severity, kind.blank), units)
		if len(group) == 0 {
			continue
		}
		open, key := "", kind.name == "error"
		if key {
			open = " open"
		}
		fmt.Fprintf(&b, "<details class=\"found %s\" data-keep=\"found-%s\"%s><summary>%s</summary>\n", kind.name, kind.name, open, counted(len(group), kind.name))
		for i := range group {
			d := &group[i]
			if shown++; shown > mostShown {
				fmt.Fprintf(&b, "<p>And more: mend these first.</p>\n")
				break
			}
			line := 0
			if key && d.Pos.File == j.File {
				line = keyLine(form, d.Pos.Line)
			}
			finding(&b, d, lines(d.Pos.File), units, line)
		}
		b.WriteString("</details>\n")
	}
	b.WriteString("</section>")
	return b.String()
}

// pick returns the findings of a severity: of the errors those of blanks, or the others.
func pick(ds []graph.Diagnostic, s graph.Severity, blank bool) []graph.Diagnostic {
	var out []graph.Diagnostic
	for _, d := range ds {
		if d.Severity == s && (d.Blank && s == graph.Error) == blank {
			out = append(out, d)
		}
	}
	return out
}

func counted(n int, what string) string {
	left := ""
	if what == "blank" {
		left = " to fill in"
	}
	if n == 1 {
		return "1 " + what + left
	}
	return fmt.Sprintf("%d %ss%s", n, what, left)
}

// linesOf returns the lines of a file of the job.
func linesOf(j *whatif.Job, name string) []string {
	data := j.Text
	if name != j.File {
		data = nil
		for _, f := range j.Catalogs {
			if f.Name == name {
				data = f.Data
			}
		}
	}
	return strings.Split(strings.TrimPrefix(string(data), "\ufeff"), "\n")
}

// finding shows one; key is the line in the file of the key in the form that it belongs to, 0 for
// none.
func finding(b *bytes.Buffer, d *graph.Finding, lines []string, units quantity.System, key int) {
	words := make([]string, len(d.Lines))
	for i, l := range d.Lines {
		words[i] = text(l)
	}
	fmt.Fprintf(b, "<div class=\"finding\"><p><b>%s</b> <span class=\"rule\">%s</span></p>\n", strings.Join(words, "<br>\n"), text(d.Rule))
	for _, hint := range d.Hints {
		fmt.Fprintf(b, "<p class=\"hint\">%s</p>\n", text(hint))
	}
	for _, r := range d.Related {
		fmt.Fprintf(b, "<p class=\"hint\">%s (line %d)</p>\n", text(r.Message.In(units)), r.Pos.Line)
	}
	excerpt(b, d.Pos, lines)
	if key > 0 {
		fmt.Fprintf(b, "<p class=\"writes\"><a href=\"#line-%d\">To its key in the form</a></p>\n", key)
	}
	b.WriteString("</div>\n")
}

// excerpt shows the lines around a place, the one that is meant marked.
func excerpt(b *bytes.Buffer, at graph.Pos, lines []string) {
	if !at.IsValid() || at.Line > len(lines) {
		return
	}
	fmt.Fprintf(b, "<pre class=\"lines\" tabindex=\"0\" aria-label=\"line %d of the file\">", at.Line)
	for n := max(1, at.Line-around); n <= min(len(lines), at.Line+around); n++ {
		line := strings.TrimSuffix(lines[n-1], "\r")
		mark := ""
		if n == at.Line {
			mark = " class=\"meant\""
		}
		fmt.Fprintf(b, "<span%s><i>%4d</i> %s</span>\n", mark, n, text(strings.ReplaceAll(line, "\t", "    ")))
	}
	b.WriteString("</pre>\n")
}
