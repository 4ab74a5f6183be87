package pack

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/render/book"
	"dryfit/render/table/form"
)

// What each reader asks of a pack first is answered in the chapter that reader opens first, in the
// form in which it is looked for. The questions: common practice, no source.
func TestFirstQuestions(t *testing.T) {
	ask := map[string][][2]string{
		"answer": { // everybody's, and the fitter's
			{"may it be built?", `^It may be built|NOT TO BE BUILT`},
			{"does the heat pump get its water, and how sure is that?", `gets [\d.]+ m3/h \(nine in ten: [\d.]+ m3/h to .*\); it needs [\d.]+ m3/h`},
			{"how long is the tub out of use?", `The tub is out of use from power off`},
			{"what was not measured?", `look before you (cut|begin)`},
			{"how much work is it?", `New work: \d+ pieces of pipe, \d+ joints`},
			{"is there anything to mend?", `Findings: \d+ errors?, \d+ warnings?`},
		},
		"work": { // the fitter's
			{"what is done before the day?", `Before the day`},
			{"when may water and power come?", `No water and no power before the cure is over: \d+ h`},
			{"what holds the work?", `HOLD:`},
			{"where does the power go off?", `Power off, locked off and proved dead`},
			{"when is it tested, and with what?", `Water only, never compressed air`},
			{"what is left to the electrician?", `electrician`},
		},
		"electric": {
			{"what voltage?", `Supply of the unit \| \d+ V`},
			{"what current?", `Full load of the unit \| [\d.]+ A`},
			{"what at a start?", `At its start \|`},
			{"what residual current device?", `30 mA, type A at least`},
			{"what runs together?", `run together: [\d.]+ A in all|[\d.]+ A running, [\d.]+ A for a moment`},
			{"what becomes of the element?", `E1 element heater \| (to be disconnected|stays, kept apart by)`},
			{"how is it earthed?", `Bonding and earthing, proved by \|`},
			{"how far from the rim?", `zone 1`},
			{"who decides?", `for the electrician's decision, by the local code`},
			{"where do I sign?", `Name, licence, date, signature`},
		},
		"owner": {
			{"what is done?", `What is done: two new pipes join the heat pump`},
			{"what must never be shut?", `Never shut V\d`},
			{"how do the valves stand?", `In use they stand so, and stay so: V\d`},
			{"which valve is which?", `V\d+ \(on the pipe to the heat pump\)`},
			{"what is each of the others?", `In use they stand so, and stay so: (\w+ \([^)]*\) [^,(]*, )*\w+ \([^)]*\) [^,(]*\n`},
			{"does it hold in the cold?", `The heat pump holds`},
			{"how long does it take to heat?", `Filled at .* after [\d.]+ h`},
			{"what do I look at?", `Clean the filter|Backwash`},
			{"what if the power fails in a frost?", `The first hour of a frost without power`},
			{"is the steam a fault?", `steam and water at the heat pump are no fault`},
			{"whom do I call?", `the fitter \|`},
		},
	}
	for _, name := range []string{"circulation", "large-circulation", "two-speed", "plunge-pool", "plug-in"} {
		p := demoPlan(t, name)
		style := form.Style{Units: quantity.MetricSystem}
		j := factsOf(p, style.Units)
		for _, c := range []book.Chapter{answer(p, factsOf(p, style.Units), style), work(p, j, style), electrician(p, j), owner(p, j, style)} {
			said := wordsOf(c)
			for _, q := range ask[c.ID] {
				if !regexp.MustCompile(`(?m)` + q[1]).MatchString(said) {
					t.Errorf("%s: %q is not answered in %q:\n%s", name, q[0], c.Title, said)
				}
			}
			first := `The first cut, X1, is on the pipe .*, [\d.]+ mm from the`
			if name == "plug-in" {
				first = `No old pipe is cut: the hose E1 to tub comes off at its joints\.`
			}
			if c.ID == "answer" && !regexp.MustCompile(first).MatchString(said) {
				t.Errorf("%s: where the first cut is does not stand in the answer:\n%s", name, said)
			}
		}
	}
}

// What is left to tell the owner stands under a heading that is true of it: of a tub whose unit goes
// it is the drips alone, and where it never freezes no winter.
func TestOwnersLastHeading(t *testing.T) {
	headings := func(p *plan.Plan) string {
		style := form.Style{Units: quantity.MetricSystem}
		said := ""
		for _, it := range owner(p, factsOf(p, style.Units), style).Items {
			if it.Kind == book.Heading {
				said += it.Text + "\n"
			}
		}
		return said
	}
	mild, err := os.ReadFile("../../testdata/circulation.toml")
	if err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		p    *plan.Plan
		want string
	}{
		"unit out": {jobPlan(t, "unit-out"), "The first weeks\n"},
		"mild":     {wanted(t, "mild.toml", []byte(strings.Replace(string(mild), `air = "-3 °C"`, `air = "6 °C"`, 1)), plan.Findings|plan.Flows|plan.Lists), "What else to know\n"},
		"frost":    {demoPlan(t, "circulation"), "Winter, power cuts and the water\n"},
	} {
		if said := headings(c.p); !strings.Contains(said, c.want) || c.want[0] != 'W' && strings.Contains(said, "Winter") {
			t.Errorf("%s: the owner's headings are\n%s", name, said)
		}
	}
}

// Each of the questions a reader comes with has a bookmark of the name it is asked by, and what
// that leads to answers it, with or without a place for the cut, and where a unit goes.
func TestQuestionsHaveBookmarks(t *testing.T) {
	want := map[string]string{ // common practice, no source
		mayItBeBuilt: `^(It may be built|The work may be done|NOT TO BE BUILT)`,
		firstCutMark: `^(The first cut, X1, is on|No old pipe is cut|Where the first cut lies nobody measured|Where the first cut goes is told once that is mended)`,
		currentMark:  `Full load of the unit \| ([\d.]+ A|)`,
		neverMark:    `Never shut V\d`,
	}
	plans := map[string]*plan.Plan{"job unit-out": jobPlan(t, "unit-out"), "job starved": jobPlan(t, "starved")}
	for _, name := range []string{"circulation", "two-speed", "plug-in"} {
		plans[name] = demoPlan(t, name)
	}
	for name, p := range plans {
		style := form.Style{Units: quantity.MetricSystem}
		j := factsOf(p, style.Units)
		told := map[string]string{}
		for _, c := range []book.Chapter{answer(p, j, style), electrician(p, j), owner(p, j, style)} {
			for i, it := range c.Items {
				if it.Bookmark == "" {
					continue
				}
				if _, twice := told[it.Bookmark]; twice {
					t.Errorf("%s: two bookmarks are called %q", name, it.Bookmark)
				}
				said := c.Items[i : i+1]
				if it.Kind == book.Heading {
					said = c.Items[i+1 : min(len(c.Items), i+4)]
				}
				told[it.Bookmark] = strings.TrimSpace(wordsOf(book.Chapter{Items: said}))
			}
		}
		for mark, answered := range want {
			said, marked := told[mark]
			switch {
			case mark == firstCutMark && joints(p) == 0: // nothing is cut
			case j.Unit == nil && (mark == neverMark || mark == currentMark): // none is left to shut off, or to feed
			case !marked || !regexp.MustCompile(`(?m)`+answered).MatchString(said):
				t.Errorf("%s: the bookmark %q (there: %v) leads to %q", name, mark, marked, said)
			}
		}
	}
}

// Where an error of the description rules the place out nobody is sent to the order of work for the
// first cut, nor told what to saw out of which bar: there is none.
func TestNoFirstCutBeforeItIsMended(t *testing.T) {
	source, err := os.ReadFile("../../testdata/circulation.toml")
	if err != nil {
		t.Fatal(err)
	}
	hot := regexp.MustCompile(`(?m)^set-point = .*`).ReplaceAll(source, []byte(`set-point = "41 °C"`))
	p := wanted(t, "hot.toml", hot, plan.Findings|plan.Flows|plan.Lists)
	if p.Proposal == nil || p.RuledOut() == nil {
		t.Fatalf("a place %v, ruled out by %v: the test shows nothing", p.Proposal != nil, p.RuledOut())
	}
	style := form.Style{Units: quantity.MetricSystem}
	said := wordsOf(answer(p, factsOf(p, style.Units), style))
	if !strings.Contains(said, "Where the first cut goes is told once that is mended.") || strings.Contains(said, "order of work") {
		t.Error(said)
	}
	for _, it := range cutting(p, style).Items { // no more than a cut list
		if what := it.Text + it.Block.Title; strings.HasPrefix(what, "Stock plan") {
			t.Errorf("%q tells what to saw all the same", what)
		}
	}
}
