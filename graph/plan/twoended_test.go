package plan_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"path/filepath"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/plan"
	"dryfit/graph/route"
)

// exactMM is by how much the plan and the model of these tests may differ.
const exactMM = 0.05

// model is a second way from legs to places that knows nothing of package route: every new
// run carries its start's place to its end by the sum of its legs, every tee stands at one
// point, and a part in line carries it by its length along the pipe.
type model struct {
	c     *graph.Circuit
	at    map[string]graph.Vec
	looks map[string]graph.Vec // way of the pipe from a port
}

func newModel(c *graph.Circuit, seed string, place graph.Vec, long func(*graph.Part) (float64, bool)) *model {
	m := &model{c: c, at: map[string]graph.Vec{seed: place}, looks: map[string]graph.Vec{}}
	for _, r := range c.Runs {
		if n := len(r.Legs); n > 0 {
			m.looks[r.From.String()], m.looks[r.To.String()] = r.Legs[0].By.Unit(), r.Legs[n-1].By.Unit().Scale(-1)
		}
	}
	for again := true; again; {
		again = false
		set := func(key string, v graph.Vec) {
			if _, have := m.at[key]; !have {
				m.at[key], again = v, true
			}
		}
		for _, r := range c.Runs {
			if !r.New() || len(r.Legs) == 0 {
				continue
			}
			sum := graph.Vec{}
			for _, l := range r.Legs {
				sum = sum.Add(l.By)
			}
			if a, ok := m.at[r.From.String()]; ok {
				set(r.To.String(), a.Add(sum))
			}
			if b, ok := m.at[r.To.String()]; ok {
				set(r.From.String(), b.Sub(sum))
			}
		}
		for _, p := range c.Parts {
			if !p.New() {
				continue
			}
			if p.Kind == graph.Tee {
				for _, a := range graph.Tee.PortNames() {
					if v, ok := m.at[p.ID+"."+a]; ok {
						for _, b := range graph.Tee.PortNames() {
							set(p.ID+"."+b, v)
						}
					}
				}
				continue
			}
			if length, ok := long(p); ok {
				if v, ok := m.at[p.ID+".in"]; ok {
					set(p.ID+".out", v.Sub(m.looks[p.ID+".in"].Scale(length)))
				}
				if v, ok := m.at[p.ID+".out"]; ok {
					set(p.ID+".in", v.Sub(m.looks[p.ID+".out"].Scale(length)))
				}
			}
		}
	}
	return m
}

// Parts, pieces and positions of every plan, written out and read back, rebuilt by the model:
// legs in, positions and cut lengths out.
func TestTwoEnded(t *testing.T) {
	files, err := filepath.Glob("../../testdata/*.toml")
	if err != nil {
		t.Fatal(err)
	}
	more, err := filepath.Glob("testdata/jobs/*.toml")
	if err != nil {
		t.Fatal(err)
	}
	places, pieces := 0, 0
	for _, file := range append(files, more...) {
		first := planned(t, file)
		if first.After == nil || graph.HasErrors(first.Findings) {
			continue
		}
		p := rewritten(t, first)
		lay := p.After.Layout
		long := func(q *graph.Part) (float64, bool) {
			switch q.Kind {
			case graph.BallValve, graph.GateValve, graph.CheckValve, graph.Union, graph.ButterflyValve, graph.SlipCoupling:
				return lay.Stage.Part(q.ID).Row.V.LengthMM, true
			}
			return 0, false
		}
		seed := ""
		for _, r := range lay.Circuit.Runs {
			if r.New() && len(r.Legs) > 0 && seed == "" {
				seed = r.From.String()
			}
		}
		m := newModel(lay.Circuit, seed, lay.Positions[seed], long)
		for key, want := range m.at {
			got, ok := lay.Positions[key]
			id, _, _ := strings.Cut(key, ".")
			if part := lay.Circuit.Part(id); part != nil && part.Kind == graph.HeatPump {
				continue // its two pipes meet there from both sides
			}
			if !ok || got.Sub(want).Len() > 1+exactMM { // a loop may miss itself by less than a saw cut
				t.Errorf("%s: %s at %+v, by the legs %+v", filepath.Base(file), key, got, want)
			}
			places++
		}
		for i := range lay.Paths {
			pieces += sameCuts(t, filepath.Base(file), lay, &lay.Paths[i])
		}
	}
	if places < 60 || pieces < 40 {
		t.Errorf("%d places and %d pieces: too few to prove anything", places, pieces)
	}
}

// sameCuts works the pieces of a run out from its legs: each as long as its legs in one line
// less the take-offs at both ends, with what stands between part and pipe, and in its place.
func sameCuts(t *testing.T, file string, lay *route.Layout, path *route.Path) int {
	t.Helper()
	if !path.Run.New() || len(path.Run.Legs) == 0 || path.Run.Spec.Flexible() {
		return 0
	}
	n := 0
	corner := path.Points[0]
	start, sum := 0, 0.0
	for k, l := range path.Run.Legs {
		sum += l.LengthMM()
		corner = corner.Add(l.By)
		if corner.Sub(path.Points[k+1]).Len() > exactMM {
			t.Errorf("%s: point %d of %s at %+v, by the legs %+v", file, k+1, path.Run.ID, path.Points[k+1], corner)
		}
		straightOn := k+1 < len(path.Run.Legs) && l.By.AngleTo(path.Run.Legs[k+1].By) < 0.5
		if straightOn {
			continue
		}
		want := sum - path.Stops[start].TakeOffMM - path.Stops[k+1].TakeOffMM
		from := path.Points[start].Add(l.By.Unit().Scale(path.Stops[start].TakeOffMM))
		got, found := 0.0, false
		for _, index := range path.Pieces {
			if p := &lay.Pieces[index]; p.Spec == path.Run.Spec && p.Size == path.Run.Size && p.Start.Sub(from).Len() < exactMM {
				got, found = p.Finish.Sub(p.Start).Len(), true
				if !agree.Within(p.CutMM, got, exactMM) {
					t.Errorf("%s: piece %d is cut to %.2f mm and lies over %.2f mm", file, p.Number, p.CutMM, got)
				}
			}
		}
		if !found || got > want+exactMM { // a coupling of a long leg makes several of one
			t.Errorf("%s: %s from its leg %d: a piece of %.2f mm, by the legs %.2f mm", file, path.Run.ID, start+1, got, want)
		}
		n++
		start, sum = k+1, 0
	}
	return n
}

// No plan that is accepted has two bodies inside each other: cabinets drawn by lot, and every
// two pieces of pipe held against each other point by point along their axes, without the
// bodies' own distance.
func TestNoTwoBodiesInOnePlace(t *testing.T) {
	accepted, pairs := 0, 0
	for seed := range 14 {
		data := drawnJob(rand.New(rand.NewPCG(uint64(seed), 77)))
		c, ds := description.Read(fmt.Sprintf("drawn-%d.toml", seed), data)
		if c == nil || graph.HasErrors(ds) {
			t.Fatalf("seed %d: %v", seed, ds)
		}
		p := work(t, c, plan.Findings)
		if p.Proposal == nil || p.After == nil || graph.HasErrors(p.Findings) {
			continue
		}
		accepted++
		s := p.After.Bodies
		for i := range s.All {
			for j := range i {
				a, b := &s.All[i], &s.All[j]
				if !a.New && !b.New || a.Group != b.Group || s.Joined(i, j) {
					continue
				}
				pairs++
				for _, x := range a.Core {
					for _, y := range b.Core {
						if x.Radius() == 0 || y.Radius() == 0 {
							continue
						}
						if d := besides(x, y); d < x.Radius()+y.Radius()-2 {
							t.Errorf("seed %d: %s and %s come as near as %.1f mm and are %.1f and %.1f mm thick", seed, a.Name, b.Name, d, 2*x.Radius(), 2*y.Radius())
						}
					}
				}
			}
		}
	}
	if accepted < 4 || pairs < 1000 {
		t.Errorf("%d plans accepted, %d pairs: too few to prove anything", accepted, pairs)
	}
}

// besides is the least distance between points of two axes that lie beside each other: both
// well inside the ends, where a flat end can't be passed by.
func besides(x, y interface{ Axis() (graph.Vec, graph.Vec) }) float64 {
	best := math.Inf(1)
	a, b := x.Axis()
	c, d := y.Axis()
	const n = 60
	for i := 3; i <= n-3; i++ {
		p := a.Add(b.Sub(a).Scale(float64(i) / n))
		for j := 3; j <= n-3; j++ {
			q := c.Add(d.Sub(c).Scale(float64(j) / n))
			gap := q.Sub(p)
			if math.Abs(gap.Dot(b.Sub(a).Unit())) < 5 && math.Abs(gap.Dot(d.Sub(c).Unit())) < 5 {
				best = math.Min(best, gap.Len())
			}
		}
	}
	return best
}
