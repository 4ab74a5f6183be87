package plan

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/takeoff"
)

// withKeys reads a job with lines put into its [retrofit], and lines that begin so taken out.
func withKeys(t *testing.T, file, lines string, without ...string) *Plan {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var kept []string
	for line := range strings.Lines(string(text)) {
		if !slices.ContainsFunc(without, func(w string) bool { return strings.HasPrefix(line, w) }) {
			kept = append(kept, line)
		}
	}
	c, ds := description.Read(file, []byte(strings.Replace(strings.Join(kept, ""), "[retrofit]\n", "[retrofit]\n"+lines, 1)))
	if c == nil || graph.HasErrors(ds) {
		t.Fatalf("%s: %v", file, ds)
	}
	p, err := Make(c, Flows|Findings|Lists)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// What the rule on a strong spring proposes can be followed: with the key it names a valve
// stands in parallel to the check, shut in every mode; opened with the unit shut off it lets
// more past than the spring does, all that the line wants; every joint can be made, and valve,
// tees and elbows are in the bill. Two tees and two elbows make a loop: geometry.
func TestServiceValveIsBuilt(t *testing.T) {
	const told = "flow-past-check"
	of := func(p *Plan) []graph.Diagnostic {
		return slices.DeleteFunc(slices.Concat(p.Findings, p.Following), func(d graph.Diagnostic) bool { return d.Rule != told })
	}
	file := filepath.Join("..", "..", "testdata", "two-speed.toml")
	strong := "spring = \"5 psi\"\n"
	without := withKeys(t, file, strong)
	if ds := of(without); len(ds) != 1 || !strings.Contains(ds[0].Hint.String(), "service-valve = true in [retrofit]") {
		t.Fatalf("a spring of 5 psi at the low speed: %v", ds)
	}
	with := withKeys(t, file, strong+"service-valve = true\n")
	if ds := of(with); len(ds) > 0 {
		t.Errorf("the advice was followed and is given again: %v", ds)
	}
	for i := range with.After.Isolated {
		now, was := with.After.Isolated[i].Part("pump"), without.After.Isolated[i].Part("pump")
		if now.Flow <= was.Flow {
			t.Errorf("%s: %.6f m3/s past an open valve, %.6f past the spring", with.After.Isolated[i].Mode.Name, now.Flow, was.Flow)
		}
	}
	builtInto(t, with, "unit-most-flow") // so strong a spring drives too much through the unit: another rule's matter
}

// The loop is built wherever a spring check is: in hose and metric pipe, where a feeder follows,
// whatever way the run is drawn.
func TestServiceValveEverywhere(t *testing.T) {
	files := []string{"testdata/jobs/hose-circulation.toml", "testdata/jobs/plunge-pool.toml", "testdata/cases/hose.toml", "testdata/cases/two-inch-spring.toml",
		filepath.Join("..", "..", "testdata", "circulation.toml"), filepath.Join("..", "..", "testdata", "plunge-pool.toml")}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			builtInto(t, withKeys(t, file, "bypass = \"spring\"\nservice-valve = true\n", "bypass =", "spring =", "cut ="))
		})
	}
	p := withKeys(t, "testdata/jobs/plunge-pool.toml", "bypass = \"valve\"\nservice-valve = true\n", "bypass =", "spring =")
	if !slices.ContainsFunc(p.Findings, func(d graph.Diagnostic) bool { return strings.Contains(d.Message.String(), "it is left out") }) {
		t.Error("asked for beside a bypass valve, and nothing is said")
	}
}

// builtInto holds a plan against what a loop round the check is.
func builtInto(t *testing.T, p *Plan, but ...string) {
	t.Helper()
	for _, d := range p.Findings {
		if d.Severity == graph.Error && !slices.Contains(but, d.Rule) {
			t.Errorf("%s [%s]", d.Message, d.Rule)
		}
	}
	if p.Proposal == nil || !p.Assembly.OK {
		t.Fatal("it can't be put together")
	}
	valve := p.After.Circuit.Part("service")
	if valve == nil || !p.After.Layout.Stage.Part("service").Opens() {
		t.Fatalf("no valve that opens beside the check: %+v", valve)
	}
	for i := range p.After.Solutions {
		if f := p.After.Solutions[i].Part("service"); f.State != "shut" || f.Flow != 0 {
			t.Errorf("%s: it stands %q and passes %g m3/s", p.After.Solutions[i].Mode.Name, f.State, f.Flow)
		}
	}
	if !slices.ContainsFunc(p.Bill.Items, func(i takeoff.Item) bool { return slices.Contains(i.Where, takeoff.Place{At: "service"}) }) {
		t.Error("the valve is not in the bill")
	}
	bends := 0
	for _, path := range p.After.Layout.Paths {
		if path.Run.From.Part == "service" || path.Run.To.Part == "service" {
			bends += len(path.Points) - 2
		}
	}
	if bends != 2 {
		t.Errorf("%d elbows in the loop, want 2", bends)
	}
}
