package stream

import (
	"cmp"
	"container/heap"
	"slices"

	"dryfit/graph"
)

// Line is the way of the water from the tub through one pump and back to the tub: the loop
// a fitter follows with his finger.
type Line struct {
	Parts []*graph.Part // the tub, …, the pump, …, the tub
	Runs  []*graph.Run  // one fewer: Runs[i] leads from Parts[i] to Parts[i+1]
}

// Costs of a way: straight through a tee before round its corner, the through-line before
// a unit's branch.
const (
	runCost    = 1
	branchCost = 10
	unitCost   = 100000
)

// MainLine returns the line of a pump: of all ways from the tub through it and back the one
// with the fewest turns into a tee's branch, then the fewest runs, that does not pass a
// unit if one can be passed by; it passes an element heater if the pump's water can.
func (n *Net) MainLine(pump *graph.Part) Line {
	var line Line
	up := n.cheapest(pump, false, func(p *graph.Part) bool { return p.Kind == graph.Tub })
	via := pump
	var down []*graph.Run
	if e := n.Downstream(pump).First(graph.ElementHeater); e != nil {
		down = n.cheapest(pump, true, func(p *graph.Part) bool { return p == e })
		via = e
	}
	down = append(down, n.cheapest(via, true, func(p *graph.Part) bool { return p.Kind == graph.Tub })...)
	for i := len(up) - 1; i >= 0; i-- {
		line.Runs = append(line.Runs, up[i])
	}
	line.Runs = append(line.Runs, down...)
	if len(line.Runs) == 0 {
		line.Parts = []*graph.Part{pump}
		return line
	}
	from, _ := n.Ends(line.Runs[0])
	line.Parts = append(line.Parts, n.Part(from.Part))
	for _, r := range line.Runs {
		_, to := n.Ends(r)
		line.Parts = append(line.Parts, n.Part(to.Part))
	}
	return line
}

// HeaterPump returns the pump on whose line heat belongs: of those in the unit's water (see
// Apart) the pump whose water comes to the
// element heater; of several such, or where there is none, one that is always on or has
// several speeds; of several such the always-on one; else the only one, else the smallest
// by its greatest flow; of those alike in all that the one whose type, then whose id comes first. It is nil
// where there is no pump.
func (n *Net) HeaterPump() *graph.Part { return n.heaterPump(n.Apart) }

func (n *Net) heaterPump(apart func(p *graph.Part) bool) *graph.Part {
	var best *graph.Part
	var bestRank [3]float64
	for _, p := range n.Circuit.Pumps() {
		rank := [3]float64{2, 0, greatestFlow(p)}
		if n.Downstream(p).First(graph.ElementHeater) == nil {
			rank[0] = 3
		}
		if apart(p) {
			rank[0] += 2
		}
		switch {
		case p.Pump.NeverOff():
		case len(p.SpeedNames()) > 1:
			rank[1] = 1
		default:
			rank[1] = 2
		}
		if best == nil || less(rank, bestRank) || rank == bestRank && cmp.Or(cmp.Compare(p.Type, best.Type), cmp.Compare(p.ID, best.ID)) < 0 {
			best, bestRank = p, rank
		}
	}
	return best
}

func less(a, b [3]float64) bool {
	for i := range a {
		if a[i] != b[i] {
			return a[i] < b[i]
		}
	}
	return false
}

// greatestFlow returns the flow at the end of the longest curve of a pump, m³/s; 0 where it
// has none.
func greatestFlow(p *graph.Part) float64 {
	most := 0.0
	if p.Pump == nil {
		return most
	}
	for _, s := range p.Pump.Speeds {
		for _, c := range s.Curve {
			most = max(most, c.Flow)
		}
	}
	return most
}

// cheapest returns the runs of the cheapest way with the water (or against it) from a part
// to the first part that is the goal, nearest first; nil where there is none. The tub is
// never passed.
func (n *Net) cheapest(start *graph.Part, down bool, goal func(*graph.Part) bool) []*graph.Run {
	parts, next := n.Circuit.Parts, n.in
	if down {
		next = n.out
	}
	first := n.index(start.ID)
	if first < 0 {
		return nil
	}
	met := make([]step, len(parts))
	met[first].seen = true
	queue := &wayHeap{{part: first}}
	for queue.Len() > 0 {
		at := heap.Pop(queue).(wayItem)
		if met[at.part].done {
			continue
		}
		met[at.part].done = true
		if at.part != first {
			if goal(parts[at.part]) {
				return n.backtrack(met, first, at.part)
			}
			if parts[at.part].Kind == graph.Tub {
				continue
			}
		}
		for _, i := range next[at.part] {
			r, q := n.Circuit.Runs[i], n.endOf(i, down)
			c := at.cost + runCost
			for _, port := range []string{r.From.Port, r.To.Port} {
				if port == graph.Branch {
					c += branchCost
				}
			}
			if parts[q].Kind == graph.HeatPump {
				c += unitCost
			}
			if !met[q].seen || c < met[q].cost {
				met[q] = step{cost: c, by: i, from: at.part, seen: true, done: met[q].done}
				heap.Push(queue, wayItem{part: q, cost: c})
			}
		}
	}
	return nil
}

// step is how a part was come to at the least cost: by a run, from another part.
type step struct {
	cost, by, from int
	seen, done     bool
}

// backtrack returns the runs found from start to end, nearest first.
func (n *Net) backtrack(met []step, start, end int) []*graph.Run {
	var back []*graph.Run
	for at := end; at != start; at = met[at].from {
		back = append(back, n.Circuit.Runs[met[at].by])
	}
	slices.Reverse(back)
	return back
}

// wayItem is a part, by its place in the circuit, met at a cost; ties go by that place.
type wayItem struct{ part, cost int }

type wayHeap []wayItem

func (h wayHeap) Len() int { return len(h) }
func (h wayHeap) Less(i, j int) bool {
	if h[i].cost != h[j].cost {
		return h[i].cost < h[j].cost
	}
	return h[i].part < h[j].part
}
func (h wayHeap) Swap(i, j int) { h[i], h[j] = h[j], h[i] }
func (h *wayHeap) Push(x any)   { *h = append(*h, x.(wayItem)) }
func (h *wayHeap) Pop() any {
	old := *h
	last := old[len(old)-1]
	*h = old[:len(old)-1]
	return last
}
