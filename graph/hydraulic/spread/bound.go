package spread

import (
	"cmp"
	"math"
	"slices"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/sample"
)

// How many runs are solved at all points of the sample together, how many to see what each unknown
// moves by itself, and how many to fit the case as described to what was read: 1,000 runs in two modes, before
// and after the work, are solved at all points, 2,000 at half of them. The first takes some 30 s of CPU, the
// second some 10, the third a second or two; larger circuits and more modes take no longer.
const (
	mostRunsFitted = 500_000
	mostRunsSolved = 4_100_000
	mostRunsMoved  = 2_000_000
)

// worthSolving is how many points of the sample are solved: as many as mostRunsSolved allows. sum is
// the runs of all stages of all modes, which is what a point takes.
func worthSolving(sum int) int {
	return min(mostRunsSolved/max(sum, 1), sample.Size)
}

// runs counts those of all stages of all modes, by what solving them takes.
func (s *spreader) runs() (sum int) {
	for _, st := range s.stages() {
		sum += st.work()
	}
	return sum
}

// mostRounds is how often the sample is gone through, and its points held against what was read: as often
// as mostRunsSolved allows, of the stages something was read in; once at the least.
func (s *spreader) mostRounds(points int, read []*spreadStage) int {
	sum := 0
	for _, st := range read {
		sum += points * st.work()
	}
	return min(max(mostRunsSolved/max(sum, 1), 1), mostRounds)
}

// work is that of its model.
func (st *spreadStage) work() int {
	if st.model == nil {
		return len(st.likely.Runs)
	}
	return st.model.Work()
}

// mostMoved is how many unknowns are moved each by itself: as many as mostRunsMoved allows.
func (s *spreader) mostMoved() int {
	sum := 0
	for _, m := range s.modes {
		sum += 2 * m.after.work() // to the low end of each and to the high one
	}
	return max(mostRunsMoved/max(sum, 1), leastMoved)
}

// worthMoving lists the unknowns that are moved each by itself, by their index, most of them at most:
// those of the pumps, then those of the parts and runs that cost them most power, by how far they may be
// off; those that are off together of all they are met at. What costs little can move little: at one flow of a pump its head changes by what every loss
// changes times its share of that flow.
//
// Source: at the flows of a network its content is stationary (E. C. Cherry 1951, W. Millar 1951), so
// that to the first order it changes by the losses' own changes alone.
func (s *spreader) worthMoving(most int) []int {
	out := make([]int, len(s.all))
	for k := range out {
		out[k] = k
	}
	if len(out) <= most {
		return out
	}
	lost, added, pumps := s.powers()
	of := make([]float64, len(s.all))
	for k := range s.all {
		u := &s.all[k]
		for _, id := range u.at {
			power := lost[id]
			if more, ofRun := added[id]; ofRun && u.adds {
				power = more
			}
			of[k] += power * (u.span.High - u.span.Low) * max(u.power, 1)
			if pumps[id] {
				of[k] = math.Inf(1)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b int) int { return cmp.Compare(of[b], of[a]) })
	out = out[:most]
	slices.Sort(out)
	return out
}

// leastMoved is how many unknowns are moved however large the circuit: some more than there are classes.
const leastMoved = 60

// powers is by their ids what every part and run costs in the mode in which that is most, as it is taken,
// and what a loss of a velocity head more would cost in a run: shares of what the pumps put into the water
// between one opening of the tub and the next, so that jets on a pump of their own make a filter's pump
// no less; and which are the pumps.
func (s *spreader) powers() (lost, added map[string]float64, pumps map[string]bool) {
	lost, added, pumps = map[string]float64{}, map[string]float64{}, map[string]bool{}
	for _, m := range s.modes {
		sol, line := m.moving(), linesOf(m.after.model)
		put := map[int]float64{}
		for i, p := range sol.Parts {
			if p.Part.Kind == graph.Pump {
				put[line(i)] += math.Abs(p.Drop * p.Flow)
				pumps[p.Part.ID] = true
			}
		}
		share := func(to map[string]float64, id string, part int, power float64) {
			if of := put[line(part)]; of > 0 {
				to[id] = max(to[id], math.Abs(power)/of)
			}
		}
		for i, p := range sol.Parts {
			share(lost, p.Part.ID, i, p.Drop*p.Flow)
		}
		for _, r := range sol.Runs {
			at := m.after.model.PartAt[r.Run.From.Part]
			if m.after.model.Parts[at].Part.Kind == graph.Tub {
				at = m.after.model.PartAt[r.Run.To.Part]
			}
			share(lost, r.Run.ID, at, r.Drop*r.Flow)
			share(added, r.Run.ID, at, m.after.model.Water.Density/2*r.Velocity*r.Velocity*r.Flow)
		}
	}
	return lost, added, pumps
}

// linesOf numbers the parts, by their index, by what hangs together without the tub.
func linesOf(m *hydraulic.Model) (line func(part int) int) {
	of := make([]int, len(m.Parts))
	for i := range of {
		of[i] = i
	}
	line = func(i int) int {
		for of[i] != i {
			of[i] = of[of[i]]
			i = of[i]
		}
		return i
	}
	for i := range m.Runs {
		from, in := m.PartAt[m.Runs[i].Run.From.Part]
		to, out := m.PartAt[m.Runs[i].Run.To.Part]
		if in && out && m.Parts[from].Part.Kind != graph.Tub && m.Parts[to].Part.Kind != graph.Tub {
			of[line(from)] = line(to)
		}
	}
	return line
}
