package plan_test

import (
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/plan"
)

// A second unit like the first is teed into the first one's pipes, with pipes of its own of the
// same length within a tenth (heat pump manuals ask for equal runs). Both then get at least
// their least flow; the second a little less than the first, for its water turns twice
// through the branch of a tee and passes isolators of its own.
func TestSecondUnitInParallel(t *testing.T) {
	first := work(t, readFile(t, "../../testdata/two-speed.toml"), plan.Findings|plan.Flows)
	c := first.Circuit.Built()
	unit := first.Asked.Retrofit.Unit
	second := *c.Part(unit)
	second.ID, second.Existing = "unit-b", false
	second.Ports = slices.Clone(second.Ports)
	for i := range second.Ports { // nobody knows yet where it is to stand
		second.Ports[i].At, second.Ports[i].Faces = nil, nil
	}
	small := *second.Unit // a low speed has something left for two with a dirty filter, too
	small.Least *= 0.6
	second.Unit, c.Part(unit).Unit = &small, &small
	c.Parts = append(c.Parts, &second)
	c.Retrofit = &graph.Retrofit{Unit: "unit-b"}

	p := work(t, c, plan.Findings|plan.Flows|plan.Places)
	if p.Proposal == nil || p.Proposal.Choice.Bypass != "parallel" {
		t.Fatalf("not in parallel: %v\n%v", p.Proposal, p.Findings)
	}
	for _, d := range p.Findings {
		if d.Severity == graph.Error || d.Rule == "parallel-units-alike" {
			t.Errorf("%s: %s [%s]", d.Severity, d.Message, d.Rule)
		}
	}
	if !p.Assembly.OK {
		t.Error("no order of assembly")
	}
	least := second.Unit.Least
	for i := range p.After.Solutions {
		s := &p.After.Solutions[i]
		a, b := s.Part(unit).Flow, s.Part("unit-b").Flow
		if !agree.Between(b, least, a) {
			t.Errorf("%s: %.2f and %.2f m3/h through the two units, want each %.2f or more and the first ahead", s.Mode.Name, a*3600, b*3600, least*3600)
		}
		sum := s.Part(unit).Flow + s.Part("unit-b").Flow + s.Part(first.Proposal.Element).Flow
		if line := s.Part("element").Flow; !agree.Within(sum, line, 1e-9*line) {
			t.Errorf("%s: units and bypass pass %g m3/s, the line %g", s.Mode.Name, sum, line)
		}
	}
}

// besideTheFirst is the job of a second unit with its ports' distance known and the request as
// given in place of its own.
func besideTheFirst(t *testing.T, gap, request string) *plan.Plan {
	t.Helper()
	data, err := os.ReadFile("testdata/jobs/second-unit.toml")
	if err != nil {
		t.Fatal(err)
	}
	text, _, _ := strings.Cut(string(data), "\n[retrofit]\n")
	return work(t, read(t, "second.toml", []byte(strings.TrimRight(text, "\n")+"\nport.out.at = "+gap+"\n\n[retrofit]\nunit = \"unit-2\"\n"+request)), plan.Findings)
}

// A second unit whose place is given is found by its two pipes from the pipes of the first: clear
// of them (one of these lies in front of the first tee, where a branch would point by itself),
// ending at its ports. By hand: its inlet counts from filter.out, its outlet from its inlet.
func TestSecondUnitIsFoundWhereItStands(t *testing.T) {
	const at = "at = [\"front 900 mm\", \"left 1200 mm\", \"up 700 mm\"]\nat-from = \"filter.out\"\nports-face = \"right\"\n"
	for _, more := range []string{"", "along = [\"up 300 mm\"]\n", "keep-clear = [{ from = [\"left 600 mm\", \"front 200 mm\"], to = [\"left 900 mm\", \"front 1600 mm\", \"up 500 mm\"], what = \"beam\" }]\n"} {
		p := besideTheFirst(t, `["back 250 mm"]`, at+more)
		if p.Proposal == nil || p.Proposal.Choice.Bypass != "parallel" {
			t.Fatalf("%q: not in parallel: %v", more, p.Findings)
		}
		if errs := errorsOf(p.Findings); len(errs) > 0 {
			t.Errorf("%q: %q", more, errs)
		}
		places := p.After.Layout.Positions
		in := places["unit-2.in"].Sub(places["filter.out"])
		gap := places["unit-2.out"].Sub(places["unit-2.in"])
		if in.Sub(graph.Vec{X: -1200, Y: -900, Z: 700}).Len() > 0.05 || gap.Sub(graph.Vec{Y: 250}).Len() > 0.05 {
			t.Errorf("%q: its inlet is at %v from filter.out, its outlet at %v from that", more, in, gap)
		}
	}
}

// A second unit whose loop can't close with the leg left open is told what would close it, and
// that does.
func TestSecondUnitsOpenLegIsHelped(t *testing.T) {
	p := besideTheFirst(t, `["right 200 mm"]`, "branch = \"up\"\nto-unit = [\"up 200 mm\", \"front 900 mm\"]\nfrom-unit = [\"back ?\", \"down 200 mm\"]\n")
	if len(errorsOf(p.Findings)) == 0 {
		t.Fatal("the loop closes by itself")
	}
	hint := ""
	for _, d := range p.Findings {
		if d.Severity == graph.Error {
			hint += d.Hint.In(0)
		}
	}
	said := regexp.MustCompile(`write (at = \[.*?\]), (at-from = ".*?"), (ports-face = ".*?") there`).FindStringSubmatch(hint)
	if said == nil {
		t.Fatalf("no way out is told: %s", hint)
	}
	followed := besideTheFirst(t, `["right 200 mm"]`, "branch = \"up\"\n"+strings.Join(said[1:], "\n")+"\n")
	if errs := errorsOf(followed.Findings); len(errs) > 0 || followed.Proposal == nil || followed.Proposal.Choice.Bypass != "parallel" {
		t.Errorf("after following %q: %q", said[0], errs)
	}
}

// What is put in for a second unit has room beside itself where the first unit's pipes lie side by
// side, nearer to each other than the nuts of two valves are wide: neither the valves in those pipes
// nor the isolators stand in one another, as large as the catalogue takes them to be. Geometry, no
// source needed.
func TestSecondUnitOnPipesSideBySide(t *testing.T) {
	p := planned(t, "testdata/jobs/side-by-side.toml")
	if p.Proposal == nil || p.Proposal.Choice.Bypass != "parallel" {
		t.Fatalf("not in parallel: %v\n%v", p.Proposal, p.Findings)
	}
	for _, c := range p.After.Bodies.Clashes() {
		if a, b := p.After.Bodies.All[c.A], p.After.Bodies.All[c.B]; a.New && b.New {
			t.Errorf("%s stands %.1f mm in %s", a.Name, c.DepthMM, b.Name)
		}
	}
}
