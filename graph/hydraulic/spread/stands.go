package spread

import (
	"math"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/route"
)

// stands is what the line of each running pump may have put on it, Pa: what it stands, warm,
// less the weight of the water above it where its level is known. Index: the pump's, in parts.
type stands struct {
	unit    map[int]float64 // of the unit, where the pump is the one it hangs on
	pipe    map[int]float64 // of the weakest pipe or fitting after the pump
	weakest string          // id of the weakest of all
}

// standsOf finds what stands least after each pump that runs in a mode.
func standsOf(m *hydraulic.Model, lay *route.Layout, unit int) stands {
	out := stands{unit: map[int]float64{}, pipe: map[int]float64{}}
	set, metre := lay.Stage, lay.Stage.Water.Metre()
	least := math.Inf(1)
	for i := range m.Parts {
		p := &m.Parts[i]
		if p.Pump == nil {
			continue
		}
		under := set.Net().Downstream(p.Part)
		take := func(id string, rating, belowMM float64) {
			if rating <= 0 {
				return
			}
			left := rating - max(belowMM, 0)/1000*metre
			if old, ok := out.pipe[i]; !ok || left < old {
				out.pipe[i] = left
			}
			if left < least {
				least, out.weakest = left, id
			}
		}
		for k := range m.Runs {
			r := m.Runs[k].Run
			if !under.HasRun(r.ID) {
				continue
			}
			deepest := 0.0
			for _, mm := range m.Below[k] {
				deepest = max(deepest, mm)
			}
			take(r.ID, set.Run(r.ID).Derated.V, deepest)
		}
		for k := range m.Parts {
			q := &m.Parts[k]
			if !under.HasPart(q.Part.ID) {
				continue
			}
			if q.Part.Kind.Plumbing() {
				take(q.Part.ID, set.Part(q.Part.ID).Derated.V, q.Below)
			}
			if highest := set.Part(q.Part.ID).Highest.V; k == unit && highest > 0 && q.Part.Kind == graph.HeatPump {
				out.unit[i] = highest - max(q.Below, 0)/1000*metre
			}
		}
	}
	return out
}

// press keeps by how much unit and pipe stand more than what the pumps of a sample put on them.
func (m *spreadMode) press(sol *hydraulic.Solution, past bool) {
	margin := func(of map[int]float64) (float64, bool) {
		least := math.Inf(1)
		for i, left := range of {
			least = min(least, left-sol.Parts[i].ShutOffPa)
		}
		return least, len(of) > 0
	}
	if v, ok := margin(m.stands.unit); ok {
		m.unitMargin = append(m.unitMargin, sampled{v, past})
	}
	if v, ok := margin(m.stands.pipe); ok {
		m.pipeMargin = append(m.pipeMargin, sampled{v, past})
	}
}
