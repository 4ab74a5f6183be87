package hydraulic

import (
	"math"

	"dryfit/graph"
	"dryfit/graph/hydraulic/formula"
)

// Warmed returns by how much a watt that each of some parts gives its water warms the water that comes to each
// [K/W]: row by row of them, the way of the water from the tub, where it is mixed, to the part. What meets at a
// joint is mixed by its flows. Source: the balance of heat.
func (s *Solution) Warmed(ids []string) [][]float64 {
	in := map[string][]stretch{}
	out := map[string][]string{}
	for i := range s.Runs {
		r := &s.Runs[i]
		q, from, to := Passing(r.Flow), r.Run.From.Part, r.Run.To.Part
		if q < 0 {
			q, from, to = -q, to, from
		}
		if q > 0 {
			in[to] = append(in[to], stretch{from, q})
			out[from] = append(out[from], to)
		}
	}
	tub := map[string]bool{}
	for i := range s.Parts {
		if p := s.Parts[i].Part; p.Kind == graph.Tub {
			tub[p.ID] = true
		}
	}
	warmed := make([][]float64, len(ids))
	for i := range warmed {
		warmed[i] = make([]float64, len(ids))
	}
	perK := s.Water.Density * formula.HeatCapacity(s.Water.TemperatureC)
	for j, by := range ids {
		rise := s.risen(by, perK, in, out, tub)
		for i, at := range ids {
			if i != j {
				warmed[i][j], _ = mixed(at, in, rise)
			}
		}
	}
	return warmed
}

// stretch is water that comes to a part: from which, and how much [m³/s].
type stretch struct {
	from string
	flow float64
}

// risen is by how much the water that leaves each part is warmer for a watt at one of them [K], by its id.
func (s *Solution) risen(by string, perK float64, in map[string][]stretch, out map[string][]string, tub map[string]bool) map[string]float64 {
	rise := map[string]float64{}
	todo := []string{by}
	for n := 0; len(todo) > 0 && n < 50*len(s.Parts); n++ { // water that goes in a ring fades by its share each time
		id := todo[0]
		todo = todo[1:]
		is, flow := mixed(id, in, rise)
		if id == by && flow > 0 {
			is += 1 / (perK * flow)
		}
		if tub[id] || flow <= 0 || math.Abs(is-rise[id]) <= 1e-9*is {
			continue
		}
		rise[id] = is
		todo = append(todo, out[id]...)
	}
	return rise
}

// mixed is by how much what comes to a part is warmer [K], and how much comes [m³/s].
func mixed(id string, in map[string][]stretch, rise map[string]float64) (k, flow float64) {
	sum := 0.0
	for _, x := range in[id] {
		sum, flow = sum+x.flow*rise[x.from], flow+x.flow
	}
	if flow <= 0 {
		return 0, 0
	}
	return sum / flow, flow
}
