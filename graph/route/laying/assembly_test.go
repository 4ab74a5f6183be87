package laying

import (
	"math"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/route"
)

// The worked cut-in: 1-1/2 in Schedule 80, tee - valve of 103.1 mm - tee between two cut
// ends, two nipples of 2 x 34.925 + 5 = 74.85. The gap to open is 50.80 + 74.85 + 103.10 +
// 74.85 + 50.80 = 354.40 (computed from ASTM D2467: tee half 25.40, socket 34.925).
// The old line: 600 mm of pipe between two old parts.
const (
	cutNipple = 74.85
	cutValve  = 103.10
	teeHalf   = 25.40
	depth80   = 34.925
)

// cutIn builds the string with a valve of the type ("" plain) between two old ends.
func cutIn(valve *graph.Part) *sketch {
	s := newSketch(catalog.PVCSch80, inch(1.5))
	s.part(graph.ElementHeater, "element").Existing = true
	s.part(graph.JetGroup, "jets").Existing = true
	s.part(graph.Tee, "t1")
	s.part(graph.Tee, "t2")
	valve.Pos, valve.Surroundings = s.pos(), graph.NothingSaid()
	valve.Ports = []graph.Port{{Name: "in"}, {Name: "out"}}
	s.c.Parts = append(s.c.Parts, valve)
	for _, id := range []string{"c1", "c2"} {
		s.part(graph.Cap, id)
	}
	old := func(r *graph.Run) *graph.Run { r.RemainsOf = "line"; return r }
	span := 2*(cutNipple+teeHalf) + cutValve
	old(s.run("element.out", "t1.run-in", right(300)))
	s.run("t1.run-out", "v.in", right(teeHalf+cutNipple))
	s.run("v.out", "t2.run-in", right(cutNipple+teeHalf))
	old(s.run("t2.run-out", "jets.in", right(300)))
	s.run("t1.branch", "c1.in", front(200))
	s.run("t2.branch", "c2.in", front(200))
	gone := &graph.Run{ID: "line", From: ref("element.out"), To: ref("jets.in"), Spec: s.spec, Size: s.size, Existing: true, Removed: true,
		Legs: []graph.Leg{{By: right(600 + span), Surroundings: graph.NothingSaid()}}, Surroundings: graph.NothingSaid()}
	s.c.Gone = []*graph.Run{gone}
	return s
}

func plainValve() *graph.Part {
	return &graph.Part{ID: "v", Kind: graph.BallValve, Type: "ball-valve 1-1/2 in", LengthMM: cutValve}
}

func TestCutInGap(t *testing.T) {
	lay := Of(cutIn(plainValve()).c)
	noErrors(t, lay)
	if len(lay.Closures) != 1 || !lay.Closures[0].Closed {
		t.Errorf("closures %+v, want one that closes: the string fits where the old pipe was", lay.Closures)
	}
	first, last := lay.Positions["t1.run-in"].X-teeHalf, lay.Positions["t2.run-out"].X+teeHalf
	near(t, "gap to open", last-first, 354.40, 0.005)
	near(t, "nipple", lay.Pieces[0].CutMM, cutNipple, 0.005)
	// overall face to face: gap + 2 C = 424.25 (the same source)
	near(t, "face to face", last-first+2*lay.Pieces[0].From.DepthMM, 424.25, 0.005)
}

// Both old ends fixed and plain sockets: it cannot be put together. Play at an old end of
// two depths (69.85) will do, one depth (34.93) if it can be sprung aside too; a union, a
// slip coupling or hose needs none. Source: common practice, worked in ASTM D2467 depths.
func TestCanBeAssembled(t *testing.T) {
	yes, no := true, false
	for _, c := range []struct {
		name   string
		play   float64
		aside  *bool
		change func(s *sketch)
		ok     bool
		warn   bool
		want   string // in the error, warning or how
	}{
		{name: "plain sockets, nothing said", play: -1, want: "make v a true-union valve, or draw the old end back 34.9 mm"},
		{name: "less than one depth", play: 34.0, want: "make v a true-union valve"},
		{name: "one depth, not said to spring", play: 35, ok: true, warn: true, want: "sprung aside"},
		{name: "one depth, springs", play: 35, aside: &yes, ok: true, warn: true, want: "sprung aside"},
		{name: "one depth, cannot spring", play: 60, aside: &no, want: "make v a true-union valve"},
		{name: "two depths", play: 69.85, aside: &no, ok: true, want: "play"},
		{name: "true-union valve", play: -1, ok: true, want: "union", change: func(s *sketch) {
			v := s.c.Part("v")
			v.Type = "true-union-ball-valve 1-1/2 in"
		}},
		{name: "hose", play: -1, ok: true, want: "flexible hose", change: func(s *sketch) {
			s.c.Runs[1].Spec = catalog.FlexInch
		}},
	} {
		s := cutIn(plainValve())
		if c.change != nil {
			c.change(s)
		}
		old := s.c.Runs[3]
		old.PlayMM, old.PushesAside = c.play, c.aside
		lay := Of(s.c)
		a := route.Assemble(lay)
		text := findings(a.Findings, graph.Error) + findings(a.Findings, graph.Warning)
		for _, l := range a.Loops {
			text += l.How + "\n"
		}
		if a.OK != c.ok || (findings(a.Findings, graph.Warning) != "") != c.warn || !strings.Contains(text, c.want) {
			t.Errorf("%s: OK %v, want %v; warning wanted: %v, %q wanted in:\n%s", c.name, a.OK, c.ok, c.warn, c.want, text)
		}
		checkOrder(t, c.name, lay, a)
	}
}

// A slip coupling closes the line if there is bare pipe as long as itself to park it on.
func TestSlipCoupling(t *testing.T) {
	for _, c := range []struct {
		pipe, old float64 // the legs on both sides of it
		ok        bool
	}{{300, 100, true}, {100, 300, true}, {100, 100, false}} {
		s := newSketch(catalog.PVCSch80, inch(1.5))
		s.part(graph.ElementHeater, "element").Existing = true
		s.part(graph.JetGroup, "jets").Existing = true
		s.part(graph.Tee, "t1")
		s.part(graph.SlipCoupling, "s1")
		s.part(graph.Cap, "c1")
		s.run("element.out", "t1.run-in", right(300)).RemainsOf = "line"
		s.run("t1.run-out", "s1.in", right(c.pipe))
		s.run("s1.out", "jets.in", right(c.old)).RemainsOf = "line"
		s.run("t1.branch", "c1.in", front(200))
		lay := Of(s.c)
		a := route.Assemble(lay)
		if a.OK != c.ok {
			t.Errorf("pipe %g: OK %v, want %v: %v", c.pipe, a.OK, c.ok, a.Findings)
		}
		if c.ok && a.Loops[0].How != "slip coupling" {
			t.Errorf("closed by %q", a.Loops[0].How)
		}
		checkOrder(t, "slip", lay, a)
	}
}

// A piece between two slip couplings on old ends that stand: no piece as long as its gap goes into a
// coupling that is glued already, so both are parked and slid in one step, whatever the order the
// joints were found in. Geometry, no source needed.
func TestTwoSlipCouplingsSlideTogether(t *testing.T) {
	s := newSketch(catalog.PVCSch80, inch(1.5))
	s.part(graph.ElementHeater, "element").Existing = true
	s.part(graph.JetGroup, "jets").Existing = true
	s.part(graph.SlipCoupling, "s1")
	s.part(graph.SlipCoupling, "s2")
	s.run("element.out", "s1.in", right(300)).RemainsOf = "line"
	s.run("s1.out", "s2.in", right(400))
	s.run("s2.out", "jets.in", right(300)).RemainsOf = "rest"
	lay := Of(s.c)
	a := route.Assemble(lay)
	if !a.OK || len(a.Steps) != 1 || len(a.Steps[0].Joints) != 4 {
		t.Fatalf("OK %v in %d steps, want all four joints in one: %+v", a.OK, len(a.Steps), a.Steps)
	}
	for _, want := range []string{"park slip coupling s1 and slip coupling s2", "joints 1 to 4", "closes the loop"} {
		if !strings.Contains(a.Steps[0].Text, want) {
			t.Errorf("the step does not say %q: %s", want, a.Steps[0].Text)
		}
	}
}

// checkOrder replays an order of assembly without looking at how it was found: things that
// are joined move as one; a plain joint needs two things that are not one yet.
func checkOrder(t *testing.T, name string, lay *route.Layout, a *route.Assembly) {
	t.Helper()
	seen := map[int]int{}
	for _, s := range a.Steps {
		for _, j := range s.Joints {
			seen[j] = s.Number
		}
	}
	for i, j := range lay.Joints {
		if j.Number != i+1 {
			t.Errorf("%s: joint %d stands at place %d", name, j.Number, i+1)
		}
		if seen[j.Number] != j.Step {
			t.Errorf("%s: joint %d says step %d, the steps say %d", name, j.Number, j.Step, seen[j.Number])
		}
		if a.OK && j.Step == 0 {
			t.Errorf("%s: joint %d has no step", name, j.Number)
		}
	}
	if !a.OK {
		return
	}
	may := map[int]int{} // step -> how many loops it may close
	for _, l := range a.Loops {
		may[lay.Joints[l.Closing-1].Step]++
	}
	body := map[string]string{}
	root := func(x string) string {
		for body[x] != "" {
			x = body[x]
		}
		return x
	}
	for _, s := range a.Steps {
		for _, j := range s.Joints {
			n := lay.Joints[j-1]
			x, y := root(n.BodyA), root(n.BodyB)
			if x == y {
				if may[s.Number]--; may[s.Number] < 0 {
					t.Errorf("%s: joint %d is made between things that are one already", name, j)
				}
				continue
			}
			body[y] = x
		}
	}
}

// The unit's unions are done up last.
func TestUnitLast(t *testing.T) {
	lay := Of(twoSpeedJob().c)
	noErrors(t, lay)
	a := route.Assemble(lay)
	if !a.OK {
		t.Fatalf("no order: %v", a.Findings)
	}
	checkOrder(t, "job", lay, a)
	last := lay.Joints[len(lay.Joints)-1]
	if last.Kind != "union" || a.Steps[len(a.Steps)-1].Phase != route.Unit {
		t.Errorf("the last joint is %+v, want a union at the unit", last)
	}
	order := []route.Phase{}
	for _, s := range a.Steps {
		if len(order) == 0 || order[len(order)-1] != s.Phase {
			order = append(order, s.Phase)
		}
	}
	for i := 1; i < len(order); i++ {
		if order[i] < order[i-1] {
			t.Errorf("phases out of order: %v", order)
		}
	}
	if order[0] != route.Bench {
		t.Errorf("the work begins with phase %v, want the bench", order[0])
	}
	for _, s := range a.Steps {
		t.Log(s.Number, s.Text)
	}
}

// twoSpeedJob is a unit fitted to a 2 in line with a spring check in the bypass; invented.
func twoSpeedJob() *sketch {
	s := newSketch(catalog.PVCSch40, inch(2))
	s.part(graph.ElementHeater, "element").Existing = true
	s.part(graph.JetGroup, "jets").Existing = true
	s.part(graph.Tee, "t1")
	s.part(graph.CheckValve, "bypass").Type = "spring-check 2 psi"
	s.part(graph.Tee, "t2")
	for _, v := range []string{"v1", "v2"} {
		s.part(graph.BallValve, v).Type = "true-union-ball-valve 2 in"
	}
	s.part(graph.Union, "u1")
	s.part(graph.Union, "u2")
	unit := s.part(graph.HeatPump, "unit")
	unit.Unit = &graph.UnitData{PortsSize: inch(2)}
	s.run("element.out", "t1.run-in", right(500)).RemainsOf = "line"
	s.run("t1.run-out", "bypass.in", right(110))
	s.run("bypass.out", "t2.run-in", right(110))
	s.run("t2.run-out", "jets.in", right(300), up(300)).RemainsOf = "line"
	s.run("t1.branch", "v1.in", front(120))
	s.run("v1.out", "u1.in", front(200), right(1500), down(200))
	s.run("u1.out", "unit.in", down(80))
	s.run("unit.out", "u2.in", up(80))
	s.run("u2.out", "v2.in", up(300), left(1200), up(150), back(120))
	s.run("v2.out", "t2.branch", back(120))
	return s
}

// Pipe is run from what stands outwards, run by run. Here a pipe of one bend leads to the unit, and four
// couplings and three bends back from it, so that by way of the unit it is fewer joints to the couplings
// beside it than from the tee; but that pipe hangs on nothing until the unit's nuts are done up.
func TestPipesAreRunFromTheOldPipeOutwards(t *testing.T) {
	s := twoSpeedJob()
	s.c.Runs = slices.DeleteFunc(s.c.Runs, func(r *graph.Run) bool { return r.From.String() == "v1.out" || r.From.String() == "u2.out" })
	for _, id := range []string{"k1", "k2", "k3", "k4"} {
		s.part(graph.Coupling, id)
	}
	s.run("v1.out", "u1.in", front(300), down(200))
	s.run("u2.out", "k1.in", up(300), left(300))
	s.run("k1.out", "k2.in", left(300))
	s.run("k2.out", "k3.in", left(300))
	s.run("k3.out", "k4.in", left(300))
	s.run("k4.out", "v2.in", left(300), up(150), back(120))
	lay := Of(s.c)
	noErrors(t, lay)
	a := route.Assemble(lay)
	if !a.OK {
		t.Fatalf("no order: %v", a.Findings)
	}
	checkOrder(t, "couplings", lay, a)
	outwards := []string{"k4.out>v2.in", "k3.out>k4.in", "k2.out>k3.in", "k1.out>k2.in", "u2.out>k1.in"}
	var got []string
	for _, j := range lay.Joints {
		if slices.Contains(outwards, j.Run) && !slices.Contains(got, j.Run) {
			got = append(got, j.Run)
		}
	}
	if !slices.Equal(got, outwards) {
		t.Errorf("runs are begun in the order %v, want %v", got, outwards)
	}
}

// A closed rectangle of plain pipe round four elbows between two tees of one line: two
// parallel legs can be entered at the same moment.
func TestGluedTogether(t *testing.T) {
	s := newSketch(catalog.PVCSch80, inch(1.5))
	s.part(graph.ElementHeater, "element").Existing = true
	s.part(graph.Tee, "t1")
	s.part(graph.Tee, "t2")
	s.part(graph.Cap, "c")
	s.run("element.out", "t1.run-in", right(300)).RemainsOf = "line"
	s.run("t1.run-out", "t2.run-in", right(400))
	s.run("t2.run-out", "c.in", right(200))
	s.run("t1.branch", "t2.branch", up(200), right(400), down(200))
	lay := Of(s.c)
	noErrors(t, lay)
	a := route.Assemble(lay)
	if !a.OK || !strings.Contains(findings(a.Findings, graph.Warning), "same moment") {
		t.Errorf("OK %v, findings %v; want a loop glued at the same moment", a.OK, a.Findings)
	}
	checkOrder(t, "together", lay, a)
}

// Tolerance of the worked cut-in with a true-union valve measured at 103.1: along the line
// two nipples, each cut ±1 and two take-offs of which those of the tees may be off by tol,
// the valve by nothing. Worst 2·1 + 2·tol, root of the sum of squares √(2 + 2·tol²);
// worked by hand.
func TestLoopTolerance(t *testing.T) {
	v := plainValve()
	v.Type = "true-union-ball-valve 1-1/2 in"
	s := cutIn(v)
	s.c.Catalog = s.c.Catalog.With([]catalog.Row{{Name: "tee mine", Kind: "tee", Spec: catalog.PVCSch80, Size: inch(1.5),
		TakeOffMM: teeHalf, BranchTakeOffMM: teeHalf, SocketMM: depth80, TolMinusMM: 0.5, TolPlusMM: 2, Source: "measured"}})
	lay := Of(s.c)
	tol := route.Tolerance(lay)
	if len(tol.Loops) != 1 {
		t.Fatalf("%d loops, want 1: %+v", len(tol.Loops), tol.Loops)
	}
	near(t, "worst", tol.Loops[0].WorstMM, 6, 1e-9)
	near(t, "root sum square", tol.Loops[0].RootSumSquareMM, 3.1622776601683795, 1e-9)
	if w := findings(tol.Findings, graph.Warning); !strings.Contains(w, "3 mm of play") {
		t.Errorf("findings %v, want a warning: 3.2 mm against a union's lip of 3 mm", tol.Findings)
	}
}

// The same with tees that may be off by 1: 4 at worst, more than the 3 mm a union gives, but
// √(2 + 2) = 2 as a rule. Nothing is said: a chain's errors seldom all lie one way.
func TestToleranceIsJudgedByTheRootOfSquares(t *testing.T) {
	v := plainValve()
	v.Type = "true-union-ball-valve 1-1/2 in"
	s := cutIn(v)
	s.c.Catalog = s.c.Catalog.With([]catalog.Row{{Name: "tee mine", Kind: "tee", Spec: catalog.PVCSch80, Size: inch(1.5),
		TakeOffMM: teeHalf, BranchTakeOffMM: teeHalf, SocketMM: depth80, TolPlusMM: 1, Source: "measured"}})
	lay := Of(s.c)
	tol := route.Tolerance(lay)
	if len(tol.Loops) != 1 {
		t.Fatalf("%d loops, want 1: %+v", len(tol.Loops), tol.Loops)
	}
	for _, p := range lay.Pieces {
		if p.OverMM != 0 {
			t.Errorf("piece %d is left %.0f mm over length", p.Number, p.OverMM)
		}
	}
	near(t, "worst", tol.Loops[0].WorstMM, 4, 1e-9)
	near(t, "root sum square", tol.Loops[0].RootSumSquareMM, 2, 1e-9)
	if len(tol.Findings) != 0 {
		t.Errorf("said: %v", tol.Findings)
	}
}

// A loop closed by a union in a line that runs right, with a way round it that goes front,
// right and back: what the pieces across that line are off by moves its ends sideways and does
// not count. Along it lie three pieces of ±1 and the six ends of theirs: two tees of 0.5, two
// elbows of 0.25, the union's nothing. 3 + 1 + 0.5 at worst, √(3 + 0.5 + 0.125) as a rule.
// Worked by hand; the tolerances are invented.
func TestToleranceAlongTheClosingLine(t *testing.T) {
	s := newSketch(catalog.PVCSch80, inch(1.5))
	s.c.Catalog = s.c.Catalog.With([]catalog.Row{
		{Name: "tee mine", Kind: "tee", Spec: catalog.PVCSch80, Size: inch(1.5), TakeOffMM: teeHalf, SocketMM: depth80, TolPlusMM: 0.5, Source: "measured"},
		{Name: "elbow mine", Kind: "elbow-90", Spec: catalog.PVCSch80, Size: inch(1.5), TakeOffMM: teeHalf, SocketMM: depth80, TolPlusMM: 0.25, Source: "measured"},
		{Name: "union mine", Kind: "union", Spec: catalog.PVCSch80, Size: inch(1.5), LengthMM: 60, SocketMM: depth80, Ends: "socket", Source: "measured"},
	})
	s.part(graph.Tee, "t1")
	s.part(graph.Tee, "t2")
	s.part(graph.Union, "u").LengthMM = 60
	s.part(graph.Cap, "c1")
	s.part(graph.Cap, "c2")
	s.run("c1.in", "t1.run-in", right(200))
	s.run("t1.run-out", "u.in", right(300))
	s.run("u.out", "t2.run-in", right(300))
	s.run("t2.run-out", "c2.in", right(200))
	s.run("t1.branch", "t2.branch", front(250), right(660), back(250))
	tol := route.Tolerance(Of(s.c))
	if len(tol.Loops) != 1 {
		t.Fatalf("%d loops, want 1: %+v", len(tol.Loops), tol.Loops)
	}
	near(t, "worst", tol.Loops[0].WorstMM, 4.5, 1e-9)
	near(t, "root sum square", tol.Loops[0].RootSumSquareMM, math.Sqrt(3.625), 1e-9)
}
