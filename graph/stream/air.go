package stream

import "dryfit/graph"

// AirJoin is an air line that joins a water line, which it must not.
type AirJoin struct {
	Air, Water graph.PortRef // one end of each kind, as near as the order of the circuit gives it
	Run        *graph.Run    // the run at the air end
}

// AirJoins returns every air line that joins a water line.
func (n *Net) AirJoins() []AirJoin { return n.joins }

// airRuns tells which runs are air lines. What a line of mere pipework carries follows from
// the parts at its ends: it is an air line if one end is an air port and none is a water
// port. A port of the tub may be either, for air channels come out of its floor and its seats.
// A line with both is reported, and taken as water.
func airRuns(n *Net) ([]bool, []AirJoin) {
	c := n.Circuit
	air := make([]bool, len(c.Runs))
	seen := make([]bool, len(c.Runs))
	var joins []AirJoin
	for start := range c.Runs {
		if seen[start] {
			continue
		}
		line := plumbedLine(n, start, seen)
		var airEnd, waterEnd *graph.PortRef
		var airRun *graph.Run
		for _, i := range line {
			r := c.Runs[i]
			for k := range 2 {
				ref := &r.From
				if k == 1 {
					ref = &r.To
				}
				e := n.ends[i][k]
				switch {
				case e < 0:
				case c.Parts[e].IsAir(ref.Port):
					if airEnd == nil {
						airEnd, airRun = ref, r
					}
				case c.Parts[e].Kind == graph.Tub:
				case !c.Parts[e].Kind.Plumbing() && waterEnd == nil:
					waterEnd = ref
				}
			}
		}
		switch {
		case airEnd != nil && waterEnd != nil:
			joins = append(joins, AirJoin{Air: *airEnd, Water: *waterEnd, Run: airRun})
		case airEnd != nil:
			for _, i := range line {
				air[i] = true
			}
		}
	}
	return air, joins
}

// plumbedLine returns the runs that hang together with start by mere pipework, in the
// order they are met.
func plumbedLine(n *Net, start int, seen []bool) []int {
	line := []int{start}
	seen[start] = true
	for k := 0; k < len(line); k++ {
		for _, e := range n.ends[line[k]] {
			if e < 0 || !n.Circuit.Parts[e].Kind.Plumbing() {
				continue
			}
			for _, next := range n.atPart[e] {
				if !seen[next] {
					seen[next] = true
					line = append(line, next)
				}
			}
		}
	}
	return line
}
