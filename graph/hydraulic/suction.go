package hydraulic

import "dryfit/graph"

// suction marks the runs between the tub and the inlets of running pumps: those the water
// passes on its way to one, followed back to the tub or to another pump.
func (v *view) suction() {
	still := 1e-9 * v.f.FlowScale
	var queue []int
	for i := range v.m.Parts {
		m := &v.m.Parts[i]
		if m.Pump != nil && v.f.Q[m.Edges[0]] > still {
			queue = append(queue, m.nodes[0])
		}
	}
	if len(queue) == 0 {
		return
	}
	edges := v.m.net.Edges
	stops := make([]bool, len(edges))
	for i := range v.m.Parts {
		if m := &v.m.Parts[i]; m.Part.Kind == graph.Pump && len(m.Edges) == 1 && m.Edges[0] >= 0 {
			stops[m.Edges[0]] = true
		}
	}
	into := make([][]int32, v.m.net.Nodes) // edges by which water comes to each node
	for e, d := range edges {
		switch q := v.f.Q[e]; {
		case stops[e]:
		case q > still:
			into[d.To] = append(into[d.To], int32(e))
		case -q > still:
			into[d.From] = append(into[d.From], int32(e))
		}
	}
	runOf := make([]int, len(edges)) // -1: none
	for e := range runOf {
		runOf[e] = -1
	}
	for i := range v.m.Runs {
		if e := v.m.Runs[i].Edge; e >= 0 {
			runOf[e] = i
		}
	}
	seen := make([]bool, v.m.net.Nodes)
	for len(queue) > 0 {
		n := queue[len(queue)-1]
		queue = queue[:len(queue)-1]
		if seen[n] || n == v.m.tub {
			continue
		}
		seen[n] = true
		for _, e := range into[n] {
			if i := runOf[e]; i >= 0 {
				v.s.Runs[i].Suction = true
			}
			from := edges[e].From
			if from == n {
				from = edges[e].To
			}
			queue = append(queue, from)
		}
	}
}
