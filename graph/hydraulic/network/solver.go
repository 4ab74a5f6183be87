package network

import "math"

// idle is a resistance in m per m³/s added to every edge: far below anything that counts
// (3e-12 m at 10 m³/h), it makes water that could as well go one lossless way as another
// divide evenly.
const idle = 1e-9

// Solver solves one network again and again while its laws change, but not its edges. It
// keeps what it can from one solution to the next; the answers do not hang on that beyond
// rounding. It is not safe for use by several goroutines.
type Solver struct {
	net    *Network
	ends   [][2]int32
	law    []Law // of each edge and then of each fixed head
	oneWay []bool
	joint  []int32 // of each edge: its joint, -1 none
	prefer []int32 // roots

	inject []float64 // m³/s put in at each node
	first  []float64 // head of a one-way edge at no flow
	back   []float64 // slope of a one-way edge for flows below 0
	secant []float64 // head per flow at a flow of the network's size
	floor  []float64 // least resistance the direction reckons with
	flow0  []float64 // flows to start with
	qs, hs float64   // size of flows and heads
	driven bool      // by demands alone
	extra  int       // edges from ground to fixed heads

	topos map[string]*topology

	q, h, s []float64 // of each edge: flow, head lost, slope
	js      [][3][3]float64
	p       []float64 // head at each node of the tree
	res     []float64 // imbalance over each chord
	work    work

	stiff   bool // one-way edges are walls of finite steepness, joints frozen
	frozen  []float64
	frozenQ []float64
	steep   float64
	plain   float64 // share of plain square laws in the joints' losses
	steps   int
	aim     float64 // how far heads may miss, of the head scale
	sized   bool    // size was called
	times   int     // how often it was asked to solve
	seek    bool    // every step is sought: joints are not eliminated with the rest
}

// work holds vectors used again and again.
type work struct {
	q0, dq, dir, b, resist, old []float64
	krylov                      [][]float64
	tmp                         []float64
	gmres                       rotations
}

// NewSolver returns a solver of the network.
func NewSolver(n *Network) (*Solver, error) {
	if err := n.check(); err != nil {
		return nil, err
	}
	s := &Solver{net: n, extra: len(n.Fixed), topos: map[string]*topology{}}
	nodes := n.Nodes
	if s.extra > 0 {
		nodes++
		s.prefer = []int32{int32(n.Nodes)}
	} else {
		s.prefer = []int32{int32(n.Reference)}
	}
	edges := len(n.Edges) + s.extra
	s.ends = make([][2]int32, edges)
	s.law = make([]Law, edges)
	s.oneWay = make([]bool, edges)
	s.joint = make([]int32, edges)
	for i := range s.joint {
		s.joint[i] = -1
	}
	for j, t := range n.Joints {
		for _, e := range t.Edges {
			s.joint[e] = int32(j)
		}
	}
	for i, e := range n.Edges {
		s.ends[i] = [2]int32{int32(e.From), int32(e.To)}
		s.oneWay[i] = e.OneWay
	}
	for i, f := range n.Fixed {
		s.ends[len(n.Edges)+i] = [2]int32{int32(n.Nodes), int32(f.Node)}
	}
	vectors := []*[]float64{&s.first, &s.back, &s.secant, &s.floor, &s.flow0, &s.q, &s.h, &s.s,
		&s.frozen, &s.frozenQ, &s.work.q0, &s.work.dq, &s.work.dir, &s.work.resist, &s.work.old, &s.work.tmp}
	for _, v := range vectors {
		*v = make([]float64, edges)
	}
	s.p, s.work.b, s.inject = make([]float64, nodes), make([]float64, nodes), make([]float64, nodes)
	s.js = make([][3][3]float64, len(n.Joints))
	return s, nil
}

// prepare reads the laws and finds the size of the flows.
func (s *Solver) prepare() {
	n := s.net
	for i := range n.Edges {
		s.law[i] = n.Edges[i].Law
	}
	for i, f := range n.Fixed {
		s.law[len(n.Edges)+i] = constant(-f.Head)
	}
	clear(s.inject)
	total, most := 0.0, 0.0
	for v, d := range n.Demand {
		s.inject[v] = -d
		total += math.Abs(d) / 2
	}
	for _, e := range n.Edges {
		most = max(most, e.Start)
	}
	s.qs = max(most, total)
	if s.qs == 0 {
		s.qs = 1e-3
	}
}

// size reads first heads and secants at the present size of flow: of all edges, or of those alone
// that are one-way and open at a head that may have changed. Secants say where to look for what is
// sought, not what is found.
func (s *Solver) size(all bool) {
	s.sized = true
	n := s.net
	low, high, jump := 0.0, 0.0, 0.0
	for _, f := range n.Fixed {
		low, high = min(low, f.Head), max(high, f.Head)
	}
	for i := range s.ends {
		if !all && !s.oneWay[i] {
			continue
		}
		q := s.qs
		if i < len(n.Edges) && n.Edges[i].Start > 0 {
			q = n.Edges[i].Start
		}
		s.first[i] = 0
		if s.oneWay[i] {
			h, _ := s.lawOf(i, 0)
			s.first[i] = h
			jump = max(jump, -h)
		}
		h, slope := s.lawOf(i, q)
		s.secant[i] = max((h-s.first[i])/q, idle)
		if i >= len(n.Edges) {
			s.secant[i] = idle
		}
		if s.oneWay[i] {
			s.back[i] = max(s.secant[i], slope, idle)
		}
		s.floor[i] = max(1e-6*s.secant[i], idle)
	}
	for j := range n.Joints {
		if !all {
			break
		}
		for k, e := range n.Joints[j].Edges {
			var q [3]float64
			q[k], q[(k+1)%3] = s.qs, -s.qs
			h, _ := n.Joints[j].Law.Loss(q)
			s.secant[e] = max(math.Abs(h[k]-h[(k+1)%3])/s.qs/2, idle)
			s.floor[e] = max(1e-6*s.secant[e], idle)
		}
	}
	s.hs = max(jump, high-low)
	s.driven = s.hs == 0 && n.Demand != nil
	for i := range s.back {
		if s.oneWay[i] {
			s.back[i] = max(s.back[i], s.hs/s.qs)
		}
	}
}

// constant is a head lost whatever the flow.
type constant float64

func (c constant) Loss(float64) (float64, float64) { return float64(c), 0 }

func (s *Solver) lawOf(i int, q float64) (head, slope float64) {
	if s.law[i] == nil || s.joint[i] >= 0 {
		return 0, 0
	}
	return s.law[i].Loss(q)
}

// eval reads the losses of the active edges at the flows q.
func (s *Solver) eval(t *topology) {
	for _, e := range t.edges {
		if s.joint[e] >= 0 {
			continue
		}
		q := s.q[e]
		switch {
		case s.oneWay[e] && s.stiff && q < 0:
			s.h[e], s.s[e] = s.first[e]+s.steep*s.back[e]*q, s.steep*s.back[e]
		case s.oneWay[e] && q < 0:
			s.h[e], s.s[e] = s.first[e]+s.back[e]*q, s.back[e]
		default:
			h, slope := s.lawOf(int(e), q)
			s.h[e], s.s[e] = h+idle*q, slope+idle
		}
	}
	for j := range s.net.Joints {
		s.evalJoint(j)
	}
}

func (s *Solver) evalJoint(j int) {
	legs := s.net.Joints[j].Edges
	if s.stiff {
		for _, e := range legs {
			d := s.secant[e]
			s.h[e], s.s[e] = s.frozen[e]+d*(s.q[e]-s.frozenQ[e])+idle*s.q[e], d+idle
		}
		return
	}
	var q [3]float64
	for k, e := range legs {
		q[k] = s.q[e]
	}
	h, slope := s.net.Joints[j].Law.Loss(q)
	for k, e := range legs {
		if plain := s.plain; plain > 0 {
			r := s.secant[e] / s.qs
			h[k] = (1-plain)*h[k] + plain*r*q[k]*math.Abs(q[k])
			for i := range slope[k] {
				slope[k][i] *= 1 - plain
			}
			slope[k][k] += plain * 2 * r * math.Abs(q[k])
		}
		s.h[e] = h[k] + idle*q[k]
		slope[k][k] += idle
		s.s[e] = slope[k][k]
	}
	s.js[j] = slope
}

// balance sets the flows of the tree from those of the chords, in x; injected is what is put
// in at the nodes, nil for nothing.
func (s *Solver) balance(t *topology, x, injected []float64) {
	b := s.work.b
	if injected == nil {
		clear(b)
	} else {
		copy(b, injected)
	}
	for _, c := range t.chords {
		b[s.ends[c][0]] -= x[c]
		b[s.ends[c][1]] += x[c]
	}
	for k := len(t.twigs) - 1; k >= 0; k-- {
		w := &t.twigs[k]
		f := b[w.node]
		b[w.up] += f
		if w.down {
			f = -f
		}
		x[w.edge] = f
	}
}

// potentials sets the heads p at the nodes from the losses h along the tree.
func (s *Solver) potentials(t *topology, h []float64) {
	for _, v := range t.roots {
		s.p[v] = 0
	}
	for k := range t.twigs {
		w := &t.twigs[k]
		loss := h[w.edge]
		if w.down {
			loss = -loss
		}
		s.p[w.node] = s.p[w.up] + loss
	}
}

// imbalance sets res of the chords for the losses h and returns the largest and where it is.
func (s *Solver) imbalance(t *topology, h, res []float64) (most float64, where int) {
	s.potentials(t, h)
	where = -1
	for _, c := range t.chords {
		r := h[c] - (s.p[s.ends[c][0]] - s.p[s.ends[c][1]])
		res[c] = r
		if a := math.Abs(r); a > most || a != a {
			most, where = a, int(c)
		}
	}
	return most, where
}
