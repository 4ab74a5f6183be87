package table

import (
	"strings"
	"testing"
	"unicode/utf8"

	"dryfit/render/table/form"
)

func TestText(t *testing.T) {
	g := form.NewGrid(form.Column{Head: "qty", Right: true}, form.Column{Head: "item", Widest: 10})
	g.Add("2", "elbow of a long name")
	g.Add("10", "tee")
	got := string(form.Text([]form.Block{{Title: "First", Grid: g, Lines: []string{"after it"}}, {Lines: []string{"goes on"}}, {Title: "Second"}}, form.Style{}))
	want := `First
 qty  item
─────────────────
   2  elbow of a
      long name
  10  tee
after it
goes on

Second
`
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// What goes on in a new line stands under the words after a number or a dash.
func TestWrapped(t *testing.T) {
	words := strings.Repeat("word ", 40) + "end"
	for _, c := range []struct{ lead, indent string }{{"", "  "}, {"  ", "    "}, {"  10. ", "      "}, {"   - ", "     "}} {
		lines := strings.Split(form.Wrapped(c.lead+words), "\n")
		if len(lines) != 2 {
			t.Fatalf("%d lines, want 2", len(lines))
		}
		if !strings.HasPrefix(lines[1], c.indent+"word") {
			t.Errorf("after %q the second line is %q, want an indent of %d", c.lead, lines[1], len(c.indent))
		}
		if strings.Join(strings.Fields(strings.Join(lines, " ")), " ") != strings.TrimSpace(c.lead+words) {
			t.Errorf("words are lost: %q", lines)
		}
		for _, l := range lines {
			if utf8.RuneCountInString(l) > form.LineWidth {
				t.Errorf("a line of %d characters", utf8.RuneCountInString(l))
			}
		}
	}
	if got := form.Wrapped("short"); got != "short" {
		t.Errorf("got %q", got)
	}
}
