package table

import (
	"strings"
	"testing"
	"unicode/utf8"

	"dryfit/graph/takeoff"
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

func TestShortName(t *testing.T) {
	for _, c := range []struct {
		item       takeoff.Item
		name, ends string
	}{
		{takeoff.Item{Name: "elbow 90, socket, inch, 1-1/2 in, pvc-sch40", Ends: "socket, inch", Size: "1-1/2 in", Spec: "pvc-sch40"}, "elbow 90", "socket"},
		{takeoff.Item{Name: "pipe, 2 in, pvc-sch40, bar of 0.74 m, offcut in the van", Ends: "inch", Size: "2 in", Spec: "pvc-sch40"}, "pipe, bar of 0.74 m, offcut in the van", ""},
		{takeoff.Item{Name: "heat pump, ports 50 mm", Size: "50 mm", Spec: "pvc-pn10"}, "heat pump", ""},
		{takeoff.Item{Name: "barb", Ends: "socket/barb, inch and metric", Size: "1-1/2 in x 38 mm"}, "barb", "socket/barb, inch and metric"},
		{takeoff.Item{Name: "union, inch, 2 in, pvc-sch40", Ends: "union, inch", Size: "2 in", Spec: "pvc-sch40"}, "union", "union"},
	} {
		if got := shortName(c.item); got != c.name {
			t.Errorf("%q is shortened to %q, want %q", c.item.Name, got, c.name)
		}
		if got := shortEnds(c.item.Ends); got != c.ends {
			t.Errorf("ends %q are shortened to %q, want %q", c.item.Ends, got, c.ends)
		}
	}
}

// A page has every place of an item, a terminal as many as fit and a count of the rest.
func TestPlaces(t *testing.T) {
	where := []string{"bend 1 of to-unit", "bend 2 of to-unit", "bend 3 of to-unit"}
	if got, want := placesText(form.Style{}, where, 28), "bend 1 of to-unit, +2 more"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got, want := placesText(form.Style{Whole: true}, where, 28), strings.Join(where, ", "); got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
