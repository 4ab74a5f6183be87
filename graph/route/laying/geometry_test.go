package laying

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"
	"time"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/agree"
)

// mapLegs returns the circuit with every leg mapped.
func mapLegs(c *graph.Circuit, f func(graph.Vec) graph.Vec) *graph.Circuit {
	out := *c
	out.Runs, out.Gone = nil, nil
	for _, r := range c.Runs {
		q := *r
		q.Legs = append([]graph.Leg(nil), r.Legs...)
		for i := range q.Legs {
			q.Legs[i].By = f(q.Legs[i].By)
		}
		out.Runs = append(out.Runs, &q)
	}
	return &out
}

// Rotating every leg rotates every point and changes no cut length. Four quarter turns
// about three axes; geometry, no source needed.
func TestRotation(t *testing.T) {
	turns := map[string]func(graph.Vec) graph.Vec{
		"z": func(v graph.Vec) graph.Vec { return graph.Vec{X: -v.Y, Y: v.X, Z: v.Z} },
		"x": func(v graph.Vec) graph.Vec { return graph.Vec{X: v.X, Y: -v.Z, Z: v.Y} },
		"y": func(v graph.Vec) graph.Vec { return graph.Vec{X: v.Z, Y: v.Y, Z: -v.X} },
	}
	c := twoSpeedJob().c
	plain := Of(c)
	for name, turn := range turns {
		turned := Of(mapLegs(c, turn))
		if len(turned.Pieces) != len(plain.Pieces) {
			t.Fatalf("%s: %d pieces, want %d", name, len(turned.Pieces), len(plain.Pieces))
		}
		for i := range plain.Pieces {
			near(t, fmt.Sprintf("%s: piece %d", name, i+1), turned.Pieces[i].CutMM, plain.Pieces[i].CutMM, 1e-9)
		}
		for key, at := range plain.Positions {
			if d := turned.Positions[key].Sub(turn(at)).Len(); d > 1e-9 {
				t.Errorf("%s: %s is %g mm from its turned place", name, key, d)
			}
		}
	}
}

// A run written from its other end has the same cuts.
func TestReversedRun(t *testing.T) {
	c := twoSpeedJob().c
	plain := Of(c)
	out := *c
	out.Runs = nil
	for _, r := range c.Runs {
		q := *r
		q.From, q.To = r.To, r.From
		q.Legs = nil
		for i := len(r.Legs) - 1; i >= 0; i-- {
			l := r.Legs[i]
			l.By = l.By.Scale(-1)
			q.Legs = append(q.Legs, l)
		}
		out.Runs = append(out.Runs, &q)
	}
	reversed := Of(&out)
	for i, r := range c.Runs {
		var a, b []float64
		for _, k := range plain.Paths[i].Pieces {
			a = append(a, math.Round(plain.Pieces[k].CutMM*1e6)/1e6)
		}
		for _, k := range reversed.Paths[i].Pieces {
			b = append([]float64{math.Round(reversed.Pieces[k].CutMM*1e6) / 1e6}, b...)
		}
		if !reflect.DeepEqual(a, b) {
			t.Errorf("%s: %v reversed is %v", r.ID, a, b)
		}
	}
}

// Random closed loops close; with one leg changed they miss by just that, and the leg named
// as the mend closes them.
func TestRandomLoops(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 11))
	axes := []graph.Vec{{X: 1}, {Y: 1}, {Z: 1}, {X: -1}, {Y: -1}, {Z: -1}}
	for trial := range 200 {
		s := newSketch(catalog.PVCPN16, dn(50))
		n := 3 + random.IntN(5)
		sum := graph.Vec{}
		for k := range n {
			p := s.part(graph.Pump, fmt.Sprintf("p%d", k))
			by := axes[random.IntN(6)].Scale(float64(random.IntN(9000)) / 10)
			p.Ports[1].At = &by
			sum = sum.Add(by)
		}
		for k := range n {
			by := axes[random.IntN(6)].Scale(200 + float64(random.IntN(9000))/10)
			next := fmt.Sprintf("p%d.in", (k+1)%n)
			if k < n-1 {
				s.run(fmt.Sprintf("p%d.out", k), next, by)
				sum = sum.Add(by)
				continue
			}
			closing := sum.Scale(-1)
			var legs []graph.Vec
			for _, l := range []graph.Vec{{X: closing.X}, {Y: closing.Y}, {Z: closing.Z}} {
				if l.Len() > 0 {
					legs = append(legs, l)
				}
			}
			if legs == nil {
				legs = []graph.Vec{{X: 1e-12}}
			}
			s.run(fmt.Sprintf("p%d.out", k), next, legs...)
		}
		lay := Of(s.c)
		if len(lay.Closures) != 1 || !lay.Closures[0].Closed || lay.Closures[0].ErrorMM.Len() > 1e-6 {
			t.Fatalf("trial %d: closures %+v", trial, lay.Closures)
		}
		r := s.c.Runs[random.IntN(n)]
		leg := &r.Legs[random.IntN(len(r.Legs))]
		way := leg.By.Unit()
		leg.By = leg.By.Add(way.Scale(12.5))
		missed := Of(s.c).Closures[0]
		if missed.Closed || !agree.Within(missed.ErrorMM.Sub(way.Scale(-12.5)).Len(), 0, 1e-6) {
			t.Fatalf("trial %d: misses by %v, want %v", trial, missed.ErrorMM, way.Scale(-12.5))
		}
		was := leg.By.Sub(way.Scale(12.5))
		if was.Len() < 130 { // of sockets, less is no leg
			continue
		}
		if said := findings(Of(s.c).Findings, graph.Error); !strings.Contains(said, "make your leg ") {
			t.Errorf("trial %d: no leg named that mends it: %s", trial, said)
		}
		for _, r := range s.c.Runs {
			r.Existing = true
		}
		for _, p := range s.c.Parts {
			p.Existing = true
		}
		leg.By = was.Add(way.Scale(300))
		if text := told(Of(s.c).Findings); strings.Count(text, "loop of old pipe") != 1 || !strings.Contains(text, "as \""+graph.Leg{By: was}.Words().In(0)+"\"") {
			t.Errorf("trial %d: %v for %v is not told with what it was:\n%s", trial, leg.By, was, text)
		}
	}
}

// told is every finding with all it says.
func told(ds []graph.Diagnostic) string {
	var b strings.Builder
	for _, d := range ds {
		fmt.Fprintln(&b, d.Severity, d.Message.In(0), d.Hint.In(0))
		for _, r := range d.Related {
			fmt.Fprintln(&b, "  ", r.Message.In(0))
		}
	}
	return b.String()
}

// New pipe between two points of an old loop that does not close goes by the side by which it
// closes; one that closes by neither is told of the new pipe.
func TestNewPipeOnOldLoop(t *testing.T) {
	for _, long := range []float64{1000, 1300, 1150} {
		s := newSketch(catalog.PVCPN16, dn(50))
		a, b := s.part(graph.Manifold, "a", "one", "two", "three"), s.part(graph.Manifold, "b", "one", "two", "three")
		for _, p := range []*graph.Part{a, b} {
			p.Existing = true
			p.Ports[1].At, p.Ports[2].At = &graph.Vec{Y: 300}, &graph.Vec{Y: 600}
		}
		s.run("a.one", "b.one", right(1000)).Existing = true
		s.run("a.two", "b.two", right(1300)).Existing = true // of which one is wrong
		s.run("a.three", "b.three", right(long))
		text := told(Of(s.c).Findings)
		if strings.Count(text, "loop of old pipe") != 1 {
			t.Errorf("%v: the old loop is not told once:\n%s", long, text)
		}
		if errors := findings(Of(s.c).Findings, graph.Error); strings.Contains(errors, "does not close") != (long == 1150) {
			t.Errorf("%v: of the new pipe: %s", long, errors)
		}
	}
}

// The mend is worded with the leg's new length.
func TestMendWords(t *testing.T) {
	s := newSketch(catalog.PVCPN16, dn(50))
	tub := s.part(graph.Tub, "tub", "low", "high")
	at := graph.Vec{X: 300, Z: 200}
	tub.Ports[1].At = &at
	run := s.run("tub.low", "tub.high", right(312), up(197))
	run.KeyPos = map[string]graph.Pos{} // as the description gives it
	lay := Of(s.c)
	text := findings(lay.Findings, graph.Error)
	for _, want := range []string{"the loop through tub.low>tub.high does not close: it misses by 12 mm left, 3 mm up", "leg 1 of tub.low>tub.high right 300 mm instead of 312 mm", "leg 2 of tub.low>tub.high up 200 mm instead of 197 mm", "test.toml:3:1"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in:\n%s", want, text)
		}
	}
}

// A leg that runs the way the loop misses and is too short to take it up is named: it is not said
// that no leg runs that way. 197 mm up can't be 397 mm shorter.
func TestLegTooShortToMendIsNamed(t *testing.T) {
	s := newSketch(catalog.PVCPN16, dn(50))
	tub := s.part(graph.Tub, "tub", "low", "high")
	at := graph.Vec{X: 300, Z: -200}
	tub.Ports[1].At = &at
	s.run("tub.low", "tub.high", right(300), up(197)).KeyPos = map[string]graph.Pos{}
	text := told(Of(s.c).Findings)
	if !strings.Contains(text, "leg 2 of tub.low>tub.high runs that way and is too short to be 397 mm shorter") || strings.Contains(text, "no leg of the new work") {
		t.Error(text)
	}
}

// A run the tool drew from legs to the unit has a name that stands in no description: its loop
// and its mend go by the user's words, and what is left of a run that was cut by that run.
func TestMendWordsOfDrawnPipe(t *testing.T) {
	s := newSketch(catalog.PVCPN16, dn(50))
	tub := s.part(graph.Tub, "tub", "low", "high")
	at := graph.Vec{X: 700, Z: 200}
	tub.Ports[1].At = &at
	s.part(graph.Coupling, "v2")
	s.run("tub.low", "v2.in", right(312), up(197)).Legs[1].Written = "up 7 3/4 in"
	left := s.run("v2.out", "tub.high", right(388))
	left.Existing, left.RemainsOf = true, "return-line"
	text := findings(Of(s.c).Findings, graph.Error)
	for _, want := range []string{"the loop through the pipes to the unit and return-line does not close", `your leg "up 7 3/4 in" 3 mm longer`} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in:\n%s", want, text)
		}
	}
}

// A part without port places is taken as the legs need it, and that is said.
func TestMeasureOnThePart(t *testing.T) {
	s := newSketch(catalog.PVCPN16, dn(50))
	tub := s.part(graph.Tub, "tub", "low", "high")
	at := graph.Vec{X: 600, Z: 120}
	tub.Ports[1].At = &at
	s.part(graph.Pump, "pump")
	s.run("tub.low", "pump.in", right(200))
	s.run("pump.out", "tub.high", right(150))
	lay := Of(s.c)
	noErrors(t, lay)
	if text := findings(lay.Findings, graph.Note); !strings.Contains(text, "measure on the part: pump in to out 250 mm right, 120 mm up") {
		t.Errorf("no such note in:\n%s", text)
	}
	if len(lay.Closures) != 0 {
		t.Errorf("closures %+v, want none: the pump takes up the difference", lay.Closures)
	}
}

// What cannot be built is found, with the angle, the part, or the distance.
func TestRoutingFindings(t *testing.T) {
	for _, c := range []struct {
		name  string
		build func(s *sketch)
		want  string
	}{
		{"odd angle", func(s *sketch) {
			s.run("a.out", "b.in", right(300), graph.Vec{X: 300, Z: 173.2}, right(300))
		}, "turns by 30° at bend 1 of a.out>b.in, and no stock elbow has that angle (change the leg so that the turn is 22.5° or 45°)"},
		{"folds back", func(s *sketch) { s.run("a.out", "b.in", right(300), left(100)) }, `goes right and leg 2 the other way, left: the pipe folds back on itself (write them as one leg, "right 200 mm", or put a leg between them)`},
		{"valve at a corner", func(s *sketch) {
			s.part(graph.BallValve, "v1")
			s.run("a.out", "v1.in", right(300))
			s.run("v1.out", "b.in", up(300))
		}, `"v1" is in line, but its pipe comes in going right and leaves going up: an elbow of 90° is missing`},
		{"bent tee", func(s *sketch) {
			s.part(graph.Tee, "t")
			s.run("a.out", "t.run-in", right(300))
			s.run("t.run-out", "b.in", up(300))
		}, `the run of tee "t" is straight`},
		{"branch not square", func(s *sketch) {
			s.part(graph.Tee, "t")
			s.run("a.out", "t.run-in", right(300))
			s.run("t.branch", "b.in", graph.Vec{X: 300, Z: 300})
		}, `the branch of tee "t" leaves going right and up, 135° from its run`},
		{"no such size", func(s *sketch) {
			s.size = inch(6)
			s.run("a.out", "b.in", right(300), up(300))
		}, "no elbow-90 for pvc-sch80 6 in"},
	} {
		s := newSketch(catalog.PVCSch80, inch(2))
		s.part(graph.Pump, "a")
		s.part(graph.Filter, "b")
		c.build(s)
		if text := findings(Of(s.c).Findings, graph.Error); !strings.Contains(text, c.want) {
			t.Errorf("%s: %q is not in:\n%s", c.name, c.want, text)
		}
	}
}

// What is left of a cut run holds the old socket and the new. Worked by hand from ASTM D2467
// (2 in: tee 31.75 mm to its stop, sockets 38.10 mm): cut at 76.2 mm from the stop it just
// does; at 75 mm it is 1.2 mm short, and 2 mm farther on will do; at 70 mm it is 6.2 mm, and 7 mm will.
func TestStub(t *testing.T) {
	for _, c := range []struct {
		cut  float64
		want string
	}{
		{76.2, ""},
		{75, "what is left of old between a.out and t.run-in is 75 mm of pipe; its two sockets need 76.2 mm (38.1 mm and 38.1 mm) (cut at least 2 mm farther from a.out)\n"},
		{70, "what is left of old between a.out and t.run-in is 70 mm of pipe; its two sockets need 76.2 mm (38.1 mm and 38.1 mm) (cut at least 7 mm farther from a.out)\n"},
	} {
		s := newSketch(catalog.PVCSch80, inch(2))
		s.part(graph.Pump, "a").Existing = true
		s.part(graph.Filter, "b").Existing = true
		s.part(graph.Tee, "t")
		for _, r := range []*graph.Run{s.run("a.out", "t.run-in", right(c.cut+31.75)), s.run("t.run-out", "b.in", right(600))} {
			r.Existing, r.RemainsOf = true, "old"
		}
		if got := findings(Of(s.c).Findings, graph.Error); !strings.HasSuffix(got, c.want) || c.want == "" && got != "" {
			t.Errorf("cut at %g: %q, want %q", c.cut, got, c.want)
		}
	}
}

// Old pipe is not judged like new: one note for each kind of thing.
func TestOldPipeIsQuiet(t *testing.T) {
	s := newSketch(catalog.PVCSch80, inch(2))
	for k := range 5 {
		s.part(graph.Pump, fmt.Sprintf("p%d", k)).Existing = true
	}
	for k := range 4 {
		s.run(fmt.Sprintf("p%d.out", k), fmt.Sprintf("p%d.in", k+1), right(300), graph.Vec{X: 300, Z: 100}, up(50)).Existing = true
	}
	lay := Of(s.c)
	if len(lay.Findings) != 1 || lay.Findings[0].Severity != graph.Note || !strings.Contains(lay.Findings[0].Message.String(), "7 more") {
		t.Errorf("findings %v, want one note for eight bends", lay.Findings)
	}
}

// Old pipe that folds back is no pipe that stands: a leg between was left out, and that is asked at the leg.
func TestOldPipeFoldsBack(t *testing.T) {
	s := newSketch(catalog.PVCSch80, inch(2))
	s.part(graph.Pump, "a").Existing = true
	s.part(graph.Filter, "b").Existing = true
	r := s.run("a.out", "b.in", right(300), graph.Vec{X: -900}, up(300))
	r.Existing = true
	var told []graph.Diagnostic
	for _, d := range Of(s.c).Findings {
		if strings.Contains(d.Message.String(), "folds back") {
			told = append(told, d)
		}
	}
	if len(told) != 1 || told[0].Severity != graph.Warning || told[0].Pos != r.Legs[1].Pos || !strings.Contains(told[0].Hint.String(), "is a leg between them left out") {
		t.Errorf("told: %+v", told)
	}
	r.Legs[1].Pos = graph.Pos{} // as in what a cut leaves of a run
	for _, d := range Of(s.c).Findings {
		if strings.Contains(d.Message.String(), "folds back") && d.Pos != r.Pos {
			t.Errorf("told at %v, want at the run, %v", d.Pos, r.Pos)
		}
	}
}

// A leg that was left out of old pipe is asked for in the runs of the loop that misses it, each the way it
// goes; written there the loop closes.
func TestLegLeftOut(t *testing.T) {
	front := func(mm float64) graph.Vec { return graph.Vec{Y: -mm} }
	old := func(legs ...graph.Vec) string {
		s := newSketch(catalog.PVCSch80, inch(2))
		tub := s.part(graph.Tub, "tub", "a", "b")
		at := graph.Vec{X: 350, Z: -420}
		tub.Ports[1].At = &at
		s.part(graph.Tee, "t").Existing = true
		s.run("tub.a", "t.run-in", legs...).Existing = true
		s.run("tub.b", "t.branch", front(240)).Existing = true
		var hints string
		for _, d := range Of(s.c).Findings {
			if strings.Contains(d.Message.String(), "does not close") {
				hints += d.Hint.String()
			}
		}
		return hints
	}
	if got := old(up(-420), right(350)); !strings.HasPrefix(got, `is a leg left out: "front 240 mm" in tub.a>t.run-in, or "back 240 mm" in tub.b>t.branch? `) {
		t.Errorf("hint %q", got)
	}
	if got := old(up(-420), front(240), right(350)); got != "" {
		t.Errorf("with the leg: %q", got)
	}
	if got := old(up(-420)); strings.Contains(got, "left out") {
		t.Errorf("two ways missed are one leg: %q", got)
	}
}

// Families never meet without a transition, hose never without barbs.
func TestAdaptors(t *testing.T) {
	s := newSketch(catalog.PVCPN16, dn(63))
	s.part(graph.Pump, "a")
	s.part(graph.HeatPump, "unit").Unit = &graph.UnitData{PortsSize: inch(2)}
	s.part(graph.Tee, "t")
	s.part(graph.Filter, "b")
	s.run("a.out", "unit.in", right(500))
	s.run("unit.out", "t.run-in", right(500))
	hose := s.run("t.branch", "b.in", up(500))
	hose.Spec, hose.Size = catalog.HosePipe, dn(50)
	s.run("t.run-out", "c.in", right(500))
	lay := Of(s.c)
	noErrors(t, lay)
	if k := lay.Paths[0].Fittings; len(k) != 1 || k[0].Kind != "transition" || k[0].From != dn(63) || k[0].To != inch(2) {
		t.Errorf("a to unit: %+v, want one transition from 63 mm to 2 in", k)
	}
	if k := lay.Paths[2].Fittings; len(k) != 1 || k[0].Kind != "barb" {
		t.Errorf("hose: %+v, want one barb", k)
	}
	// the run's piece and the nipple, with the gap at the transition's stop, fill the way
	// from the pump's stop to the unit's
	total := lay.Paths[0].Fittings[0].Row.LengthMM
	for _, k := range lay.Paths[0].Pieces {
		total += lay.Pieces[k].CutMM
	}
	near(t, "pieces and transition", total, 500, 1e-9)
}

// big is a circuit of n runs: a comb of tees with a capped branch each.
func big(n int) *sketch {
	s := newSketch(catalog.PVCPN16, dn(50))
	s.part(graph.Pump, "start")
	last := "start.out"
	for k := range n / 2 {
		id := fmt.Sprintf("t%d", k)
		s.part(graph.Tee, id)
		s.part(graph.Cap, "c"+id)
		s.run(last, id+".run-in", right(200), up(200), right(200))
		s.run(id+".branch", "c"+id+".in", front(300), down(150))
		last = id + ".run-out"
	}
	return s
}

// A circuit of 500 runs is laid out well within what a check may take (60 ms for all of it).
func TestBigCircuitInTime(t *testing.T) {
	c := big(500).c
	start := time.Now()
	lay := Of(c)
	took := time.Since(start)
	noErrors(t, lay)
	if len(lay.Pieces) != 250*5 {
		t.Errorf("%d pieces, want %d", len(lay.Pieces), 250*5)
	}
	if took > 2*time.Second {
		t.Errorf("took %v", took)
	}
}

func BenchmarkLay500(b *testing.B) {
	c := big(500).c
	for b.Loop() {
		Of(c)
	}
}

// The same circuit gives the same layout, findings and numbers.
func TestSameTwice(t *testing.T) {
	a, b := Of(twoSpeedJob().c), Of(twoSpeedJob().c)
	if !reflect.DeepEqual(a.Pieces, b.Pieces) || !reflect.DeepEqual(a.Joints, b.Joints) || !reflect.DeepEqual(a.Findings, b.Findings) {
		t.Error("two layouts of one circuit differ")
	}
}

func BenchmarkLay500Existing(b *testing.B) {
	c := big(500).c
	for _, p := range c.Parts {
		p.Existing = true
	}
	for _, r := range c.Runs {
		r.Existing = true
	}
	for b.Loop() {
		Of(c)
	}
}
