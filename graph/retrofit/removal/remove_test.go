package removal

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/route/laying"
)

// A unit comes out by rule where its tees stand in one straight line; where the line turns between them, or
// turned at one of them alone, it can't be closed by one piece. Geometry, no source needed.
func TestTeesInOneStraightLine(t *testing.T) {
	const in, out = `legs = ["right 150 mm"]`, `to = "tee-b.run-in"
existing = true
legs = ["right 150 mm"]`
	job, err := os.ReadFile("../../plan/testdata/jobs/second-unit.toml")
	if err != nil {
		t.Fatal(err)
	}
	oneUnit, _, _ := strings.Cut(string(job), "[[part]]\nid = \"unit-2\"")
	way := func(legs string) string { return "to = \"tee-b.run-in\"\nexisting = true\nlegs = " + legs }
	for _, x := range []struct {
		name     string
		put      []string
		straight bool
	}{
		{"straight on", nil, true},
		{"a jog", []string{out, way(`["up 200 mm", "right 150 mm"]`)}, false},
		{"turned at the first tee", []string{out, way(`["up 400 mm", "left 150 mm", "up 300 mm"]`), `legs = ["right 1500 mm"]`, `legs = ["up 1500 mm"]`}, false},
		{"turned at the second tee", []string{`legs = ["right 500 mm"]`, `legs = ["right 200 mm", "up 500 mm"]`, in, `legs = ["up 150 mm"]`,
			out, way(`["up 400 mm", "left 150 mm", "up 300 mm", "right 150 mm"]`)}, false},
	} {
		text := oneUnit
		for i := 0; i < len(x.put); i += 2 {
			if !strings.Contains(text, x.put[i]) {
				t.Fatalf("%s: no line %q", x.name, x.put[i])
			}
			text = strings.Replace(text, x.put[i], x.put[i+1], 1)
		}
		c, ds := description.Read("one-unit.toml", []byte(text+"[retrofit]\nunit = \"unit-1\"\nremove = true\n"))
		if c == nil || graph.HasErrors(ds) {
			t.Fatal(x.name, ds)
		}
		lay := laying.Of(c.At(graph.Before))
		p, ds := Of(c, lay)
		if (p != nil) != x.straight {
			t.Errorf("%s: proposed %v, want %v: %v", x.name, p != nil, x.straight, ds)
		}
		if told := strings.Contains(fmt.Sprint(ds), "do not stand in one straight line"); told == x.straight {
			t.Errorf("%s: %v", x.name, ds)
		}
	}
}

// hosed is a tub on hose with a unit between two tees; runs are drawn with the water or against it.
func hosed(in, out string) string {
	run := func(from, to, legs string) string {
		return fmt.Sprintf("[[run]]\nfrom = %q\nto = %q\nexisting = true\nlegs = [%s]\n", from, to, legs)
	}
	text := `[job]
name = "invented"
[pipe]
spec = "pvc-sch40"
size = "1 1/2 in"
[[part]]
id = "tub"
kind = "tub"
ports = ["suction", "return"]
`
	for _, p := range [][2]string{{"pump", "pump"}, {"tee-a", "tee"}, {"tee-b", "tee"}, {"unit", "heat-pump"}} {
		text += fmt.Sprintf("[[part]]\nid = %q\nkind = %q\nexisting = true\n", p[0], p[1])
	}
	hose := func(run string) string {
		return strings.TrimSuffix(run, "\n") + "\nspec = \"hose\"\nsize = \"38 mm\"\n"
	}
	return text + hose(run("tub.suction", "pump.in", `"right 500 mm"`)) + hose(in) + hose(out) +
		run("tee-a.run-out", "tee-b.run-in", `"right 300 mm"`) + run("tee-a.branch", "unit.in", `"front 400 mm"`) + run("tee-b.branch", "unit.out", `"front 400 mm"`) +
		"[retrofit]\nunit = \"unit\"\nremove = true\n"
}

// On hose both hoses go and one new one takes their place, whichever way they were drawn: no coupling
// joins hose. By hand: 200 mm up, 600 and 300 and 700 mm to the right, 100 mm down.
func TestHoseIsClosedWithHose(t *testing.T) {
	const head = "[[run]]\nexisting = true\n"
	in := head + "from = \"pump.out\"\nto = \"tee-a.run-in\"\nlegs = [\"up 200 mm\", \"right 600 mm\"]\n"
	against := head + "from = \"tee-a.run-in\"\nto = \"pump.out\"\nlegs = [\"left 600 mm\", \"down 200 mm\"]\n"
	out := head + "from = \"tee-b.run-out\"\nto = \"tub.return\"\nlegs = [\"right 700 mm\", \"down 100 mm\"]\n"
	outAgainst := head + "from = \"tub.return\"\nto = \"tee-b.run-out\"\nlegs = [\"up 100 mm\", \"left 700 mm\"]\n"
	for _, x := range [][2]string{{in, out}, {against, out}, {in, outAgainst}, {against, outAgainst}} {
		c, ds := description.Read("hosed.toml", []byte(hosed(x[0], x[1])))
		if c == nil || graph.HasErrors(ds) {
			t.Fatal(ds)
		}
		p, ds := Of(c, laying.Of(c.At(graph.Before)))
		if p == nil {
			t.Fatal(ds)
		}
		if len(p.NewIDs) != 1 {
			t.Fatalf("added %v", p.NewIDs)
		}
		r := p.Circuit.Run(p.NewIDs[0])
		var ways []graph.Vec
		for _, g := range r.Legs {
			ways = append(ways, g.By)
		}
		want := []graph.Vec{{Z: 200}, {X: 1600}, {Z: -100}}
		if r.From.String() != "pump.out" || r.To.String() != "tub.return" || r.Spec != catalog.HosePipe || !slices.EqualFunc(ways, want, func(a, b graph.Vec) bool { return a.Sub(b).Len() < 0.5 }) {
			t.Errorf("one hose from %s to %s of %s: %v", r.From, r.To, r.Spec, ways)
		}
		if !r.Keeps(r.From) || !r.Keeps(r.To) {
			t.Errorf("the old barbs stay: %v", r.AdaptorsKept)
		}
		if ds := laying.Of(p.Circuit.At(graph.After)).Findings; graph.HasErrors(ds) {
			t.Errorf("what is proposed can't be laid: %v", ds)
		}
	}
}

// A unit that can't be taken out by rule is told with what would do: legs that are written, or all of it
// drawn.
func TestWhatIsNotTakenOut(t *testing.T) {
	job, err := os.ReadFile("../../plan/testdata/jobs/unit-out.toml")
	if err != nil {
		t.Fatal(err)
	}
	const lineOut = "id = \"line-out\"\nfrom = \"tee-b.run-out\"\nto = \"tub.return\"\nexisting = true\n"
	for _, x := range []struct{ name, old, put, says, hint string }{
		{"new", "id = \"unit-1\"\nkind = \"heat-pump\"\nexisting = true", "id = \"unit-1\"\nkind = \"heat-pump\"", `there is no existing heat pump "unit-1" to take out`, `write existing = true on "unit-1"`},
		{"narrower", `id = "line-out"`, "id = \"line-out\"\nsize = \"1 1/2 in\"", `the line comes to "tee-a" as pvc-sch80 2 in and leaves "tee-b" as pvc-sch80 1-1/2 in`, "take [retrofit] out and draw it"},
		{"not measured", lineOut + "legs = [\"right 1500 mm\"]", lineOut + "length = \"1500 mm\"", `the runs "line-in" and "line-out" and what lies between the tees have to be measured leg by leg`, "write their legs, in place of a length"},
		{"a manifold", "id = \"tee-a\"\nkind = \"tee\"", "id = \"tee-a\"\nkind = \"manifold\"\nports = [\"run-in\", \"run-out\", \"branch\"]", `"unit-1" hangs on manifold "tee-a" and tee "tee-b"`, "take [retrofit] out and draw it"},
	} {
		text := strings.Replace(string(job), x.old, x.put, 1)
		if text == string(job) {
			t.Fatalf("%s: no line %q", x.name, x.old)
		}
		c, ds := description.Read("out.toml", []byte(text))
		if c == nil || graph.HasErrors(ds) {
			t.Fatal(x.name, ds)
		}
		p, ds := Of(c, laying.Of(c.At(graph.Before)))
		if p != nil || len(ds) != 1 || ds[0].Severity != graph.Error || !strings.Contains(ds[0].Message.String(), x.says) || !strings.Contains(ds[0].Hint.String(), x.hint) {
			t.Errorf("%s: %v", x.name, ds)
		}
	}
}
