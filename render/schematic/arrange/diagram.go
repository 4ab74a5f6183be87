package arrange

import (
	"dryfit/graph"
	"dryfit/graph/stream"
	"dryfit/render/scene"
	"dryfit/render/symbol"
)

// Measure says how much room the signs and labels want.
type Measure struct {
	// Part returns the sign of a part and the size of its label.
	Part func(p *graph.Part) (s symbol.Symbol, labelW, labelH float64)
	// Run returns the least length of a level run that holds its label and marks, and the
	// height of the label.
	Run func(r *graph.Run) (length, height float64)
	// Spread widens the distances where labels found no place; 1 is close.
	Spread float64
	// MostRow is the length to which the rows of the main lines are broken where they can be,
	// mm; 0: they are not broken.
	MostRow float64
	// Order is what an earlier Diagram of the same circuit found; nil: Graphviz is asked.
	Order *Order
}

// Order is where Graphviz put the parts of a circuit, by id.
type Order struct{ x, y map[string]float64 }

// Node is a part with its place.
type Node struct {
	Part           *graph.Part
	Symbol         symbol.Symbol
	LabelW, LabelH float64
	At             scene.Point
	Way            symbol.Way
	Role           Role
	BarUp, BarDown float64 // of a manifold: how far its bar reaches from At

	line *line
	ins  []*Pipe
	outs []*Pipe
	host bool // another line that is not a hanging one starts or ends here
}

// Box is what the sign covers where it stands, a manifold with the bar it has there.
func (n *Node) Box() scene.Box {
	s := n.Symbol
	if n.Part.Kind == graph.Manifold {
		s = symbol.Manifold(n.BarUp, n.BarDown, symbol.Look{})
	}
	return s.BoxAt(n.At, n.Way)
}

// Role says how a node stands.
type Role int

// The roles.
const (
	InRow   Role = iota // in a level row
	OnRiser             // on the upright pipe between two rows
	OnWall              // fixed in the tub's wall
	Hanging             // on a short dead end
)

// Pipe is a run with its way on the page, from From to To as the water goes (as written
// where it stands).
type Pipe struct {
	Run              *graph.Run
	From, To         *Node
	FromPort, ToPort string
	Air              bool // carries air, not water
	Flows            bool // water can flow in it
	Points           []scene.Point

	line *line
}

// Mouth is where a pipe meets the tub.
type Mouth struct {
	Port string
	At   scene.Point
	Foot bool // in the tub's foot, else in its right wall
}

// Diagram is a circuit arranged.
type Diagram struct {
	Nodes  []*Node
	Pipes  []*Pipe
	Tub    *Node // nil where there is none
	TubBox scene.Box
	Mouths []Mouth
	Order  *Order
}

// New arranges the circuit of one stage; the net is that stage's.
func New(c *graph.Circuit, net *stream.Net, m Measure) *Diagram {
	if m.Spread < 1 {
		m.Spread = 1
	}
	b := newBuilder(c, net, m)
	b.findLines()
	b.classify()
	b.setRisers()
	b.rank()
	b.columns()
	b.fold()
	b.rows()
	b.returns()
	b.routes()
	return b.d
}

// builder holds what is worked out on the way.
type builder struct {
	d      *Diagram
	net    *stream.Net
	m      Measure
	lines  []*line
	wishes map[*Pipe]wish
	xs     map[*Node]float64 // where Graphviz put them
	ys     map[*Node]float64
}

// Least lengths, mm.
const (
	leastPipe = 7.0  // between two signs: an arrowhead and some line
	labelGap  = 2.5  // between two labels side by side
	rowGap    = 4.0  // between what stands in two rows
	leastRise = 15.0 // between two rows joined by an upright pipe
	trackGap  = 7.0  // between two returns under everything
)

// wish is the room a run wants.
type wish struct{ length, height float64 }

func (b *builder) wishOf(p *Pipe) wish {
	w, ok := b.wishes[p]
	if !ok {
		w.length, w.height = b.m.Run(p.Run)
		b.wishes[p] = w
	}
	return w
}

func (b *builder) lengthOf(p *Pipe) float64 { return b.wishOf(p).length }

func (b *builder) heightOf(p *Pipe) float64 { return b.wishOf(p).height }

func newBuilder(c *graph.Circuit, net *stream.Net, m Measure) *builder {
	b := &builder{d: &Diagram{}, wishes: map[*Pipe]wish{}, net: net, m: m}
	byID := map[string]*Node{}
	for _, p := range c.Parts {
		if byID[p.ID] != nil {
			continue
		}
		n := &Node{Part: p}
		n.Symbol, n.LabelW, n.LabelH = m.Part(p)
		b.d.Nodes = append(b.d.Nodes, n)
		byID[p.ID] = n
		if p.Kind == graph.Tub && b.d.Tub == nil {
			b.d.Tub = n
		}
	}
	for _, r := range c.Runs {
		from, to := b.net.Ends(r)
		p := &Pipe{Run: r, From: byID[from.Part], To: byID[to.Part], FromPort: from.Port, ToPort: to.Port,
			Air: b.net.IsAir(r), Flows: b.net.Flows(r)}
		if p.From == nil || p.To == nil {
			continue
		}
		b.d.Pipes = append(b.d.Pipes, p)
	}
	b.orientStanding()
	for _, p := range b.d.Pipes {
		p.From.outs = append(p.From.outs, p)
		p.To.ins = append(p.To.ins, p)
	}
	return b
}

// orientStanding turns pipes without flow so that they lead away from the water that moves,
// and air lines so that they lead away from what moves the air.
func (b *builder) orientStanding() {
	at := map[*Node][]*Pipe{}
	for _, p := range b.d.Pipes {
		at[p.From] = append(at[p.From], p)
		at[p.To] = append(at[p.To], p)
	}
	for _, air := range []bool{false, true} {
		seen := map[*Node]bool{}
		var queue []*Node
		for _, n := range b.d.Nodes {
			start := air && n.Part.Kind.MovesAir()
			for _, p := range at[n] {
				start = start || (!air && p.Flows)
			}
			if start {
				queue = append(queue, n)
				seen[n] = true
			}
		}
		for k := 0; k < len(queue); k++ {
			n := queue[k]
			for _, p := range at[n] {
				if p.Flows || p.Air != air {
					continue
				}
				far := p.To
				if far == n {
					far = p.From
				}
				if seen[far] {
					continue
				}
				if p.To == n {
					p.From, p.To, p.FromPort, p.ToPort = p.To, p.From, p.ToPort, p.FromPort
				}
				seen[far] = true
				if far != b.d.Tub {
					queue = append(queue, far)
				}
			}
		}
	}
}
