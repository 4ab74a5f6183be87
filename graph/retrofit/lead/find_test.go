package lead

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"dryfit/graph"
)

// job is a pair as a tub has it: two tees of 2 in pipe 420 mm apart, the unit 2 m to the right
// of them and lower, its ports one above the other and looking to the left. Lengths are those
// of 1 1/2 in parts, rounded; common practice, no source.
func job() Problem {
	elbow := Stop{TakeOffMM: 30, DepthMM: 28}
	pipe := Pipe{Tee: Stop{TakeOffMM: 36, DepthMM: 28}, Elbow: elbow, Port: Stop{DepthMM: 28},
		Isolator: Item{LengthMM: 103, DepthMM: 35, RadiusMM: 45}, Union: Item{LengthMM: 60, DepthMM: 35, RadiusMM: 42}, RadiusMM: 32, StraightMM: 400}
	p := Problem{To: pipe, From: pipe, ClipMM: 90, SelfMM: 70, Ways: []graph.Vec{{Y: -1}, {Z: 1}, {Z: -1}, {Y: 1}}}
	p.To.End, p.To.Face = graph.Vec{X: 2400, Y: -500, Z: -350}, graph.Vec{X: -1}
	p.From.Start, p.From.End, p.From.Face, p.From.Back = graph.Vec{X: 420}, graph.Vec{X: 2400, Y: -500, Z: -130}, graph.Vec{X: -1}, true
	p.Boxes = []Box{{Low: graph.Vec{X: -200, Y: -35, Z: -35}, High: graph.Vec{X: 900, Y: 35, Z: 35}, Name: "the line", Near: Line},
		{Low: graph.Vec{X: 2400, Y: -900, Z: -600}, High: graph.Vec{X: 2800, Y: -100, Z: 400}, Name: "the unit", Near: Unit}}
	return p
}

// ends follows legs from a start.
func ends(start graph.Vec, legs []graph.Vec) graph.Vec {
	for _, l := range legs {
		start = start.Add(l)
	}
	return start
}

func TestEndsExactly(t *testing.T) {
	p := job()
	p.To.Start.X, p.From.End.Z = 0.12345678, -130.00000123 // not whole micrometres
	pair, _ := Find(p)
	if pair == nil {
		t.Fatal("no pair")
	}
	if d := ends(p.To.Start, pair.To).Sub(p.To.End).Len(); d > 1e-9 {
		t.Errorf("the pipe to the unit misses its inlet by %g mm", d)
	}
	if d := ends(p.From.Start, pair.From).Sub(p.From.End).Len(); d > 1e-9 {
		t.Errorf("the pipe from the unit misses its outlet by %g mm", d)
	}
	if !pair.Proved {
		t.Error("an open way is not proved to be the best")
	}
}

// A check against a feeder lets the water go up through it, never down: of two pipes straight
// from tee to port the one in which the water rises holds it, the one in which it falls can't be
// straight. The way of the water is against that in which a pipe from the unit is
// walked. Swing checks lie flat or stand with the water going up: valve makers' sheets agree.
func TestCheckWhereTheWaterRises(t *testing.T) {
	for _, c := range []struct {
		name   string
		face   graph.Vec // of the unit's ports, which look at the tees
		back   bool      // the check is in the pipe from the unit
		upward bool      // the water goes up where the pipe is straight
	}{
		{"from a unit below", graph.Vec{Z: 1}, true, true},
		{"from a unit above", graph.Vec{Z: -1}, true, false},
		{"to a unit below", graph.Vec{Z: 1}, false, false},
		{"to a unit above", graph.Vec{Z: -1}, false, true},
	} {
		p := job()
		p.Boxes, p.Ways = nil, []graph.Vec{c.face.Scale(-1)}
		p.To.End, p.From.End = c.face.Scale(-900), graph.Vec{X: 420}.Add(c.face.Scale(-900))
		p.To.Face, p.From.Face = c.face, c.face
		with := &p.To
		if c.back {
			with = &p.From
		}
		item := with.Isolator
		with.Check = &item
		var legs []graph.Vec
		if pair, _ := Find(p); pair != nil && c.back {
			legs = pair.From
		} else if pair != nil {
			legs = pair.To
		}
		if straight := len(legs) == 1; straight != c.upward {
			t.Errorf("%s: the pipe with the check is %v", c.name, legs)
		}
	}
}

// A door in the way moves the pipes aside, and names itself.
func TestRoundABox(t *testing.T) {
	p := job()
	free, _ := Find(p)
	p.Boxes = append(p.Boxes, Box{Low: graph.Vec{X: 1000, Y: -700, Z: -500}, High: graph.Vec{X: 1100, Y: 300, Z: 100}, Name: "the door"})
	round, met := Find(p)
	if free == nil || round == nil {
		t.Fatal("no pair")
	}
	if !slices.Contains(met, "the door") || round.Cost.Compare(free.Cost) <= 0 {
		t.Errorf("the door is not gone round: %v, %+v after %+v", met, round.Cost, free.Cost)
	}
	for _, legs := range [][]graph.Vec{append([]graph.Vec{p.To.Start}, round.To...), append([]graph.Vec{p.From.Start}, round.From...)} {
		at := legs[0]
		for _, l := range legs[1:] {
			b := &block{low: toPoint(graph.Vec{X: 1000, Y: -700, Z: -500}), high: toPoint(graph.Vec{X: 1100, Y: 300, Z: 100})}
			if b.hits(toPoint(at), toPoint(at.Add(l)), um(32)) {
				t.Errorf("a leg %v from %v runs into the door", l, at)
			}
			at = at.Add(l)
		}
	}
}

// Walled in, there is no pair, and the walls are named.
func TestNoWay(t *testing.T) {
	p := job()
	p.Boxes = append(p.Boxes, []Box{
		{Low: graph.Vec{X: 2000, Y: -2000, Z: -2000}, High: graph.Vec{X: 2010, Y: 2000, Z: 2000}, Name: "front wall"},
		{Low: graph.Vec{X: -3000, Y: -2010, Z: -2000}, High: graph.Vec{X: 4000, Y: -2000, Z: 2000}, Name: "wall"},
		{Low: graph.Vec{X: -3000, Y: 2000, Z: -2000}, High: graph.Vec{X: 4000, Y: 2010, Z: 2000}, Name: "wall"},
		{Low: graph.Vec{X: -3000, Y: -2000, Z: 2000}, High: graph.Vec{X: 4000, Y: 2000, Z: 2010}, Name: "wall"},
		{Low: graph.Vec{X: -3000, Y: -2000, Z: -2010}, High: graph.Vec{X: 4000, Y: 2000, Z: -2000}, Name: "wall"},
		{Low: graph.Vec{X: -3010, Y: -2000, Z: -2000}, High: graph.Vec{X: -3000, Y: 2000, Z: 2000}, Name: "wall"},
	}...)
	pair, met := Find(p)
	if pair != nil {
		t.Fatalf("a pair through a wall: %v", pair)
	}
	if !slices.Contains(met, "front wall") {
		t.Errorf("the wall between is not named: %v", met)
	}
}

// What both follow first is the beginning of both.
func TestAlong(t *testing.T) {
	p := job()
	along := []graph.Vec{{Y: -260}, {Z: -700}}
	p.To.Along, p.From.Along = along, along
	pair, _ := Find(p)
	if pair == nil {
		t.Fatal("no pair")
	}
	for name, legs := range map[string][]graph.Vec{"to": pair.To, "from": pair.From} {
		if legs[0] != along[0] || legs[1].Z > -700 || legs[1].X != 0 || legs[1].Y != 0 {
			t.Errorf("%s does not begin as asked: %v", name, legs)
		}
	}
}

// One pipe written, the other is found beside it.
func TestOneWritten(t *testing.T) {
	p := job()
	p.To.Legs = []graph.Vec{{Y: -500}, {Z: -350}, {X: 2400}}
	pair, _ := Find(p)
	if pair == nil {
		t.Fatal("no pair")
	}
	if d := cmp.Diff(p.To.Legs, pair.To); d != "" {
		t.Errorf("the pipe written is not kept: %s", d)
	}
	if ends(p.From.Start, pair.From).Sub(p.From.End).Len() > 1e-9 {
		t.Error("the other misses its port")
	}
}

// Pipes in one lane lie side by side: with both ports in the line of both tees one has to
// go round the other, and nowhere do they come nearer than clip distance.
func TestSideBySide(t *testing.T) {
	p := job()
	p.To.End.Z, p.From.End.Z = -130, -350 // the pipe down to the outlet crosses the one to the inlet
	pair, _ := Find(p)
	if pair == nil {
		t.Fatal("no pair")
	}
	least := 1e9
	a := p.To.Start
	for _, l := range pair.To {
		b := p.From.Start
		for _, m := range pair.From {
			for d := 1.0; d < 400; d++ {
				if nearer(toPoint(a), toPoint(a.Add(l)), toPoint(b), toPoint(b.Add(m)), um(d)) {
					least = min(least, d)
					break
				}
			}
			b = b.Add(m)
		}
		a = a.Add(l)
	}
	if least < 90 {
		t.Errorf("the pipes come as near as %g mm: %v / %v", least, pair.To, pair.From)
	}
}

func TestSameEveryTime(t *testing.T) {
	first, _ := Find(job())
	for range 3 {
		again, _ := Find(job())
		if d := cmp.Diff(first, again); d != "" {
			t.Fatal(d)
		}
	}
}

// crowd is a job among very many bodies: 1,500, as a circuit of 500 runs has.
func crowd() Problem {
	p := job()
	for i := range 1500 {
		x, y, z := float64(i%15)*300-1500, float64(i/15%10)*160+60, float64(i/150)*160-900
		p.Boxes = append(p.Boxes, Box{Low: graph.Vec{X: x, Y: y, Z: z}, High: graph.Vec{X: x + 250, Y: y + 60, Z: z + 60}, Name: "old pipe"})
	}
	for i := range 9 { // some of them in the way
		x := 900 + float64(i)*110
		p.Boxes = append(p.Boxes, Box{Low: graph.Vec{X: x, Y: -560 + float64(i%5)*60, Z: -380}, High: graph.Vec{X: x + 60, Y: -520 + float64(i%5)*60, Z: -320}, Name: "old pipe"})
	}
	return p
}

func BenchmarkCrowd(b *testing.B) {
	p := crowd()
	for range b.N {
		if pair, _ := Find(p); pair == nil {
			b.Fatal("no pair")
		}
	}
}

func BenchmarkJob(b *testing.B) {
	p := job()
	for range b.N {
		if pair, _ := Find(p); pair == nil {
			b.Fatal("no pair")
		}
	}
}

// A pair that can't be had is not given again; what comes instead costs no less, ends at the
// same ports, and is the same whatever order the pairs were refused in.
func TestRefused(t *testing.T) {
	p := job()
	best, _ := Find(p)
	if best == nil {
		t.Fatal("no pair")
	}
	seen := []*Pair{best}
	for range 4 {
		last := seen[len(seen)-1]
		p.Refused = append(p.Refused, Refused{To: last.To, From: last.From})
		next, _ := Find(p)
		if next == nil {
			t.Fatal("there is no other pair")
		}
		if next.Cost.Compare(last.Cost) < 0 {
			t.Errorf("a better pair comes second: %+v after %+v", next.Cost, last.Cost)
		}
		for _, old := range seen {
			if cmp.Equal(old.To, next.To) && cmp.Equal(old.From, next.From) {
				t.Errorf("given again: %v and %v", next.To, next.From)
			}
		}
		if d := ends(p.To.Start, next.To).Sub(p.To.End).Len() + ends(p.From.Start, next.From).Sub(p.From.End).Len(); d > 1e-9 {
			t.Errorf("misses the ports by %g mm", d)
		}
		seen = append(seen, next)
	}
	p.Refused = []Refused{{To: best.To}}
	other, _ := Find(p)
	if other == nil || cmp.Equal(other.To, best.To) {
		t.Errorf("the pipe to the unit is there again: %v", other)
	}
	p.Refused = []Refused{{From: best.From}}
	if other, _ = Find(p); other == nil || cmp.Equal(other.From, best.From) {
		t.Errorf("the pipe from the unit is there again: %v", other)
	}
}

// Bare pipe goes square through a wall, and nothing else does: from the port a union and its
// two sockets take 28 + 5 + 35 + 60 + 35 mm, so that a wall 100 mm before the port can't be
// passed, and one 300 mm before it can.
func TestNoUnionInAWall(t *testing.T) {
	for _, c := range []struct {
		before float64
		want   bool
	}{{100, false}, {160, false}, {300, true}} {
		p := job()
		x := 2400 - c.before
		p.Boxes = append(p.Boxes, Box{Low: graph.Vec{X: x - 20, Y: -3000, Z: -3000}, High: graph.Vec{X: x, Y: 3000, Z: 3000}, Name: "the wall", Near: Wall})
		pair, _ := Find(p)
		if (pair != nil) != c.want {
			t.Errorf("the wall %g mm before the ports: found %v", c.before, pair)
		}
	}
}

// What a search among changes asks again is answered as it was before, with no step taken; another
// question is not. All searches that know of each other are bounded together: after so many steps
// each further one is short.
func TestSearchesKnowOfEachOther(t *testing.T) {
	known := &Known{}
	asked := func(seed uint64) (*Pair, []string, int) {
		p, before := drawn(seed), known.steps
		p.Known = known
		pair, met := Find(p)
		return pair, met, known.steps - before
	}
	long, pair, met := uint64(0), (*Pair)(nil), []string(nil)
	for seed := range uint64(60) {
		got, names, steps := asked(seed)
		if steps > longSteps && len(known.answers) == 1 && pair == nil && got != nil {
			long, pair, met = seed, got, names
		}
		if steps > roughSteps && known.steps-steps >= mostOfAll {
			t.Errorf("%d: %d steps, after %d of all", seed, steps, known.steps-steps)
		}
		if known.steps > mostOfAll+2*roughSteps {
			break
		}
	}
	if pair == nil || known.steps < mostOfAll {
		t.Fatalf("%d steps, %d long searches: the test shows nothing", known.steps, len(known.answers))
	}
	again, names, steps := asked(long)
	if steps != 0 || !cmp.Equal(again, pair) || !cmp.Equal(names, met) {
		t.Errorf("asked again, after %d steps: %+v %v, was %+v %v", steps, again, names, pair, met)
	}
	other, before := drawn(long), known.steps
	other.Known = known
	other.ClipMM++
	if Find(other); known.steps == before {
		t.Error("asked another question it gave the old answer")
	}
}
