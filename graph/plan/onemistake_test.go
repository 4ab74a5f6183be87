package plan_test

import (
	"os"
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/plan"
)

// One mistake in a good description is one finding, of the rule that names it and at the line it
// stands in: what only follows from it is left out.
func TestOneMistakeOneFinding(t *testing.T) {
	data, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	heavy := func(text string) (out []graph.Diagnostic) {
		for _, d := range work(t, read(t, "two-speed.toml", []byte(text)), plan.Findings|plan.Flows).Findings {
			if n := len(out); n > 0 && out[n-1].Rule == d.Rule && out[n-1].Pos == d.Pos {
				continue // of another mode: printed as one
			}
			if d.Severity > graph.Note && d.Rule != "bypass-serviceable" { // the demo's own
				out = append(out, d)
			}
		}
		return out
	}
	if ds := heavy(string(data)); len(ds) != 0 {
		t.Fatalf("the demo itself: %v", ds)
	}
	for _, c := range []struct {
		name  string
		wrong []string
		rule  string
		at    string // the key or table of its line
	}{
		{"pipe to the unit below its ports", []string{"spec = \"pvc-sch40\"\nto-unit", "spec = \"pvc-sch40\"\nsize = \"1 in\"\nto-unit"}, "branch-not-below-ports", "size ="},
		{"unit set above what a bather may meet", []string{`set-point = "38 °C"`, `set-point = "41 °C"`}, "set-points-agree", "set-point ="},
		{"water too hot", []string{`temperature = "38 °C"`, `temperature = "42 °C"`}, "water-not-above-40", "temperature ="},
		{"unit that stops early", []string{`least-air = "-10 °C"`, `least-air = "10 °C"`}, "heat-when-unit-stops", "least-air ="},
		{"spring far too strong", []string{`bypass = "auto"`, "bypass = \"spring\"\nspring = \"20 psi\""}, "unit-most-flow", "flow ="},
		{"one jet in place of sixteen", []string{"count = 16", "count = 1"}, "unit-least-flow", "flow ="},
		{"a filter that takes all", []string{`drop = "6.5 kPa"`, `drop = "4.5 bar"`}, "unit-least-flow", "flow ="},
		{"a unit that stands no pressure", []string{`highest-pressure = "3.5 bar"`, `highest-pressure = "15 kPa"`}, "unit-highest-pressure", "highest-pressure ="},
		{"an open leg that would have no length", []string{`from-unit = ["left ?", `, `from-unit = ["left ?", "front ?", `}, "retrofit", "from-unit ="},
		{"a suction that is said to be new", []string{"to = \"pump.in\"\nexisting = true", `to = "pump.in"`}, "nothing-new-on-suction", "[[run]]"},
	} {
		text := replaced(t, string(data), c.wrong)
		ds := heavy(text)
		if len(ds) != 1 || ds[0].Rule != c.rule || ds[0].Severity != graph.Error {
			t.Errorf("%s: %d findings, want one of %s", c.name, len(ds), c.rule)
			for _, d := range ds {
				t.Log(d.Pos, d.Rule, d.Message.In(0))
			}
			continue
		}
		lines := strings.Split(text, "\n")
		if line := lines[ds[0].Pos.Line-1]; len(line) < len(c.at) || line[:len(c.at)] != c.at {
			t.Errorf("%s: told at %q, not at %q", c.name, line, c.at)
		}
	}
}

// An old leg shorter than the sockets of its own two elbows is one finding, at the leg, whether its
// run is cut for the work or not: that its pipe runs through itself follows. 2 in elbows of ASTM D2466
// take 2·(26.6 + 29.4) = 112 mm there (handbook copy).
func TestOldLegTooShortIsToldOnce(t *testing.T) {
	data, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	for _, wrong := range [][]string{
		{`"front 240 mm", "right 350 mm"]  #`, `"front 24 mm", "right 350 mm"]  #`},
		{`"up 260 mm", "left 1450 mm"`, `"up 26 mm", "left 1450 mm"`},
	} {
		said, through := 0, 0
		for _, d := range work(t, read(t, "short.toml", []byte(replaced(t, string(data), wrong))), plan.Findings|plan.Swift).Findings {
			all := d.Message.In(0)
			for _, r := range d.Related { // a loop that does not close for it is told with it
				if r.Pos == d.Pos {
					all += r.Message.In(0)
				}
			}
			if strings.Contains(all, "less than nothing is left") {
				said++
			}
			if strings.Contains(all, "does not close") && !strings.Contains(all, "less than nothing is left") {
				t.Errorf("%s: its loop is told apart from it: %s", wrong[1], all)
			}
			if d.Rule == "clash" && d.Severity == graph.Note {
				through++
			}
		}
		if said != 1 || through != 0 {
			t.Errorf("%s: told %d times, and %d notes of old pipe through old pipe", wrong[1], said, through)
		}
	}
}

// A check that a fitter drew the wrong way round is one error, at the check: that its line is shut,
// and what the unit then gets, follows. And a leg that is too short for its two elbows is one, though
// no brush comes between them.
func TestCheckTheWrongWayIsToldOnce(t *testing.T) {
	written := string(description.Write(planned(t, "../../testdata/two-speed.toml").Circuit))
	wrong := strings.NewReplacer(`"bypass.in"`, `"bypass.out"`, `"bypass.out"`, `"bypass.in"`).Replace(written)
	if wrong == written {
		t.Fatal("the plan has no bypass")
	}
	told := func(text string) (out []string) {
		for _, d := range work(t, read(t, "drawn.toml", []byte(text)), plan.Findings).Findings {
			if d.Severity > graph.Note && d.Rule != "bypass-serviceable" { // as before the mistake
				out = append(out, d.Rule)
			}
		}
		return out
	}
	if got := told(written); len(got) != 0 {
		t.Errorf("as it is planned: %v", got)
	}
	if got := told(wrong); !slices.Equal(got, []string{"check-arrow"}) {
		t.Errorf("the check turned about: %v", got)
	}
	legs := `"up 160 mm"`
	if got := told(replaced(t, written, []string{legs, `"up 50 mm"`})); slices.Contains(got, "hand-room") || !slices.Contains(got, "routing") {
		t.Errorf("a leg too short: %v", got)
	}
}
