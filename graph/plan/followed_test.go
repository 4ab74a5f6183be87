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

// Of a unit so high that the air's pressure is not reached at its bleed the hint says how much
// lower it is led to be right, the pipe that gets shorter by it counted in.
func TestLowerIsEnough(t *testing.T) {
	data, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	says := regexp.MustCompile(`pipes (\d+) mm lower`)
	found := 0
	for _, up := range []int{2200, 2600, 3000} {
		led := func(up int) (mm int) {
			text := replaced(t, string(data), []string{`to-unit = ["front 300 mm", "down 260 mm", "right 2300 mm"]`, fmt.Sprintf(`at = ["front 900 mm", "right 2300 mm", "up %d mm"]`, up),
				`from-unit = ["left ?", "up 160 mm", "back 460 mm"]`, "at-from = \"element.out\"\nports-face = \"left\" #"})
			for _, d := range work(t, read(t, "high.toml", []byte(text)), plan.Findings|plan.Flows).Findings {
				if m := says.FindStringSubmatch(d.Hint.In(0)); d.Rule == "unit-above-air-pressure" && m != nil {
					mm, _ = strconv.Atoi(m[1])
				}
			}
			return mm
		}
		mm := led(up)
		if mm == 0 {
			continue
		}
		found++
		if again := led(up - mm); again != 0 {
			t.Errorf("%d mm up: %d mm lower is said, and then %d more", up, mm, again)
		}
	}
	if found == 0 {
		t.Error("no unit stands too high")
	}
}

// What a finding says to do is done, literally, in the demo of a two-speed pump gone wrong in
// one way: the finding then goes, and no error comes that was not there before.
func TestAdviceIsFollowed(t *testing.T) {
	data, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	const auto, flow, loss = `bypass = "auto"`, `flow = { least = "2.8 m3/h", rated = "4.2 m3/h", most = "8.4 m3/h" }`, `loss = { flow = "4.2 m3/h", drop = "6 kPa" }`
	const small = `flow = { least = "0.8 m3/h", rated = "1.2 m3/h", most = "1.9 m3/h" }`
	const weak = `curve = [["0 m3/h", "1.4 m"], ["5 m3/h", "1.1 m"], ["9 m3/h", "0.6 m"]]`
	const pump = `curve = [["0 m3/h", "4.1 m"], ["5 m3/h", "3.6 m"], ["9 m3/h", "2.5 m"], ["14 m3/h", "0.6 m"]]`
	for _, c := range []struct {
		name       string
		wrong      []string // what is changed to what, in pairs
		rule, hint string   // the finding, and what its hint says
		not        string   // and does not say
		done       []string // what following it changes
	}{
		{name: "spring too strong for the unit", wrong: []string{auto, "bypass = \"spring\"\nspring = \"5 psi\""},
			rule: "unit-most-flow", hint: "leave out spring in [retrofit]", done: []string{"spring = \"5 psi\"", ""}},
		{name: "spring too strong for the jets", wrong: []string{auto, "bypass = \"spring\"\nspring = \"4 psi\""},
			rule: "jets-keep-flow", hint: `spring = "spring-check 2 psi" in [retrofit]`, done: []string{`"4 psi"`, `"spring-check 2 psi"`}},
		{name: "valve on two speeds", wrong: []string{auto, `bypass = "valve"`},
			rule: "least-flow-when-dirty", hint: "leave out bypass in [retrofit]", done: []string{`bypass = "valve"`, ""}},
		{name: "unit too small", wrong: []string{flow, small},
			rule: "unit-most-flow", hint: "a unit that takes more water, like heat-pump 5 kW", not: "weaker spring", done: []string{small, `type = "heat-pump 5 kW"`, loss, ""}},
		{name: "pump too weak", wrong: []string{pump, weak},
			rule: "least-flow-when-dirty", hint: "a unit that asks for less water, like heat-pump 5 kW", not: "larger or shorter pipe", done: []string{flow, `type = "heat-pump 5 kW"`, loss, ""}},
		{name: "element left too little", wrong: []string{"disconnected = true", `interlock = "contact"`, `least-flow = "4.5 m3/h"`, `least-flow = "7.0 m3/h"`},
			rule: "line-least-flow", hint: `size = "2 in" in [retrofit]`, not: "weaker", done: []string{"[retrofit]", "[retrofit]\nsize = \"2 in\""}},
		{name: "no leg with room for a drain", wrong: []string{`"front 300 mm", "down 260 mm", "right 2300 mm"`, `"front 300 mm", "down 200 mm", "front 120 mm", "up 120 mm", "right 2300 mm"`,
			`"up 160 mm", "back 460 mm"`, `"up 150 mm", "back 580 mm"`, `"front 160 mm", "up 100 mm"`, `"front 160 mm", "down 70 mm"`},
			rule: "drain-at-low-points", hint: `make your leg "down 200 mm" "down 223 mm" or longer, and the pipe beside it too`, done: []string{`"down 200 mm"`, `"down 223 mm"`, `"up 150 mm", "back 580 mm"`, `"up 173 mm", "back 580 mm"`}},
		{name: "air colder than the unit bears", wrong: []string{`air = "-6 °C"`, `air = "-18 °C"`},
			rule: "heat-when-unit-stops", hint: "take a unit that works in air of", done: []string{`least-air = "-10 °C"`, `least-air = "-18 °C"`}},
		{name: "the element kept for it", wrong: []string{`air = "-6 °C"`, `air = "-18 °C"`},
			rule: "heat-when-unit-stops", hint: "or keep the element as a back-up and write its interlock", done: []string{"disconnected = true", `interlock = "contact"`}},
		{name: "the element kept for it too weak", wrong: []string{`air = "-6 °C"`, `air = "-18 °C"`, "disconnected = true", `interlock = "contact"`, `power = "3 kW"`, `power = "300 W"`},
			rule: "unit-holds-tub", hint: `or a stronger element than "element"`, done: []string{`power = "300 W"`, `power = "3 kW"`}},
		{name: "the element kept for it of a power nobody says", wrong: []string{`air = "-6 °C"`, `air = "-18 °C"`, "disconnected = true", `interlock = "contact"`, `power = "3 kW"`, ""},
			rule: "unit-holds-tub", hint: `or write the power of "element", which stays as a back-up`, done: []string{`interlock = "contact"`, "interlock = \"contact\"\npower = \"3 kW\""}},
		{name: "circuit of the unit alone too small", wrong: []string{`rating = "20 A"`, `rating = "10 A"`},
			rule: "supply-fits", hint: "one of a higher rating", not: "of its own", done: []string{`rating = "10 A"`, `rating = "16 A"`}},
		{name: "three phases, all that runs on one counted on the same", wrong: []string{"feeds = [\"unit\"]\nvoltage = \"230 V\"", "feeds = [\"unit\", \"pump\"]\nvoltage = \"400 V\""},
			rule: "supply-fits", hint: "shared out, or between two or on all three, each bears less", done: []string{`feeds = ["unit", "pump"]`, `feeds = ["unit"]`}},
		{name: "cable too long", wrong: []string{`length = "14 m", kind`, `length = "120 m", kind`},
			rule: "supply-drop", hint: "of 2.9 times the copper or more, or of 35 %", done: []string{`size = "2.5 mm2"`, `size = "7.25 mm2"`}}, // 2.5 * 2.9
		{name: "cable too long, shortened", wrong: []string{`length = "14 m", kind`, `length = "120 m", kind`},
			rule: "supply-drop", hint: "35 % of the length or less", done: []string{`length = "120 m", kind`, `length = "42 m", kind`}}, // 120 * 0.35
		{name: "check too near the bend", wrong: []string{`cut = "return-line"`, `cut = { run = "return-line", leg = 3, at = "100 mm" }`},
			rule: "check-straight-length", hint: `cut = { run = "return-line", leg = 3, at = "417 mm" } in [retrofit]`, not: "down the line", done: []string{`at = "100 mm"`, `at = "417 mm"`}},
		{name: "one old leg measured from face to face", wrong: []string{`"up 260 mm", "left 1450 mm"`, `"up 26 mm", "left 1450 mm"`},
			rule: "routing", hint: "it is 148.2 mm from centre to centre, so write that", not: "measured =", done: []string{`"up 26 mm"`, `"up 148.2 mm"`}}, // 26 + 2·(1-1/4 in + 1-5/32 in): ASTM D2467 take-off, D2466 socket
		{name: "water too hot", wrong: []string{`temperature = "38 °C"`, `temperature = "41 °C"`},
			rule: "water-not-above-40", hint: "write 40 °C or less", not: "choose a unit", done: []string{`temperature = "41 °C"`, `temperature = "38 °C"`}},
		{name: "element not settled", wrong: []string{"disconnected = true", ""},
			rule: "element-state", hint: `interlock = "contact", "changeover", "set-point" (with its set-point) or "controller-mode"`, done: []string{"kind = \"element-heater\"", "kind = \"element-heater\"\ninterlock = \"changeover\""}},
	} {
		t.Run(c.name, func(t *testing.T) {
			wrong := replaced(t, string(data), c.wrong)
			before := work(t, read(t, "wrong.toml", []byte(wrong)), plan.Findings|plan.Flows)
			found := false
			for _, d := range before.Findings {
				if d.Rule == c.rule && strings.Contains(d.Hint.In(0), c.hint) {
					found = true
					if c.not != "" && strings.Contains(d.Hint.In(0), c.not) {
						t.Errorf("%s still says %q: %s", c.rule, c.not, d.Hint)
					}
				}
			}
			if !found {
				t.Fatalf("no %s that says %q:\n%v", c.rule, c.hint, before.Findings)
			}
			after := work(t, read(t, "followed.toml", []byte(replaced(t, wrong, c.done))), plan.Findings|plan.Flows)
			for _, d := range after.Findings {
				if d.Severity == graph.Error || d.Rule == c.rule && d.Severity == graph.Warning || d.Rule == c.rule && strings.Contains(string(d.Message), "have no room") {
					t.Errorf("after following: %s [%s]", d.Message, d.Rule)
				}
			}
		})
	}
}

// replaced is a text with pairs of strings changed, each of which has to be there.
func replaced(t *testing.T, text string, pairs []string) string {
	t.Helper()
	for i := 0; i < len(pairs); i += 2 {
		if !strings.Contains(text, pairs[i]) {
			t.Fatalf("the file does not say %q", pairs[i])
		}
		text = strings.Replace(text, pairs[i], pairs[i+1], 1)
	}
	return text
}

// Where the line has no room for the work that is said, and not that no pipes lead on from tees
// that would lie beside it.
func TestNoRoomIsSaidOnce(t *testing.T) {
	wrong := put(text(t, "testdata/jobs/through-the-front.toml"), "[retrofit]\n", "[retrofit]\nextra = \"600 mm\"\n")
	p := work(t, read(t, "no-room.toml", []byte(wrong)), plan.Findings)
	if errs := errorsOf(p.Findings); len(errs) != 1 || !strings.Contains(errs[0], "of straight pipe between its sockets; the work needs") {
		t.Errorf("found %q", errs)
	}
}

// Where no pair of pipes leads to the unit that is said, with what helps, and not what follows
// from it; what a way out holds that does alone is no second way out.
func TestNoPairIsSaidOnce(t *testing.T) {
	data, err := os.ReadFile("../../testdata/large-circulation.toml")
	if err != nil {
		t.Fatal(err)
	}
	const face, at = `ports-face = "left"`, `"right 3660 mm"`
	stair := face + "\n" + `keep-clear = [{ from = ["right 3 m", "front 100 mm", "down 900 mm"], to = ["right 4 m", "front 900 mm", "down 100 mm"], what = "stair" }]`
	wrong := replaced(t, string(data), []string{face, stair})
	p := work(t, read(t, "stair.toml", []byte(wrong)), plan.Findings|plan.Flows)
	errs := errorsOf(p.Findings)
	if len(errs) != 1 || !strings.HasPrefix(errs[0], `no two pipes at right angles lead from here to "unit": in the way are`) {
		t.Fatalf("found %q", errs)
	}
	hint := ""
	for _, d := range p.Findings {
		if d.Severity == graph.Error {
			hint = d.Hint.In(0)
		}
	}
	if strings.Count(hint, `leave out the box "stair" of keep-clear`) != 1 {
		t.Errorf("the box is not named once: %s", hint)
	}
	const moved = `so: at = ["front 500 mm", "right 4060 mm", "down 400 mm"] in [retrofit], together with ports-face = "front" in [retrofit]`
	if !strings.Contains(hint, moved) {
		t.Fatalf("no second way out: %s", hint)
	}
	followed := replaced(t, wrong, []string{at, `"right 4060 mm"`, face, `ports-face = "front"`})
	if errs := errorsOf(work(t, read(t, "moved.toml", []byte(followed)), plan.Findings|plan.Flows).Findings); len(errs) > 0 {
		t.Errorf("after following: %q", errs)
	}
}

// Of a unit that stands in the pipe it is asked to be moved to where it stands in nothing else, its case
// as large as its kind's usually is, where one way of those tried is such.
func TestUnitIsMovedIntoTheOpen(t *testing.T) {
	wrong := replaced(t, text(t, "testdata/jobs/plug-in.toml"), []string{"to-unit = [\"front 900 mm\", \"right 800 mm\"]\nfrom-unit = [\"left 520 mm\", \"back 600 mm\"]",
		"at = [\"front 40 mm\", \"right 60 mm\"]\nat-from = \"element.out\"\nports-face = \"left\"", `branch = "front"`, "", "from-water = ", "port.out.at = [\"up 250 mm\"]\nfrom-water = "})
	p := work(t, read(t, "in-the-pipe.toml", []byte(wrong)), plan.Places|plan.Findings)
	if len(p.Places[0].Mend) == 0 {
		t.Fatalf("nothing is said to help: %v", p.Findings)
	}
	q := work(t, read(t, "moved.toml", []byte(follow(t, wrong, p.Places[0].Mend[0].In(0)))), plan.Findings)
	for _, d := range q.Findings {
		if d.Severity == graph.Error || d.Rule == "clash" && strings.Contains(string(d.Message), `"unit"`) {
			t.Errorf("after %q: %s", p.Places[0].Mend[0], d.Message)
		}
	}
}

// What lies too low for the air's pressure is asked to come down by what makes it so: where the line
// itself lies so high that is said, for a unit led lower still has its pipes begin at its tees.
func TestLineTooHighIsTold(t *testing.T) {
	pool := text(t, "../../testdata/plunge-pool.toml")
	for _, c := range []struct{ at, below, says string }{
		{`"down 1500 mm"`, `"-200 mm"`, "cut the line where it lies "},
		{`"up 2900 mm"`, `"700 mm"`, "lead the unit and its pipes "},
	} {
		wrong := replaced(t, pool, []string{`at = ["right 3000 mm", "front 700 mm", "up 350 mm"]`, `at = ["right 3000 mm", "front 700 mm", ` + c.at + `]`,
			`below-water = "-200 mm"`, `below-water = ` + c.below})
		found := ""
		for _, d := range work(t, read(t, "deep.toml", []byte(wrong)), plan.Findings|plan.Flows).Findings {
			if d.Rule == "unit-above-air-pressure" {
				found = d.Hint.In(0)
			}
		}
		if !strings.HasPrefix(found, c.says) {
			t.Errorf("unit %s, pump %s below the water: %q", c.at, c.below, found)
		}
	}
}

// A bypass that is said to keep the unit's promise is asked for: no rule then rules the place out for
// what the unit gets, with a clean filter or a dirty one.
func TestBypassThatKeepsItsPromiseDoes(t *testing.T) {
	kept := 0
	for _, file := range []string{"../../testdata/two-speed.toml", "../../testdata/plunge-pool.toml"} {
		was := text(t, file)
		p := work(t, read(t, file, []byte(was)), plan.Advice|plan.Flows)
		for _, c := range p.Advice.Choices {
			if !c.Keeps || c.Spring == "" {
				continue
			}
			kept++
			asked := put(was, "bypass = \"auto\"", fmt.Sprintf("bypass = \"spring\"\nspring = %q", c.Spring))
			for _, e := range errorsOf(work(t, read(t, file, []byte(asked)), plan.Findings|plan.Flows).Findings) {
				t.Errorf("%s, %s: %s", file, c.Name, e)
			}
		}
	}
	if kept < 4 {
		t.Errorf("only %d keep it", kept)
	}
}
