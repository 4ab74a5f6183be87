package stream

import (
	"slices"
	"sync"

	"dryfit/graph"
)

// Net is one stage of a circuit seen as a directed graph: parts joined by runs, several of
// which may join the same two parts, with the way the water goes in each run. It is built
// once, is not changed afterwards, and refers to the circuit's parts and runs.
//
// The way of the water follows from where it can go, not from how the runs are written: it
// leaves every pump at "out" and comes to every pump at "in", and a tub stands between. A
// run has a way if it lies on some path without repeats from a source (a pump's outlet, a
// tub's suction) to a sink (a pump's inlet, a tub's return); all others are dead ends, in
// which the water stands. Where two ways are possible, as in the bridge between two
// parallel lines, the arrow of a check valve decides, then the ports and runs as written.
//
// Building takes time in proportion to the parts and runs but for those bridges, each of
// which costs one search.
type Net struct {
	Circuit *graph.Circuit

	parts   map[string]int // id -> index into Circuit.Parts
	runs    map[string]int // id -> index into Circuit.Runs
	named   []int          // of each run: the first run of its id
	order   []int          // the runs, see inOrder
	ends    [][2]int       // of each run: indexes of its parts; -1 where there is no such part
	air     []bool         // of each run
	joins   []AirJoin
	nodes   []node
	nodeAt  map[string]int                  // "part.port" or part id -> node
	hangs   [][2]int                        // of each water run: the nodes at its ends
	atPart  [][]int                         // runs at each part, in the order of the circuit
	way     []int8                          // of each run: 1 from-to, -1 to-from, 0 stands
	out     [][]int                         // runs the water leaves each part by
	in      [][]int                         // runs the water comes to each part by
	waters  func() waters                   // the bodies of water
	feeding func() map[string][]*graph.Part // see Feeding
	pumps   func() []int                    // of each part: the pump in whose line it stands; -1

	branches func() []Branch // of the units
}

// node is a place where water meets: a part, one port of a tub, or one side of a pump.
type node struct {
	part int
	port string // of a tub or pump; else ""
	runs []int  // water runs that end here
}

// NewNet returns the net of a circuit. Any circuit will do: runs whose parts are missing
// are taken to end nowhere.
func NewNet(c *graph.Circuit) *Net {
	n := &Net{Circuit: c, parts: make(map[string]int, len(c.Parts)), runs: make(map[string]int, len(c.Runs)),
		nodeAt: make(map[string]int, len(c.Parts))}
	for i, p := range c.Parts {
		if _, twice := n.parts[p.ID]; !twice {
			n.parts[p.ID] = i
		}
	}
	n.ends, n.named = make([][2]int, len(c.Runs)), make([]int, len(c.Runs))
	n.atPart = make([][]int, len(c.Parts))
	for i, r := range c.Runs {
		if _, twice := n.runs[r.ID]; !twice {
			n.runs[r.ID] = i
		}
		n.named[i] = n.runs[r.ID]
		n.ends[i] = [2]int{n.index(r.From.Part), n.index(r.To.Part)}
		for k, e := range n.ends[i] {
			if e >= 0 && (k == 0 || e != n.ends[i][0]) {
				n.atPart[e] = append(n.atPart[e], i)
			}
		}
	}
	n.order = inOrder(c, n.ends)
	n.air, n.joins = airRuns(n)
	n.addNodes()
	n.way = orient(n)
	n.out, n.in = make([][]int, len(c.Parts)), make([][]int, len(c.Parts))
	for _, i := range n.order {
		w := n.way[i]
		if w == 0 {
			continue
		}
		a, b := n.ends[i][0], n.ends[i][1]
		if w < 0 {
			a, b = b, a
		}
		n.out[a] = append(n.out[a], i)
		n.in[b] = append(n.in[b], i)
	}
	n.pumps = sync.OnceValue(n.linePumps)
	n.feeding = sync.OnceValue(n.findFeeding)
	n.waters = sync.OnceValue(n.findWaters)
	n.branches = sync.OnceValue(n.findBranches)
	return n
}

func (n *Net) index(id string) int {
	if i, ok := n.parts[id]; ok {
		return i
	}
	return -1
}

// addNodes makes the nodes of the water's graph and hangs the water runs on them.
func (n *Net) addNodes() {
	n.hangs = make([][2]int, len(n.Circuit.Runs))
	for _, i := range n.order {
		r := n.Circuit.Runs[i]
		if !n.carriesWater(i) {
			continue
		}
		for k, ref := range []graph.PortRef{r.From, r.To} {
			v := n.nodeFor(n.ends[i][k], ref.Port)
			n.nodes[v].runs = append(n.nodes[v].runs, i)
			n.hangs[i][k] = v
		}
	}
}

// nodeFor returns the node of a port, which is made at need.
func (n *Net) nodeFor(part int, port string) int {
	p := n.Circuit.Parts[part]
	key := p.ID
	if p.Kind == graph.Tub || p.Kind == graph.Pump {
		key += "." + port
	} else {
		port = ""
	}
	v, ok := n.nodeAt[key]
	if !ok {
		v = len(n.nodes)
		n.nodes = append(n.nodes, node{part: part, port: port})
		n.nodeAt[key] = v
	}
	return v
}

// nodeEnds returns the nodes at the two ends of a water run.
func (n *Net) nodeEnds(run int) (from, to int) {
	return n.hangs[run][0], n.hangs[run][1]
}

// carriesWater reports whether a run is a water line with a part at either end.
func (n *Net) carriesWater(run int) bool {
	return !n.air[run] && n.ends[run][0] >= 0 && n.ends[run][1] >= 0
}

// Part returns the part with the id, or nil.
func (n *Net) Part(id string) *graph.Part {
	if i, ok := n.parts[id]; ok {
		return n.Circuit.Parts[i]
	}
	return nil
}

// Run returns the run with the id, or nil.
func (n *Net) Run(id string) *graph.Run {
	if i, ok := n.runs[id]; ok {
		return n.Circuit.Runs[i]
	}
	return nil
}

// At returns the runs that end at a part, air lines too, in the order of the circuit.
func (n *Net) At(p *graph.Part) []*graph.Run { return n.pick(n.atPart, p) }

// Leaving returns the runs by which the water leaves a part.
func (n *Net) Leaving(p *graph.Part) []*graph.Run { return n.pick(n.out, p) }

// Coming returns the runs by which the water comes to a part.
func (n *Net) Coming(p *graph.Part) []*graph.Run { return n.pick(n.in, p) }

// runsOf returns the list of a part's runs.
func (n *Net) runsOf(by [][]int, p *graph.Part) []int {
	if p == nil {
		return nil
	}
	if i := n.index(p.ID); i >= 0 {
		return by[i]
	}
	return nil
}

func (n *Net) pick(by [][]int, p *graph.Part) []*graph.Run {
	list := n.runsOf(by, p)
	if list == nil {
		return nil
	}
	out := make([]*graph.Run, len(list))
	for i, r := range list {
		out[i] = n.Circuit.Runs[r]
	}
	return out
}

// IsAir reports whether the run is an air line.
func (n *Net) IsAir(r *graph.Run) bool {
	i, ok := n.runs[r.ID]
	return ok && n.air[i]
}

// Flows reports whether water can flow through the run.
func (n *Net) Flows(r *graph.Run) bool {
	i, ok := n.runs[r.ID]
	return ok && n.way[i] != 0
}

// Ends returns the ends of the run in the way of the water; as written where it stands.
func (n *Net) Ends(r *graph.Run) (from, to graph.PortRef) {
	if i, ok := n.runs[r.ID]; ok && n.way[i] < 0 {
		return r.To, r.From
	}
	return r.From, r.To
}

// Against reports whether the water goes from To to From in the run.
func (n *Net) Against(r *graph.Run) bool {
	i, ok := n.runs[r.ID]
	return ok && n.way[i] < 0
}

// Inlet returns the port by which the water comes to a part, and the run it comes by; for
// several the first by what they join. The run is nil where no water comes.
func (n *Net) Inlet(p *graph.Part) (port string, r *graph.Run) {
	for _, i := range n.runsOf(n.in, p) {
		r := n.Circuit.Runs[i]
		_, to := n.Ends(r)
		return to.Port, r
	}
	return "", nil
}

// HoldsBack reports whether a part is a check valve that the water passes by its arrow: what lies
// down the water from it does not creep back through it when the pump stops.
func (n *Net) HoldsBack(p *graph.Part) bool {
	if p.Kind != graph.CheckValve {
		return false
	}
	port, _ := n.Inlet(p)
	return port == graph.In
}

// Outlet returns the port by which the water leaves a part, and the run it leaves by.
func (n *Net) Outlet(p *graph.Part) (port string, r *graph.Run) {
	for _, i := range n.runsOf(n.out, p) {
		r := n.Circuit.Runs[i]
		from, _ := n.Ends(r)
		return from.Port, r
	}
	return "", nil
}

// HoseOut reports whether the run by which the water leaves a part is hose; where no water
// flows, the run at its outlet.
func (n *Net) HoseOut(p *graph.Part) bool {
	_, r := n.Outlet(p)
	if r == nil {
		r = n.Joined(p.ID, graph.Out)
	}
	return r != nil && r.Spec.IsHose()
}

// Between is the pipe by which the water comes to a part of two ports, and that by which it leaves; where no water flows, those
// at its inlet and outlet. Either may be nil.
func (n *Net) Between(p *graph.Part) (in, out *graph.Run) {
	_, in = n.Inlet(p)
	_, out = n.Outlet(p)
	if in == nil {
		in = n.Joined(p.ID, graph.In)
	}
	if out == nil {
		out = n.Joined(p.ID, graph.Out)
	}
	return in, out
}

// Disconnected reports whether an element is shown disconnected: until the work that fits the first unit is done it
// still heats, whatever is to become of it. unitless says that the job has no unit: then it is as described.
func (n *Net) Disconnected(e *graph.Part, unitless bool) bool {
	return e.Element != nil && e.Element.Disconnected && (unitless || n.hasUnit())
}

// hasUnit reports whether a unit stands in the circuit: one that is there already, or one that pipes lead to.
func (n *Net) hasUnit() bool {
	return slices.ContainsFunc(n.Circuit.Units(), func(u *graph.Part) bool { return !u.New() || len(n.At(u)) > 0 })
}

// Joined returns the run at a port, or nil.
func (n *Net) Joined(part, port string) *graph.Run {
	i := n.index(part)
	if i < 0 {
		return nil
	}
	for _, k := range n.atPart[i] {
		r := n.Circuit.Runs[k]
		if (r.From.Part == part && r.From.Port == port) || (r.To.Part == part && r.To.Port == port) {
			return r
		}
	}
	return nil
}
