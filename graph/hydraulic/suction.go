package hydraulic

import "dryfit/graph"

// suction marks the runs between the tub and the inlets of running pumps: those the water
// passes on its way to one, followed back to the tub or to another pump.
func (v *view) suction() {
	still := 1e-9 * v.f.FlowScale
	by := map[int][]int{} // node -> edges
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
	stops := map[int]bool{}
	for i := range v.m.Parts {
		if m := &v.m.Parts[i]; m.Part.Kind == graph.Pump && len(m.Edges) == 1 {
			stops[m.Edges[0]] = true
		}
	}
	for e, d := range v.m.net.Edges {
		by[d.From] = append(by[d.From], e)
		by[d.To] = append(by[d.To], e)
	}
	runOf := map[int]int{}
	for i := range v.m.Runs {
		if v.m.Runs[i].Edge >= 0 {
			runOf[v.m.Runs[i].Edge] = i
		}
	}
	seen := map[int]bool{}
	for len(queue) > 0 {
		n := queue[len(queue)-1]
		queue = queue[:len(queue)-1]
		if seen[n] || n == v.m.tub {
			continue
		}
		seen[n] = true
		for _, e := range by[n] {
			d := v.m.net.Edges[e]
			q, from := v.f.Q[e], d.From
			if from == n {
				q, from = -q, d.To
			}
			if q <= still || stops[e] {
				continue
			}
			if i, ok := runOf[e]; ok {
				v.s.Runs[i].Suction = true
			}
			queue = append(queue, from)
		}
	}
}
