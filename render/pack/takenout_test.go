package pack

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/render/book"
	"dryfit/render/table"
	"dryfit/render/table/form"
)

// Who was not there reads on his own sheet what is gone: the owner that the salt cell no longer
// treats the water, the electrician that the old unit and the cell are parted from their
// supplies; also where no new unit comes. Their order: the trade's (common practice, no source).
func TestTakenOutIsSaidToEverybody(t *testing.T) {
	data, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	const old = `
[[part]]
id = "old-unit"
kind = "heat-pump"
existing = true
removed = true
electric = { voltage = "230 V", full-load = "9.5 A" }

[[part]]
id = "salt"
kind = "salt-cell"
existing = true
removed = true

[[run]]
id = "over"
from = "old-unit.out"
to = "salt.in"
existing = true
removed = true
length = "400 mm"
`
	text := string(data)
	circuit, _, _ := strings.Cut(text, "[retrofit]")
	for _, c := range []struct {
		name, file string
	}{
		{"with a new unit", text + old},
		{"known by a row", text + strings.Replace(old, `electric = { voltage = "230 V", full-load = "9.5 A" }`, `type = "the old one"

[[catalog.heat-pump]]
name = "the old one"
loss-flow = "2 m3/h"
loss-drop = "6 kPa"
rating = "2 bar"
size = "1 1/2 in"
least = "1 m3/h"
rated = "2 m3/h"
most = "4 m3/h"
full-load = "9.5 A"
source = "its sheet"`, 1)},
		{"without one", strings.Replace(circuit, "[[part]]\nid = \"unit\"", "[[part]]\nid = \"unit\"\nexisting = true\nremoved = true", 1) + old},
	} {
		p := wanted(t, "x.toml", []byte(c.file), plan.Findings|plan.Flows|plan.Lists)
		style := form.Style{Units: quantity.MetricSystem}
		j := factsOf(p, style.Units)
		says := func(ch book.Chapter, want string) {
			if got := wordsOf(ch); !strings.Contains(got, want) {
				t.Errorf("%s: %q does not say %q:\n%s", c.name, ch.Title, want, got)
			}
		}
		says(owner(p, j, style), "no longer treated by SX1 salt cell")
		var steps strings.Builder
		for _, s := range method(p, j) {
			steps.WriteString(strings.Join(s.Steps, "\n") + "\n")
		}
		off, down := strings.Index(steps.String(), "carry it off"), strings.Index(steps.String(), "Set the unit down")
		if j.Unit != nil && (off < 0 || down < off) { // the new one may stand where the old one stood
			t.Errorf("%s: the old unit is carried off at %d, the new one set down at %d", c.name, off, down)
		}
		says(electrician(p, j), "salt cell, taken out")
		whose := "its sheet"
		if c.name == "known by a row" {
			whose = "your row the old one"
		}
		says(electrician(p, j), "9.5 A ("+whose+"): isolated, proved dead")
		if j.Unit == nil {
			if got := wordsOf(owner(p, j, style)); strings.Contains(got, "heat pump's water") {
				t.Errorf("%s: the owner reads of the water of a heat pump he has not", c.name)
			}
		}
	}
}

// wordsOf is everything a chapter says, a line each.
func wordsOf(c book.Chapter) string {
	var text strings.Builder
	for _, it := range c.Items {
		text.WriteString(it.Text + "\n" + strings.Join(it.Lines, "\n") + "\n")
		if g := it.Block.Grid; g != nil {
			for _, row := range g.Rows {
				text.WriteString(strings.Join(row, " | ") + "\n")
			}
		}
	}
	return text.String()
}

// A job that only takes a unit out names its first cut on its first page, has no chapter about
// faults or promises of what is not there, carries the unit off once, and joins no tees. What a
// page must tell: common practice, no source.
func TestUnitOutSaysWhatThisJobHas(t *testing.T) {
	file := filepath.Join("..", "..", "graph", "plan", "testdata", "jobs", "unit-out.toml")
	source, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	p := wanted(t, file, source, plan.Findings|plan.Flows|plan.Lists)
	style := form.Style{Units: quantity.MetricSystem}
	j := factsOf(p, style.Units)
	if got := wordsOf(answer(p, factsOf(p, style.Units), style)); !strings.Contains(got, "The first cut, X1, is on the pipe F1 to T1, 392 mm from the face of F1 filter, outlet") {
		t.Errorf("the first page names no first cut:\n%s", got)
	}
	// nothing is built but a closing piece, and nothing is left that heats
	if got := wordsOf(answer(p, j, style)); !strings.Contains(got, "The work may be done: ") || !strings.Contains(got, "from power off until it runs again") || strings.Contains(got, "heating") || strings.Contains(got, "may be built") {
		t.Errorf("the first page of a tub that nothing heats any more:\n%s", got)
	}
	if n := len(faults(j).Items); n > 0 {
		t.Errorf("a chapter of faults with no line: %d items", n)
	}
	if got := performanceBlocks(p, style.Units); len(got) > 0 {
		t.Error("what to expect of a unit and jets that are not there")
	}
	steps := wordsOf(work(p, j, style))
	for _, not := range []string{"Tee to tee", "HP1 heat pump and the pipes", "carry valves"} {
		if strings.Contains(steps, not) {
			t.Errorf("the order of work says %q", not)
		}
	}
}

// The owner's sheet has one name for the heat pump: no word of the trade beside it.
func TestOwnerReadsOfNoUnit(t *testing.T) {
	for text, want := range map[string]string{
		"Units off; the unit's own plug, each unit": "Heat pumps off; the heat pump's own plug, each heat pump",
		"A unitary thing is united":                 "A unitary thing is united",
	} {
		if got := table.ForOwner(text); got != want {
			t.Errorf("%q reads %q, want %q", text, got, want)
		}
	}
}

// Where the work is to take a unit out the first page says so, before where the saw goes.
func TestTakenOutIsTheAnswer(t *testing.T) {
	file := filepath.Join("..", "..", "graph", "plan", "testdata", "jobs", "unit-out.toml")
	source, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	p := wanted(t, file, source, plan.Findings|plan.Flows|plan.Lists)
	said := wordsOf(answer(p, factsOf(p, quantity.MetricSystem), form.Style{}))
	gone, cut := strings.Index(said, "Taken out and not put back: HP1 heat pump."), strings.Index(said, "The first cut")
	if gone < 0 || cut < gone {
		t.Errorf("the answer is:\n%s", said)
	}
}

// What goes with a part is told for what it is: with one part nothing lies between parts, and pipe to a unit that is
// carried off by itself is no pipe between the unions that stay to be named.
func TestPipesThatGoWithParts(t *testing.T) {
	a, b, c := "the pipe A to B", "the pipe B to C", "the hose C to D"
	for _, x := range []struct {
		parts int
		pipes []string
		want  string
	}{
		{1, []string{a}, a},
		{2, []string{a, b}, a + "|" + b},
		{1, []string{a, b, c}, "the 3 pipes and hoses that go with it"},
		{2, []string{a, b, a}, "the 3 pipes that go with them"},
		{2, []string{c, c, c}, "the 3 hoses that go with them"},
	} {
		if got := strings.Join(pipesWith(x.parts, x.pipes), "|"); got != x.want {
			t.Errorf("%d parts, %d pipes: %q, want %q", x.parts, len(x.pipes), got, x.want)
		}
	}
}
