package advice

import (
	"math"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/hydraulic/spread"
	"dryfit/graph/plan/stage"
	"dryfit/graph/route"
	"dryfit/graph/stream"
)

// throttle solves one stage again and again with the valve in a unit's bypass set to another
// Kv: the models are built once, and the circuit stays as it is.
type throttle struct {
	valve, unit  string
	clean, dirty []*hydraulic.Model // of the modes in which a pump of the unit's runs; nil: one that can't be built
}

// NewThrottle returns the setting of the hand valve in a branch's bypass.
func NewThrottle(lay *route.Layout, b *stream.UnitBranch, valve string) *throttle {
	s := &throttle{valve: valve, unit: b.Unit.ID}
	for _, mode := range lay.Circuit.AllModes() {
		if !b.FedIn(mode) {
			continue
		}
		s.clean = append(s.clean, modelOf(lay, mode))
		if bad, ok := stage.BadDay(mode); ok {
			s.dirty = append(s.dirty, modelOf(lay, bad))
		}
	}
	return s
}

// modelOf is the model of a mode after the work; nil where it can't be built.
func modelOf(lay *route.Layout, mode graph.Mode) *hydraulic.Model {
	model, err := spread.Build(lay, mode, graph.After)
	if err != nil {
		return nil
	}
	return model
}

// flows returns the unit's least and greatest flow over some modes with the valve at a Kv,
// m³/h; modes without an answer are left out, and over none the least is infinite.
func (s *throttle) flows(models []*hydraulic.Model, kv float64) (low, high float64) {
	low = math.Inf(1)
	for _, m := range models {
		if m == nil || !m.SetKv(s.valve, kv) {
			continue
		}
		if sol, err := m.Flows(); err == nil {
			if unit := sol.Part(s.unit); unit != nil {
				low, high = min(low, unit.Flow), max(high, unit.Flow)
			}
		}
	}
	return low, high
}

// Setting is the Kv, m³/h in hundredths, at which the unit gets its rated flow (its least,
// where no rated flow is known) and still its least once the filter is dirty and half of the
// jets are turned down. Where that would give it more than its most, or no setting does it,
// the rated flow alone decides, and the rules say what is missed.
func (s *throttle) Setting(p Promise) float64 {
	want := p.Wanted()
	kv := widest(func(kv float64) bool { low, _ := s.flows(s.clean, kv); return low >= want })
	keepsLeast := func(kv float64) bool { low, _ := s.flows(s.dirty, kv); return low >= p.Least }
	if keepsLeast(kv) {
		return kv
	}
	further := widest(keepsLeast)
	if _, high := s.flows(s.clean, further); !keepsLeast(further) || p.Most > 0 && high > p.Most {
		return kv
	}
	return further
}

// widest is the largest Kv of a bypass valve, m³/h in hundredths, that will do. The unit's
// flow falls as Kv rises: the interval of log Kv is halved.
func widest(does func(kv float64) bool) float64 {
	low, high := math.Log(0.1), math.Log(1000.0)
	for range 24 {
		if mid := (low + high) / 2; does(math.Exp(mid)) {
			low = mid
		} else {
			high = mid
		}
	}
	return math.Floor(math.Exp(low)*100) / 100
}
