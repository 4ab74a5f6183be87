package stream

import "dryfit/graph"

// Reach is what lies up or down the water from some place, nearest first. The tub ends it
// and is not in it; pumps are passed.
type Reach struct {
	Parts []*graph.Part
	Runs  []*graph.Run
	parts map[string]bool
	runs  map[string]bool
	tub   bool
}

// HasPart reports whether the part with the id lies there.
func (r *Reach) HasPart(id string) bool { return r.parts[id] }

// HasRun reports whether the run with the id lies there.
func (r *Reach) HasRun(id string) bool { return r.runs[id] }

// ReachesTub reports whether the tub lies there.
func (r *Reach) ReachesTub() bool { return r.tub }

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
func (n *Net) Downstream(p *graph.Part) *Reach { return n.reach(n.Leaving(p), true, nil) }

// Upstream returns what the water passed before it comes to the part.
func (n *Net) Upstream(p *graph.Part) *Reach { return n.reach(n.Coming(p), false, nil) }

// DownstreamUntil is Downstream, but what stops the search is not passed and not in it.
func (n *Net) DownstreamUntil(p *graph.Part, stop func(*graph.Part) bool) *Reach {
	return n.reach(n.Leaving(p), true, stop)
}

// UpstreamUntil is Upstream, but what stops the search is not passed and not in it.
func (n *Net) UpstreamUntil(p *graph.Part, stop func(*graph.Part) bool) *Reach {
	return n.reach(n.Coming(p), false, stop)
}

// Suction returns what lies between the tub and the pump's inlet, nearest the pump first.
func (n *Net) Suction(pump *graph.Part) *Reach {
	return n.UpstreamUntil(pump, func(p *graph.Part) bool { return p.Kind == graph.Pump })
}

// DownstreamOfRun returns what the water that passed the run comes to, the run not included.
func (n *Net) DownstreamOfRun(r *graph.Run) *Reach { return n.beyond(r, true) }

// UpstreamOfRun returns what the water passed before it comes to the run, the run not included.
func (n *Net) UpstreamOfRun(r *graph.Run) *Reach { return n.beyond(r, false) }

func (n *Net) beyond(r *graph.Run, down bool) *Reach {
	if !n.Flows(r) {
		return n.reach(nil, down, nil)
	}
	out := n.reach([]*graph.Run{r}, down, nil)
	out.Runs = out.Runs[1:]
	delete(out.runs, r.ID)
	return out
}

// reach follows the water from the runs, or back from them, without passing the parts that
// stop it.
func (n *Net) reach(start []*graph.Run, down bool, stop func(*graph.Part) bool) *Reach {
	out := &Reach{parts: map[string]bool{}, runs: map[string]bool{}}
	add := func(runs []*graph.Run) {
		for _, r := range runs {
			if !out.runs[r.ID] {
				out.runs[r.ID] = true
				out.Runs = append(out.Runs, r)
			}
		}
	}
	add(start)
	for k := 0; k < len(out.Runs); k++ {
		from, to := n.Ends(out.Runs[k])
		end := to
		if !down {
			end = from
		}
		p := n.Part(end.Part)
		switch {
		case p == nil, out.parts[p.ID]:
			continue
		case p.Kind == graph.Tub:
			out.tub = true
			continue
		case stop != nil && stop(p):
			continue
		}
		out.parts[p.ID] = true
		out.Parts = append(out.Parts, p)
		if down {
			add(n.Leaving(p))
		} else {
			add(n.Coming(p))
		}
	}
	return out
}
