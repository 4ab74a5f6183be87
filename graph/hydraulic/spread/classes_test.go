package spread

import (
	"math"
	"os"
	"regexp"
	"strings"
	"testing"

	"dryfit/catalog/tables"
	"dryfit/graph/hydraulic"
)

// Every row of spreads.csv reaches the sample: each class is asked for somewhere, at each
// grade it has a row for, or its three rows are one.
func TestEverySpreadIsUsed(t *testing.T) {
	source := ""
	for _, dir := range []string{".", "../../settle"} {
		files, err := os.ReadDir(dir)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range files {
			if strings.HasSuffix(f.Name(), ".go") && !strings.HasSuffix(f.Name(), "_test.go") {
				data, err := os.ReadFile(dir + "/" + f.Name())
				if err != nil {
					t.Fatal(err)
				}
				source += string(data)
			}
		}
	}
	constants, err := os.ReadFile("../../../catalog/tables/spread.go")
	if err != nil {
		t.Fatal(err)
	}
	names := map[string]string{} // class -> constant
	for _, m := range regexp.MustCompile(`(Spread\w+)\s+= "([a-z-]+)"`).FindAllStringSubmatch(string(constants), -1) {
		names[m[2]] = m[1]
	}
	grades := map[string]map[string]tables.Span{}
	for _, c := range tables.Spreads() {
		if grades[c.What] == nil {
			grades[c.What] = map[string]tables.Span{}
		}
		if _, twice := grades[c.What][c.Known]; twice {
			t.Errorf("%s, %s stands twice", c.What, c.Known)
		}
		grades[c.What][c.Known] = c.Span
		if !(c.Low <= c.Middle && c.Middle <= c.High && c.Low < c.High && !math.IsInf(c.High, 0)) {
			t.Errorf("%s, %s: %+v", c.What, c.Known, c.Span)
		}
	}
	for what, by := range grades {
		name := names[what]
		if name == "" || !strings.Contains(source, "tables."+name) {
			t.Errorf("nothing asks for the spread of %s", what)
		}
		if len(by) != 3 {
			t.Errorf("%s has %d grades, want measured, data-sheet and assumed", what, len(by))
		}
		// Asked for at one grade only: then that is what every grade says.
		if strings.Contains(source, "tables."+name+", assumed") && (by["measured"] != by["assumed"] || by["data-sheet"] != by["assumed"]) {
			t.Errorf("%s is only asked for as assumed, and its other rows differ", what)
		}
	}
	for what := range names {
		if grades[what] == nil {
			t.Errorf("spreads.csv has no row of %s", what)
		}
	}
}

// A part's own range in the catalogue widens its class and never narrows it, at every grade at
// which a row counts.
func TestOwnRangeNeverNarrows(t *testing.T) {
	m, held := unknownModel(t, "", "high"), 0
	for i := range m.Parts {
		p := &m.Parts[i]
		s := p.Set.Loss.Spread
		if p.Given != hydraulic.GivenRow && p.Given != hydraulic.GivenSize || !(s.High > s.Low) {
			continue
		}
		class := map[string]string{"filter": tables.SpreadFilterLoss, "check-valve": tables.SpreadPartLoss}[string(p.Part.Kind)]
		if class == "" {
			continue
		}
		want := tables.Spread(class, "assumed")
		if !(s.Low <= want.Low && s.High >= want.High) {
			t.Errorf("%s: %+v, its class %+v", p.Part.ID, s.Span, want)
		}
		held++
	}
	if held == 0 {
		t.Error("no part with a range was held against its class")
	}
}
