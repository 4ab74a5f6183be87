package network

import "fmt"

// Law is the loss of an edge.
type Law interface {
	// Loss returns the head in m lost from the edge's start to its end at a flow in m³/s
	// (negative: against the edge), and its derivative by the flow. The loss must rise
	// with the flow, or not fall, unless the law is Bounded.
	Loss(q float64) (head, slope float64)
}

// Bounded is a law that falls in places, as that of a pump whose curve rises before it falls.
// Least and Greatest enclose it: laws that do not fall, nowhere above and nowhere below it.
type Bounded interface {
	Law
	Least() Law    // nowhere above the law
	Greatest() Law // nowhere below the law
}

// JointLaw is the loss of three edges that hang together, as the legs of a tee.
type JointLaw interface {
	// Loss returns the heads in m lost along the three legs from their starts to the
	// middle, where they end, for the flows in m³/s, which add up to nothing; and the
	// derivative of each by each flow.
	Loss(q [3]float64) (head [3]float64, slope [3][3]float64)
}

// Edge joins two nodes.
type Edge struct {
	From, To int
	Law      Law     // nil: no loss
	OneWay   bool    // lets no water pass against its direction; its law is asked for q >= 0 only
	Start    float64 // m³/s, a flow to begin with where one is known (a pump's); 0: none
}

// Joint is three edges that end in one node and share a law. The laws of the edges
// themselves are not used.
type Joint struct {
	Edges [3]int
	Law   JointLaw
}

// Fixed is a node whose head is given.
type Fixed struct {
	Node int
	Head float64 // m
}

// Network is what is solved. Nodes are numbered from 0.
type Network struct {
	Nodes     int
	Edges     []Edge
	Joints    []Joint
	Fixed     []Fixed
	Demand    []float64 // m³/s taken out at each node; nil: none
	Reference int       // node from which heads are counted where none is fixed
}

// Flow is the solution.
type Flow struct {
	Q           []float64 // m³/s in each edge, exactly 0 where it is shut
	Loss        []float64 // m over each edge; over a shut one the difference of the heads at its ends
	Head        []float64 // m at each node
	Known       []bool    // of each node: its head follows from the reference or the fixed heads
	Shut        []bool    // of each edge: one-way, and no water passes it
	Slack       []float64 // m, of each shut edge: how much more would open it; +Inf where nothing presses on it
	Iterations  int
	Residual    float64   // m³/s, largest imbalance of a node
	EnergyError float64   // m, largest imbalance over an edge
	FlowScale   float64   // m³/s and
	HeadScale   float64   // m: the size of what was solved
	Two         bool      // there is a second answer, with more flow
	Other       []float64 // m³/s, the flows of that answer
}

// ConvergenceError says that no flows were found that close.
type ConvergenceError struct {
	Iterations int
	Residual   float64 // m, largest imbalance of head
	Mass       float64 // m³/s, largest imbalance of a node
	Edge       int     // where the imbalance of head is; -1: not known
	Why        string
}

func (e *ConvergenceError) Error() string {
	return fmt.Sprintf("no solution after %d steps: %s (head off by %.3g m, flow by %.3g m³/s)", e.Iterations, e.Why, e.Residual, e.Mass)
}

// InputError says that the network makes no sense.
type InputError struct{ Why string }

func (e *InputError) Error() string { return "network: " + e.Why }

func (n *Network) check() error {
	if n.Nodes <= 0 || n.Reference < 0 || n.Reference >= n.Nodes {
		return &InputError{fmt.Sprintf("%d nodes, reference %d", n.Nodes, n.Reference)}
	}
	for i, e := range n.Edges {
		if e.From < 0 || e.From >= n.Nodes || e.To < 0 || e.To >= n.Nodes {
			return &InputError{fmt.Sprintf("edge %d joins nodes %d and %d of %d", i, e.From, e.To, n.Nodes)}
		}
	}
	for i, j := range n.Joints {
		for _, e := range j.Edges {
			if e < 0 || e >= len(n.Edges) || n.Edges[e].OneWay {
				return &InputError{fmt.Sprintf("joint %d has no edge %d, or one-way", i, e)}
			}
		}
	}
	for i, f := range n.Fixed {
		if f.Node < 0 || f.Node >= n.Nodes || !finite(f.Head) {
			return &InputError{fmt.Sprintf("fixed head %d", i)}
		}
	}
	if n.Demand != nil && len(n.Demand) != n.Nodes {
		return &InputError{fmt.Sprintf("%d demands for %d nodes", len(n.Demand), n.Nodes)}
	}
	for i, d := range n.Demand {
		if !finite(d) {
			return &InputError{fmt.Sprintf("demand %d", i)}
		}
	}
	return nil
}

func finite(v float64) bool { return v-v == 0 }
