package stream

import (
	"fmt"
	"math/rand"
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
)

// circuit builds a circuit from "a:kind" parts and "a.out>b.in" runs.
func circuit(t testing.TB, text string) *graph.Circuit {
	t.Helper()
	c := &graph.Circuit{File: "test"}
	for i, word := range strings.Fields(text) {
		pos := graph.Pos{File: "test", Line: i + 1, Column: 1}
		if from, to, ok := strings.Cut(word, ">"); ok {
			a, ap, okA := strings.Cut(from, ".")
			b, bp, okB := strings.Cut(to, ".")
			if !okA || !okB {
				t.Fatalf("bad run %q", word)
			}
			c.Runs = append(c.Runs, &graph.Run{ID: word, From: graph.PortRef{Part: a, Port: ap}, To: graph.PortRef{Part: b, Port: bp}, Pos: pos})
			continue
		}
		id, kind, ok := strings.Cut(word, ":")
		if !ok {
			t.Fatalf("bad part %q", word)
		}
		p := &graph.Part{ID: id, Kind: graph.Kind(kind), Pos: pos}
		if p.Kind == graph.Pump {
			p.Pump = &graph.PumpData{}
		}
		c.Parts = append(c.Parts, p)
	}
	return c
}

// withBypass is a two-suction tub with a filter, an element, a unit in a branch and jets;
// some runs are written against the water, and a drain hangs on the branch.
const withBypass = `tub:tub t1:tee pump:pump filter:filter element:element-heater
	teein:tee teeout:tee spring:check-valve v1:ball-valve v2:ball-valve unit:heat-pump
	dt:tee drain:drain-valve jets:jet-group blower:blower acheck:check-valve
	tub.skimmer>t1.run-in t1.branch>tub.footwell t1.run-out>pump.in pump.out>filter.in filter.out>element.in
	element.out>teein.run-in spring.in>teein.run-out spring.out>teeout.run-in teein.branch>v1.in
	unit.in>v1.out unit.out>v2.in v2.out>dt.run-in dt.branch>drain.in dt.run-out>teeout.branch
	teeout.run-out>jets.in jets.out>tub.return blower.in>acheck.in acheck.out>jets.air`

func TestWayOfTheWater(t *testing.T) {
	n := NewNet(circuit(t, withBypass))
	against := map[string]bool{"t1.branch>tub.footwell": true, "spring.in>teein.run-out": true, "unit.in>v1.out": true}
	still := map[string]bool{"dt.branch>drain.in": true, "blower.in>acheck.in": true, "acheck.out>jets.air": true}
	for _, r := range n.Circuit.Runs {
		if got := n.Against(r); got != against[r.ID] {
			t.Errorf("%s: against %v, want %v", r.ID, got, against[r.ID])
		}
		if got := n.Flows(r); got == still[r.ID] {
			t.Errorf("%s: flows %v, want %v", r.ID, got, !still[r.ID])
		}
	}
	if len(n.AirJoins()) != 0 {
		t.Errorf("air joins %v, want none", n.AirJoins())
	}
	if !n.IsAir(n.Joined("jets", "air")) || n.IsAir(n.Joined("jets", "in")) {
		t.Error("the jets' air line is air, their water line is not")
	}
	dead := n.DeadEnds()
	if len(dead) != 1 || dead[0].From.ID != "dt" || !dead[0].Closed {
		t.Errorf("dead ends %+v, want the drain's alone, closed", dead)
	}
	if s, j := n.ShortCircuits(), n.PumpJoins(); len(s)+len(j) != 0 {
		t.Errorf("short circuits %v, pump joins %v, want none", s, j)
	}
}

func ids(parts []*graph.Part) string {
	var out []string
	for _, p := range parts {
		out = append(out, p.ID)
	}
	return strings.Join(out, " ")
}

// The water of one run flows through all others up to the next place where it is joined or parted, or to the tub;
// air that is let into it is no water.
func TestAlong(t *testing.T) {
	n := NewNet(circuit(t, withBypass))
	for _, line := range []string{
		"tub.skimmer>t1.run-in", "t1.branch>tub.footwell",
		"t1.run-out>pump.in pump.out>filter.in filter.out>element.in element.out>teein.run-in",
		"spring.in>teein.run-out spring.out>teeout.run-in", "teein.branch>v1.in unit.in>v1.out unit.out>v2.in v2.out>dt.run-in",
		"teeout.run-out>jets.in jets.out>tub.return",
	} {
		ids := strings.Fields(line)
		for _, id := range ids {
			got := n.Along(n.Run(id))
			for _, r := range n.Circuit.Runs {
				if got[r.ID] != slices.Contains(ids, r.ID) {
					t.Errorf("along %s: %s %v", id, r.ID, got[r.ID])
				}
			}
		}
	}
}

func TestUnitBranch(t *testing.T) {
	b, problem := NewNet(circuit(t, withBypass)).TheBranch()
	if problem != "" {
		t.Fatal(problem)
	}
	got := fmt.Sprintf("%s > %s | %s | %s | %s | %s", b.TeeIn.ID, b.TeeOut.ID, ids(b.BypassParts), ids(b.ToUnitParts), ids(b.FromUnitParts), ids(b.StubParts))
	if want := "teein > teeout | spring | v1 | v2 dt | drain"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	if got, want := ids(b.Line.Parts), "tub t1 pump filter element teein spring teeout jets tub"; got != want {
		t.Errorf("main line %s, want %s", got, want)
	}
	if b.Element().ID != "spring" || b.Pump.ID != "pump" {
		t.Errorf("element %s, pump %s", b.Element().ID, b.Pump.ID)
	}
}

func TestUnitBranchForms(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"two units in parallel share the bypass", `tub:tub p:pump a:tee b:tee s:tee m:tee v:ball-valve u1:heat-pump u2:heat-pump
			tub.s>p.in p.out>a.run-in a.run-out>v.in v.out>b.run-in a.branch>s.run-in s.run-out>u1.in s.branch>u2.in
			u1.out>m.run-in u2.out>m.branch m.run-out>b.branch b.run-out>tub.r`, "a b v"},
		{"two units in series, each with its own", `tub:tub p:pump a:tee b:tee v:ball-valve u1:heat-pump c:tee d:tee w:ball-valve u2:heat-pump
			tub.s>p.in p.out>a.run-in a.run-out>v.in v.out>b.run-in a.branch>u1.in u1.out>b.branch
			b.run-out>c.run-in c.run-out>w.in w.out>d.run-in c.branch>u2.in u2.out>d.branch d.run-out>tub.r`, "a b v"},
		{"bypass of bare pipe", `tub:tub p:pump a:tee b:tee u1:heat-pump
			tub.s>p.in p.out>a.run-in a.run-out>b.run-in a.branch>u1.in u1.out>b.branch b.run-out>tub.r`, "a b "},
		{"none", `tub:tub p:pump u1:heat-pump tub.s>p.in p.out>u1.in u1.out>tub.r`, "u1 has no bypass: all the water that passes the pump has to pass it"},
		{"a way past the unit to the tub is no bypass", `tub:tub p:pump a:tee u1:heat-pump
			tub.s>p.in p.out>a.run-in a.branch>u1.in u1.out>tub.r a.run-out>tub.q`, "u1 has no bypass: all the water that passes the pump has to pass it"},
		{"unit not joined", `tub:tub p:pump u1:heat-pump tub.s>p.in p.out>tub.r`, "no water comes to u1"},
		{"bypass with two parts in parallel", `tub:tub p:pump a:tee b:tee c:tee d:tee k:check-valve v:ball-valve u1:heat-pump
			tub.s>p.in p.out>a.run-in a.branch>u1.in u1.out>b.branch a.run-out>c.run-in c.run-out>k.in c.branch>v.in
			k.out>d.run-in v.out>d.branch d.run-out>b.run-in b.run-out>tub.r`, "a b c k v d"},
	} {
		t.Run(c.name, func(t *testing.T) {
			b, problem := NewNet(circuit(t, c.text)).TheBranch()
			got := problem
			if problem == "" {
				got = b.TeeIn.ID + " " + b.TeeOut.ID + " " + ids(b.BypassParts)
			}
			if got != c.want {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
}

func TestCheckAgainstTheWaterIsSeen(t *testing.T) {
	turned := strings.Replace(strings.Replace(withBypass, "spring.in>teein.run-out", "spring.out>teein.run-out", 1),
		"spring.out>teeout.run-in", "spring.in>teeout.run-in", 1)
	n := NewNet(circuit(t, turned))
	if port, _ := n.Inlet(n.Part("spring")); port != graph.Out {
		t.Errorf("water comes to the turned check by %q, want %q", port, graph.Out)
	}
}

// In a bridge between two parallel lines either way is possible: the check's arrow decides,
// and without one the way the runs are written.
func TestBridge(t *testing.T) {
	const bridge = `tub:tub p:pump a:tee b:tee c:tee d:tee k:%s
		tub.s>p.in p.out>a.run-in a.run-out>b.run-in a.branch>c.run-in b.run-out>d.run-in c.run-out>d.branch d.run-out>tub.r %s`
	for _, kind := range []string{"check-valve", "coupling"} {
		for _, runs := range []string{"b.branch>k.in k.out>c.branch", "c.branch>k.in k.out>b.branch", "k.out>c.branch k.in>b.branch", "b.branch>k.out k.in>c.branch"} {
			n := NewNet(circuit(t, fmt.Sprintf(bridge, kind, runs)))
			if port, _ := n.Inlet(n.Part("k")); port != graph.In {
				t.Errorf("%s %s: comes in by %q, want %q", kind, runs, port, graph.In)
			}
		}
	}
	for _, runs := range []string{"b.branch>c.branch", "c.branch>b.branch"} {
		text := strings.Replace(fmt.Sprintf(bridge, "cap", ""), "tub.s>", runs+" tub.s>", 1)
		if n := NewNet(circuit(t, text)); n.Against(n.Run(runs)) {
			t.Errorf("%s: against the way written", runs)
		}
	}
}

func TestTroubles(t *testing.T) {
	n := NewNet(circuit(t, `tub:tub p:pump q:pump a:tee b:tee c:tee v:check-valve w:ball-valve x:cap
		tub.s>a.run-in a.run-out>p.in p.out>b.run-in b.run-out>v.in v.out>a.branch b.branch>c.run-in
		c.run-out>q.in q.out>tub.r c.branch>w.in w.out>x.in`))
	s := n.ShortCircuits()
	if len(s) != 1 || s[0].Pump.ID != "p" || len(s[0].Runs) != 4 {
		t.Errorf("short circuits %+v, want one round p of four runs", s)
	}
	j := n.PumpJoins()
	if len(j) == 0 || j[0].A.ID != "p" || j[0].B.ID != "q" || j[0].How != "series" {
		t.Errorf("pump joins %+v, want p feeding q first", j)
	}
	blocked := NewNet(circuit(t, `tub:tub p:pump a:tee b:tee v:check-valve
		tub.s>a.run-in a.run-out>p.in p.out>b.run-in b.branch>v.out v.in>a.branch b.run-out>tub.r`))
	if s := blocked.ShortCircuits(); len(s) != 0 {
		t.Errorf("short circuits %+v through a check against its arrow, want none", s)
	}
	teed := NewNet(circuit(t, `tub:tub p:pump q:pump a:tee tub.s>a.run-in a.run-out>p.in a.branch>q.in p.out>tub.r q.out>tub.r2`))
	if j := teed.PumpJoins(); len(j) != 1 || j[0].How != "suction" {
		t.Errorf("pump joins %+v, want one at the suction", j)
	}
}

func TestAirJoinsWater(t *testing.T) {
	n := NewNet(circuit(t, `tub:tub p:pump a:tee blower:blower
		tub.s>p.in p.out>a.run-in a.run-out>tub.r blower.in>a.branch`))
	j := n.AirJoins()
	if len(j) != 1 || j[0].Air.Part != "blower" || j[0].Water.Part != "p" {
		t.Errorf("air joins %+v, want the blower's with the pump's line", j)
	}
	if !n.Flows(n.Run("p.out>a.run-in")) {
		t.Error("a line joined by air is still water")
	}
}

func TestHeaterPump(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"reaches the element", `tub:tub jet:pump circ:pump e:element-heater tub.a>jet.in jet.out>tub.b tub.c>circ.in circ.out>e.in e.out>tub.d`, "circ"},
		{"the only one", `tub:tub p:pump tub.a>p.in p.out>tub.b`, "p"},
		{"none", `tub:tub`, ""},
	} {
		got := NewNet(circuit(t, c.text)).HeaterPump()
		if (got == nil) != (c.want == "") || (got != nil && got.ID != c.want) {
			t.Errorf("%s: got %v, want %q", c.name, got, c.want)
		}
	}
	c := circuit(t, `tub:tub a:pump b:pump tub.1>a.in a.out>tub.2 tub.3>b.in b.out>tub.4`)
	c.Parts[1].Pump.Speeds = []graph.Speed{{Name: "on", Curve: []graph.CurvePoint{{Flow: 0.008}}}}
	c.Parts[2].Pump.Speeds = []graph.Speed{{Name: "on", Curve: []graph.CurvePoint{{Flow: 0.001}}}}
	if got := NewNet(c).HeaterPump().ID; got != "b" {
		t.Errorf("smallest: got %s, want b", got)
	}
	c.Parts[1].Pump.Speeds = append(c.Parts[1].Pump.Speeds, graph.Speed{Name: "high"})
	if got := NewNet(c).HeaterPump().ID; got != "a" {
		t.Errorf("several speeds: got %s, want a", got)
	}
	c.Parts[2].Pump.AlwaysOn = true
	if got := NewNet(c).HeaterPump().ID; got != "b" {
		t.Errorf("always on: got %s, want b", got)
	}
}

// randomCircuit joins manifolds at random between a pump and the tub.
func randomCircuit(rng *rand.Rand, nodes, runs int) *graph.Circuit {
	c := &graph.Circuit{Parts: []*graph.Part{{ID: "tub", Kind: graph.Tub}, {ID: "p", Kind: graph.Pump}}}
	run := func(a, ap, b, bp string) {
		c.Runs = append(c.Runs, &graph.Run{ID: fmt.Sprintf("r%d", len(c.Runs)), From: graph.PortRef{Part: a, Port: ap}, To: graph.PortRef{Part: b, Port: bp}})
	}
	run("tub", "s", "p", graph.In)
	for i := range nodes {
		c.Parts = append(c.Parts, &graph.Part{ID: fmt.Sprintf("m%d", i), Kind: graph.Manifold})
	}
	run("p", graph.Out, "m0", "a")
	run(fmt.Sprintf("m%d", nodes-1), "z", "tub", "r")
	for i := range runs {
		run(fmt.Sprintf("m%d", rng.Intn(nodes)), fmt.Sprintf("x%d", i), fmt.Sprintf("m%d", rng.Intn(nodes)), fmt.Sprintf("y%d", i))
	}
	return c
}

// onSimplePath reports by trying all of them whether a path without repeats from the pump to
// the tub's return passes the run.
func onSimplePath(n *Net, run *graph.Run) bool {
	seen := map[string]bool{}
	var try func(at string, used bool) bool
	try = func(at string, used bool) bool {
		if at == "tub" {
			return used
		}
		seen[at] = true
		defer delete(seen, at)
		for _, r := range n.At(n.Part(at)) {
			next := r.From.Part
			if next == at {
				next = r.To.Part
			}
			if next == "p" || next == at || seen[next] || (at == "p" && r.ID == "r0") {
				continue
			}
			if try(next, used || r == run) {
				return true
			}
		}
		return false
	}
	return try("p", false)
}

// The way of the water against its definition: a run flows if and only if it lies on a
// simple path, water comes to and leaves every part it touches, and no loop arises.
func TestOrientProperty(t *testing.T) {
	rng := rand.New(rand.NewSource(1))
	for trial := range 400 {
		nodes := 2 + rng.Intn(6)
		n := NewNet(randomCircuit(rng, nodes, rng.Intn(11)))
		for _, r := range n.Circuit.Runs[1:] {
			if got, want := n.Flows(r), onSimplePath(n, r); got != want {
				t.Fatalf("trial %d: %s %s>%s flows %v, want %v", trial, r.ID, r.From, r.To, got, want)
			}
		}
		checkWays(t, n)
	}
}

// Larger circuits have many runs that can go either way, so that turning one after another
// has to keep the order right.
func TestTurnedChainsMakeNoLoop(t *testing.T) {
	rng := rand.New(rand.NewSource(3))
	plain, all := 0, 0
	for range 200 {
		nodes := 10 + rng.Intn(30)
		n := NewNet(randomCircuit(rng, nodes, 3*nodes))
		checkWays(t, n)
		for _, r := range n.Circuit.Runs {
			if n.Flows(r) {
				all++
				if !n.Against(r) {
					plain++
				}
			}
		}
	}
	if plain*2 <= all { // what chance gives
		t.Errorf("%d of %d runs go as written, no more than by chance", plain, all)
	}
}

func checkWays(t *testing.T, n *Net) {
	t.Helper()
	left := map[string]int{}
	var ready []*graph.Part
	for _, p := range n.Circuit.Parts {
		if p.Kind == graph.Tub || p.Kind == graph.Pump {
			continue
		}
		in, out := len(n.Coming(p)), len(n.Leaving(p))
		if (in == 0) != (out == 0) {
			t.Fatalf("%s: %d runs in, %d out", p.ID, in, out)
		}
		left[p.ID] = in
		for _, r := range n.Coming(p) {
			if from, _ := n.Ends(r); from.Part == "p" {
				left[p.ID]--
			}
		}
		if in > 0 && left[p.ID] == 0 {
			ready = append(ready, p)
		}
	}
	sorted := 0
	for ; len(ready) > 0; sorted++ {
		p := ready[0]
		ready = ready[1:]
		for _, r := range n.Leaving(p) {
			_, to := n.Ends(r)
			if to.Part == "tub" {
				continue
			}
			if left[to.Part]--; left[to.Part] == 0 {
				ready = append(ready, n.Part(to.Part))
			}
		}
	}
	for id, k := range left {
		if k > 0 {
			t.Fatalf("a loop that does not pass the pump at %s", id)
		}
	}
}

func TestNetIsTheSameInAnyOrder(t *testing.T) {
	c := circuit(t, withBypass)
	want, _ := NewNet(c).TheBranch()
	rng := rand.New(rand.NewSource(2))
	for range 20 {
		rng.Shuffle(len(c.Runs), func(i, j int) { c.Runs[i], c.Runs[j] = c.Runs[j], c.Runs[i] })
		rng.Shuffle(len(c.Parts), func(i, j int) { c.Parts[i], c.Parts[j] = c.Parts[j], c.Parts[i] })
		got, problem := NewNet(c).TheBranch()
		if problem != "" || got.TeeIn != want.TeeIn || got.TeeOut != want.TeeOut || ids(got.Line.Parts) != ids(want.Line.Parts) {
			t.Fatalf("order changed the branch: %s", problem)
		}
	}
}

func TestAnyCircuitHasANet(t *testing.T) {
	for _, text := range []string{"", "tub:tub", "a:pump a.in>a.out", "a.out>b.in", "p:pump q:pump p.out>q.in q.out>p.in",
		"m:manifold m.a>m.b", "u:heat-pump u.in>u.out", "tub:tub p:pump tub.a>p.out p.in>tub.b"} {
		c := circuit(t, text)
		n := NewNet(c)
		for _, p := range c.Pumps() {
			n.MainLine(p)
		}
		n.DeadEnds()
		for _, p := range c.Parts {
			if up := n.Upstream(p); slices.ContainsFunc(up.Parts, func(q *graph.Part) bool { return q == nil }) {
				t.Errorf("%q: a part that is not there", text)
			}
		}
		if b, problem := NewNet(c).TheBranch(); b == nil && problem == "" {
			t.Errorf("%q: neither a branch nor a reason", text)
		}
	}
}

// bigCircuit is a chain of n loops, each a pair of parallel lines with a bridge, which is
// written one way or the other.
func bigCircuit(n int, turned bool) *graph.Circuit {
	c := &graph.Circuit{Parts: []*graph.Part{{ID: "tub", Kind: graph.Tub}, {ID: "p", Kind: graph.Pump}}}
	run := func(a, b string) {
		i := len(c.Runs)
		c.Runs = append(c.Runs, &graph.Run{ID: fmt.Sprintf("r%d", i), From: graph.PortRef{Part: a, Port: fmt.Sprint("o", i)}, To: graph.PortRef{Part: b, Port: fmt.Sprint("i", i)}})
	}
	c.Runs = append(c.Runs, &graph.Run{ID: "s", From: graph.PortRef{Part: "tub", Port: "s"}, To: graph.PortRef{Part: "p", Port: graph.In}})
	last := "first"
	c.Parts = append(c.Parts, &graph.Part{ID: last, Kind: graph.Manifold})
	c.Runs = append(c.Runs, &graph.Run{ID: "d", From: graph.PortRef{Part: "p", Port: graph.Out}, To: graph.PortRef{Part: last, Port: "x"}})
	for i := range n {
		a, b, e := fmt.Sprint("a", i), fmt.Sprint("b", i), fmt.Sprint("e", i)
		for _, id := range []string{a, b, e} {
			c.Parts = append(c.Parts, &graph.Part{ID: id, Kind: graph.Manifold})
		}
		run(last, a)
		run(last, b)
		if turned {
			run(a, b)
		} else {
			run(b, a)
		}
		run(a, e)
		run(b, e)
		last = e
	}
	c.Runs = append(c.Runs, &graph.Run{ID: "z", From: graph.PortRef{Part: last, Port: "z"}, To: graph.PortRef{Part: "tub", Port: "r"}})
	return c
}

func BenchmarkNet5000(b *testing.B) {
	for _, turned := range []bool{false, true} {
		b.Run(fmt.Sprintf("turned=%v", turned), func(b *testing.B) {
			c := bigCircuit(1666, turned)
			b.ReportAllocs()
			for b.Loop() {
				n := NewNet(c)
				n.MainLine(n.HeaterPump())
			}
		})
	}
}
