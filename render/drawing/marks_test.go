package drawing

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/lots"
	"dryfit/graph/plan"
	"dryfit/graph/retrofit"
	"dryfit/render/scene"
	"dryfit/render/table"
	"dryfit/render/table/form"
	"dryfit/render/template"
)

// markedJobs are the demos, the jobs of the plan's tests, and each (with -wide; else every third) in Schedule 40 and with another
// size of pipe for the branch, in turn: smaller and larger than the line's, so that bushes (and for hose bush,
// nipple and barb) stand between the old pipe and the tees.
func markedJobs(t *testing.T) map[string]*plan.Plan {
	t.Helper()
	files, err := filepath.Glob("../../testdata/*.toml")
	if err != nil {
		t.Fatal(err)
	}
	more, err := filepath.Glob("../../graph/plan/testdata/jobs/*.toml")
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]*plan.Plan{}
	sizes := []string{`"1-1/2 in"`, `"2 in"`, `"50 mm"`, `"63 mm"`}
	for i, file := range append(files, more...) {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, size := range []string{"", "inch", sizes[i%4]} {
			if size != "" && i%3 > 0 && !lots.All() {
				continue // a third of them has every size
			}
			name, text := strings.TrimPrefix(file, "../../")+" "+size, string(data) // two files are called plunge-pool.toml
			switch {
			case size == "inch": // Schedule 40 in place of the rest: its tees take the pipe less deep than its unions
				inch := strings.NewReplacer("pvc-sch80", "pvc-sch40", "pvc-pn16", "pvc-sch40", "pvc-pn10", "pvc-sch40", `size = "50 mm"`, `size = "1-1/2 in"`, `size = "63 mm"`, `size = "2 in"`,
					`measured-outside-diameter = "50 mm"`, `measured-outside-diameter = "48.3 mm"`, `measured-outside-diameter = "50.0 mm"`, `measured-outside-diameter = "48.3 mm"`, `measured-outside-diameter = "63 mm"`, `measured-outside-diameter = "60.3 mm"`)
				if text = inch.Replace(text); text == string(data) {
					continue
				}
			case size != "":
				if !strings.Contains(text, "\n[retrofit]\n") || regexp.MustCompile(`(?s)\n\[retrofit\]\n[^\[]*\nsize = `).MatchString(text) {
					continue
				}
				text = strings.Replace(text, "\n[retrofit]\n", "\n[retrofit]\nsize = "+size+"\n", 1)
			}
			c, _ := description.Read(name, []byte(text))
			if c == nil {
				continue
			}
			p, err := plan.Make(c, plan.Findings)
			if err != nil {
				t.Fatal(err)
			}
			if p.Proposal != nil && p.Before != nil && p.After != nil && p.RuledOut() == nil && p.Proposal.Marking.Run != "" {
				out[name] = p
			}
		}
	}
	return out
}

// The place of every cut is one and the same in cutin's words and the marking out, on the
// saw bands, on the detail, and in the layout that the isometric and the cut list are drawn
// from; and the depth mark is that of the part that goes on there. The layout works from
// what stands at each socket, the marking from the sum of the string let in: two ways that
// know nothing of each other.
func TestMarksAgree(t *testing.T) {
	said := regexp.MustCompile(`cut line X(\d) at ([\d.]+) mm, cut line X(\d) at ([\d.]+) mm`)
	adaptors, unions, kept := 0, 0, 0
	jobs := markedJobs(t)
	for name, p := range jobs {
		var want []template.Cut // by the layout
		byRun := map[string][]template.Cut{}
		for _, c := range template.OfRemains(p.LayoutBefore(), p.After.Layout) {
			byRun[c.Run] = append(byRun[c.Run], c)
		}
		words := ""
		for _, b := range table.MarkingBlocks(p, form.Style{}) {
			words += strings.Join(b.Lines, "\n") + "\n"
		}
		spoken := said.FindAllStringSubmatch(words, -1)
		bands := Sawn(p)
		for i, m := range []*retrofit.Marking{&p.Proposal.Marking, p.Proposal.SecondMarking} {
			if m == nil {
				continue
			}
			own := byRun[m.Run]
			if m.Kept != [2]bool{} {
				keptAgrees(t, name, m, own, bands, words)
				kept++
				continue
			}
			if len(own) != 2 {
				t.Errorf("%s: %d ends of %s in the layout", name, len(own), m.Run)
				continue
			}
			want = append(want, own...)
			if i >= len(spoken) || 2*i+1 >= len(bands) {
				t.Errorf("%s: no words or bands for cut %d:\n%s", name, i+1, words)
				continue
			}
			first, _ := strconv.ParseFloat(spoken[i][2], 64)
			second, _ := strconv.ParseFloat(spoken[i][4], 64)
			for _, v := range []struct {
				what      string
				got, want float64
				tol       float64
			}{
				{"marking, first line", m.FirstMM, own[0].FromMM, 0.05},
				{"marking, from line to line", m.SecondMM - m.FirstMM, own[0].OtherMM, 0.05},
				{"cutin's words, first line", first, own[0].FromMM, 0.51},
				{"cutin's words, from line to line", second - first, own[0].OtherMM, 0.51},
				{"saw band, first line", bands[2*i].FromMM, own[0].FromMM, 0.05},
				{"saw band, line to line", bands[2*i].OtherMM, own[0].OtherMM, 0.05},
				{"marking, depth at the first", m.DepthFirstMM, own[0].DepthMM, 0.05},
				{"marking, depth at the second", m.DepthSecondMM, own[1].DepthMM, 0.05},
				{"saw band, depth at the first", bands[2*i].DepthMM, own[0].DepthMM, 0.05},
				{"saw band, depth at the second", bands[2*i+1].DepthMM, own[1].DepthMM, 0.05},
			} {
				if !agree.Within(v.got, v.want, v.tol) {
					t.Errorf("%s, cut in %s: %s %.2f mm, by the layout %.2f mm", name, m.Run, v.what, v.got, v.want)
				}
			}
			if !agree.Within(own[0].DepthMM, own[1].DepthMM, 1) {
				unions++
			}
		}
		detailAgrees(t, name, p, want)
		if strings.HasPrefix(name, "testdata/") && strings.HasSuffix(name, " ") || lots.All() || p.Proposal.SecondMarking != nil || p.Proposal.Marking.Kept != [2]bool{} { // other pipe is cut under the same names
			isometricNames(t, name, p, len(bands))
		}
		for _, c := range p.After.Layout.Pieces {
			if c.Measure != (len(c.MeasureWhat) > 0) {
				t.Errorf("%s: piece %d is starred %v, and to be measured for it are %q", name, c.Number, c.Measure, c.MeasureWhat)
			}
		}
		for _, path := range p.After.Layout.Paths {
			for _, f := range path.Fittings {
				if path.Run.RemainsOf != "" && f.New {
					adaptors++
				}
			}
		}
	}
	if len(jobs) < 10 || adaptors < 6 || unions < 1 || kept < 1 {
		t.Errorf("%d jobs with %d adaptors on old pipe, %d strings with a union last and %d adaptors kept: too few to prove anything", len(jobs), adaptors, unions, kept)
	}
}

// keptAgrees compares the one cut there is where an old adaptor stays at the other end.
func keptAgrees(t *testing.T, name string, m *retrofit.Marking, own, bands []template.Cut, words string) {
	t.Helper()
	one := regexp.MustCompile(`cut line X1 at ([\d.]+) mm\n`).FindStringSubmatch(words)
	if len(own) != 1 || len(bands) != 1 || one == nil {
		t.Errorf("%s, cut in %s: %d ends in the layout and %d bands, want one cut:\n%s", name, m.Run, len(own), len(bands), words)
		return
	}
	said, _ := strconv.ParseFloat(one[1], 64)
	// the layout measures what is left from its far end: from there the cut lies as far as the
	// marking has it from its near one
	between := m.SecondMM
	if m.Kept[1] {
		between = m.FirstMM
	}
	if !agree.Within(said, between, 0.51) || !agree.Within(bands[0].FromMM, between, 0.05) || !agree.Within(bands[0].DepthMM, own[0].DepthMM, 0.05) {
		t.Errorf("%s, cut in %s: words %.0f, band %.2f with depth %.1f, marking %.2f; by the layout depth %.1f", name, m.Run, said, bands[0].FromMM, bands[0].DepthMM, between, own[0].DepthMM)
	}
}

// isometricNames reads the cut lines off the drawn isometric, which is not to scale: each has
// its name on the sheets, X1 for the first band and so on, and no other.
func isometricNames(t *testing.T, name string, p *plan.Plan, bands int) {
	t.Helper()
	drawnAs := map[string]int{}
	for _, page := range drawn(t, p, "isometric", quantity.MetricSystem) {
		on := map[string]bool{} // a sheet may show a cut in a picture of its own too
		for _, it := range page.Items {
			if s, ok := it.(scene.Shape); ok && strings.HasPrefix(s.Name, "cut-line:") {
				on[strings.TrimPrefix(s.Name, "cut-line:")] = true
			}
		}
		for cut := range on {
			drawnAs[cut]++
		}
	}
	for i := range bands {
		if cut := fmt.Sprintf("X%d", i+1); drawnAs[cut] == 0 {
			t.Errorf("%s: the isometric shows no cut line %s", name, cut)
		}
		delete(drawnAs, fmt.Sprintf("X%d", i+1))
	}
	if len(drawnAs) > 0 {
		t.Errorf("%s: the isometric shows cuts that have no saw band: %v", name, drawnAs)
	}
}

// detailAgrees compares the distance between the two cuts of each string on the detail.
func detailAgrees(t *testing.T, name string, p *plan.Plan, want []template.Cut) {
	t.Helper()
	pages := drawn(t, p, "detail", quantity.MetricSystem)
	var apart []float64
	for _, page := range pages {
		per, x := 0.0, []scene.Point{}
		for _, it := range page.Items {
			switch it := it.(type) {
			case scene.Text:
				if it.Name == "title:Scale" {
					if _, err := fmt.Sscanf(it.Text, "1:%g", &per); err != nil {
						t.Errorf("%s: scale %q", name, it.Text)
					}
				}
			case scene.Shape:
				if strings.HasPrefix(it.Name, "cut-line:") {
					x = append(x, scene.Bounds(it).Centre())
				}
			}
		}
		if len(x) == 2 {
			apart = append(apart, math.Hypot(x[1].X-x[0].X, x[1].Y-x[0].Y)*per)
		}
	}
	for i := 0; i+1 < len(want); i += 2 {
		if i/2 >= len(apart) || !agree.Within(apart[i/2], want[i].OtherMM, 0.05) {
			t.Errorf("%s, cut in %s: the detail has its lines %v mm apart, the layout %.2f mm", name, want[i].Run, apart, want[i].OtherMM)
		}
	}
}

// Where a unit comes out its line is sawn at the outer faces of both tees (they go with it) and one
// piece closes it, as long as it is from line to line: cutin's words, the saw bands, the
// detail, the cut list and the isometric have the same two lines. Where the faces are follows from
// where the tees stood before the work and from the catalogue's tee.
func TestMarksAgreeWhereAUnitComesOut(t *testing.T) {
	data, err := os.ReadFile("../../graph/plan/testdata/jobs/unit-out.toml")
	if err != nil {
		t.Fatal(err)
	}
	inch := strings.NewReplacer("pvc-sch80", "pvc-sch40", "\n[pipe]\n", "\n[pipe]\nmeasured-outside-diameter = \"60.3 mm\"\n")
	for name, text := range map[string]string{"Schedule 80": string(data), "Schedule 40": inch.Replace(string(data))} {
		c, ds := description.Read(name, []byte(text))
		if c == nil {
			t.Fatal(ds)
		}
		p, err := plan.Make(c, plan.Findings|plan.Lists)
		if err != nil {
			t.Fatal(err)
		}
		before := p.Before.Layout
		a, b := before.Positions["tee-a.run-in"], before.Positions["tee-b.run-out"]
		tee, _ := c.Catalog.Fitting("tee", c.Pipe.Spec, c.Pipe.Size)
		apart := b.Sub(a).Len() + 2*(tee.TakeOffMM+tee.SocketMM)
		const short = 2 // 1 mm at each slip coupling, so that it drops in: common practice, no source
		start := before.Positions["filter.out"]
		first := a.Sub(start).Len() - tee.TakeOffMM - tee.SocketMM // from the middle of the filter's port
		bands := Sawn(p)
		if len(bands) != 2 || len(p.After.Layout.Pieces) != 1 {
			t.Fatalf("%s: %d bands and %d pieces", name, len(bands), len(p.After.Layout.Pieces))
		}
		if got := p.After.Layout.Pieces[0].CutMM; !agree.Within(got, apart-short, 0.05) {
			t.Errorf("%s: the piece is %.2f mm, from face to face of the tees, less 2 mm, it is %.2f", name, got, apart-short)
		}
		if got := bands[0].FromMM; got > first || got < first-60 { // less how deep the filter's own port takes the pipe
			t.Errorf("%s: first line at %.2f mm from the face, the tee's face lies %.2f from the port", name, got, first)
		}
		for _, band := range bands {
			slip, _ := c.Catalog.Fitting("slip-coupling", c.Pipe.Spec, c.Pipe.Size)
			if !agree.Within(band.DepthMM, slip.SocketMM, 0.05) {
				t.Errorf("%s: %s has its depth mark at %.1f mm, the coupling takes %.1f", name, band.Name, band.DepthMM, slip.SocketMM)
			}
		}
		words := ""
		for _, block := range table.MarkingBlocks(p, form.Style{}) {
			words += block.Title + "\n" + strings.Join(block.Lines, "\n") + "\n"
		}
		said := regexp.MustCompile(`cut line X(\d) at ([\d.]+) mm from`).FindAllStringSubmatch(words, -1)
		if len(said) != 2 {
			t.Fatalf("%s: %d lines in\n%s", name, len(said), words)
		}
		for i, band := range bands {
			if got, _ := strconv.ParseFloat(said[i][2], 64); !agree.Within(got, band.FromMM, 0.51) {
				t.Errorf("%s: %s is said at %g mm, its band has %.2f", name, band.Name, got, band.FromMM)
			}
		}
		if !strings.Contains(words, "on line-in\n") || !strings.Contains(words, "on line-out\n") || strings.Contains(words, "slip") {
			t.Errorf("%s: the lines are not told by the old pipes' names:\n%s", name, words)
		}
		detailAgrees(t, name, p, []template.Cut{{OtherMM: apart}, {OtherMM: apart}})
		isometricNames(t, name, p, 2)
	}
}
