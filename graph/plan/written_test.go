package plan_test

import (
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/lots"
	"dryfit/graph/plan"
	"dryfit/graph/rule"
)

// What is planned is written with everything needed to plan the same again: every template,
// every demo, every job of the trade and every place of them, written out in full and read
// back, has the same pieces, bodies, joints, parts to buy, flows and findings. Checked against
// nothing but itself: a property.
func TestWrittenPlanIsTheSame(t *testing.T) {
	for _, name := range description.Templates() {
		t.Run("template "+name, func(t *testing.T) {
			if !writtenIsSame(t, work(t, template(t, name), everything)) {
				t.Error("nothing was planned")
			}
		})
	}
	for _, pattern := range []string{"../../testdata/*.toml", "testdata/jobs/*.toml", "testdata/cases/*.toml"} {
		files, _ := filepath.Glob(pattern)
		if len(files) == 0 {
			t.Fatalf("no file is %s", pattern)
		}
		for _, file := range files {
			t.Run(filepath.Base(file), func(t *testing.T) { writtenIsSame(t, planned(t, file)) })
		}
	}
}

// The same of jobs drawn by lot: tubs from nothing, templates with the unit elsewhere.
func TestWrittenPlanOfDrawnJobs(t *testing.T) {
	seeds, planned := lots.Of(24, 0, 1, 4, 7, 16), 0
	for _, seed := range seeds {
		lot := rand.New(rand.NewPCG(uint64(seed), 18))
		var c *graph.Circuit
		if name := description.Templates()[seed%5]; seed%3 > 0 && name != "plug-in" {
			c = template(t, name)
			vagary(c, lot)
		} else {
			c = read(t, fmt.Sprintf("drawn-%d.toml", seed), drawnJob(lot))
		}
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			if writtenIsSame(t, work(t, c, everything)) {
				planned++
			}
		})
	}
	if planned < len(seeds)/2 {
		t.Errorf("%d plans of %d jobs: too few to prove anything", planned, len(seeds))
	}
}

// vagary moves the unit of a circuit and asks for this and that by chance.
func vagary(c *graph.Circuit, lot *rand.Rand) {
	mm := func(least, most int) float64 { return float64(least + 10*lot.IntN((most-least)/10+1)) }
	r := c.Retrofit
	r.Stand.At = graph.Vec{X: mm(-2500, 2500), Y: -mm(300, 1500), Z: mm(-600, 300)}
	r.Stand.PortsFace = []graph.Vec{{X: 1}, {X: -1}, {Y: 1}, {Y: -1}, {Z: 1}}[lot.IntN(5)]
	if r.Stand.PortsFace.Z > 0 { // ports that look up stand beside each other
		for i := range c.Part(r.Unit).Ports {
			if p := &c.Part(r.Unit).Ports[i]; p.At != nil && p.At.Z != 0 {
				p.At = &graph.Vec{X: p.At.Z}
			}
		}
	}
	pipes := []struct {
		spec catalog.Spec
		size catalog.Size
	}{{"pvc-sch40", catalog.Size{Nominal: 1.5}}, {"pvc-sch80", catalog.Size{Nominal: 2}}, {"pvc-pn16", catalog.Size{Nominal: 50, Metric: true}}, {"pvc-pn10", catalog.Size{Nominal: 63, Metric: true}}}
	pipe := pipes[lot.IntN(len(pipes))]
	if lot.IntN(2) == 0 {
		c.Pipe.Spec, c.Pipe.Size = pipe.spec, pipe.size
		for _, run := range c.Runs {
			run.Spec, run.Size = pipe.spec, pipe.size
		}
	}
	pipe = pipes[lot.IntN(len(pipes))]
	yes, no := true, false
	for range lot.IntN(4) {
		switch lot.IntN(10) {
		case 0:
			r.Spec = pipe.spec
		case 1:
			c.Part(r.Unit).Unit.PortsSize = pipe.size
		case 2:
			r.Spec, r.Size = pipe.spec, pipe.size
		case 3:
			r.TrueUnion = &no
		case 4:
			r.SlipCoupling = true
		case 5:
			r.Isolators = string(graph.GateValve)
		case 6:
			r.Inside = true
		case 7:
			r.FeederCheck = &yes
		case 8:
			r.Bypass = []string{"spring", "valve", "none"}[lot.IntN(3)]
		case 9:
			c.Job.Units = "inch"
		}
	}
}

// writtenIsSame reports whether there was a plan to write.
func writtenIsSame(t *testing.T, p *plan.Plan) bool {
	t.Helper()
	if p.Asked.Retrofit != nil && (p.Proposal == nil || p.RuledOut() != nil) {
		return false // nothing was planned, and nothing is written
	}
	if d := cmp.Diff(sameOf(p), sameOf(rewritten(t, p))); d != "" {
		t.Errorf("planned (-) and written out (+):\n%s", d)
	}
	return true
}

// sameOf is what has to be the same of a plan that was written out, in lines.
func sameOf(p *plan.Plan) []string {
	var out []string
	add := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	if p.After == nil {
		return nil
	}
	for i := range p.After.Layout.Pieces {
		q := &p.After.Layout.Pieces[i]
		add("piece %d of %s, %s %s: %.6f mm, %s (%.4f, %.4f) to %s (%.4f, %.4f), measure %t %v", q.Number, q.Run.ID, q.Spec, q.Size, q.CutMM,
			q.From.Fitting, q.From.TakeOffMM, q.From.DepthMM, q.To.Fitting, q.To.TakeOffMM, q.To.DepthMM, q.Measure, q.MeasureWhat)
	}
	for _, j := range p.After.Layout.Joints {
		add("joint %d: %s of %s and %s, %s %s, clips %d, depth %.4f", j.Number, j.Kind, j.A, j.B, j.Spec, j.Size, j.Clips, j.DepthMM)
	}
	for i := range p.After.Bodies.All {
		b := &p.After.Bodies.All[i]
		line := fmt.Sprintf("body %s, %s, new %t", b.ID, b.Name, b.New)
		for _, s := range b.Likely {
			low, high := s.Bounds()
			line += fmt.Sprintf(" [%.3f %.3f]", low, high)
		}
		add("%s %s", line, b.Assumed)
	}
	if p.Bill != nil {
		for _, l := range p.Bill.Items {
			add("bill %g %s %s %s, new %t, measure %t", l.Quantity, l.Unit, l.Name, l.Ends, l.New, l.Measure)
		}
	}
	for _, s := range slices.Concat(p.Before.Solutions, p.After.Solutions) {
		for _, f := range s.Parts {
			add("%s %s %.6f l/s %s", s.Mode.Name, f.Part.ID, 1e3*f.Flow, f.State)
		}
	}
	for _, d := range p.Findings {
		if !ofTheRequest(d) {
			add("%s %s: %s", d.Severity, d.Rule, d.Message)
		}
	}
	slices.Sort(out)
	return out
}

// ofTheRequest reports whether a finding is of the request, which is carried out and not
// written again: where to cut, what the tool assumed in building.
func ofTheRequest(d graph.Diagnostic) bool {
	r := rule.ByName(d.Rule)
	return d.Rule == "retrofit" || d.Rule == "cut-on-site" || r != nil && strings.HasPrefix(r.Name, "cut-")
}
