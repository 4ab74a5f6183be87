package arrange

import (
	"sort"

	"dryfit/graph"
)

// line is a longest stretch of pipe that passes straight through what stands in it.
type line struct {
	pipes      []*Pipe
	nodes      []*Node // what stands in it, in its order
	start, end *Node   // tee or other part of another line where it begins and ends; nil: none
	fromTub    bool
	toTub      bool
	hang       bool // a short dead end that hangs on start (or on end, with up or down)
	kind       int  // see below
	parent     *line
	wall       *Node // last node, fixed in the tub's wall
	bounds     []bound
	row        []*Node // the nodes that stand in its row
	drop       bool    // leaves a tee for the tub with nothing in it: straight down
	riserFrom  *Node   // on the upright pipe at its start
	riserTo    *Node

	y          float64
	placed     bool
	x0, x1     float64 // its span
	turnX      float64 // where it turns down to go back to the tub
	track      float64 // Y of its way back under everything
	mouthX     float64
	readingPos int

	carry          *Pipe // leads here from the end of the row above, of which this row goes on
	carryX, carryY float64
	carried        bool // a row below goes on from the end of this one
}

// What a line is.
const (
	loop   = iota // from the tub back to it
	bridge        // between two parts of other lines
	feed          // from the tub to another line
	outlet        // from another line to the tub
	dead          // ends nowhere
)

// findLines pairs at every part the pipe that comes with the one that goes straight on, and
// follows the pairs.
func (b *builder) findLines() {
	s := b.straights()
	for _, p := range b.startPipes(s.paired) {
		if p.line == nil {
			b.follow(p, s)
		}
	}
	for _, p := range b.d.Pipes { // rings that pass no tub
		if p.line == nil {
			b.follow(p, s)
		}
	}
	for _, n := range b.d.Nodes {
		if n.line == nil && n != b.d.Tub {
			l := &line{}
			b.put(l, n)
			b.lines = append(b.lines, l)
		}
	}
}

// pairs are the pipes that go straight on through a part.
type pairs struct {
	next   map[*Pipe]*Pipe // of one that comes, the one that goes on
	paired map[*Pipe]bool  // leaves a part as the going-on of another
	passed map[*Node]bool
}

func (b *builder) straights() pairs {
	s := pairs{map[*Pipe]*Pipe{}, map[*Pipe]bool{}, map[*Node]bool{}}
	for _, n := range b.d.Nodes {
		if n == b.d.Tub {
			continue
		}
		if in, out := straight(n); in != nil {
			s.next[in] = out
			s.paired[out] = true
			s.passed[n] = true
		}
	}
	return s
}

// follow makes the line that begins with a pipe: on through the pairs, to the tub, a part that is
// no line's yet, or one that is.
func (b *builder) follow(p *Pipe, s pairs) {
	l := &line{}
	switch {
	case p.From == b.d.Tub:
		l.fromTub = true
	case !s.passed[p.From] && p.From.line == nil:
		b.put(l, p.From)
	default:
		l.start = p.From
	}
	for p != nil && p.line == nil {
		p.line = l
		l.pipes = append(l.pipes, p)
		n := p.To
		switch {
		case n == b.d.Tub:
			l.toTub = true
			p = nil
		case s.next[p] != nil && n.line == nil:
			b.put(l, n)
			p = s.next[p]
		case !s.passed[n] && n.line == nil:
			b.put(l, n)
			p = nil
		default:
			l.end = n
			p = nil
		}
	}
	b.lines = append(b.lines, l)
}

// startPipes returns the pipes that are no going-on of another, those on the line of the
// pump that heats first.
func (b *builder) startPipes(paired map[*Pipe]bool) []*Pipe {
	main := map[string]bool{}
	if p := b.net.HeaterPump(); p != nil {
		l := b.net.MainLine(p)
		for _, r := range l.Runs {
			main[r.ID] = true
		}
	}
	var out []*Pipe
	for _, p := range b.d.Pipes {
		if !paired[p] {
			out = append(out, p)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return main[out[i].Run.ID] && !main[out[j].Run.ID] })
	return out
}

func (b *builder) put(l *line, n *Node) {
	n.line = l
	l.nodes = append(l.nodes, n)
}

// straight returns the pipe that comes to a part and the one that goes straight on; nil
// where the part ends its line.
func straight(n *Node) (in, out *Pipe) {
	find := func(list []*Pipe, port string, to bool) *Pipe {
		for _, p := range list {
			if (to && p.ToPort == port) || (!to && p.FromPort == port) {
				return p
			}
		}
		return nil
	}
	if n.Part.Kind == graph.Tee {
		for _, w := range [][2]string{{graph.RunIn, graph.RunOut}, {graph.RunOut, graph.RunIn},
			{graph.RunIn, graph.Branch}, {graph.RunOut, graph.Branch}, {graph.Branch, graph.RunOut}, {graph.Branch, graph.RunIn}} {
			i, o := find(n.ins, w[0], true), find(n.outs, w[1], false)
			if i != nil && o != nil {
				return i, o
			}
		}
		return nil, nil
	}
	air := n.Part.Kind.AirPort()
	for _, p := range n.ins {
		if (air == "" || p.ToPort != air) && in == nil {
			in = p
		}
	}
	for _, p := range n.outs {
		if (air == "" || p.FromPort != air) && out == nil {
			out = p
		}
	}
	if in == nil || out == nil {
		return nil, nil
	}
	return in, out
}

// mostHanging is how many parts a dead end may hold to hang on its tee.
const mostHanging = 3

// classify says what each line is and on which it depends.
func (b *builder) classify() {
	for _, l := range b.lines {
		for _, n := range []*Node{l.start, l.end} {
			if n != nil {
				n.host = true
			}
		}
	}
	for _, l := range b.lines {
		switch {
		case l.fromTub && l.toTub:
			l.kind = loop
		case l.start != nil && l.end != nil:
			l.kind = bridge
		case l.fromTub && l.end != nil:
			l.kind = feed
		case l.start != nil && l.toTub:
			l.kind = outlet
		default:
			l.kind = dead
		}
	}
	b.setParents()
	for _, l := range b.lines {
		if l.kind != dead || l.fromTub || l.toTub || (l.start == nil) == (l.end == nil) || len(l.nodes) > mostHanging || len(l.nodes) == 0 {
			continue
		}
		l.hang = true
		for _, n := range l.nodes {
			l.hang = l.hang && !n.host
		}
	}
	// A host is where a line that does not hang starts or ends.
	for _, n := range b.d.Nodes {
		n.host = false
	}
	for _, l := range b.lines {
		if l.hang {
			for _, n := range l.nodes {
				n.Role = Hanging
			}
			continue
		}
		for _, n := range []*Node{l.start, l.end} {
			if n != nil {
				n.host = true
			}
		}
		b.fixInWall(l)
	}
}

// setParents finds the line each line hangs on.
func (b *builder) setParents() {
	for _, l := range b.lines {
		switch {
		case l.kind == feed && l.end.line != l:
			l.parent = l.end.line
		case l.start != nil && l.start.line != l:
			l.parent = l.start.line
		case l.end != nil && l.end.line != l:
			l.parent = l.end.line
		}
	}
}

// fixInWall takes jets that are joined to the tub directly as fixed in its wall.
func (b *builder) fixInWall(l *line) {
	if !l.toTub || len(l.nodes) == 0 || len(l.pipes) < 2 {
		return
	}
	last := l.nodes[len(l.nodes)-1]
	if last.Part.Kind == graph.JetGroup && !last.host {
		l.wall = last
		last.Role = OnWall
		last.Way = 1 // up, into the tub's foot
	}
}

// setRisers puts the first and the last valve of a branch on the upright pipes, so that the
// unit's branch stays short, and lists what is left in the row.
func (b *builder) setRisers() {
	for _, l := range b.lines {
		nodes := l.nodes
		if l.wall != nil {
			nodes = nodes[:len(nodes)-1]
		}
		if l.kind == bridge && !l.hang && l.parent != nil && len(nodes) >= 3 {
			if n := nodes[0]; onRiser(n) {
				n.Role, l.riserFrom = OnRiser, n
				nodes = nodes[1:]
			}
			if n := nodes[len(nodes)-1]; len(nodes) >= 2 && onRiser(n) {
				n.Role, l.riserTo = OnRiser, n
				nodes = nodes[:len(nodes)-1]
			}
		}
		l.row = nodes
		l.drop = l.kind == outlet && len(nodes) == 0 && l.start.Part.Kind == graph.Tee
	}
}

// onRiser reports whether a part may stand on an upright pipe: a valve that nothing else is
// joined to.
func onRiser(n *Node) bool {
	return !n.host && len(n.ins)+len(n.outs) == 2 && (n.Part.Kind.IsHandValve() || n.Part.Kind == graph.CheckValve)
}
