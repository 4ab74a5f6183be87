package route

import (
	"slices"
	"strings"
	"sync"

	"dryfit/graph"
)

// What a joint needs while it is made, from the one that must come first to the one that
// can always come last: a plain socket between things that must still be free to move, an
// old end that can be drawn back, a slip coupling, hose, a union, the unit's union.
const (
	plain = iota
	drawn
	slid
	bent
	nut
	unitNut
)

func (n *Link) class() int {
	switch {
	case n.Open && n.Unit:
		return unitNut
	case n.Open:
		return nut
	case n.Flex:
		return bent
	case n.Slip:
		return slid
	case n.Old && n.Play > 0:
		return drawn
	}
	return plain
}

// closing is a joint that closes a loop of the new work, with the others on the loop.
type closing struct {
	link  int
	cycle []int  // links from one side of it to the other
	how   string // what lets it be made; "" for nothing
	with  int    // the joint it is made together with; -1
	tight bool   // the old end gives between one and two depths
	fit   int    // piece cut over length to be fitted last, an index; -1: none
}

// Finish ends the laying out of a stage, whose joints stand in the order they were found in,
// one link for each: it finds the order of assembly, sorts the findings, and keeps with the
// layout what its questions need.
func (lay *Layout) Finish(links []Link, inLine map[string]InLinePart) {
	lay.links, lay.inLine = links, inLine
	lay.order()
	lay.Findings = graph.SortDiagnostics(lay.Findings)
	lay.levels = sync.OnceValue(func() Levels { return levelsOf(lay) })
}

// order finds the order of assembly: it chooses which joints close loops, so that each of
// those can be made with both sides fixed, puts all joints in the order of the work, and
// numbers them in that order.
//
// A plain socket can be made as long as one of its sides is free to move along the pipe.
// So the plain joints, with all that is there already counted as one body, must form a
// forest; a joint beyond that closes a loop of things that can no longer move, and must be
// a union, a slip coupling with bare pipe to park it on, hose, or an old end with play.
func (lay *Layout) order() {
	b := newBodies(lay.links)
	o := &sequence{lay: lay, bodies: b, parts: map[string]*graph.Part{}}
	for _, p := range lay.Circuit.Parts {
		o.parts[p.ID] = p
	}
	o.chooseClosings()
	o.overLength()
	o.phases()
	o.sort()
	o.renumber()
	o.fitAt()
	lay.assembly, lay.sequence = o.assembly(), o
}

// Assemble returns the order in which the joints of the new work can be made, and what
// stands against it.
func Assemble(lay *Layout) *Assembly {
	if lay.assembly == nil {
		return &Assembly{OK: true}
	}
	return lay.assembly
}

// sequence is one call of order at work.
type sequence struct {
	lay      *Layout
	bodies   *bodies
	parts    map[string]*graph.Part
	closings []closing
	phase    []Phase
	late     []int // of each link: 0, or the rank of the closing it is made with, from 1
	made     []int // links in the order they are made
	near     []int // of each link: how many joints it is away from what is there already
}

func (o *sequence) part(id string) *graph.Part { return o.parts[id] }

// chooseClosings grows the forest, those joints first that most need freedom.
func (o *sequence) chooseClosings() {
	b := o.bodies
	byNeed := make([]int, len(b.links))
	for k := range byNeed {
		byNeed[k] = k
	}
	slices.SortStableFunc(byNeed, func(x, y int) int {
		p, q := &b.links[x], &b.links[y]
		if d := p.class() - q.class(); d != 0 {
			return d
		}
		if p.class() == drawn {
			switch r, s := p.Play/max(p.Depth, 1), q.Play/max(q.Depth, 1); {
			case r < s:
				return -1
			case r > s:
				return 1
			}
		}
		return 0
	})
	one := newRoots(len(b.names))
	for _, k := range byNeed {
		x, y := b.ends[k][0], b.ends[k][1]
		if x == y {
			continue
		}
		if one.merge(x, y) {
			b.next[x] = append(b.next[x], k)
			b.next[y] = append(b.next[y], k)
			continue
		}
		o.closings = append(o.closings, o.closingAt(k, b.chain(x, y)))
	}
}

// closingAt says how a joint that closes a loop can be made.
func (o *sequence) closingAt(k int, cycle []int) closing {
	n := &o.bodies.links[k]
	c := closing{link: k, cycle: cycle, with: -1, fit: -1}
	switch n.class() {
	case nut, unitNut:
		c.how = "union"
	case bent:
		c.how = "flexible hose"
	case slid:
		c.how = "slip coupling"
	case drawn:
		sprung := n.Aside == nil || *n.Aside
		switch {
		case n.Play >= 2*n.Depth-0.05:
			c.how = "play"
		case n.Play >= n.Depth-0.05 && sprung:
			c.how, c.tight = "play", true
		}
	}
	if c.how == "" {
		if j := o.together(k, cycle); j >= 0 {
			c.how, c.with = "together", j
		}
	}
	return c
}

// together finds a joint of the loop that can be made at the same moment: cut at both, the
// loop falls into two halves, and moving one of them one way enters both sockets.
func (o *sequence) together(k int, cycle []int) int {
	b := o.bodies
	n := &b.links[k]
	if n.Into == (graph.Vec{}) {
		return -1
	}
	// the way the far half (of ends[k][1]) moves to enter joint k
	move := n.Into
	if n.Spigot == 'a' {
		move = move.Scale(-1)
	}
	at := b.ends[k][0]
	for _, j := range cycle {
		far := b.other(j, at)
		m := &b.links[j]
		if m.class() <= drawn && m.Into != (graph.Vec{}) {
			nearIsSpigot := (m.Spigot == 'a') == (b.ends[j][0] == at)
			enters := m.Into
			if nearIsSpigot {
				enters = enters.Scale(-1)
			}
			if enters.Dot(move) > 0.999 {
				return j
			}
		}
		at = far
	}
	return -1
}

// sort puts the joints in the order they are made: by phase, plain joints before those that
// close a loop, run by run from the old pipe outwards.
func (o *sequence) sort() {
	b := o.bodies
	runNear := map[int]int{}
	for k := range b.links {
		r := b.links[k].Run
		if d, ok := runNear[r]; !ok || o.near[k] < d {
			runNear[r] = o.near[k]
		}
	}
	o.made = make([]int, len(b.links))
	for k := range o.made {
		o.made[k] = k
	}
	soft := func(k int) int {
		if b.links[k].Open {
			return 1
		}
		return 0
	}
	slices.SortStableFunc(o.made, func(x, y int) int {
		for _, d := range []int{
			int(o.phase[x] - o.phase[y]),
			o.late[x] - o.late[y],
			soft(x) - soft(y),
			runNear[b.links[x].Run] - runNear[b.links[y].Run],
			b.links[x].Run - b.links[y].Run,
			strings.Compare(b.links[x].Part, b.links[y].Part) * soft(x),
		} {
			if d != 0 {
				return d
			}
		}
		return 0
	})
}

// renumber numbers the joints in the order they are made, and says so to the pieces.
func (o *sequence) renumber() {
	lay := o.lay
	joints, links := make([]Joint, len(lay.Joints)), make([]Link, len(lay.links))
	number := make(map[int]int, len(lay.Joints))
	place := make([]int, len(lay.links))
	for i, k := range o.made {
		joints[i], links[i] = lay.Joints[k], lay.links[k]
		number[joints[i].Number] = i + 1
		joints[i].Number = i + 1
		place[k] = i
	}
	lay.Joints, lay.links = joints, links
	for i := range lay.Pieces {
		p := &lay.Pieces[i]
		p.From.Joint, p.To.Joint = number[p.From.Joint], number[p.To.Joint]
	}
	phase, late := make([]Phase, len(place)), make([]int, len(place))
	for k, i := range place {
		phase[i], late[i] = o.phase[k], o.late[k]
	}
	o.phase, o.late = phase, late
	for i := range o.closings {
		c := &o.closings[i]
		c.link = place[c.link]
		if c.with >= 0 {
			c.with = place[c.with]
		}
		for j := range c.cycle {
			c.cycle[j] = place[c.cycle[j]]
		}
	}
}
