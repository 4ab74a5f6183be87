package lead

import (
	"math"
	"slices"
	"sync"

	"dryfit/graph"
)

// What a search may cost: steps of all of it and of one side of one way, paths of one pipe to which
// the other is looked for, and rounds with more and more in the way. A step is a leg tried; a million
// take some 0.2 s of CPU. Each way has few steps first, then more: as many as to prove what was found
// the best, fewer where nothing was. That there is no pair with less trapped often takes as long to
// prove as trying all there are: then the best found is taken and said not to be proved. Judgement, no
// source: whoever draws the pipes by hand looks no further.
const (
	mostSteps  = 800000
	mostOfAll  = 3 * mostSteps // of all searches that know of each other; after that they are short
	shortSteps = 15000
	roughSteps = 60000 // of all of it, where any good pair will do
	fewSteps   = 3000
	moreSteps  = 250000
	noneSteps  = 8000
	longSteps  = 20000 // from where on an answer is kept for those who ask the same again
	mostPaths  = 150
	mostRounds = 40
)

// Find returns the best pair of pipes; nil where there is none, with the names of what is in
// the way.
func Find(p Problem) (*Pair, []string) {
	if done, ok := p.Known.of(&p); ok {
		p.Known.cut = done.cut
		return done.pair, done.met
	}
	f := newFinder(p)
	if p.Known.Spent() {
		f.steps = min(f.steps, shortSteps)
	}
	most := f.steps
	pair, met := f.find()
	p.Known.keep(&p, answer{pair, met, pair == nil && f.cut}, most-f.steps)
	return pair, met
}

func (f *finder) find() (*Pair, []string) {
	f.rooms = rooms.Get().(*[3]room)
	defer rooms.Put(f.rooms)
	var best *found
	for _, fine := range []bool{false, true} {
		if best != nil && best.isLeast() {
			break
		}
		for range mostRounds {
			next := f.solve(fine, best)
			if next == nil || !f.runInto(next.couple) {
				if next != nil {
					best = next
				}
				break
			}
			if f.steps <= 0 {
				f.cut = true
				break
			}
		}
	}
	if best == nil {
		return nil, f.met
	}
	return f.pair(best), f.met
}

// rooms are what searches have written on: the next ones write there again.
var rooms = sync.Pool{New: func() any { return new([3]room) }}

// finder is one search.
type finder struct {
	p      Problem
	needs  [2]*needs
	all    []block
	active []block
	isIn   []bool
	met    []string
	clip   int64
	self   int64
	rise   phase
	steps  int
	cut    bool // where the last look found nothing, it stopped before every way was tried
	not    []refusal
	rooms  *[3]room // of the streams there are at a time: see matchFrom
}

func newFinder(p Problem) *finder {
	p.To.Along, p.From.Along = joined(p.To.Along), joined(p.From.Along)
	f := &finder{p: p, self: um(p.SelfMM), steps: mostSteps}
	if p.Roughly {
		f.steps = roughSteps
	}
	if f.p.Known == nil {
		f.p.Known = &Known{}
	}
	to, from := newNeeds(&f.p.To, f.p.Known), newNeeds(&f.p.From, f.p.Known)
	f.needs = [2]*needs{&to, &from}
	for _, b := range p.Boxes {
		lo, hi := toPoint(b.Low), toPoint(b.High)
		f.all = append(f.all, block{lo, hi, b.Near})
	}
	for _, r := range p.Refused {
		f.not = append(f.not, refusal{pointsOf(p.To.Start, r.To), pointsOf(p.From.Start, r.From)})
	}
	f.isIn = make([]bool, len(f.all))
	// tees or ports that stand nearer than clip distance can't be had further apart
	clip := min(p.ClipMM, p.To.Start.Sub(p.From.Start).Len(), p.To.End.Sub(p.From.End).Len())
	f.clip = int64(math.Floor(clip * 1000))
	switch dz := um(p.From.End.Z - p.To.End.Z); {
	case dz > levelUM:
		f.rise = rising
	case dz < -levelUM:
		f.rise = falling
	}
	return f
}

// levelUM is how far two ports may differ in height and still be taken as level.
const levelUM = 1000

// joined puts legs together that follow each other the same way.
func joined(legs []graph.Vec) []graph.Vec {
	var out []graph.Vec
	for _, l := range legs {
		if n := len(out); n > 0 && wayOf(out[n-1]) == wayOf(l) {
			out[n-1] = out[n-1].Add(l)
			continue
		}
		out = append(out, l)
	}
	return out
}

// found is the best pair clear of the blocks that count so far.
type found struct {
	*couple
	first  way
	order  int  // of that way among those that may be
	floor  Cost // what no pair can be below, with nothing in the way
	proved bool
}

// isLeast reports whether no pair can cost less, whatever coordinates there are.
func (b *found) isLeast() bool { return b.cost.Compare(b.floor) <= 0 }

// solve finds the best pair that is clear of the blocks that count so far, and better than one
// there is already: over few coordinates, or with fine over many.
func (f *finder) solve(fine bool, have *found) *found {
	out := &found{}
	var best *Cost
	if have != nil {
		best = &have.cost
	}
	g := newGrid(f.needs, f.active, fine, f.clip)
	kinds := f.kinds(g)
	if len(kinds) > 0 {
		out.floor = kinds[0].free
	}
	done := make([]bool, len(kinds))
	for pass := 0; pass < 2 && !out.proved; pass++ {
		most := fewSteps
		switch {
		case pass > 0 && best == nil:
			most = noneSteps
		case pass > 0:
			most = moreSteps
		}
		out.proved = true
		for n := range kinds {
			k := &kinds[n]
			bound := best
			if out.couple != nil && k.order < out.order { // as good, and tried before
				even := out.cost
				even.LengthUM++
				bound = &even
			}
			if done[n] || bound != nil && k.free.Compare(*bound) >= 0 {
				continue
			}
			c, sure := f.match(k, g, bound, most)
			done[n], out.proved = sure, out.proved && sure
			if c != nil {
				out.couple, out.first, out.order, best = c, k.way, k.order, &c.cost
			}
		}
	}
	f.cut = !out.proved
	switch {
	case out.couple != nil:
		return out
	case have != nil: // none is better
		kept := *have
		kept.proved = out.proved
		return &kept
	}
	return nil
}

// kind is the pairs whose branches point a way and that come to the unit in given phases: what
// is trapped there is the same for all of them.
type kind struct {
	way    way
	order  int      // of its way among those that may be
	phases [2]phase // of the last legs that go up or down
	atUnit int      // points trapped at the unit
	free   Cost     // what a pair costs at the least, with nothing in the way
}

// kinds are the pairs there may be, the ones that can be cheapest first.
func (f *finder) kinds(g *grid) []kind {
	var out []kind
	for order, v := range f.p.Ways {
		w := wayOf(v)
		if w == noWay {
			continue
		}
		var free [2][3]*Cost
		for i := range 2 {
			for p := range phase(3) {
				if s := f.stream(&f.rooms[0], i, g, w, p, 1); s != nil {
					free[i][p] = s.free
				}
			}
		}
		for to := range phase(3) {
			for from := range phase(3) {
				if free[0][to] == nil || free[1][from] == nil {
					continue
				}
				k := kind{way: w, order: order, phases: [2]phase{to, from}, atUnit: turns(to, f.rise, flip(from))}
				k.free = free[0][to].plus(*free[1][from])
				k.free.Traps += k.atUnit
				out = append(out, k)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b kind) int { return a.free.Compare(b.free) })
	return out
}

// stream returns the paths of one of the pipes that come to the unit in a phase: just the one
// written, where its legs are; nil where those leave another way or come otherwise.
func (f *finder) stream(on *room, i int, g *grid, w way, last phase, keep int) *stream {
	p := f.needs[i].pipe
	if len(p.Legs) == 0 {
		return newStream(on, f.needs[i], g, f.active, w, last, f.self, keep)
	}
	if wayOf(p.Legs[0]) != w {
		return nil
	}
	written := writtenPath(p)
	if written.phase != last {
		return nil
	}
	return &stream{room: on.cleared(), written: &written, free: &written.cost, last: last}
}

// writtenPath is the path of a pipe whose legs are written.
func writtenPath(p *Pipe) path {
	written := path{points: []point{toPoint(p.Start)}}
	at := p.Start
	for k, l := range p.Legs {
		at = at.Add(l)
		written.points = append(written.points, toPoint(at))
		written.cost.LengthUM += um(l.Len())
		if k > 0 {
			written.cost.Elbows++
		}
		turned := false
		switch {
		case l.Z > 1:
			written.phase, turned = written.phase.after(up)
		case l.Z < -1:
			written.phase, turned = written.phase.after(down)
		}
		if turned {
			written.cost.Traps++
		}
	}
	return written
}

// runInto takes the blocks into account that a pair runs into, and reports whether there
// were any.
func (f *finder) runInto(c *couple) bool {
	ran := false
	for side := range c.paths {
		p := &c.paths[side]
		if len(f.needs[side].pipe.Legs) > 0 {
			continue // as written: what it runs into is for the rules to say
		}
		n := f.needs[side]
		put := placed(0)
		for k := 1; k < len(p.points); k++ {
			a, b := p.points[k-1], p.points[k]
			first, last := k == 1, k == len(p.points)-1
			w, length := between(a, b)
			var radius int64
			before := put
			put, radius, _ = n.put(put, w, length, first, last)
			room := n.taken(before, put, radius, first, last)
			for i := range f.all {
				if !f.isIn[i] && runsInto(n.pipe, &f.all[i], a, b, room, first, last) {
					ran, f.isIn[i] = true, true
					f.active = append(f.active, f.all[i])
					if name := f.p.Boxes[i].Name; !slices.Contains(f.met, name) {
						f.met = append(f.met, name)
					}
				}
			}
		}
	}
	return ran
}

// between returns the way and the length of a straight.
func between(a, b point) (way, int64) {
	for k := range 3 {
		if d := b[k] - a[k]; d > 0 {
			return way(2 * k), d
		} else if d < 0 {
			return way(2*k + 1), -d
		}
	}
	return noWay, 0
}

// pair turns what was found into legs.
func (f *finder) pair(b *found) *Pair {
	return &Pair{To: legs(&b.paths[0], &f.p.To), From: legs(&b.paths[1], &f.p.From), Way: b.first.vec(), Cost: b.cost,
		Proved: b.proved && f.steps > 0, Met: f.met}
}

// legs turns a path into its legs; what rounding to micrometres left is put into the longest
// leg of each axis, so that they end exactly at the port.
func legs(p *path, pipe *Pipe) []graph.Vec {
	if len(pipe.Legs) > 0 {
		return pipe.Legs
	}
	var out []graph.Vec
	left := pipe.End.Sub(pipe.Start)
	for k := 1; k < len(p.points); k++ {
		v := p.points[k].vec().Sub(p.points[k-1].vec())
		out = append(out, v)
		left = left.Sub(v)
	}
	for _, of := range []func(*graph.Vec) *float64{
		func(v *graph.Vec) *float64 { return &v.X }, func(v *graph.Vec) *float64 { return &v.Y }, func(v *graph.Vec) *float64 { return &v.Z }} {
		longest := -1
		for k := range out {
			if *of(&out[k]) != 0 && (longest < 0 || math.Abs(*of(&out[k])) > math.Abs(*of(&out[longest]))) {
				longest = k
			}
		}
		if longest >= 0 {
			*of(&out[longest]) += *of(&left)
		}
	}
	return out
}
