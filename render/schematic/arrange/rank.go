package arrange

import (
	"sort"

	"dryfit/render/schematic/place"
)

// rank puts the lines into the order in which Graphviz places them.
func (b *builder) rank() {
	if b.m.Order == nil {
		b.m.Order = b.askOrder()
	}
	b.d.Order = b.m.Order
	b.xs, b.ys = map[*Node]float64{}, map[*Node]float64{}
	for _, n := range b.d.Nodes {
		b.xs[n], b.ys[n] = b.m.Order.x[n.Part.ID], b.m.Order.y[n.Part.ID]
	}
	for i, l := range b.lines {
		l.readingPos = i
	}
	sort.SliceStable(b.lines, func(i, j int) bool { return b.meanY(b.lines[i]) < b.meanY(b.lines[j]) })
}

// askOrder asks Graphviz where everything should stand. Where it fails the order of the
// description serves.
func (b *builder) askOrder() *Order {
	o := &Order{x: map[string]float64{}, y: map[string]float64{}}
	index := map[*Node]int{}
	var boxes []place.Box
	var nodes []*Node
	add := func(n *Node) {
		index[n] = len(boxes)
		nodes = append(nodes, n)
		boxes = append(boxes, place.Box{W: max(n.Symbol.Box.W(), n.LabelW, 2), H: max(n.Symbol.Box.H()+n.LabelH, 2)})
	}
	if b.d.Tub != nil {
		add(b.d.Tub)
	}
	for _, l := range b.lines {
		if !l.hang {
			for _, n := range l.nodes {
				add(n)
			}
		}
	}
	var edges []place.Edge
	for _, p := range b.d.Pipes {
		from, ok1 := index[p.From]
		to, ok2 := index[p.To]
		if !ok1 || !ok2 || from == to {
			continue
		}
		e := place.Edge{From: from, To: to, Weight: 1, Free: p.To == b.d.Tub}
		if p.line != nil && p.line.kind == loop {
			e.Weight = 5
		}
		edges = append(edges, e)
	}
	pts, err := place.Boxes(boxes, edges, 19, 19)
	for i, n := range nodes {
		o.x[n.Part.ID] = float64(i)
		if err == nil {
			o.x[n.Part.ID], o.y[n.Part.ID] = pts[i].X, pts[i].Y
		}
	}
	return o
}

// meanY is the middle of a line as Graphviz put it.
func (b *builder) meanY(l *line) float64 {
	if len(l.nodes) == 0 {
		return 0
	}
	sum := 0.0
	for _, n := range l.nodes {
		sum += b.ys[n]
	}
	return sum / float64(len(l.nodes))
}
