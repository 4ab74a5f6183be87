package lead

import "slices"

// path is one whole pipe.
type path struct {
	points []point
	cost   Cost
	phase  phase // which way it last went in height
}

// node is a path so far: it has just ended a leg.
type node struct {
	at     point
	way    way
	phase  phase
	placed placed
	parent int32 // -1 at the tee
	legs   int16
	whole  bool // at the port
	cost   Cost
}

// state is what the rest of a path hangs on.
type state struct {
	at     point
	way    way
	phase  phase
	placed placed
	whole  bool
}

// stream gives the paths of one pipe in the order of their cost.
type stream struct {
	needs   *needs
	grid    *grid
	blocks  []block
	end     point
	arrive  way // of the last leg
	self    int64
	left    *left  // what is left with nothing in the way
	last    phase  // in which a path comes to the unit
	ahead   *ahead // what is left round the blocks; nil: not worked out
	looks   int    // steps after which that is worked out; 0: never
	written *path  // the only one, where its legs are written; nil
	other   *path  // the other pipe, where that is settled; nil
	clip    int64  // least distance from it
	keep    int    // paths through one state that are followed
	limit   *Cost  // what costs as much is of no use; nil: everything is
	free    *Cost  // what a path costs at the least, with nothing in the way
	budget  *int
	*room
	capped bool // some paths through one state were left out
	found  []path
}

// room is what a stream writes on; those after it write there again.
type room struct {
	nodes   []node
	open    openList
	popped  map[state]int
	lengths [allPlaced + 1][2][]int64 // least lengths of a leg that is not the last, by what was placed, and first or not
	ends    []int64
	leg     leg
}

// cleared returns the room with nothing on it.
func (r *room) cleared() *room {
	if r.popped == nil {
		r.popped = map[state]int{}
	}
	clear(r.popped)
	clear(r.lengths[:])
	r.nodes, r.open = r.nodes[:0], r.open[:0]
	return r
}

// mostLegs is how many legs a pipe may have. More would not be built. Judgement, no source.
const mostLegs = 8

// newStream begins at the tee, with a way its branch points; it writes on the room given.
func newStream(on *room, n *needs, g *grid, blocks []block, first way, last phase, self int64, keep int) *stream {
	s := &stream{needs: n, grid: g, blocks: blocks, end: toPoint(n.pipe.End), arrive: wayOf(n.pipe.Face).back(),
		last: last, self: self, keep: keep, room: on.cleared(), looks: looksAfter}
	s.left = n.leftOf(s.arrive, last)
	s.nodes = append(s.nodes, node{at: toPoint(n.pipe.Start), way: noWay, parent: -1})
	s.begin(first)
	return s
}

// begin lays the legs that are given and opens the first that is not.
func (s *stream) begin(first way) {
	at, along := int32(0), s.needs.pipe.Along
	if len(along) > 0 && wayOf(along[0]) != first {
		// a short leg out of the tee, square to the line, before those the pipe follows
		if at = s.given(at, first, s.needs.straight(true, false)); at < 0 {
			return
		}
	}
	for i, l := range along {
		w, length := wayOf(l), abs(um(l.X)+um(l.Y)+um(l.Z))
		if i == len(along)-1 {
			s.start(at, w, length)
			return
		}
		if at = s.given(at, w, length); at < 0 {
			return
		}
	}
	s.start(at, first, 0)
}

// start opens the first leg that is not given.
func (s *stream) start(from int32, w way, least int64) {
	if s.free = s.freeBound(from, w); s.free != nil {
		s.lead(from, w, least)
	}
}

// freeBound is what a path costs at the least that goes on a way from a node, with nothing in
// the way and wherever its legs end; nil where none ends as it should.
func (s *stream) freeBound(from int32, w way) *Cost {
	n := s.nodes[from]
	var best *Cost
	a, first := w.axis(), n.parent < 0
	// nearest to the port's coordinate in each of the ranges that the bound tells apart
	shortest := s.least(n.placed, first)[0]
	for _, r := range s.left.ranges[a] {
		low, high := max(r[0], s.end[a]-n.at[a]+shortest), r[1]
		if w.sign() > 0 {
			low, high = r[0], min(r[1], s.end[a]-n.at[a]-shortest)
		}
		if low > high {
			continue
		}
		next := n
		next.way, next.legs = w, n.legs+1
		next.at[a] = s.end[a] - min(max(0, low), high)
		var turned bool
		if next.phase, turned = n.phase.after(w); turned {
			next.cost.Traps++
		}
		if !first {
			next.cost.Elbows++
		}
		next.cost.LengthUM += abs(next.at[a] - n.at[a])
		if c, ok := s.bound(&next); ok && (best == nil || c.Compare(*best) < 0) {
			best = &c
		}
	}
	return best
}

// given lays one leg that must be so, and returns its node; -1 where it can't be.
func (s *stream) given(from int32, w way, length int64) int32 {
	before := len(s.nodes)
	s.aim(from, w)
	s.step(length, false)
	if len(s.nodes) == before {
		return -1
	}
	s.open = s.open[:0]
	return int32(before)
}

// next finds the next path, and reports whether there was one.
func (s *stream) next() bool {
	if s.written != nil {
		s.found, s.written = append(s.found, *s.written), nil
		return true
	}
	if s.budget == nil { // the one written was given
		return false
	}
	for len(s.open) > 0 && *s.budget > 0 {
		top := s.open.pop()
		if s.limit != nil && top.least.Compare(*s.limit) >= 0 {
			s.open = s.open[:0]
			return false
		}
		i := top.node
		*s.budget--
		if s.looks > 0 {
			if s.looks--; s.looks == 0 {
				s.lookAhead()
			}
		}
		n := &s.nodes[i]
		st := state{n.at, n.way, n.phase, n.placed, n.whole}
		if s.popped[st] >= s.keep {
			s.capped = true
			continue
		}
		s.popped[st]++
		if n.whole {
			s.found = append(s.found, s.path(i))
			return true
		}
		for w := range way(6) {
			if w.axis() != n.way.axis() {
				s.lead(i, w, 0)
			}
		}
	}
	return false
}

// looksAfter is after how many steps it is worth while to work out what is left round the
// blocks. Measured: of 20, 60, 200 and 600.
const looksAfter = 60

// lookAhead works that out, and orders what is open by it.
func (s *stream) lookAhead() {
	s.ahead = newAhead(s.needs, s.blocks, s.other, s.clip, s.end, s.arrive, s.last)
	old := slices.Clone(s.open)
	s.open = s.open[:0]
	for _, o := range old {
		if least, ok := s.bound(&s.nodes[o.node]); ok {
			s.open.push(opened{node: o.node, least: least})
		}
	}
}

// lead opens every leg a way from a node that is at least so long.
func (s *stream) lead(from int32, w way, least int64) {
	n := s.nodes[from]
	if n.legs >= mostLegs {
		return
	}
	lengths := s.least(n.placed, n.parent < 0)
	if least > 0 {
		lengths = append(slices.Clip(lengths), least)
	}
	bare := max(least, lengths[0])
	most := s.aim(from, w)
	s.ends = s.grid.beyond(s.ends[:0], n.at[w.axis()], w, bare, most, lengths)
	for _, d := range s.ends {
		s.step(d, false)
	}
	if w != s.arrive {
		return
	}
	a := w.axis()
	if d := (s.end[a] - n.at[a]) * w.sign(); d > 0 && d >= least {
		to := n.at
		to[a] = s.end[a]
		if to == s.end {
			s.step(d, true)
		}
	}
}

// least are the least lengths of a leg that is not the last, worked out once.
func (s *stream) least(before placed, first bool) []int64 {
	lengths := &s.lengths[before][at(first)]
	if *lengths == nil {
		*lengths = s.needs.lengths(before, first, false)
	}
	return *lengths
}

// leg is what the legs that go a way from a node have in common, wherever they end.
type leg struct {
	from   int32
	first  bool
	at     point    // where they begin
	put    placed   // what stands in the legs before
	next   node     // what they lead to, but for where it is, its length and what stands in it
	stage  stage    // of what is left there, but for the range along the way
	cells  [3]int   // of what is left round the blocks, likewise
	beyond int64    // what is left along the other axes
	near   []*block // what they may run into
}

// aim prepares the legs that go a way from a node, and returns how far one of the least radius
// goes before it runs into something.
func (s *stream) aim(from int32, w way) (most int64) {
	n := &s.nodes[from]
	l := &s.leg
	*l = leg{from: from, first: n.parent < 0, at: n.at, put: n.placed, near: l.near[:0],
		next: node{at: n.at, way: w, parent: from, legs: n.legs + 1, cost: n.cost}}
	var turned bool
	if l.next.phase, turned = n.phase.after(w); turned {
		l.next.cost.Traps++
	}
	if !l.first {
		l.next.cost.Elbows++
	}
	l.stage = stage{axis: w.axis(), phase: l.next.phase}
	for k := range 3 {
		if k == w.axis() {
			continue
		}
		left := s.end[k] - n.at[k]
		l.beyond += abs(left)
		l.stage.at[k] = s.left.rangeOf(k, left)
		if s.ahead != nil {
			l.cells[k] = s.ahead.cell(k, n.at[k])
		}
	}
	return s.look(l)
}

// look collects what is in the way of legs, and returns how far one of the least radius goes.
func (s *stream) look(l *leg) (most int64) {
	most = int64(1) << 40
	w := l.next.way
	a, r, thick := w.axis(), s.needs.radius, s.needs.thickest
	for i := range s.blocks {
		b := &s.blocks[i]
		if l.first && b.lets(s.needs.pipe) || b.beside(l.at, a, thick) {
			continue
		}
		to, back := b.low[a]-r-l.at[a], l.at[a]-b.high[a]
		if w.sign() < 0 {
			to, back = l.at[a]-b.high[a]-r, b.low[a]-l.at[a]
		}
		if back < thick {
			l.near = append(l.near, b)
		}
		if back < r && !(b.near == Wall && b.thin() == a) && !b.beside(l.at, a, r) {
			most = min(most, to)
		}
	}
	return most
}

// step opens a leg of a length, where it has room for what must stand in it and is clear.
func (s *stream) step(length int64, last bool) {
	if s.budget != nil {
		*s.budget--
	}
	l := &s.leg
	a := l.next.way.axis()
	to := l.at
	to[a] += length * l.next.way.sign()
	if to == s.end && !last {
		return
	}
	put, radius, ok := s.needs.put(l.put, l.next.way, length, l.first, last)
	if !ok {
		return
	}
	cost := l.next.cost
	cost.LengthUM += length
	if last && s.needs.pipe.Check != nil && put&hasStraight == 0 {
		cost.Unstraight++
	}
	// what costs too much is never gone on from: the limit only falls
	least, ok := s.boundOf(l, to[a], cost, last)
	if !ok || s.limit != nil && least.Compare(*s.limit) >= 0 {
		return
	}
	if !s.clear(l, to, s.needs.taken(l.put, put, radius, l.first, last), last) || s.crosses(l.from, to) || s.other.near(l.at, to, s.clip) {
		return
	}
	next := l.next
	next.at, next.placed, next.whole, next.cost = to, put, last, cost
	s.nodes = append(s.nodes, next)
	s.open.push(opened{node: int32(len(s.nodes) - 1), least: least})
}

// clear reports whether a leg runs into nothing.
func (s *stream) clear(l *leg, to point, room taken, last bool) bool {
	for _, b := range l.near {
		if runsInto(s.needs.pipe, b, l.at, to, room, l.first, last) {
			return false
		}
	}
	return true
}

func runsInto(p *Pipe, b *block, from, to point, room taken, first, last bool) bool {
	if first && b.lets(p) || last && b.near == Unit {
		return false
	}
	if b.near == Wall {
		a := b.thin()
		low, high, atLow, atHigh := from[a], to[a], room.head, room.tail
		if low > high {
			low, high, atLow, atHigh = high, low, atHigh, atLow
		}
		if low+atLow <= b.low[a] && high-atHigh >= b.high[a] {
			return false // square through it, as bare pipe
		}
	}
	return b.hits(from, to, room.radius)
}

// crosses reports whether a leg comes too near an earlier one of its own pipe but the last.
func (s *stream) crosses(from int32, to point) bool {
	at := s.nodes[from].at
	for i := s.nodes[from].parent; i > 0; i = s.nodes[i].parent {
		if nearer(at, to, s.nodes[s.nodes[i].parent].at, s.nodes[i].at, s.self) {
			return true
		}
	}
	return false
}

// near reports whether a leg comes nearer to a path than a distance; there is none near no path.
func (p *path) near(a, b point, clip int64) bool {
	if p == nil {
		return false
	}
	for i := 1; i < len(p.points); i++ {
		if nearer(a, b, p.points[i-1], p.points[i], clip) {
			return true
		}
	}
	return false
}

// path collects the points of a whole path.
func (s *stream) path(i int32) path {
	p := path{cost: s.nodes[i].cost, phase: s.nodes[i].phase}
	for ; i >= 0; i = s.nodes[i].parent {
		p.points = append(p.points, s.nodes[i].at)
	}
	for a, b := 0, len(p.points)-1; a < b; a, b = a+1, b-1 {
		p.points[a], p.points[b] = p.points[b], p.points[a]
	}
	return p
}
