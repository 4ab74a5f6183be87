package plan_test

import (
	"fmt"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/plan"
)

// An element is taken out and a straight piece drawn between two old ends that can't be drawn
// back. What the hint says is done, literally: then the line can be put together. One union or a
// slip coupling does not do there (each half has its socket's depth to go, 29.4 mm of ASTM D2466,
// and the other half in its way); two do, for what is between them goes in sideways. Common
// practice, no source.
func TestDrawnWorkIsClosed(t *testing.T) {
	const legs, union = 540.0, 13.0 // of line-new
	halves := func(part, kind string) string {
		return piece("line-new", "c1.out", part+".in", 270-union/2) + piece("line-rest", part+".out", "c2.in", 270-union/2) + fmt.Sprintf("[[part]]\nid = %q\nkind = %q\nlength = \"13 mm\"\n", part, kind)
	}
	two := regexp.MustCompile(`^put two unions into leg 1 of line-new, with (\d+) mm of it before the first and between them$`)
	one := regexp.MustCompile(`^put a union into leg 1 of line-new, with (\d+) mm of it before the union$`)
	for _, c := range []struct {
		name, drawn string
		length      float64 // of line-new
		says        *regexp.Regexp
		unions      int
	}{
		{"one piece", piece("line-new", "c1.out", "c2.in", legs), legs, two, 2},
		{"with a union already", halves("u", "union"), 270 - union/2, one, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			found := ""
			p := work(t, read(t, "drawn.toml", []byte(elementOut(t)+c.drawn)), plan.Findings)
			for _, d := range p.Findings {
				if d.Rule == "assembly" && d.Severity == graph.Error {
					found = d.Hint.In(0)
				}
			}
			m := c.says.FindStringSubmatch(found)
			if m == nil {
				t.Fatalf("the hint says %q: %v", found, p.Findings)
			}
			step, _ := strconv.ParseFloat(m[1], 64)
			old := piece("line-new", "c1.out", "c2.in", c.length)
			end := "c2.in"
			if !strings.Contains(c.drawn, old) {
				end = "u.in"
				old = piece("line-new", "c1.out", end, c.length)
			}
			followed, from, left := "", "c1.out", c.length
			for k := range c.unions {
				id := fmt.Sprintf("n%d", k+1)
				followed += piece("line-"+id, from, id+".in", step) + fmt.Sprintf("[[part]]\nid = %q\nkind = \"union\"\nlength = \"13 mm\"\n", id)
				from, left = id+".out", left-step-union
			}
			followed += piece("line-last", from, end, left)
			text := replaced(t, elementOut(t)+c.drawn, []string{old, followed})
			for _, d := range work(t, read(t, "followed.toml", []byte(text)), plan.Findings).Findings {
				if d.Severity == graph.Error {
					t.Errorf("after following: %s [%s]", d.Message, d.Rule)
				}
			}
		})
	}
}

// A string with no valve that opens goes in with one slip coupling where an old end can be drawn back by the
// depth of its socket (1-3/32 in, 27.8 mm, ASTM D2466), and with one at each cut where it can't: the
// couplings are slid back on the old pipe, and the string goes in sideways. Common practice, no source.
func TestSlipCouplingsAsTheEndsGive(t *testing.T) {
	data, err := os.ReadFile("../../testdata/large-circulation.toml")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		play, bypass string
		slips        int
	}{
		{"0 mm", "valve", 2}, {"27 mm", "valve", 2}, {"28 mm", "valve", 1},
		{"0 mm", "spring", 1}, // a check that opens at its unions
		{"0 mm", "none", 2},
	} {
		text := replaced(t, string(data), []string{`play = "40 mm", pushes-aside = true`, fmt.Sprintf("play = %q", c.play),
			"bypass = \"auto\"", fmt.Sprintf("bypass = %q\ntrue-union = false\nslip-coupling = true", c.bypass)})
		p := work(t, read(t, "slip.toml", []byte(text)), plan.Findings)
		for _, d := range p.Findings {
			if d.Severity == graph.Error && (d.Rule == "assembly" || d.Rule == "cut-room" || d.Rule == "retrofit") {
				t.Errorf("play %s, %s: %s", c.play, c.bypass, d.Message)
			}
		}
		slips := 0
		for _, part := range p.After.Circuit.Parts {
			if part.Kind == graph.SlipCoupling {
				slips++
			}
		}
		if slips != c.slips {
			t.Errorf("play %s, %s: %d slip couplings, want %d", c.play, c.bypass, slips, c.slips)
		}
	}
}

// A valve drawn into the pump's only line is told to go; it is not told to become another valve.
func TestNoValveWhereItShutsIn(t *testing.T) {
	drawn := piece("line-new", "c1.out", "v.in", 220) + piece("line-rest", "v.out", "c2.in", 220) + "[[part]]\nid = \"v\"\nkind = \"ball-valve\"\nlength = \"100 mm\"\n"
	said := 0
	for _, d := range work(t, read(t, "drawn.toml", []byte(elementOut(t)+drawn)), plan.Findings).Findings {
		if d.Severity != graph.Error {
			continue
		}
		said++
		if hint := d.Hint.In(0); strings.Contains(hint, "true-union") {
			t.Errorf("%s: %s", d.Message, hint)
		}
	}
	if said != 2 { // that it shuts the pump in, and that the line can't be closed
		t.Errorf("%d errors, want 2", said)
	}
}

// piece is new pipe that runs to the right, mm.
func piece(id, from, to string, mm float64) string {
	return fmt.Sprintf("[[run]]\nid = %q\nfrom = %q\nto = %q\nlegs = [\"right %g mm\"]\n\n", id, from, to, mm)
}

// elementOut is the demo of a two-speed pump with its element taken out, 380 mm of it and 160 mm
// of the pipe beside it, and a coupling on each old end.
func elementOut(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	text, _, _ := strings.Cut(string(data), "[[part]]\nid = \"unit\"")
	return replaced(t, text, []string{
		"disconnected = true ", "removed = true ",
		"to = \"element.in\"\nexisting = true", "to = \"element.in\"\nexisting = true\nremoved = true",
		"to = \"jets.in\"\nexisting = true", "to = \"jets.in\"\nexisting = true\nremoved = true",
		`"right 120 mm", "up 260 mm"`, `"right 300 mm", "up 260 mm"`,
	}) + `
[[part]]
id = "c1"
kind = "coupling"

[[part]]
id = "c2"
kind = "coupling"

[[run]]
id = "heater-a"
from = "filter.out"
to = "c1.in"
existing = true
remains-of = "heater-line"
legs = ["right 100 mm"]

[[run]]
id = "return-b"
from = "c2.out"
to = "jets.in"
existing = true
remains-of = "return-line"
legs = ["right 200 mm", "up 260 mm", "left 1450 mm", "up 150 mm"]

`
}
