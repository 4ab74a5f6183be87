package stream

import "dryfit/graph"

// Reach is what lies up or down the water from some place, nearest first. The tub ends it
// and is not in it; pumps are passed.
type Reach struct {
	Parts []*graph.Part
	Runs  []*graph.Run
	net   *Net
	parts []bool // of each part of the net
	runs  []bool // of each run of the net
	tub   bool   // the tub lies there
}

// HasPart reports whether the part with the id lies there.
func (r *Reach) HasPart(id string) bool {
	i, ok := r.net.parts[id]
	return ok && r.parts[i]
}

// HasRun reports whether the run with the id lies there.
func (r *Reach) HasRun(id string) bool {
	i, ok := r.net.runs[id]
	return ok && r.runs[i]
}

// First returns the nearest part of one of the kinds, or nil.
func (r *Reach) First(kinds ...graph.Kind) *graph.Part {
	for _, p := range r.Parts {
		for _, k := range kinds {
			if p.Kind == k {
				return p
			}
		}
	}
	return nil
}

// Downstream returns what the water that passed the part comes to.
func (n *Net) Downstream(p *graph.Part) *Reach { return n.DownstreamUntil(p, nil) }

// Upstream returns what the water passed before it comes to the part.
func (n *Net) Upstream(p *graph.Part) *Reach { return n.UpstreamUntil(p, nil) }

// DownstreamUntil is Downstream, but what stops the search is not passed and not in it.
func (n *Net) DownstreamUntil(p *graph.Part, stop func(*graph.Part) bool) *Reach {
	return n.reach(n.runsOf(n.out, p), true, stop)
}

// UpstreamUntil is Upstream, but what stops the search is not passed and not in it.
func (n *Net) UpstreamUntil(p *graph.Part, stop func(*graph.Part) bool) *Reach {
	return n.reach(n.runsOf(n.in, p), false, stop)
}

// Suction returns what lies between the tub and the pump's inlet, nearest the pump first.
func (n *Net) Suction(pump *graph.Part) *Reach {
	return n.UpstreamUntil(pump, func(p *graph.Part) bool { return p.Kind == graph.Pump })
}

// DownstreamOfRun returns what the water that passed the run comes to, the run not included.
func (n *Net) DownstreamOfRun(r *graph.Run) *Reach { return n.beyond(r, true, nil) }

// DownstreamOfRunUntil is DownstreamOfRun, but what stops the search is not passed and not in it.
func (n *Net) DownstreamOfRunUntil(r *graph.Run, stop func(*graph.Part) bool) *Reach {
	return n.beyond(r, true, stop)
}

func (n *Net) beyond(r *graph.Run, down bool, stop func(*graph.Part) bool) *Reach {
	if !n.Flows(r) {
		return n.reach(nil, down, nil)
	}
	first := n.runs[r.ID]
	out := n.reach([]int{first}, down, stop)
	out.Runs = out.Runs[1:]
	out.runs[first] = false
	return out
}

// reach follows the water from the runs, or back from them, without passing the parts that
// stop it. It takes time in proportion to what lies there, and memory to the whole net.
func (n *Net) reach(start []int, down bool, stop func(*graph.Part) bool) *Reach {
	c := n.Circuit
	out := &Reach{net: n, parts: make([]bool, len(c.Parts)), runs: make([]bool, len(c.Runs))}
	var queue []int
	add := func(runs []int) {
		for _, i := range runs {
			if k := n.named[i]; !out.runs[k] {
				out.runs[k] = true
				queue = append(queue, i)
				out.Runs = append(out.Runs, c.Runs[i])
			}
		}
	}
	add(start)
	for k := 0; k < len(queue); k++ {
		end := n.endOf(queue[k], down)
		switch {
		case end < 0, out.parts[end], c.Parts[end].Kind == graph.Tub:
			continue
		case stop != nil && stop(c.Parts[end]):
			continue
		}
		out.parts[end] = true
		out.Parts = append(out.Parts, c.Parts[end])
		if down {
			add(n.out[end])
		} else {
			add(n.in[end])
		}
	}
	return out
}

// endOf returns the part a run leads to in the way of the water (down) or comes from; -1
// where there is none.
func (n *Net) endOf(run int, down bool) int {
	if down == (n.way[n.named[run]] >= 0) {
		return n.ends[run][1]
	}
	return n.ends[run][0]
}
