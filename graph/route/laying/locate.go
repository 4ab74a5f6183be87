package laying

import (
	"slices"

	"dryfit/graph"
	"dryfit/graph/settle"
)

// tie is a known distance between two ports: by a run's legs, by a part's own measure, or
// by a run that was taken out between two parts that stay.
type tie struct {
	from, to int // indexes into web.ports
	by       graph.Vec
	run      *graph.Run  // nil: a part
	gone     bool        // the run was taken out
	part     *graph.Part // nil: a run
	path     int         // index of the run's path; -1
	tree     bool        // the place of one end follows from the other by it
}

func (t *tie) isNew() bool {
	if t.run != nil {
		return !t.gone && t.run.New()
	}
	return t.part.New()
}

// web is every port of the circuit and what is known of the distances between them.
type web struct {
	ports []graph.PortRef
	index map[string]int
	ties  []tie
	next  [][]int // port -> ties of the tree
}

func (w *web) port(ref graph.PortRef) int {
	key := ref.String()
	if i, ok := w.index[key]; ok {
		return i
	}
	w.index[key] = len(w.ports)
	w.ports = append(w.ports, ref)
	return len(w.ports) - 1
}

func (w *web) tie(from, to graph.PortRef, by graph.Vec, t tie) {
	t.from, t.to, t.by = w.port(from), w.port(to), by
	w.ties = append(w.ties, t)
}

// locate finds the place of every port, by walking the legs from a datum, and returns what it walked.
func (l *work) locate() *web {
	w := &web{index: map[string]int{}}
	l.tieParts(w)
	l.tieRuns(w)
	body, place := w.span()
	for i, ref := range w.ports {
		l.rigid[ref.String()] = body[i]
	}
	l.closeLoops(w)
	l.measureParts(w, body, place)
	main := l.bridge(w, body, place)
	l.settle(w, place, main)
	return w
}

// tieParts ties the ports of each part whose distances are known.
func (l *work) tieParts(w *web) {
	for _, p := range l.c.Parts {
		ref := func(port string) graph.PortRef { return graph.PortRef{Part: p.ID, Port: port} }
		switch {
		case p.Kind == graph.Tee:
			w.tie(ref(graph.RunIn), ref(graph.RunOut), graph.Vec{}, tie{part: p, path: -1})
			w.tie(ref(graph.RunIn), ref(graph.Branch), graph.Vec{}, tie{part: p, path: -1})
			continue
		case len(p.Ports) > 1 && l.tiePlaced(w, p):
			continue
		}
		if by, ok := l.through(p); ok {
			w.tie(ref(graph.In), ref(graph.Out), by, tie{part: p, path: -1})
		}
	}
}

// tiePlaced ties the ports whose positions the description gives; false where it gives none.
func (l *work) tiePlaced(w *web, p *graph.Part) bool {
	first := p.Ports[0]
	origin, _ := p.PortAt(0)
	tied := false
	for _, q := range p.Ports[1:] {
		if q.At == nil {
			continue
		}
		w.tie(graph.PortRef{Part: p.ID, Port: first.Name}, graph.PortRef{Part: p.ID, Port: q.Name}, q.At.Sub(origin), tie{part: p, path: -1})
		tied = true
	}
	return tied
}

// through is the way from a two-port part's inlet to its outlet, where its length and
// direction are known: along its run.
func (l *work) through(p *graph.Part) (graph.Vec, bool) {
	if !p.Kind.TwoPort() {
		return graph.Vec{}, false
	}
	out, okOut := l.ways[p.ID+"."+graph.Out]
	in, okIn := l.ways[p.ID+"."+graph.In]
	if settle.InLine(p.Kind) {
		length := l.set.Part(p.ID).Row.V.LengthMM
		switch {
		case length <= 0 && !p.OwnLength() && p.Kind != graph.SlipCoupling: // its pipes butt
			return graph.Vec{}, false
		case okOut:
			return out.Scale(length), true
		case okIn:
			return in.Scale(-length), true
		}
		return graph.Vec{}, false
	}
	set := l.set.Part(p.ID)
	if !set.OwnLength() {
		return graph.Vec{}, false
	}
	switch {
	case okIn && okOut && in.Scale(-1).AngleTo(out) > graph.StraightDeg:
		return graph.Vec{}, false // its ports turn the water: the legs say where they are
	case okOut:
		return out.Scale(set.Length.V), true
	case okIn:
		return in.Scale(-set.Length.V), true
	}
	return graph.Vec{}, false
}

// tieRuns ties the ends of the runs with legs and of direct joints: runs that were cut first, as
// they were, then old pipe, then what pipe that was taken out says of ends it no longer joins,
// then new pipe. So a loop of old pipe that does not close is found in the old pipe, beside the
// cut, and one that the new work does not close in the new work.
func (l *work) tieRuns(w *web) {
	add := func(i int, r *graph.Run) {
		by, ok := graph.Vec{}, r.Direct()
		for _, leg := range l.lines[i].legs {
			by, ok = by.Add(leg), true
		}
		if ok {
			w.tie(r.From, r.To, by, tie{run: r, path: i})
		}
	}
	gone := func(wasCut bool) {
		for _, r := range l.c.Gone {
			if by, ok := l.goneSpan(r); ok && wasCut == l.remains(r) {
				w.tie(r.From, r.To, by, tie{run: r, path: -1, gone: true})
			}
		}
	}
	gone(true)
	for i, r := range l.c.Runs {
		if !r.New() {
			add(i, r)
		}
	}
	gone(false)
	for i, r := range l.c.Runs {
		if r.New() {
			add(i, r)
		}
	}
}

// remains reports whether something of a run that was taken out still stands: it was cut.
func (l *work) remains(r *graph.Run) bool {
	return slices.ContainsFunc(l.c.Runs, func(rest *graph.Run) bool { return rest.RemainsOf == r.ID })
}

// goneSpan is how far apart the ends of a run stand that was taken out; false where that
// is not known, or where it was hose and says nothing.
func (l *work) goneSpan(r *graph.Run) (graph.Vec, bool) {
	if len(r.Legs) == 0 || r.Spec.Flexible() || r.Faces {
		return graph.Vec{}, false
	}
	by := graph.Vec{}
	for _, leg := range r.Legs {
		by = by.Add(leg.By)
	}
	return by, true
}

// span finds the bodies of known distances: for each port the number of its body, and its
// place from the body's first port. It marks the ties it walked as the tree.
func (w *web) span() (body []int, place []graph.Vec) {
	n := len(w.ports)
	parent := make([]int, n)
	for i := range parent {
		parent[i] = i
	}
	root := func(i int) int {
		for parent[i] != i {
			parent[i] = parent[parent[i]]
			i = parent[i]
		}
		return i
	}
	w.next = make([][]int, n)
	for k := range w.ties {
		t := &w.ties[k]
		a, b := root(t.from), root(t.to)
		if a == b {
			continue
		}
		parent[max(a, b)] = min(a, b)
		t.tree = true
		w.next[t.from] = append(w.next[t.from], k)
		w.next[t.to] = append(w.next[t.to], k)
	}
	body, place = make([]int, n), make([]graph.Vec, n)
	for i := range body {
		body[i] = -1
	}
	for start := range n {
		if body[start] >= 0 {
			continue
		}
		body[start] = start
		for queue := []int{start}; len(queue) > 0; queue = queue[1:] {
			at := queue[0]
			for _, k := range w.next[at] {
				t := w.ties[k]
				to, by := t.to, t.by
				if to == at {
					to, by = t.from, t.by.Scale(-1)
				}
				if body[to] < 0 {
					body[to], place[to] = start, place[at].Add(by)
					queue = append(queue, to)
				}
			}
		}
	}
	return body, place
}

// chain is the way through the tree from one port to another, as ties with their sense.
func (w *web) chain(from, to int) []step {
	came := make(map[int]step, 16)
	came[from] = step{tie: -1}
	for queue := []int{from}; len(queue) > 0; queue = queue[1:] {
		at := queue[0]
		if at == to {
			break
		}
		for _, k := range w.next[at] {
			t := w.ties[k]
			other, back := t.to, false
			if other == at {
				other, back = t.from, true
			}
			if _, seen := came[other]; !seen {
				came[other] = step{tie: k, back: back, at: at}
				queue = append(queue, other)
			}
		}
	}
	var out []step
	for at := to; at != from; {
		s, ok := came[at]
		if !ok {
			return nil
		}
		out = append(out, s)
		at = s.at
	}
	slices.Reverse(out)
	return out
}

// step is one tie of a chain; back where it is walked from its end to its start.
type step struct {
	tie  int
	back bool
	at   int
}
