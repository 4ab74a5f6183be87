package catalog

import (
	"strings"
	"testing"
)

// A row that says a take-off alone, under a name that is all but one of the catalogue's, was to lie over
// that: it is asked so, once, and not for everything a new row needs. One of the name itself is laid over
// it, and one whose size the catalogue has none of is asked for all it lacks. Follows from what the names are.
func TestARowIsAskedWhichItMeans(t *testing.T) {
	for _, c := range []struct{ kind, name, meant string }{
		{"elbow-90", "elbow-90 pvc-sch40 1 1/2 in", `"elbow-90 pvc-sch40 1-1/2 in"`},
		{"elbow-90", "elbow-90 sch40 2in", `"elbow-90 pvc-sch40 2 in"`},
		{"tee", "tee pvc-pn10 63 mm", `"tee 63 mm"`},
		{"tee", "Tee 63mm", `"tee 63 mm"`},
		{"tee", "tee 2 in", `"tee pvc-sch40 2 in"`},
		{"tee", "tee 63 mm", ""},
		{"tee", "tee pvc-sch40 9 in", "write"},
	} {
		problems := Check([]Row{{Kind: c.kind, Name: c.name, TakeOffMM: 36, Source: "measured", Own: true}})
		switch asked := len(problems) == 1 && problems[0].Key == "name" && strings.Contains(problems[0].Hint, c.meant); {
		case c.meant == "write":
			if len(problems) < 2 || problems[0].Hint != "" {
				t.Errorf("%s: %v", c.name, problems)
			}
		case c.meant == "":
			for _, p := range problems {
				if p.Key != "take-off" {
					t.Errorf("%s: %v", c.name, p)
				}
			}
		case !asked:
			t.Errorf("%s: not asked whether %s is meant: %v", c.name, c.meant, problems)
		}
	}
}

// A length that is measured is not off by what the guess it lies over may be, unless the user says by how
// much it is; a row that says another thing leaves both as they were. Follows from what a row says.
func TestAMeasuredLengthIsNoGuess(t *testing.T) {
	const name = "tee 63 mm"
	below, ok := Embedded().Row(name)
	if !ok || below.TolPlusMM <= 0 || !below.Measure {
		t.Fatalf("%s is no guess any more: take another", name)
	}
	laid := func(r Row) Row {
		r.Kind, r.Name = below.Kind, name
		out, _ := Embedded().With([]Row{r}).Row(name)
		return out
	}
	if r := laid(Row{TakeOffMM: 36}); r.Measure || r.TolMinusMM != 0 || r.TolPlusMM != 0 {
		t.Errorf("measured, and still off by %v and %v, measure %v", r.TolMinusMM, r.TolPlusMM, r.Measure)
	}
	if r := laid(Row{TakeOffMM: 36, TolPlusMM: 2}); r.TolPlusMM != 2 || r.TolMinusMM != 0 {
		t.Errorf("said to be 2 mm more at most, and off by %v and %v", r.TolMinusMM, r.TolPlusMM)
	}
	if r := laid(Row{K: 1}); !r.Measure || r.TolPlusMM != below.TolPlusMM || r.TolMinusMM != below.TolMinusMM {
		t.Errorf("its loss alone was said, and its lengths are off by %v and %v, measure %v", r.TolMinusMM, r.TolPlusMM, r.Measure)
	}
}
