package spread

import "dryfit/graph/sample"

// Up to how many runs a circuit is solved at every point of the sample, and how many runs are
// solved at all points together where it has more. 2,000 runs in two modes, before and after the
// work, take some 30 s of CPU so; four times as many take no longer.
const (
	fewRuns        = 1_000
	mostRunsSolved = 4_000_000
)

// worthSolving is how many points of the sample are solved: all of them where no stage has more
// than fewRuns runs, else as many as mostRunsSolved allows. sum is the runs of all stages of all
// modes, which is what a point takes.
func worthSolving(largest, sum int) int {
	if largest <= fewRuns {
		return sample.Size
	}
	return mostRunsSolved / sum
}

// runs counts those of the largest stage, and those of all.
func (s *spreader) runs() (largest, sum int) {
	for _, st := range s.stages() {
		n := len(st.likely.Runs)
		largest, sum = max(largest, n), sum+n
	}
	return largest, sum
}
