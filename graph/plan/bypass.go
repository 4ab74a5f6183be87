package plan

import (
	"cmp"
	"math"
	"slices"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/retrofit"
)

// fitBypass gives a trial its bypass element and solves it. What the request names is taken;
// else the unit's flow decides: of the springs that keep it at or above least (better,
// rated) at low speed and at or below most at high, the one that costs the jets and the low
// speed least; of a throttle valve the setting that gives the unit its rated flow.
func (s *search) fitBypass(t *trial, choice retrofit.Choice) {
	switch choice.Bypass {
	case "spring":
		s.fitSpring(t, choice)
	case "valve":
		s.fitThrottle(t, choice)
	default:
		s.settle(t, nil)
	}
}

// fitSpring tries the springs asked for, or all of them.
func (s *search) fitSpring(t *trial, choice retrofit.Choice) {
	var best *trial
	for _, row := range s.springs() {
		choice.Spring = row.Name
		next := s.solve(t.place, choice)
		if next != nil && (best == nil || betterBypass(next, best) < 0) {
			best = next
		}
	}
	s.settle(t, best)
}

// solve builds a trial at a place and solves it; nothing is judged.
func (s *search) solve(place retrofit.Place, choice retrofit.Choice) *trial {
	t := &trial{}
	if !t.build(s.asked, s.before, place, choice) {
		return nil
	}
	t.stage = &Stage{Circuit: t.proposal.Circuit.At(graph.After)}
	t.stage.lay()
	t.solve(s.before)
	return t
}

func (t *trial) solve(before *Stage) {
	t.unsolved = t.stage.solve(graph.After)
	t.solved = true
	t.unitFlows = unitFlows(t.proposal.Circuit, t.stage.Solutions, before.Solutions)
}

// settle puts the chosen trial in t's place, judged in full.
func (s *search) settle(t, chosen *trial) {
	if chosen != nil {
		*t = *chosen
	}
	t.judgeLayout(s.before)
	t.judgeFlow(s.before)
}

// springs returns the springs to try, the weakest first. Once one place has chosen, the
// others are tried with the same and its neighbours only.
func (s *search) springs() []catalog.Row {
	all := s.asked.Catalog.Springs()
	r := s.asked.Retrofit
	if r.Spring != "" && r.Spring != "auto" {
		if row, ok := s.asked.Catalog.Row(r.Spring); ok {
			return []catalog.Row{row}
		}
	}
	if r.SpringPa > 0 {
		slices.SortStableFunc(all, func(a, b catalog.Row) int {
			return cmp.Compare(math.Abs(a.CrackingPa-r.SpringPa), math.Abs(b.CrackingPa-r.SpringPa))
		})
		return all[:min(1, len(all))]
	}
	return all
}

// betterBypass orders two trials at one place that differ in the bypass alone: the promise
// to the unit first, then the rated flow, then what the jets lose and the low speed costs.
func betterBypass(a, b *trial) int {
	return cmp.Or(
		cmp.Compare(len(a.unsolved), len(b.unsolved)),
		cmp.Compare(a.missed(), b.missed()),
		cmp.Compare(a.cost(), b.cost()),
	)
}

// missed says by how much the unit's flow misses its promise, in steps of a hundredth of the
// rated flow: the sum over the modes in which its pump runs of what is short of least or
// over most, and, less heavily, short of rated.
func (t *trial) missed() int {
	if t.proposal == nil || !t.solved {
		return math.MaxInt32
	}
	unit := t.proposal.Circuit.TheUnit()
	if unit == nil || unit.Unit == nil || len(t.unitFlows) == 0 {
		return 0
	}
	u := unit.Unit
	scale := cmp.Or(u.Rated, u.Least, u.Most)
	if scale == 0 {
		return 0
	}
	miss := 0.0
	for _, f := range t.unitFlows {
		if !f.wanted {
			continue
		}
		miss += max(0, u.Least-f.flow) + max(0, f.flow-or(u.Most, math.Inf(1)))
	}
	miss *= 100
	if low := t.lowFlow(); u.Rated > 0 && low < u.Rated {
		miss += u.Rated - low
	}
	return int(math.Round(100 * miss / scale))
}

// lowFlow is the least the unit gets in any mode in which its pump runs.
func (t *trial) lowFlow() float64 {
	low := math.Inf(1)
	for _, f := range t.unitFlows {
		if f.wanted {
			low = min(low, f.flow)
		}
	}
	return low
}

// cost is what the jets lose, and the pump in all, as a share of today summed over the modes.
func (t *trial) cost() float64 {
	sum := 0.0
	for _, f := range t.unitFlows {
		sum += f.jets - 1e-3*f.pumpFlow
	}
	return sum
}

func or(v, otherwise float64) float64 {
	if v != 0 {
		return v
	}
	return otherwise
}

// fitThrottle solves for the setting of the bypass valve at which the unit gets its rated
// flow in the mode in which it would get least of it; where it gets no more than that with
// the bypass shut, the valve stays shut.
func (s *search) fitThrottle(t *trial, choice retrofit.Choice) {
	want := 0.0
	if unit := s.asked.Part(s.asked.Retrofit.Unit); unit != nil && unit.Unit != nil {
		want = cmp.Or(unit.Unit.Rated, unit.Unit.Least)
	}
	choice.Shut = true
	trial := s.solve(t.place, choice)
	if want == 0 || trial == nil || len(trial.unitFlows) == 0 || trial.lowFlow() <= want {
		if want == 0 {
			trial = nil
		}
		s.settle(t, trial)
		return
	}
	valve := trial.proposal.Circuit.Part(trial.proposal.Element).Valve
	valve.Position, valve.PositionSet = 1, false
	flowAt := func(kv float64) float64 {
		valve.Kv = kv
		trial.stage.Solutions = nil
		trial.solve(s.before)
		return trial.lowFlow()
	}
	// the unit's flow falls as Kv rises: halve the interval of log Kv
	low, high := math.Log(0.1), math.Log(1000.0)
	for range 24 {
		if mid := (low + high) / 2; flowAt(math.Exp(mid)) >= want {
			low = mid
		} else {
			high = mid
		}
	}
	kv := math.Floor(math.Exp(low)*100) / 100
	flowAt(kv)
	trial.proposal.Choice = retrofit.Choice{Bypass: choice.Bypass, ThrottleKv: kv}
	s.settle(t, trial)
}
