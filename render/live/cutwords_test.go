package live

import (
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"dryfit/graph/plan"
	"dryfit/graph/whatif"
)

// The section of the cut speaks as the trade does: of a 90° elbow, as on the papers, not of the kind
// of a row. The two demos are cut beside an elbow.
func TestCutIsInWordsOfTheTrade(t *testing.T) {
	markup := regexp.MustCompile(`<[^>]*>`)
	elbows := 0
	for _, demo := range []string{"two-speed", "large-circulation"} {
		data, err := os.ReadFile("../../testdata/" + demo + ".toml")
		if err != nil {
			t.Fatal(err)
		}
		j := whatif.Job{File: demo + ".toml", Text: data}
		p, _ := j.Plan(plan.Flows | plan.Places)
		page := CutHTML(whatif.Of(j, p))
		said := markup.ReplaceAllString(page, "|")
		for _, s := range []string{page, said} { // what is read out of a picture too
			if kind := regexp.MustCompile(`\b(elbow-\d+|(tee|bush|check|ball)-\w+|reducing-\w+) (at|in|of|between)\b`).FindString(s); kind != "" {
				t.Errorf("%s: %q in\n%s", demo, kind, said)
			}
		}
		elbows += len(regexp.MustCompile(`90° elbow at bend`).FindAllString(said, -1))
	}
	if elbows == 0 {
		t.Error("no cut is measured from an elbow")
	}
}

// What stands under the drawing of the leg is what its sentence says: from where a tape is held to the first cut,
// and from there to the second, be the straight written as one leg or as several.
func TestStripMeasuresAsItsSentence(t *testing.T) {
	data, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	const line, cut = `"left 1450 mm"`, `cut = "return-line"`
	if text := string(data); strings.Count(text, line) != 1 || strings.Count(text, cut) != 1 {
		t.Fatal("the demo's line is another")
	}
	marks, under := regexp.MustCompile(`X1 at (\d+) mm and X2 at (\d+) mm from`), regexp.MustCompile(`font-size="12.5"[^>]*>(\d+) mm<`)
	var first string
	for _, c := range []struct {
		legs, cut string
	}{
		{line, `cut = { run = "return-line", leg = 3, at = "480 mm" }`},
		{`"left 400 mm", "left 1050 mm"`, `cut = { run = "return-line", leg = 4, at = "80 mm" }`},
		{`"left 950 mm", "left 500 mm"`, `cut = { run = "return-line", leg = 3, at = "480 mm" }`},
	} {
		j := whatif.Job{File: "two-speed.toml", Text: []byte(strings.NewReplacer(line, c.legs, cut, c.cut).Replace(string(data)))}
		p, _ := j.Plan(plan.Flows | plan.Places)
		page := CutHTML(whatif.Of(j, p))
		said, drawn := marks.FindStringSubmatch(page), under.FindAllStringSubmatch(page, -1)
		if said == nil || len(drawn) != 3 {
			t.Fatalf("%s: said %q, drawn %q in\n%s", c.legs, said, drawn, page)
		}
		if first == "" {
			first = said[1]
		}
		x1, x2 := atoi(t, said[1]), atoi(t, said[2])
		if said[1] != first || atoi(t, drawn[0][1]) != x1 || x1+atoi(t, drawn[1][1]) != x2 {
			t.Errorf("%s: X1 at %s, X2 at %s; drawn %q; of one leg X1 at %s", c.legs, said[1], said[2], drawn, first)
		}
		sum := regexp.MustCompile(`Room (\d+) mm = (\d+) mm before the work \+ (\d+) mm for it \+ (\d+) mm behind it`).FindStringSubmatch(page)
		if sum == nil || atoi(t, sum[1]) != atoi(t, sum[2])+atoi(t, sum[3])+atoi(t, sum[4]) {
			t.Errorf("%s: the room does not add up as it is printed: %q", c.legs, sum)
		}
		if on := strings.Count(page, `class="goes-on"`); on != strings.Count(c.legs, ",") {
			t.Errorf("%s: %d stretches beside the leg are drawn", c.legs, on)
		}
	}
}

func atoi(t *testing.T, s string) int {
	t.Helper()
	n, err := strconv.Atoi(s)
	if err != nil {
		t.Fatal(err)
	}
	return n
}
