package drawing

import (
	"fmt"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// All views together are numbered through, and every sheet bears the description's
// fingerprint, which another description does not share.
func TestSheetsAreNumberedThrough(t *testing.T) {
	prints := map[string]string{}
	for name, p := range demos(t) {
		var pages []*scene.Scene
		for _, view := range Views() {
			pages = append(pages, drawn(t, p, view, quantity.MetricSystem)...)
		}
		finish(pages, p, quantity.MetricSystem)
		if name == "plug-in" {
			if all, err := Pages(p, "all", sheet.Page{}, quantity.MetricSystem); err != nil || len(all) != len(pages) {
				t.Errorf("all views have %d pages, one after the other %d (%v)", len(all), len(pages), err)
			}
		}
		mark := Fingerprint(p)
		if other, ok := prints[mark]; ok || len(mark) != 8 {
			t.Errorf("%s and %s share the fingerprint %q", name, other, mark)
		}
		prints[mark] = name
		for n, s := range pages {
			said := ""
			for _, it := range s.Items {
				if x, ok := it.(scene.Text); ok && strings.HasPrefix(x.Name, "title:") {
					said += x.Text + "\n"
				}
			}
			for _, want := range []string{fmt.Sprintf("%d of %d\n", n+1, len(pages)), "no. " + mark + "\n"} {
				if strings.Count(said, want) != 1 {
					t.Errorf("%s, sheet %d: the title block says %q, want %q once", name, n+1, said, want)
				}
			}
		}
	}
}

// A plan with an error says so on every sheet, clear of everything else.
func TestWarningStandsClear(t *testing.T) {
	for name, p := range demos(t) {
		pages := drawn(t, p, "schematic", quantity.MetricSystem)
		finish(pages, p, quantity.MetricSystem)
		warnAcross(pages, "the pump sucks air")
		for _, s := range pages {
			n := 0
			for _, it := range s.Items {
				if x, ok := it.(scene.Text); ok && x.Name == "not-to-be-built" {
					n++
				}
			}
			if n == 0 {
				t.Errorf("%s: a sheet of a plan with an error does not say so", name)
			}
			for _, fault := range faults(s) {
				t.Errorf("%s: %s", name, fault)
			}
		}
	}
}
