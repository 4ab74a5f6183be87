package pack

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/render/book"
	"dryfit/render/drawing"
	"dryfit/render/scene"
	"dryfit/render/sheet"
	"dryfit/render/table/form"
	"dryfit/render/tag"
)

var (
	tagWord     = regexp.MustCompile(`\b[A-Z]{1,2}\d+\b`)
	pieceWord   = regexp.MustCompile(`\bpiece (\d+)`)
	refrigerant = regexp.MustCompile(`^R\d{2,3}$`) // no part: ISO 817's names
	jointSpan   = regexp.MustCompile(`\bJ(\d+) to J(\d+)\b`)
)

// What a step names can be found: every tag, piece and joint stands on a sheet of the same
// papers, and every joint of the layout is made in one step. No step names an id of the
// description that is not a word of the trade.
func TestStepsNameWhatIsDrawn(t *testing.T) {
	plans := map[string]*plan.Plan{}
	for _, name := range []string{"two-speed", "plug-in"} {
		plans[name] = demoPlan(t, name)
	}
	for _, name := range []string{"unit-out", "second-unit"} {
		plans[name] = jobPlan(t, name)
	}
	for name, p := range plans {
		drawn := " "
		for _, view := range []string{"schematic", "isometric", "detail", "templates"} {
			pages, err := drawing.Pages(p, view, sheet.Page{}, quantity.MetricSystem)
			if err != nil {
				t.Fatal(err)
			}
			for _, s := range pages {
				for _, it := range s.Items {
					if x, ok := it.(scene.Text); ok {
						drawn += x.Text + " "
						if x.Name == "label:piece" {
							drawn += "piece " + x.Text + " "
						}
					}
				}
			}
		}
		made := map[int]int{}
		steps := stepsOf(bookOf(p, form.Style{Units: quantity.MetricSystem}, Options{}, nil))
		if len(steps) < 8 {
			t.Fatalf("%s: %d steps", name, len(steps))
		}
		for _, s := range steps {
			for _, m := range jointSpan.FindAllStringSubmatch(s, -1) {
				from, _ := strconv.Atoi(m[1])
				to, _ := strconv.Atoi(m[2])
				for n := from + 1; n < to; n++ {
					s += " " + tag.Joint(n)
				}
			}
			for _, w := range append(tagWord.FindAllString(s, -1), pieceWord.FindAllString(s, -1)...) {
				if refrigerant.MatchString(w) {
					continue
				}
				if !regexp.MustCompile(`\b` + w + `\b`).MatchString(drawn) {
					t.Errorf("%s: %q stands on no sheet: %s", name, w, s)
				}
				if n, err := strconv.Atoi(strings.TrimPrefix(w, "J")); err == nil && strings.HasPrefix(w, "J") {
					made[n]++
				}
			}
			for _, part := range p.Circuit.Parts {
				if strings.ContainsAny(part.ID, "-0123456789") && !isKind(part.ID) && regexp.MustCompile(`(^|[ (])`+regexp.QuoteMeta(part.ID)+`([ .,;)]|$)`).MatchString(s) {
					t.Errorf("%s: a step calls %s by its id: %s", name, part.ID, s)
				}
			}
		}
		for _, j := range p.After.Layout.Joints {
			if made[j.Number] != 1 {
				t.Errorf("%s: joint %d is made in %d steps", name, j.Number, made[j.Number])
			}
		}
	}
}

func isKind(id string) bool {
	for _, k := range graph.Kinds() {
		if string(k) == id {
			return true
		}
	}
	return false
}

func stepsOf(b *book.Book) []string {
	var out []string
	for _, c := range b.Chapters {
		for _, it := range c.Items {
			if c.ID == "work" && it.Kind == book.Steps {
				out = append(out, it.Lines...)
			}
		}
	}
	return out
}

// A finding calls a joint what the sheets call it: the closing joint of two-speed's bypass, whose
// union nuts are done up last of the work in the line.
func TestJointsOfFindings(t *testing.T) {
	p := demoPlan(t, "two-speed")
	said := wordsOf(findings(p, tag.Of(p.Circuit, p.Net()), quantity.MetricSystem))
	if !strings.Contains(said, "(joint J14)") || !strings.Contains(said, "fit it at joint J12, last") || regexp.MustCompile(`joint \d`).MatchString(said) {
		t.Error(said)
	}
	// and a part by its id and by its tag: the check in the bypass and the unit of two-speed
	for _, want := range []string{`check "bypass" (CV1) lies`, `"unit" (HP1) stands`, `tee-a (T2): tee 2 in`, `the union nuts of bypass (CV1) close`, `bypass-serviceable]`} {
		if !strings.Contains(said, want) {
			t.Errorf("%q is not among the findings:\n%s", want, said)
		}
	}
}
