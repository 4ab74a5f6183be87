package plan

import (
	"math"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/route"
)

// throttle solves one stage again and again with its bypass valve set to another Kv: the
// models are built once, and the circuit stays as it is.
type throttle struct {
	valve  string
	models []*hydraulic.Model // nil: the mode can't be built
}

// newThrottle returns the setting of a hand valve known by its Kv.
func newThrottle(lay *route.Layout, valve string) *throttle {
	s := &throttle{valve: valve}
	for _, mode := range lay.Circuit.AllModes() {
		model, err := hydraulic.Build(lay, mode, graph.After)
		if err != nil {
			model = nil
		}
		s.models = append(s.models, model)
	}
	return s
}

// at solves every mode with the valve at a Kv, m³/h, and leaves out those without an answer.
func (s *throttle) at(kv float64) (solved []hydraulic.Solution) {
	for _, m := range s.models {
		if m == nil || !m.SetKv(s.valve, kv) {
			continue
		}
		sol, err := m.Solve(nil)
		if err != nil {
			continue
		}
		solved = append(solved, *sol)
	}
	return solved
}

// throttleFor finds the largest Kv of a bypass valve, m³/h, at which the unit's flow is not
// below what is wanted, in hundredths. The flow falls as Kv rises: the interval of log Kv is
// halved.
func throttleFor(want float64, flowAt func(kv float64) float64) float64 {
	low, high := math.Log(0.1), math.Log(1000.0)
	for range 24 {
		if mid := (low + high) / 2; flowAt(math.Exp(mid)) >= want {
			low = mid
		} else {
			high = mid
		}
	}
	return math.Floor(math.Exp(low)*100) / 100
}
