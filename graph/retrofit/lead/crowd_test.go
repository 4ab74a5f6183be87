package lead

import (
	"math/rand/v2"
	"testing"

	"dryfit/graph"
	"dryfit/graph/lots"
)

// drawn is a crowded cabinet by lot: the job of find_test.go with its unit anywhere, ten to
// fifty pipes and boxes between, some of them doors that are kept clear, walls round it in half
// of them, and a check in one of the pipes in a third. All of it is invented.
func drawn(seed uint64) Problem {
	lot := rand.New(rand.NewPCG(seed, 11))
	mm := func(least, most int) float64 { return float64(least + 5*lot.IntN((most-least)/5+1)) }
	p := job()
	p.Boxes = p.Boxes[:1]
	ways := []graph.Vec{{X: -1}, {X: 1}, {Y: 1}, {Y: -1}}
	face := ways[lot.IntN(4)]
	gap := []graph.Vec{{Z: 220}, {Z: -240}, {Z: 300}}[lot.IntN(3)]
	if lot.IntN(2) == 0 {
		gap = graph.Vec{X: 260 * face.Y, Y: 260 * face.X}
		if lot.IntN(2) == 0 {
			gap = gap.Scale(-1)
		}
	}
	in := graph.Vec{X: mm(-1500, 2800), Y: -mm(300, 1400), Z: mm(-600, 300)}
	for _, q := range []*Pipe{&p.To, &p.From} {
		q.Face = face
	}
	p.To.End, p.From.End = in, in.Add(gap)
	mid, behind := in.Add(gap.Scale(0.5)), face.Scale(-1)
	low, high := mid.Add(graph.Vec{X: -300, Y: -300, Z: -350}), mid.Add(graph.Vec{X: 300, Y: 300, Z: 350})
	low, high = low.Add(behind.Scale(300)), high.Add(behind.Scale(300))
	p.Boxes = append(p.Boxes, Box{Low: low, High: high, Name: "the unit", Near: Unit})
	if lot.IntN(3) == 0 {
		item := p.From.Isolator
		p.From.Check = &item
	}
	for range 10 + lot.IntN(40) {
		from := graph.Vec{X: mm(-1500, 2800), Y: -mm(0, 1400), Z: mm(-700, 500)}
		size := graph.Vec{X: 60, Y: 60, Z: 60} // a pipe of 2 in, ASTM D1785
		switch lot.IntN(5) {
		case 0:
			size.X = mm(200, 900)
		case 1:
			size.Y = mm(200, 900)
		case 2:
			size.Z = mm(200, 900)
		default:
			size = graph.Vec{X: mm(60, 400), Y: mm(60, 300), Z: mm(60, 400)}
		}
		b := Box{Low: from, High: from.Add(size), Name: "a thing"}
		if beside(b, p.To.Start) || beside(b, p.From.Start) || beside(b, p.To.End) || beside(b, p.From.End) {
			continue // nobody can connect in it
		}
		p.Boxes = append(p.Boxes, b)
	}
	if lot.IntN(2) == 0 {
		lo, hi := graph.Vec{X: -1700, Y: -1000, Z: -750}, graph.Vec{X: 2400, Y: 350, Z: 650}
		for a := range 3 {
			low, high := []*float64{&lo.X, &lo.Y, &lo.Z}[a], []*float64{&hi.X, &hi.Y, &hi.Z}[a]
			l, h := lo, hi
			*[]*float64{&h.X, &h.Y, &h.Z}[a], *[]*float64{&l.X, &l.Y, &l.Z}[a] = *low, *low-20
			p.Boxes = append(p.Boxes, Box{Low: l, High: h, Name: "a wall", Near: Wall})
			l, h = lo, hi
			*[]*float64{&l.X, &l.Y, &l.Z}[a], *[]*float64{&h.X, &h.Y, &h.Z}[a] = *high, *high+20
			p.Boxes = append(p.Boxes, Box{Low: l, High: h, Name: "a wall", Near: Wall})
		}
	}
	return p
}

// beside reports whether a place is within 250 mm of a box.
func beside(b Box, at graph.Vec) bool {
	return at.X > b.Low.X-250 && at.X < b.High.X+250 && at.Y > b.Low.Y-250 && at.Y < b.High.Y+250 && at.Z > b.Low.Z-250 && at.Z < b.High.Z+250
}

// Nearly every pair found in a crowded cabinet is proved the best.
func TestProvedInCrowds(t *testing.T) {
	cases := lots.Count(40, 15)
	proved, unproved, none := 0, 0, 0
	for seed := range cases {
		switch got, _ := Find(drawn(uint64(seed))); {
		case got == nil:
			none++
		case got.Proved:
			proved++
		default:
			unproved++
		}
	}
	t.Logf("%d of %d pairs are proved; %d have none", proved, proved+unproved, none)
	if unproved*10 > proved || proved < cases/2 {
		t.Errorf("%d pairs proved the best, %d not, %d not found", proved, unproved, none)
	}
}

// What a bound says is left is never more than what a path that was found still has: nothing
// outside the project, it is what a bound is.
func TestBoundsAreNeverTooMuch(t *testing.T) {
	checked := 0
	for seed := range lots.Count(12, 8) {
		p := drawn(uint64(1000 + seed))
		f := newFinder(p)
		pair, _ := Find(p)
		if pair == nil {
			continue
		}
		f.active = append(f.active, f.all...)
		for i, legs := range [][]graph.Vec{pair.To, pair.From} {
			var pts []point
			at := f.needs[i].pipe.Start
			for _, l := range legs {
				at = at.Add(l)
				pts = append(pts, toPoint(at))
			}
			var phases []phase
			now := level
			for _, l := range legs {
				now, _ = now.after(wayOf(l))
				phases = append(phases, now)
			}
			end, arrive := pts[len(pts)-1], wayOf(legs[len(legs)-1])
			s := &stream{end: end, last: now, left: f.needs[i].leftOf(arrive, now), ahead: newAhead(f.needs[i], f.active, nil, 0, end, arrive, now)}
			for k := range pts[:len(pts)-1] {
				turned := 0
				for j := k + 1; j < len(pts); j++ {
					if _, t := phases[j-1].after(wayOf(legs[j])); t {
						turned++
					}
				}
				n := &node{at: pts[k], way: wayOf(legs[k]), phase: phases[k], legs: int16(k + 1)}
				c, ok := s.bound(n)
				if !ok || c.Traps > turned || c.Traps == turned && c.Elbows > len(pts)-1-k {
					t.Errorf("seed %d, pipe %d: after leg %d of %v at most %d turns and %d legs are left, the bound says %+v %v", seed, i, k+1, legs, turned, len(pts)-1-k, c, ok)
				}
				checked++
			}
		}
	}
	if checked < 30 {
		t.Errorf("only %d places on a path checked", checked)
	}
}
