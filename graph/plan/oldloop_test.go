package plan_test

import (
	"os"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/plan"
)

// A leg of old pipe written wrong is told once, of the old pipe, wherever on its loop the cut is:
// at the leg itself, or beside the other legs that would close the loop as well, with what it was
// before it was changed. No place is ruled out for it.
func TestWrongOldLegIsToldOfOldPipe(t *testing.T) {
	data, err := os.ReadFile("../../testdata/circulation.toml")
	if err != nil {
		t.Fatal(err)
	}
	heavy := func(text string) (out []graph.Diagnostic) {
		for _, d := range work(t, read(t, "loop.toml", []byte(text)), plan.Findings).Findings {
			if d.Severity > graph.Note {
				out = append(out, d)
			}
		}
		return out
	}
	for _, c := range []struct{ line, leg, wrong string }{
		{`legs = ["down 250 mm", "front 200 mm", "right 140 mm"]`, "down 250 mm", "down 75 mm"},
		{`legs = ["right 1150 mm"]`, "right 1150 mm", "right 1350 mm"},
		{`legs = ["up 140 mm", "right 220 mm"]`, "up 140 mm", "up 240 mm"},
		{`legs = ["down 250 mm", "front 200 mm", "right 140 mm"]`, "front 200 mm", "back 200 mm"},
		{`legs = ["down 250 mm", "front 200 mm", "right 140 mm"]`, "front 200 mm", "right 200 mm"},
		{`legs = ["right 80 mm", "down 180 mm", "back 200 mm"]`, "down 180 mm", "up 180 mm"},
		{`legs = ["right 160 mm"]`, "right 160 mm", "right 260 mm"},
	} {
		for _, cut := range []string{"", "heated-line", "ozone-line", "circ-discharge"} {
			text := string(data)
			if cut != "" {
				text = replaced(t, text, []string{`bypass = "auto"`, "bypass = \"auto\"\ncut = \"" + cut + "\""})
			}
			short := cut == "ozone-line" || cut == "circ-discharge" // no leg of these is long enough, which is told of the place
			changed := replaced(t, text, []string{c.line, strings.Replace(c.line, c.leg, c.wrong, 1)})
			before, _, _ := strings.Cut(changed, c.wrong)
			line := strings.Count(before, "\n") + 1
			told := 0
			for _, d := range heavy(changed) {
				switch {
				case strings.Contains(d.Message.In(0), "loop of old pipe"):
					told++
					says := d.Pos.Line == line && strings.Contains(d.Hint.In(0), `"`+c.wrong+`" of`) && strings.Contains(d.Hint.In(0), `as "`+c.leg+`"`)
					for _, r := range d.Related {
						says = says || r.Pos.Line == line && strings.Contains(r.Message.In(0), `as "`+c.leg+`"`)
					}
					if !says || d.Severity != graph.Warning {
						t.Errorf("%s, cut %q: %v %v %v", c.wrong, cut, d.Pos, d.Hint.In(0), d.Related)
					}
				case strings.Contains(d.Message.In(0), "does not close"), !short:
					t.Errorf("%s, cut %q: %v", c.wrong, cut, d)
				}
			}
			if told != 1 && (!short || told > 1) {
				t.Errorf("%s, cut %q: told %d times", c.wrong, cut, told)
			}
		}
	}
}
