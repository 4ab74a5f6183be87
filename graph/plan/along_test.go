package plan_test

import (
	"os"
	"testing"

	"dryfit/graph"
	"dryfit/graph/plan"
)

// Where a box stands before the usual place on a leg, so that no pipes lead from there, the leg is
// cut elsewhere on it without a word of the user's; where the cut line is given, it stays there and
// that is an error. The work then lies clear of the box: worked by hand, it fills 250 to 700 mm left
// of the port, and the leg goes on to 1330 mm left.
func TestCutElsewhereOnTheLeg(t *testing.T) {
	data, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		cut  string
		does bool
	}{{`cut = "return-line"`, true}, {`cut = { run = "return-line", leg = 3, at = "400 mm" }`, false}} {
		text := replaced(t, string(data), []string{`to-unit = ["front 300 mm", "down 260 mm", "right 2300 mm"]`,
			"at = [\"front 700 mm\", \"right 2300 mm\", \"down 260 mm\"]\nat-from = \"element.out\"\nports-face = \"left\"\n" +
				`keep-clear = [{ from = ["left 250 mm", "front 45 mm", "up 120 mm"], to = ["left 700 mm", "front 900 mm", "up 420 mm"], what = "shelf" }]`,
			`from-unit = ["left ?", "up 160 mm", "back 460 mm"]`, "#", `cut = "return-line" `, c.cut})
		p := work(t, read(t, "shelf.toml", []byte(text)), plan.Findings|plan.Flows|plan.Places)
		if got := !graph.HasErrors(p.Findings); got != c.does {
			t.Errorf("%s: possible %t, want %t: %v", c.cut, got, c.does, graph.Errors(p.Findings))
			continue
		}
		if !c.does {
			continue
		}
		from := p.After.Layout.Positions["element.out"]
		for _, id := range []string{"tee-a.branch", "tee-b.branch"} {
			if left := from.X - p.After.Layout.Positions[id].X; left > 250 && left < 700 {
				t.Errorf("%s stands %.0f mm left of the port, before the box", id, left)
			}
		}
	}
}
