package settle_test

import (
	"strings"
	"testing"

	"dryfit/graph/agree"
)

// An injector on a hose beside the line was made for that hose's share of the pump's water, one in
// the line for all of it. 3/4 in of bore in pipe of 52.5 mm (ASTM D1785, mean) is 0.132 of it.
func TestBesideTheLine(t *testing.T) {
	job := func(hose string) string {
		return strings.Replace(loop("", ""), "[[part]]\nid = \"check\"", `[[part]]
id = "off"
kind = "tee"
[[part]]
id = "back"
kind = "tee"
[[part]]
id = "ozone"
kind = "ozone-injector"
[[run]]
from = "off.branch"
to = "ozone.in"
length = "400 mm"
`+hose+`
[[run]]
from = "ozone.out"
to = "back.branch"
length = "400 mm"
`+hose+`
[[run]]
from = "off.run-out"
to = "back.run-in"
length = "500 mm"
[[run]]
from = "back.run-out"
to = "check.in"
length = "500 mm"
[[part]]
id = "check"`, 1)
	}
	line := func(text string) string {
		return strings.Replace(text, "from = \"pump.out\"\nto = \"check.in\"", "from = \"pump.out\"\nto = \"off.run-in\"", 1)
	}
	narrow := read(t, line(job("spec = \"hose\"\nsize = \"3/4 in\""))).Part("ozone").Loss
	if want := (19.05 / 52.5) * (19.05 / 52.5); !agree.Within(narrow.Aside, want, 0.003) || !strings.Contains(string(narrow.BestFlow()), "share") {
		t.Errorf("on hose of 3/4 in: %.3f of the pump's best flow, %q, want %.3f", narrow.Aside, narrow.BestFlow(), want)
	}
	// In pipe of the line's own size, or near it, beside the line: a usual share, and nobody knows it well. Its
	// drop goes by the square of that, so that its range is the wider by a share of a sixth to a half.
	for _, pipe := range []string{"", "spec = \"hose\"\nsize = \"1-1/2 in\""} {
		l := read(t, line(job(pipe))).Part("ozone").Loss
		if l.Aside != 0.3 || !l.Beside || !strings.Contains(string(l.BestFlow()), "three tenths") || !(l.High > 3) || !(l.Low < -0.7) {
			t.Errorf("beside the line on %q: %.3f of the pump's best flow, %q, %+v", pipe, l.Aside, l.BestFlow(), l.Span)
		}
	}
	// All of the water comes through it where what lies beside it is shut, or a spring.
	for _, what := range []string{"kind = \"ball-valve\"\nposition = \"shut\"", "kind = \"check-valve\"\nstyle = \"spring\""} {
		shut := strings.Replace(line(job("")), `from = "off.run-out"
to = "back.run-in"
length = "500 mm"
`, `from = "off.run-out"
to = "round.in"
length = "200 mm"
[[run]]
from = "round.out"
to = "back.run-in"
length = "200 mm"
[[part]]
id = "round"
`+what+"\n", 1)
		shut = strings.Replace(shut, "to = \"check.in\"", "to = \"unit.in\"", 1)
		shut = strings.Replace(shut, "[[run]]\nfrom = \"check.out\"\nto = \"unit.in\"\nlength = \"1 m\"\n", "", 1)
		shut = strings.Replace(shut, "[[part]]\nid = \"check\"\nkind = \"check-valve\"\n", "", 1)
		if l := read(t, shut).Part("ozone").Loss; l.Aside != 0 || l.Beside {
			t.Errorf("beside a part of %s: %.3f of the pump's best flow, want all of it", what, l.Aside)
		}
	}
}

// Two cartridges behind two skimmers were each chosen for half of their pump's water; one after the other
// each for the whole of it.
func TestSideBySide(t *testing.T) {
	const two = `
[[part]]
id = "tub"
kind = "tub"
ports = ["skimmer", "other", "return"]
[[part]]
id = "one"
kind = "filter"
[[part]]
id = "two"
kind = "filter"
[[part]]
id = "join"
kind = "tee"
[[part]]
id = "pump"
kind = "pump"
type = "circulation-pump-1.5in"
[[run]]
from = "pump.out"
to = "tub.return"
length = "1 m"
spec = "pvc-sch40"
size = "1-1/2 in"
`
	run := func(from, to string) string {
		return "[[run]]\nfrom = \"" + from + "\"\nto = \"" + to + "\"\nlength = \"500 mm\"\nspec = \"pvc-sch40\"\nsize = \"1-1/2 in\"\n"
	}
	beside := read(t, two+run("tub.skimmer", "one.in")+run("one.out", "join.run-in")+run("tub.other", "two.in")+run("two.out", "join.branch")+run("join.run-out", "pump.in"))
	for _, id := range []string{"one", "two"} {
		if l := beside.Part(id).Loss; l.Among != 2 || l.BestFlow() != "half the best flow" {
			t.Errorf("%s beside another: one of %d, for %s", id, l.Among, l.BestFlow())
		}
	}
	row := read(t, two+run("tub.skimmer", "one.in")+run("one.out", "two.in")+run("two.out", "join.run-in")+run("tub.other", "join.branch")+run("join.run-out", "pump.in"))
	if l := row.Part("one").Loss; l.Among != 1 || l.BestFlow() != "the best flow" {
		t.Errorf("one after the other: one of %d, for %s", l.Among, l.BestFlow())
	}
}
