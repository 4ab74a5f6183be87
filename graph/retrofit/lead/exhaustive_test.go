package lead

import (
	"fmt"
	"math"
	"math/rand"
	"slices"
	"testing"

	"dryfit/graph"
	"dryfit/graph/lots"
)

// The small cases stand on a lattice of 50 mm: a bare leg is at least one step long, and one
// more for each item in it. Every path on the lattice is tried by walking it, without a
// bound, an order or interesting coordinates; what it comes to is counted from its points.
const stepMM = 50

// smallPipe is a pipe whose least lengths are whole steps.
func smallPipe() Pipe {
	stop := Stop{TakeOffMM: 10, DepthMM: 12.5}
	item := Item{LengthMM: 20, DepthMM: 12.5, RadiusMM: 20}
	return Pipe{Tee: stop, Elbow: stop, Port: stop, Isolator: item, Union: item, RadiusMM: 20}
}

type cell [3]int

func (c cell) vec() graph.Vec {
	return graph.Vec{X: float64(c[0] * stepMM), Y: float64(c[1] * stepMM), Z: float64(c[2] * stepMM)}
}

// walker tries every path of one pipe.
type walker struct {
	from, to   cell
	face       cell // step the port looks
	back       bool
	check      bool // a feeder check has to stand where the water runs level or up
	size       cell
	boxes      []Box
	mostLegs   int
	cells      []cell // so far
	out        []walked
	tried      int
	straightIn int    // steps a leg with a check is longer to have its straight
	along      []cell // ways it follows first, so many steps each; of the last it may have more
	written    []cell // all its corners, where somebody wrote them; nil
}

type walked struct {
	cells []cell
	cost  Cost
}

var steps = []cell{{1, 0, 0}, {-1, 0, 0}, {0, 1, 0}, {0, -1, 0}, {0, 0, 1}, {0, 0, -1}}

func (w *walker) walk(way cell) {
	w.cells, w.out = []cell{w.from}, nil
	w.leg(way)
}

func (w *walker) leg(way cell) {
	at := w.cells[len(w.cells)-1]
	for n := 1; ; n++ {
		next := cell{at[0] + n*way[0], at[1] + n*way[1], at[2] + n*way[2]}
		for a := range 3 {
			if next[a] < 0 || next[a] > w.size[a] {
				return
			}
		}
		w.cells = append(w.cells, next)
		w.tried++
		if next == w.to {
			if way == (cell{-w.face[0], -w.face[1], -w.face[2]}) {
				w.arrive()
			}
		} else if len(w.cells)-1 < w.mostLegs {
			for _, s := range steps {
				if s[0]*way[0]+s[1]*way[1]+s[2]*way[2] == 0 {
					w.leg(s)
				}
			}
		}
		w.cells = w.cells[:len(w.cells)-1]
	}
}

// follows reports whether a path is the one written, or begins as both pipes are to: where the
// tee points another way, after a leg as short as it goes.
func (w *walker) follows() bool {
	if w.written != nil {
		return slices.Equal(w.cells, w.written)
	}
	if len(w.along) == 0 {
		return true
	}
	went := func(k int) cell {
		a, b := w.cells[k], w.cells[k+1]
		return cell{b[0] - a[0], b[1] - a[1], b[2] - a[2]}
	}
	same := func(a, b cell) bool { return a[0]*b[0]+a[1]*b[1]+a[2]*b[2] > 0 }
	first := 0
	if !same(went(0), w.along[0]) {
		if first = 1; dist(w.cells[0], w.cells[1]) > 1 {
			return false
		}
	}
	if len(w.cells)-1 < first+len(w.along) {
		return false
	}
	for k, a := range w.along {
		step := went(first + k)
		if more := k == len(w.along)-1 && same(step, a) && dist(step, cell{}) >= dist(a, cell{}); step != a && !more {
			return false
		}
	}
	return true
}

// arrive keeps a path that may be built.
func (w *walker) arrive() {
	if !w.follows() {
		return
	}
	legs := len(w.cells) - 1
	isolator, check, straight := false, false, false
	heights := []int{w.from[2]}
	length := 0
	for k := 1; k <= legs; k++ {
		a, b := w.cells[k-1], w.cells[k]
		long := dist(a, b)
		length += long
		heights = append(heights, b[2])
		items := 0
		if k == legs {
			items++ // the union
		}
		if !isolator && long >= 2+items {
			isolator = true
			items++
		}
		if w.check && !check && runsLevelOrUp(a, b, w.back) && long >= 2+items {
			check = true
			items++
			straight = k == legs || long >= 1+items+w.straightIn
		} else if w.check && check && !straight && runsLevelOrUp(a, b, w.back) && long >= 2+items {
			straight = k == legs || long >= 2+items+w.straightIn
		}
		if long < 1+items {
			return
		}
		for _, box := range w.boxes {
			if k == 1 && box.Near == Line || k == legs && box.Near == Unit {
				continue
			}
			if inside(a, b, box) {
				return
			}
		}
		for j := 1; j < k-1; j++ {
			if gapSquared(a, b, w.cells[j-1], w.cells[j]) < 1 {
				return
			}
		}
	}
	if !isolator || w.check && !check {
		return
	}
	c := Cost{Elbows: legs - 1, LengthUM: int64(length) * stepMM * 1000}
	if w.check && !straight {
		c.Unstraight = 1
	}
	w.out = append(w.out, walked{append([]cell(nil), w.cells...), c})
}

func runsLevelOrUp(a, b cell, back bool) bool {
	if back {
		a, b = b, a
	}
	return b[2] >= a[2]
}

func dist(a, b cell) int {
	n := 0
	for k := range 3 {
		d := b[k] - a[k]
		if d < 0 {
			d = -d
		}
		n += d
	}
	return n
}

// inside tries the straight against the box in steps of 5 mm along it.
func inside(a, b cell, box Box) bool {
	p, q := a.vec(), b.vec()
	n := dist(a, b) * stepMM / 5
	for i := range n + 1 {
		v := p.Add(q.Sub(p).Scale(float64(i) / float64(n)))
		if v.X+20 > box.Low.X && v.X-20 < box.High.X && v.Y+20 > box.Low.Y && v.Y-20 < box.High.Y && v.Z+20 > box.Low.Z && v.Z-20 < box.High.Z {
			return true
		}
	}
	return false
}

// gapSquared is the least distance of two lattice straights, in steps, by trying their points.
func gapSquared(a, b, c, d cell) int {
	best := 1 << 30
	points := func(a, b cell) []cell {
		var out []cell
		n := dist(a, b)
		for i := range n + 1 {
			out = append(out, cell{a[0] + (b[0]-a[0])*i/max(n, 1), a[1] + (b[1]-a[1])*i/max(n, 1), a[2] + (b[2]-a[2])*i/max(n, 1)})
		}
		return out
	}
	for _, p := range points(a, b) {
		for _, q := range points(c, d) {
			x, y, z := p[0]-q[0], p[1]-q[1], p[2]-q[2]
			best = min(best, x*x+y*y+z*z)
		}
	}
	return best
}

// trapsOf counts the points of a line of water, from tee to tee, that lie higher or lower
// than what is on both sides of them.
func trapsOf(to, from []cell) int {
	var z []int
	for _, c := range to {
		z = append(z, c[2])
	}
	for i := len(from) - 1; i >= 0; i-- {
		z = append(z, from[i][2])
	}
	n, last := 0, 0
	for i := 1; i < len(z); i++ {
		d := z[i] - z[i-1]
		if d == 0 {
			continue
		}
		if last != 0 && (d > 0) != (last > 0) {
			n++
		}
		last = d
	}
	return n
}

// bestByTrying is the least cost of all pairs.
func bestByTrying(to, from *walker, ways []cell, clipSteps int) (Cost, bool) {
	var best Cost
	found := false
	for _, way := range ways {
		to.walk(way)
		from.walk(way)
		for _, a := range to.out {
			for _, b := range from.out {
				c := a.cost.plus(b.cost)
				c.Traps = trapsOf(a.cells, b.cells)
				if found && c.Compare(best) >= 0 {
					continue
				}
				if apart(a.cells, b.cells, clipSteps) {
					best, found = c, true
				}
			}
		}
	}
	return best, found
}

func apart(a, b []cell, clip int) bool {
	for i := 1; i < len(a); i++ {
		for j := 1; j < len(b); j++ {
			if gapSquared(a[i-1], a[i], b[j-1], b[j]) < clip*clip {
				return false
			}
		}
	}
	return true
}

// TestBestOfAll holds the pair found against every pair there is on a lattice: with boxes,
// the line and the unit in the way, one port above, below or beside the other, with a check in
// one of the pipes, with legs that both follow first, and with one pipe written. Nothing outside
// the project: the trying is the definition.
func TestBestOfAll(t *testing.T) {
	cases := lots.Count(120, 25)
	proved, unproved, none, kinds := 0, 0, 0, map[string]int{}
	for seed := range cases {
		r := rand.New(rand.NewSource(int64(seed)))
		size := cell{7, 4, 4}
		clip := 1 + r.Intn(2)
		tees := [2]cell{{0, 2, r.Intn(3) + 1}, {}}
		tees[1] = tees[0]
		tees[1][0] += 2
		port := cell{5 + r.Intn(3), r.Intn(4), r.Intn(4)}
		face := steps[1] // left
		if r.Intn(3) == 0 {
			face = steps[r.Intn(4)]
		}
		ports := [2]cell{port, port}
		side := 2 // the outlet above or below the inlet
		if r.Intn(2) == 0 && face[1] == 0 {
			side = 1 // or beside it
		}
		ports[1][side] += []int{-2, -1, 1, 2}[r.Intn(4)]
		if ports[1][side] < 0 || ports[1][side] > size[side] {
			continue
		}
		clip = min(clip, dist(ports[0], ports[1])) // as near as the ports themselves
		var boxes []Box
		for range r.Intn(4) {
			lo := cell{1 + r.Intn(5), r.Intn(4), r.Intn(4)}
			hi := cell{lo[0] + r.Intn(2), lo[1] + r.Intn(2), lo[2] + r.Intn(2)}
			d := graph.Vec{X: 20, Y: 20, Z: 20}
			boxes = append(boxes, Box{Low: lo.vec().Sub(d), High: hi.vec().Add(d), Name: fmt.Sprint("box ", lo)})
		}
		line := Box{Low: cell{-1, 2, tees[0][2]}.vec().Sub(graph.Vec{Y: 30, Z: 30}), High: cell{3, 2, tees[0][2]}.vec().Add(graph.Vec{Y: 30, Z: 30}), Name: "line", Near: Line}
		boxes = append(boxes, line)
		check := r.Intn(3) == 0
		p := Problem{To: smallPipe(), From: smallPipe(), Boxes: boxes, ClipMM: float64(clip * stepMM), SelfMM: stepMM}
		p.To.Start, p.To.End, p.To.Face = tees[0].vec(), ports[0].vec(), face.vec()
		p.From.Start, p.From.End, p.From.Face, p.From.Back = tees[1].vec(), ports[1].vec(), face.vec(), true
		straight := 0
		if check {
			item := p.From.Isolator
			p.From.Check = &item
			straight = 1
			p.From.StraightMM = 30 + stepMM // the tail of the shortest leg, and a step
		}
		var ways []cell
		for _, s := range steps[2:] {
			ways = append(ways, s)
			p.Ways = append(p.Ways, s.vec())
		}
		// the lattice ends somewhere: so does the room of the finder
		p.Boxes = append(p.Boxes, shell(size)...)
		const most = 5
		to := &walker{from: tees[0], to: ports[0], face: face, size: size, boxes: boxes, mostLegs: most}
		from := &walker{from: tees[1], to: ports[1], face: face, size: size, boxes: boxes, mostLegs: most, back: true, check: check, straightIn: straight}
		kind := "free"
		switch r.Intn(4) {
		case 0:
			kind = "along"
			along := ways[r.Intn(len(ways))]
			n := 1 + r.Intn(2)
			to.along = []cell{{n * along[0], n * along[1], n * along[2]}}
			if r.Intn(2) == 0 {
				to.along = append(to.along, cell{1 + r.Intn(3)})
			}
			from.along = to.along
			for _, a := range to.along {
				p.To.Along, p.From.Along = append(p.To.Along, a.vec()), append(p.From.Along, a.vec())
			}
		case 1: // one pipe written, with a leg left open that closing the loop has set
			way := ways[r.Intn(len(ways))]
			if to.walk(way); len(to.out) > 0 {
				kind = "written"
				to.written = to.out[r.Intn(len(to.out))].cells
				for k := 1; k < len(to.written); k++ {
					p.To.Legs = append(p.To.Legs, to.written[k].vec().Sub(to.written[k-1].vec()))
				}
			}
		}
		want, there := bestByTrying(to, from, ways, clip)
		got, _ := Find(p)
		switch {
		case got == nil && there:
			t.Errorf("case %d: none found; trying finds one of %+v (%s)", seed, want, kind)
		case got == nil:
			none++
		case len(got.To) <= most && len(got.From) <= most:
			kinds[kind]++
			if got.Proved {
				proved++
			} else {
				unproved++
			}
			finer := !onLattice(got.To) || !onLattice(got.From) // and better for it
			if !there || got.Cost.Compare(want) != 0 && !(finer && got.Cost.Compare(want) < 0) {
				t.Errorf("case %d: found %+v (proved %v), trying finds %+v (%v): %v / %v (%s)", seed, got.Cost, got.Proved, want, there, got.To, got.From, kind)
			}
		case there && got.Cost.Compare(want) > 0:
			t.Errorf("case %d: found %+v with more legs, trying finds %+v", seed, got.Cost, want)
		}
	}
	t.Logf("compared with every pair there is: %d (%v), of which %d were proved without trying; %d have none", proved+unproved, kinds, proved, none)
	if proved < cases/5 || proved+unproved < cases/3 {
		t.Error("too few cases compared")
	}
}

// onLattice reports whether all legs are whole steps.
func onLattice(legs []graph.Vec) bool {
	return !slices.ContainsFunc(legs, func(v graph.Vec) bool { return math.Mod(v.X+v.Y+v.Z, stepMM) != 0 })
}

// shell closes the lattice in on all sides.
func shell(size cell) []Box {
	lo, hi := cell{}.vec(), size.vec()
	far, d := 10000.0, 30.0
	var out []Box
	add := func(a, b graph.Vec) { out = append(out, Box{Low: a, High: b, Name: "shell"}) }
	add(graph.Vec{X: -far, Y: -far, Z: -far}, graph.Vec{X: lo.X - d, Y: far, Z: far})
	add(graph.Vec{X: hi.X + d, Y: -far, Z: -far}, graph.Vec{X: far, Y: far, Z: far})
	add(graph.Vec{X: -far, Y: -far, Z: -far}, graph.Vec{X: far, Y: lo.Y - d, Z: far})
	add(graph.Vec{X: -far, Y: hi.Y + d, Z: -far}, graph.Vec{X: far, Y: far, Z: far})
	add(graph.Vec{X: -far, Y: -far, Z: -far}, graph.Vec{X: far, Y: far, Z: lo.Z - d})
	add(graph.Vec{X: -far, Y: -far, Z: hi.Z + d}, graph.Vec{X: far, Y: far, Z: far})
	return out
}
