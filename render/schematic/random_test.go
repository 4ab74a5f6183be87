package schematic

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/lots"
	"dryfit/render/scene"
)

// maker builds circuits for tests.
type maker struct{ c *graph.Circuit }

func newMaker() *maker {
	m := &maker{c: &graph.Circuit{Catalog: catalog.Embedded(), Job: graph.Job{Name: "invented for a test"}}}
	m.c.Parts = append(m.c.Parts, &graph.Part{ID: "tub", Kind: graph.Tub, Existing: true,
		Ports: []graph.Port{{Name: "out"}, {Name: "in"}}})
	return m
}

func (m *maker) part(id string, k graph.Kind) string {
	m.c.Parts = append(m.c.Parts, &graph.Part{ID: id, Kind: k, Existing: len(m.c.Parts)%3 == 0})
	return id
}

func (m *maker) run(from, fromPort, to, toPort string) {
	m.c.Runs = append(m.c.Runs, &graph.Run{ID: fmt.Sprintf("r%d", len(m.c.Runs)), Named: len(m.c.Runs)%4 == 0,
		From: graph.PortRef{Part: from, Port: fromPort}, To: graph.PortRef{Part: to, Port: toPort},
		Size: catalog.Size{Nominal: 2}, Existing: len(m.c.Runs)%3 == 0, HasLength: true, LengthMM: 300})
}

// long is a circuit of a pump and many units, each with its bypass, of about n runs.
func long(n int) *graph.Circuit {
	m := newMaker()
	prev, port := m.part("pump", graph.Pump), "out"
	m.run("tub", "out", "pump", "in")
	kinds := []graph.Kind{graph.Filter, graph.BallValve, graph.Union, graph.ElementHeater}
	for i := 0; len(m.c.Runs) < n-6; i++ {
		if i%5 < 4 {
			id := m.part(fmt.Sprint("p", i), kinds[i%5])
			m.run(prev, port, id, "in")
			prev, port = id, "out"
			continue
		}
		a, b := m.part(fmt.Sprint("ta", i), graph.Tee), m.part(fmt.Sprint("tb", i), graph.Tee)
		v, u := m.part(fmt.Sprint("by", i), graph.CheckValve), m.part(fmt.Sprint("unit", i), graph.HeatPump)
		m.run(prev, port, a, "run-in")
		m.run(a, "run-out", v, "in")
		m.run(v, "out", b, "run-in")
		m.run(a, "branch", u, "in")
		m.run(u, "out", b, "branch")
		prev, port = b, "run-out"
	}
	m.run(prev, port, "tub", "in")
	return m.c
}

// tangle joins parts of all kinds at random, with no sense at all.
func tangle(rnd *rand.Rand) *graph.Circuit {
	m := newMaker()
	type end struct{ part, port string }
	ends := []end{{"tub", "out"}, {"tub", "in"}, {"tub", "third"}}
	kinds := graph.Kinds()
	for i := range 3 + rnd.Intn(15) {
		k := kinds[rnd.Intn(len(kinds))]
		id := m.part(fmt.Sprintf("%s-%d", k, i), k)
		ports := k.PortNames()
		if k.UserPorts() {
			ports = []string{"a", "b", "c", "d"}
		}
		for _, p := range ports {
			ends = append(ends, end{id, p})
		}
	}
	rnd.Shuffle(len(ends), func(i, j int) { ends[i], ends[j] = ends[j], ends[i] })
	for i := 0; i+1 < len(ends); i += 2 {
		if rnd.Intn(5) > 0 {
			m.run(ends[i].part, ends[i].port, ends[i+1].part, ends[i+1].port)
		}
	}
	return m.c
}

// Whatever is described is drawn, in finite numbers, every part of it, inside the frame.
func TestAnyCircuitIsDrawn(t *testing.T) {
	for seed := range int64(lots.Count(80, 25)) {
		c := tangle(rand.New(rand.NewSource(seed)))
		pages := Draw(Input{Circuit: c})
		seen := map[string]bool{}
		for _, page := range pages {
			frame := scene.Box{MaxX: page.WidthMM, MaxY: page.HeightMM}
			for _, it := range page.Items {
				b := scene.Bounds(it)
				if math.IsNaN(b.W()+b.H()) || math.IsInf(b.W()+b.H(), 0) && !b.IsEmpty() {
					t.Fatalf("seed %d: %+v is not finite", seed, it)
				}
				if !b.IsEmpty() && !frame.Contains(b) {
					t.Errorf("seed %d: %+v leaves the page", seed, it)
				}
				if s, ok := it.(scene.Shape); ok {
					seen[s.Name] = true
				}
			}
		}
		for _, p := range c.At(graph.After).Parts {
			if !seen["symbol:"+p.ID] {
				t.Errorf("seed %d: %s is missing", seed, p.ID)
			}
		}
	}
}

func TestOddCircuits(t *testing.T) {
	alone := newMaker().c
	noTub := &graph.Circuit{Parts: []*graph.Part{{ID: "pump", Kind: graph.Pump}}}
	loop := newMaker()
	loop.part("a", graph.Union)
	loop.part("b", graph.Union)
	loop.run("a", "out", "b", "in")
	loop.run("b", "out", "a", "in")
	self := newMaker()
	self.part("a", graph.Tee)
	self.run("a", "run-in", "a", "run-out")
	twoTubs := newMaker()
	twoTubs.part("tub-2", graph.Tub)
	twoTubs.part("pump", graph.Pump)
	twoTubs.run("tub", "out", "pump", "in")
	twoTubs.run("pump", "out", "tub-2", "x")
	for name, c := range map[string]*graph.Circuit{"nothing": {}, "a tub alone": alone, "no tub": noTub,
		"a ring": loop.c, "a run on itself": self.c, "two tubs": twoTubs.c} {
		if pages := Draw(Input{Circuit: c}); len(pages) != 1 {
			t.Errorf("%s: %d pages", name, len(pages))
		}
	}
}

// A circuit too long to be laid out again for its labels is drawn all the same, every run of
// it. The benchmark below has one of 500.
func TestLongCircuit(t *testing.T) {
	c := long(220)
	if len(c.Parts) <= mostRelaid {
		t.Fatalf("%d parts", len(c.Parts))
	}
	pages := Draw(Input{Circuit: c})
	runs := map[string]bool{}
	for _, page := range pages {
		for _, it := range page.Items {
			if s, ok := it.(scene.Shape); ok {
				runs[s.Name] = true
			}
		}
	}
	for _, r := range c.Runs {
		if !runs["run:"+r.ID] {
			t.Errorf("run %s is missing", r.ID)
		}
	}
}

func benchmarkDraw(b *testing.B, c *graph.Circuit) {
	b.ReportAllocs()
	for b.Loop() {
		for _, p := range Draw(Input{Circuit: c}) {
			scene.SVG(p)
		}
	}
}

// Layout and drawing as SVG of the example and of a circuit of 500 runs.
func BenchmarkDrawExample(b *testing.B) { benchmarkDraw(b, read(b, "testdata/bypass-spring.toml")) }
func BenchmarkDraw500Runs(b *testing.B) { benchmarkDraw(b, long(500)) }
