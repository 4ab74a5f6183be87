package lead

import (
	"math"
	"slices"

	"dryfit/graph"
)

// What one search may cost, in steps; more is not looked at. Judgement, no source: beyond it
// nobody would draw the pipes so.
const (
	mostSteps  = 200000
	mostRounds = 60
)

// Find returns the best pair of pipes; nil where there is none, with the names of what is in
// the way.
func Find(p Problem) (*Pair, []string) {
	f := newFinder(p)
	for range mostRounds {
		best, first, proved := f.solve()
		if best == nil {
			return nil, f.met
		}
		if !f.runInto(best) || f.steps <= 0 {
			return f.pair(best, first, proved && f.steps > 0), f.met
		}
	}
	return nil, f.met
}

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
}

func newFinder(p Problem) *finder {
	p.To.Along, p.From.Along = joined(p.To.Along), joined(p.From.Along)
	f := &finder{p: p, self: um(p.SelfMM), steps: mostSteps}
	to, from := newNeeds(&f.p.To), newNeeds(&f.p.From)
	f.needs = [2]*needs{&to, &from}
	for _, b := range p.Boxes {
		lo, hi := toPoint(b.Low), toPoint(b.High)
		f.all = append(f.all, block{lo, hi, b.Near})
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

// solve finds the best pair that is clear of the blocks that count so far. Coordinates beside
// each other's are taken in only where the best of each pipe are not clear of each other: they
// cannot make either of them better.
func (f *finder) solve() (best *couple, first way, proved bool) {
	proved = true
	for _, side := range []int64{0, f.clip} {
		var bound *Cost
		if best != nil {
			bound = &best.cost
		}
		var floor *Cost
		for _, v := range f.p.Ways {
			w := wayOf(v)
			if w == noWay {
				continue
			}
			c, low, sure := f.along(w, side, bound)
			proved = proved && sure
			if low != nil && (floor == nil || low.Compare(*floor) < 0) {
				floor = low
			}
			if c != nil {
				best, first, bound = c, w, &c.cost
			}
		}
		if best != nil && floor != nil && best.cost.Compare(*floor) <= 0 {
			break
		}
	}
	return best, first, proved
}

// along finds the best pair whose branches point a way.
func (f *finder) along(w way, side int64, bound *Cost) (best *couple, floor *Cost, proved bool) {
	g := newGrid(f.needs, f.active, side)
	for _, keep := range []int{2, 16, 128} {
		to, from := f.stream(0, g, w, keep), f.stream(1, g, w, keep)
		if to == nil || from == nil {
			return nil, nil, true
		}
		best, floor, proved = match(to, from, f.rise, f.clip, bound, &f.steps)
		if proved || f.steps <= 0 {
			break
		}
	}
	return best, floor, proved
}

// stream returns the paths of one of the pipes: just the one written, where its legs are; nil
// where those leave another way.
func (f *finder) stream(i int, g *grid, w way, keep int) *stream {
	p := f.needs[i].pipe
	if len(p.Legs) == 0 {
		return newStream(*f.needs[i], g, f.active, w, f.self, keep, &f.steps)
	}
	if wayOf(p.Legs[0]) != w {
		return nil
	}
	written := path{points: []point{toPoint(p.Start)}, way: w}
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
	return &stream{budget: &f.steps, found: []path{written}}
}

// runInto takes the blocks into account that a pair runs into, and reports whether there
// were any.
func (f *finder) runInto(c *couple) bool {
	any := false
	for side, p := range []*path{&c.to, &c.from} {
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
			put, radius, _ = n.put(put, w, length, first, last)
			for i := range f.all {
				if !f.isIn[i] && runsInto(&f.all[i], a, b, radius, first, last) {
					any, f.isIn[i] = true, true
					f.active = append(f.active, f.all[i])
					if name := f.p.Boxes[i].Name; !slices.Contains(f.met, name) {
						f.met = append(f.met, name)
					}
				}
			}
		}
	}
	return any
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
func (f *finder) pair(c *couple, first way, proved bool) *Pair {
	return &Pair{To: legs(&c.to, &f.p.To), From: legs(&c.from, &f.p.From), Way: first.vec(), Cost: c.cost, Proved: proved, Met: f.met}
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
