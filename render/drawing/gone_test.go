package drawing

import (
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/plan"
	"dryfit/render/scene"
	"dryfit/render/schematic"
	"dryfit/render/sheet"
)

func jobPlan(t *testing.T, file string) *plan.Plan {
	t.Helper()
	data, err := os.ReadFile("../../graph/plan/testdata/jobs/" + file)
	if err != nil {
		t.Fatal(err)
	}
	return planOf(t, file, data)
}

func planOf(t *testing.T, file string, data []byte) *plan.Plan {
	t.Helper()
	c, _ := description.Read(file, data)
	if c == nil {
		t.Fatalf("%s: no circuit", file)
	}
	p, err := plan.Make(c, plan.Findings|plan.Lists)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// What comes out is dashed, with a cross on each part and each run, before the work, on the
// schematic and in space; after it, it is gone from both. Dashed and crossed: common practice,
// no source.
func TestTakenOutIsDrawn(t *testing.T) {
	p := jobPlan(t, "unit-out.toml")
	parts, runs := schematic.Gone(p.Circuit)
	if len(parts) < 8 || len(runs) < 8 {
		t.Fatalf("%d parts and %d runs come out", len(parts), len(runs))
	}
	for _, view := range []string{"schematic", "isometric"} {
		pages, err := Pages(p, view, sheet.Page{}, quantity.MetricSystem)
		if err != nil {
			t.Fatal(err)
		}
		if want := map[string]int{"schematic": 1, "isometric": 2}[view]; len(pages) != want { // the schematics stand side by side
			t.Fatalf("%s: %d sheets, want %d", view, len(pages), want)
		}
		dashed, crosses := map[string]bool{}, 0
		for _, it := range pages[0].Items {
			s, ok := it.(scene.Shape)
			if ok && s.Style.Dash != nil {
				dashed[s.Name] = true
			}
			if ok && s.Name == "gone" {
				crosses++
			}
		}
		// the legend shows one more
		if want := len(parts) + len(runs) + 1; crosses != want && view == "schematic" || crosses < want-1 {
			t.Errorf("%s: %d crosses for %d parts and %d runs", view, crosses, len(parts), len(runs))
		}
		for _, r := range runs {
			if !dashed["run:"+r.ID] {
				t.Errorf("%s: run %s is not dashed before the work", view, r.ID)
			}
		}
		if view == "schematic" {
			alone := schematic.Draw(schematic.Input{Circuit: p.Circuit, Stage: graph.Before})
			for _, part := range parts {
				if was, both := named(alone[0], "symbol:"+part.ID), named(pages[0], "symbol:"+part.ID); was == 0 || both != was {
					t.Errorf("%s is drawn with %d shapes before the work and with %d on the sheet with both", part.ID, was, both)
				}
			}
			continue
		}
		for _, it := range pages[1].Items {
			s, ok := it.(scene.Shape)
			for _, part := range parts {
				if ok && s.Name == "symbol:"+part.ID {
					t.Errorf("%s: %s stands there after the work", view, part.ID)
				}
			}
		}
	}
}

// named counts the shapes with a name.
func named(s *scene.Scene, name string) int {
	n := 0
	for _, it := range s.Items {
		if x, ok := it.(scene.Shape); ok && x.Name == name {
			n++
		}
	}
	return n
}

// A match line's note names the sheet, by its number in the title block, on which the pipe
// goes on: there stands the same letter.
func TestMatchLinesLeadToTheirSheets(t *testing.T) {
	note := regexp.MustCompile(`([A-Z]+) on sheet (\d+)`)
	found := 0
	p := jobPlan(t, "second-unit.toml")
	pages := []*scene.Scene{}
	for _, view := range []string{"schematic", "isometric"} {
		made, err := Pages(p, view, sheet.Page{First: 1 + len(pages)}, quantity.InchSystem)
		if err != nil {
			t.Fatal(err)
		}
		pages = append(pages, made...)
	}
	texts := func(s *scene.Scene, name string) string {
		out := ""
		for _, it := range s.Items {
			if x, ok := it.(scene.Text); ok && strings.HasPrefix(x.Name, name) {
				out += " " + x.Text
			}
		}
		return out + " "
	}
	for n, s := range pages {
		for _, m := range note.FindAllStringSubmatch(texts(s, "note"), -1) {
			found++
			to, _ := strconv.Atoi(m[2])
			if to < 1 || to > len(pages) || to == n+1 || !strings.Contains(texts(pages[to-1], "label:match"), "match "+m[1]+" ") {
				t.Errorf("sheet %d: %s leads nowhere", n+1, m[0])
			}
		}
	}
	if found == 0 {
		t.Fatal("no match lines: the test has nothing to follow")
	}
}

// Before the work that fits a unit the element still heats: it is drawn disconnected after it only,
// and what goes is called as on every other sheet.
func TestElementBeforeTheWork(t *testing.T) {
	pages, err := Pages(demos(t)["plug-in"], "schematic", sheet.Page{}, quantity.MetricSystem)
	if err != nil {
		t.Fatal(err)
	}
	words, note := 0, ""
	for _, it := range pages[0].Items {
		if text, ok := it.(scene.Text); ok {
			if text.Name == "label:element" && text.Text == "disconnected" {
				words++
			}
			note += text.Text + " "
		}
	}
	if words != 1 {
		t.Errorf("the element is called disconnected %d times, want once: after the work", words)
	}
	if want := "taken out by the work: the hose E1 to tub."; !strings.Contains(note, want) {
		t.Errorf("nothing of %q in %s", want, note)
	}
}
