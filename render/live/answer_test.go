package live

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/graph/whatif"
)

// The page's drawing of an answer, in both systems of units.
func BenchmarkAnswer(b *testing.B) {
	for _, units := range []string{"metric", "inch"} {
		b.Run(units, func(b *testing.B) {
			text, err := os.ReadFile("../../testdata/two-speed.toml")
			if err != nil {
				b.Fatal(err)
			}
			j := whatif.Job{File: "two-speed.toml", Text: text, Units: units}
			p, _ := j.Plan(plan.Flows)
			a, err := whatif.Of(j, p).Ask(whatif.Values{"jets-open": "60"}, plan.Flows|plan.Swift)
			if err != nil {
				b.Fatal(err)
			}
			for b.Loop() {
				AnswerHTML(a, p)
			}
		})
	}
}

// The sign on the scale stands where the words beside it say, also where what was read contradicts the case
// as described.
func TestScaleSaysWhatTheWordsSay(t *testing.T) {
	data, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	j := whatif.Job{File: "two-speed.toml", Text: append(data, "\n[[reading]]\nat = \"pump\"\nmode = \"low\"\nflow = \"6.5 m3/h\"\nplus-minus = \"5 %\"\n"...)}
	p, _ := j.Plan(plan.Flows | plan.Ranges)
	page := AnswerHTML(&whatif.Answer{Job: j, Plan: p}, nil)
	scales, words := regexp.MustCompile(`aria-label="the unit gets ([\d.]+)`).FindAllStringSubmatch(page, -1), regexp.MustCompile(`gets ([\d.]+)[^;<]*? by what was read, not the [^;<]* as described`).FindAllStringSubmatch(page, -1)
	if len(scales) != 2 || len(words) != 2 || scales[0][1] != words[0][1] || scales[1][1] != words[1][1] {
		t.Errorf("on the scale %q, in words %q", scales, words)
	}
}

// Of several units the number on the scale says whose it is, as the words beside it do, and how a check stands
// is a sentence whatever its state is called: "is spring part open" was none.
func TestScaleOfOneOfSeveralUnits(t *testing.T) {
	data, err := os.ReadFile("../pack/testdata/two-new-units.toml")
	if err != nil {
		t.Fatal(err)
	}
	j := whatif.Job{File: "two-new-units.toml", Text: data}
	p, _ := j.Plan(plan.Flows)
	page := AnswerHTML(&whatif.Answer{Job: j, Plan: p}, nil)
	scales, words := regexp.MustCompile(`<text class="is"[^>]*>(HP\d) ([\d.]+)`).FindAllStringSubmatch(page, -1), regexp.MustCompile(`(HP1) gets ([\d.]+)[^;]* \(rated`).FindAllStringSubmatch(page, -1)
	if len(scales) == 0 || len(scales) != len(words) {
		t.Fatalf("%d scales that name their unit, %d sentences", len(scales), len(words))
	}
	for i := range scales {
		if scales[i][1] != words[i][1] || scales[i][2] != words[i][2] {
			t.Errorf("on the scale %q, in words %q", scales[i][1:], words[i][1:])
		}
	}
	if checks := regexp.MustCompile(`how a check stands">CV1 spring check: spring `).FindAllString(page, -1); len(checks) != len(scales) {
		t.Errorf("%d sentences of the check, %d modes", len(checks), len(scales))
	}
}

// Where nothing says where the unit stands the page says beside the flows that they are of one beside its line; where
// something does it says nothing of it.
func TestAnswerSaysWhereTheUnitIsTaken(t *testing.T) {
	data, err := os.ReadFile("../../testdata/plunge-pool.toml")
	if err != nil {
		t.Fatal(err)
	}
	unsaid := regexp.MustCompile(`(?m)^(at = |at-from|ports-face).*\n`).ReplaceAll(data, nil)
	for want, file := range map[bool][]byte{false: data, true: unsaid} {
		j := whatif.Job{File: "plunge-pool.toml", Text: file}
		p, found := j.Plan(plan.Flows)
		if p == nil {
			t.Fatal(found)
		}
		page := strings.ReplaceAll(AnswerHTML(&whatif.Answer{Job: j, Plan: p}, nil), "\u00a0", " ")
		if got := regexp.MustCompile(`Nothing says where HP1[^<]* stands: [^<]* with 5 m more of straight pipe each way, [^<]* it gets [\d.]+ m3/h`).MatchString(page); got != want {
			t.Errorf("said %v, want %v: %s", got, want, page[:min(len(page), 3000)])
		}
	}
}

// No line of the narrow column ends between a number and its unit, as in the chapters beside it.
func TestAnswerKeepsItsAmounts(t *testing.T) {
	data, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	j := whatif.Job{File: "two-speed.toml", Text: data}
	p, _ := j.Plan(plan.Flows | plan.Heat)
	a := &whatif.Answer{Job: j, Plan: p}
	for what, page := range map[string]string{"the answer": AnswerHTML(a, nil), "the cost": CostHTML(a)} {
		words := regexp.MustCompile(`(?s)<svg.*?</svg>|<[^>]*>`).ReplaceAllString(page, "|")
		if !regexp.MustCompile(`\d\x{a0}(m3/h|kWh)`).MatchString(words) {
			t.Errorf("%s has no amount: %s", what, words)
		}
		if broken := regexp.MustCompile(`\d (m3/h|kPa|kWh|%)`).FindAllString(words, -1); broken != nil {
			t.Errorf("%s lets a line end within %q", what, broken)
		}
	}
}

// A dashed line is explained where one is drawn, and only there.
func TestDashedIsToldWhereItIs(t *testing.T) {
	both := &plan.CurveSet{Systems: []plan.SystemCurve{{Stage: graph.Before}, {Stage: graph.After}}}
	one := &plan.CurveSet{Systems: []plan.SystemCurve{{Stage: graph.After}}}
	if got := thinWords(both); !strings.Contains(got, "dashed: today") {
		t.Errorf("of two: %q", got)
	}
	if got := thinWords(one); strings.Contains(got, "dashed") || strings.Contains(got, "after") {
		t.Errorf("of one: %q", got)
	}
}
