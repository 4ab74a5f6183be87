package plan_test

import (
	"os"
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/plan"
	"dryfit/graph/takeoff"
)

// An old adaptor that stays at an end of the cut is not bought again: the new pipe goes into
// it, its length reckons with it, the line beside it is not sawn, and the order of work and
// the bill say so. The same tub with a barb on its element, a bush, a transition, an adaptor on
// a thread.
func TestAdaptorKept(t *testing.T) {
	data, err := os.ReadFile("testdata/jobs/barb-kept.toml")
	if err != nil {
		t.Fatal(err)
	}
	onHose := string(data)
	element := "spec = \"pvc-sch40\"\nsize = \"1 1/2 in\"\npower = \"2 kW\""
	glued := strings.Replace(onHose, "spec = \"hose\"\nsize = \"38 mm\"", "spec = \"pvc-sch40\"\nsize = \"1 1/2 in\"", 1)
	threaded := "[[catalog.element-heater]]\nname = \"on threads\"\nends = \"thread\"\nk = 1.5\nleast = \"2 m3/h\"\nrating = \"3 bar\"\nsource = \"invented\"\n\n[[part]]\nid = \"tub\""
	for _, c := range []struct {
		name, text, kind string
		cleared          string // depth of 1-1/2 in sockets: 1-3/32 in by ASTM D2466, 1-3/8 in by ASTM D2467
		clips            int
	}{
		{name: "barb", text: onHose, kind: "barb", clips: 6},
		{name: "bush", text: strings.Replace(glued, element, "size = \"2 in\"\npower = \"2 kW\"", 1), kind: "reducing-bush", cleared: "27.8 mm"},
		{name: "transition", text: strings.Replace(glued, element, "size = \"50 mm\"\npower = \"2 kW\"", 1), kind: "transition", cleared: "27.8 mm"},
		{name: "thread", text: strings.Replace(strings.Replace(glued, element, "type = \"on threads\"\nport.in.size = \"1 1/2 in\"\nport.out.size = \"1 1/2 in\"\npower = \"2 kW\"", 1),
			"[[part]]\nid = \"tub\"", threaded, 1), kind: "thread-adaptor", cleared: "34.9 mm"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := work(t, read(t, c.name+".toml", []byte(c.text)), everything)
			if p.Proposal == nil || len(errorsOf(p.Findings)) > 0 {
				t.Fatalf("no plan: %v", errorsOf(p.Findings))
			}
			lay := p.After.Layout
			piece := lay.Pieces[0]
			if want := "old " + c.kind + " at element.out"; piece.From.Fitting != want || !piece.Measure {
				t.Fatalf("piece 1 starts in %q (to be measured: %v), want %q and yes", piece.From.Fitting, piece.Measure, want)
			}
			// legs in, positions out: the adaptor, piece 1 and the new work end where the tee stands
			for i := range lay.Paths {
				path := &lay.Paths[i]
				if path.Run.From.String() != "element.out" {
					continue
				}
				if got := piece.From.TakeOffMM + piece.CutMM + piece.To.TakeOffMM; !agree.Within(got, path.LengthMM, 0.05) {
					t.Errorf("adaptor, piece 1 and tee come to %.2f mm, the leg is %.2f", got, path.LengthMM)
				}
			}
			m := p.Proposal.Marking
			if m.Kept != [2]bool{true, false} || !agree.Within(m.FirstMM, 0, 0.01) {
				t.Errorf("marked %+v", m)
			}
			if got := m.Keeps[0].String(); !strings.HasPrefix(got, "the old "+c.kind+" at element.out: the old ") {
				t.Errorf("stays: %q", got)
			}
			clips := 0
			for _, it := range p.Bill.Items {
				for _, where := range takeoff.Apart(it.Where) {
					if it.New && where == "at element.out" {
						t.Errorf("%s %s is to be bought for the element", it.Name, it.Size)
					}
				}
				if it.Kind == "hose-clip" || strings.Contains(it.Name, "hose clip") {
					clips += int(it.Quantity)
				}
			}
			if clips != c.clips { // two for each of three barb joints: common practice
				t.Errorf("%d hose clips, want %d", clips, c.clips)
			}
			joined, fitted := false, false
			for _, j := range lay.Joints {
				joined = joined || j.A == "old "+c.kind+" at element.out" && j.B == "piece 1"
				fitted = fitted || strings.HasPrefix(j.A, "element.out") || strings.HasPrefix(j.B, "element.out")
			}
			steps := ""
			for _, s := range p.Assembly.Steps {
				steps += s.Text + "\n"
			}
			goes := "piece 1 into"
			if c.kind == "barb" { // hose goes over it
				goes = "piece 1 onto"
			}
			if !joined || fitted || !strings.Contains(steps, goes+" old "+c.kind+" at element.out") {
				t.Errorf("joined %v, the adaptor fitted anew %v; steps:\n%s", joined, fitted, steps)
			}
			said := ""
			for _, d := range p.Findings {
				said += d.Message.String() + "\n"
			}
			if want := c.cleared + " of its socket have to be cleared"; c.cleared != "" && !strings.Contains(said, want) {
				t.Errorf("nobody says %q:\n%s", want, said)
			}
			again := work(t, read(t, "again.toml", description.Write(p.Circuit)), everything)
			if a, b := cuts(p.After), cuts(again.After); a != b {
				t.Errorf("pieces to cut\n%s\nread back\n%s", a, b)
			}
		})
	}
}

// An adaptor that is not there can't stay, and one beyond old pipe that stays does so anyway.
func TestNoAdaptorToKeep(t *testing.T) {
	data, err := os.ReadFile("testdata/jobs/barb-kept.toml")
	if err != nil {
		t.Fatal(err)
	}
	glued := strings.Replace(string(data), "spec = \"hose\"\nsize = \"38 mm\"", "spec = \"pvc-sch40\"\nsize = \"1 1/2 in\"", 1)
	p := work(t, read(t, "straight.toml", []byte(glued)), plan.Findings|plan.Places)
	absent := func(d graph.Diagnostic) bool {
		return d.Severity == graph.Error && strings.Contains(d.Message.String(), "there is no old adaptor at element.out to keep") && strings.Contains(lineOf(glued, d.Pos.Line), "adaptors-kept")
	}
	i := slices.IndexFunc(p.Findings, absent)
	if i < 0 {
		t.Fatalf("found %v", p.Findings)
	}
	if hint := p.Findings[i].Hint.String(); !strings.HasPrefix(hint, "the place would do so: leave out adaptors-kept in [retrofit]") {
		t.Errorf("what helps was not tried: %s", hint)
	}
	far := strings.NewReplacer("right 1300 mm", "right 300 mm", "up 400 mm", "up 1400 mm", "leg = 1", "leg = 2").Replace(string(data))
	p = work(t, read(t, "far.toml", []byte(far)), plan.Findings|plan.Places)
	for _, d := range p.Findings {
		if strings.Contains(d.Message.String(), "old pipe stays between the cut and element.out") {
			if p.Proposal.Marking.Kept != [2]bool{} {
				t.Error("renewed all the same")
			}
			return
		}
	}
	t.Errorf("nobody says that it stays anyway: %v", p.Findings)
}

func lineOf(text string, line int) string {
	lines := strings.Split(text, "\n")
	if line < 1 || line > len(lines) {
		return ""
	}
	return lines[line-1]
}
