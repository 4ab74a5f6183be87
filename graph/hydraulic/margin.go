package hydraulic

import "math"

// check fills in how far a check valve is from its other state.
func (v *view) check(m *ModelPart, out *PartFlow) {
	if len(m.Edges) != 1 {
		return
	}
	e := m.Edges[0]
	out.Spring = v.spring(m)
	if !v.f.Shut[e] && out.Flow > 0 {
		out.MarginPa = out.Drop - v.pa*m.Check.Cracking
		out.MarginFlow = out.Flow
		return
	}
	slack := v.f.Slack[e]
	if math.IsInf(slack, 0) { // nothing presses on it
		slack, out.Drop = m.Check.Cracking, 0
	}
	out.MarginPa = v.pa * max(slack, 0)
	if !v.brief {
		out.MarginFlow = v.marginFlow(e)
	}
}

// marginFlow returns how much more flow through the way past a shut check would press it
// open, m³/s: all flows on that way are taken to rise in one ratio, the losses on it with
// them, until they come to the cracking pressure. 0 where no flow does.
func (v *view) marginFlow(e int) float64 {
	way, signs := v.wayPast(e)
	if way == nil {
		return 0
	}
	edges := v.m.net.Edges
	most := 0.0
	for _, w := range way {
		most = max(most, math.Abs(v.f.Q[w]))
	}
	if most == 0 {
		return 0
	}
	opens, _ := edges[e].Law.Loss(0)
	joint := map[int]float64{} // legs of tees: their loss goes with the square
	for _, j := range v.m.net.Joints {
		for _, l := range j.Edges {
			joint[l] = v.f.Loss[l]
		}
	}
	pressure := func(ratio float64) float64 {
		sum := 0.0
		for i, w := range way {
			h, isJoint := joint[w]
			switch {
			case isJoint:
				h *= ratio * ratio
			case v.f.Shut[w]:
				h, _ = edges[w].Law.Loss(0)
			case edges[w].Law == nil:
				h = 0
			default:
				h, _ = edges[w].Law.Loss(v.f.Q[w] * ratio)
			}
			sum += signs[i] * h
		}
		return sum - opens
	}
	lo, hi := 1.0, 2.0
	for pressure(hi) < 0 {
		lo, hi = hi, 2*hi
		if hi > 1e4 {
			return 0
		}
	}
	for range 60 {
		if m := (lo + hi) / 2; pressure(m) < 0 {
			lo = m
		} else {
			hi = m
		}
	}
	return (hi - 1) * most
}

// wayPast returns the edges of the shortest way from the inlet of a check to its outlet
// that passes neither it nor a running pump, with 1 for those passed in their direction and
// -1 for others. Other shut checks are passed against their direction, for such stand in
// line with it.
func (v *view) wayPast(e int) (way []int, signs []float64) {
	net := &v.m.net
	blocked := map[int]bool{e: true}
	for i := range v.m.Parts {
		if p := &v.m.Parts[i]; p.Pump != nil {
			blocked[p.Edges[0]] = true
		}
	}
	at := make([][]int, net.Nodes)
	for i, d := range net.Edges {
		if !blocked[i] {
			at[d.From] = append(at[d.From], i)
			if d.To != d.From {
				at[d.To] = append(at[d.To], i)
			}
		}
	}
	start, end := net.Edges[e].From, net.Edges[e].To
	by := make([]int, net.Nodes)
	for i := range by {
		by[i] = -1
	}
	seen := make([]bool, net.Nodes)
	seen[start] = true
	for queue := []int{start}; len(queue) > 0 && !seen[end]; queue = queue[1:] {
		n := queue[0]
		for _, i := range at[n] {
			d := net.Edges[i]
			to := d.From + d.To - n
			if seen[to] || v.f.Shut[i] && d.From == n {
				continue
			}
			seen[to], by[to] = true, i
			queue = append(queue, to)
		}
	}
	if !seen[end] || start == end {
		return nil, nil
	}
	for n := end; n != start; {
		i := by[n]
		d := net.Edges[i]
		sign := 1.0
		if d.From == n {
			sign = -1
		}
		way, signs = append(way, i), append(signs, sign)
		n = d.From + d.To - n
	}
	return way, signs
}
