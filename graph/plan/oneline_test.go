package plan_test

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/plan"
	"dryfit/graph/retrofit"
)

// Where a line was written in several legs of one way nothing on the pipe shows where one ends: the saw
// is marked from what can be seen, and for the same cut just as where it was written as one leg.
func TestMarksOfLegsInOneLine(t *testing.T) {
	data, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	const line, cut = `"left 1450 mm"`, `cut = "return-line"`
	if text := string(data); strings.Count(text, line) != 1 || strings.Count(text, cut) != 1 {
		t.Fatal("the demo's line is another")
	}
	marked := func(legs string, leg int, at float64) (retrofit.Marking, float64) {
		text := strings.NewReplacer(line, legs, cut, fmt.Sprintf(`cut = { run = "return-line", leg = %d, at = "%g mm" }`, leg, at)).Replace(string(data))
		c, ds := description.Read("two-speed.toml", []byte(text))
		if c == nil {
			t.Fatal(ds)
		}
		p, err := plan.Make(c, plan.Findings|plan.Places)
		if err != nil {
			t.Fatal(err)
		}
		if p.Proposal == nil {
			t.Fatalf("legs %s: no cut is built: %v", legs, p.Places)
		}
		return p.Proposal.Marking, p.Places[0].Place.StraightMM
	}
	want, straight := marked(line, 3, 480)
	for _, c := range []struct {
		legs string
		leg  int
		at   float64
	}{
		{`"left 400 mm", "left 1050 mm"`, 4, 80},
		{`"left 950 mm", "left 500 mm"`, 3, 480},
		{`"left 100 mm", "left 300 mm", "left 600 mm", "left 450 mm"`, 5, 80},
	} {
		got, before := marked(c.legs, c.leg, c.at)
		if !agree.Within(before, straight, 1e-6) {
			t.Errorf("%s: %.2f mm of straight pipe before the check, of one leg %.2f", c.legs, before, straight)
		}
		bends := strings.NewReplacer(fmt.Sprintf("bend %d of", 2+strings.Count(c.legs, "left")), "bend 3 of") // numbered by the legs
		if bends.Replace(got.From) != want.From || bends.Replace(fmt.Sprint(got.Keeps)) != fmt.Sprint(want.Keeps) ||
			!agree.Within(got.FirstMM, want.FirstMM, 1e-6) || !agree.Within(got.SecondMM, want.SecondMM, 1e-6) || !agree.Within(got.SlugMM, want.SlugMM, 1e-6) {
			t.Errorf("%s: %q %.2f and %.2f mm, keeps %v; of one leg %q %.2f and %.2f mm, %v", c.legs, got.From, got.FirstMM, got.SecondMM, got.Keeps, want.From, want.FirstMM, want.SecondMM, want.Keeps)
		}
	}
}

// Legs of one way, each too short for the work, are one straight that is long enough: what would make the
// place possible is to write them so, whichever of them is looked at.
func TestLegsInOneLineAreOneStraight(t *testing.T) {
	data, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Replace(string(data), `"left 1450 mm"`, `"left 400 mm", "left 350 mm", "left 350 mm", "left 350 mm"`, 1)
	c, ds := description.Read("two-speed.toml", []byte(text))
	if c == nil {
		t.Fatal(ds)
	}
	p, err := plan.Make(c, plan.Places|plan.Findings)
	if err != nil {
		t.Fatal(err)
	}
	told := 0
	for _, v := range p.Places {
		if v.Place.Leg < 3 || v.Place.Leg > 6 {
			continue
		}
		mend := quantity.Join(v.Mend, "\n").String()
		if v.Verdict != "ruled out" || !strings.Contains(mend, `write legs 3 to 6 of run "return-line" as one leg, "left 1450 mm"; it costs nothing`) {
			t.Errorf("leg %d is %s; would be possible: %q", v.Place.Leg, v.Verdict, mend)
		}
		if why := fmt.Sprint(v.Reasons); !strings.Contains(why, "of straight pipe in that leg alone; the work needs") || strings.Contains(why, "between its sockets") {
			t.Errorf("leg %d, which goes on, is ruled out: %s", v.Place.Leg, why)
		}
		told++
	}
	if told == 0 {
		t.Error("no leg of the straight was looked at")
	}
}
