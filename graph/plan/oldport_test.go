package plan_test

import (
	"os"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/plan"
)

// A slip of the pen in what stands before the work is one warning that names it, wherever it is: the
// place of a port with a digit too few or counted the other way, the way a port faces, and a leg
// turned about on a way past a pump whose ports nothing ties together.
func TestSlipInOldWorkIsNamedOnce(t *testing.T) {
	circulation, twoSpeed := demo(t, "circulation"), demo(t, "two-speed")
	untied := replaced(t, circulation, []string{"port.out = { at = [\"right 90 mm\", \"up 80 mm\"], faces = \"up\" }\n", ""})
	for _, c := range []struct {
		name, text   string
		right, wrong string
		says         string // in the hint of the finding, at the line of the slip
	}{
		{"a digit of a port's place left out", circulation, `"right 2260 mm"`, `"right 226 mm"`, `closes it as ["right 2260 mm", "down 510 mm"]`},
		{"a port's place counted the other way", circulation, `"right 2260 mm"`, `"left 2260 mm"`, `closes it as ["right 2260 mm", "down 510 mm"]`},
		{"a digit of its height left out", twoSpeed, `["right 350 mm", "down 420 mm"]`, `["right 350 mm", "down 42 mm"]`, `closes it as ["right 350 mm", "down 420 mm"]`},
		{"two digits exchanged", twoSpeed, `["right 350 mm", "down 420 mm"]`, `["right 530 mm", "down 420 mm"]`, `closes it as ["right 350 mm", "down 420 mm"]`},
		{"a leg with a digit too many", circulation, `legs = ["right 160 mm"]`, `legs = ["right 1600 mm"]`, `closes it as "right 160 mm"`},
		{"a tub's port that faces its shell", twoSpeed, "legs = [\"front 240 mm\"]\n", "", `write faces = "front" at the port`},
		{"a pump's outlet before its inlet", twoSpeed, `["right 110 mm", "up 150 mm"]`, `["left 110 mm", "up 150 mm"]`, "mend at, or faces of in"},
		{"a leg turned about before an untied pump", untied, `"front 200 mm", "right 140 mm"`, `"back 200 mm", "right 140 mm"`, `brings them together as "front 200 mm"`},
		{"another, that its port contradicts too", untied, `"down 250 mm"`, `"up 250 mm"`, `brings them together as "down 250 mm"`},
		{"the line that is cut, turned about", untied, `legs = ["right 1150 mm"]`, `legs = ["left 1150 mm"]`, `goes on straight as "right 1150 mm"`},
	} {
		slip := c.wrong
		var text string
		if slip == "" { // the way the port faces, two lines of the file apart
			text, slip = replaced(t, c.text, []string{`faces = "front" }`, `faces = "back" }`}), c.right
		} else {
			text = replaced(t, c.text, []string{c.right, c.wrong})
		}
		before, _, _ := strings.Cut(text, slip)
		line, told := strings.Count(before, "\n")+1, 0
		for _, d := range work(t, read(t, "slip.toml", []byte(text)), plan.Findings).Findings {
			if d.Severity == graph.Note || d.Rule == "bypass-serviceable" {
				continue
			}
			if d.Rule == "retrofit" && strings.Contains(c.name, "cut") { // without that line no place is tied to the unit's
				continue
			}
			told++
			if d.Pos.Line != line || d.Severity != graph.Warning || !strings.Contains(d.Hint.In(0), c.says) {
				t.Errorf("%s (line %d): %v %s | %s", c.name, line, d.Pos, d.Message.In(0), d.Hint.In(0))
			}
		}
		if told != 1 {
			t.Errorf("%s: told %d times", c.name, told)
		}
	}
	for _, right := range []string{circulation, twoSpeed, untied} {
		for _, d := range work(t, read(t, "right.toml", []byte(right)), plan.Findings).Findings {
			if d.Severity != graph.Note && d.Rule == "routing" {
				t.Errorf("as it is: %v %s", d.Pos, d.Message.In(0))
			}
		}
	}
}

// A filter with both bosses on its left, the lower one the longer by 80 mm, is no slip: neither port
// stands in the way of the other's pipe. Right before the other it does.
func TestTwoBossesOnOneSide(t *testing.T) {
	for at, told := range map[string]bool{`["left 80 mm", "down 400 mm"]`: false, `["left 80 mm"]`: true} {
		text := replaced(t, demo(t, "two-speed"),
			[]string{`port.out = { at = ["right 180 mm", "down 140 mm"], faces = "right" }`, `port.out = { at = ` + at + `, faces = "left" }`})
		text = replaced(t, text, []string{`legs = ["right 160 mm"]`, `legs = ["left 160 mm"]`})
		text = replaced(t, text, []string{`legs = ["right 120 mm", "up 260 mm"`, `legs = ["left 120 mm", "up 260 mm"`})
		found := false
		for _, d := range work(t, read(t, "bosses.toml", []byte(text)), plan.Findings).Findings {
			found = found || strings.Contains(d.Message.In(0), "would be in the way of its pipe")
		}
		if found != told {
			t.Errorf("out at %s: told %t, want %t", at, found, told)
		}
	}
}

func demo(t *testing.T, name string) string {
	t.Helper()
	data, err := os.ReadFile("../../testdata/" + name + ".toml")
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}
