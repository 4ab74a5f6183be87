package network

import "math"

// mostDense is up to how many loops their matrix is set up and eliminated as it stands: a job's net has
// two to five, and gmres would take as many steps as there are loops.
const mostDense = 8

// pass is a loop that leads along an edge: that of which chord (its place in topology.chords), and
// which way, 1 or -1.
type pass struct {
	chord int
	way   float64
}

// passesOf lists the loops that lead along each edge: what a flow of 1 in each chord puts through it.
func (s *Solver) passesOf(t *topology) [][]pass {
	out, x := make([][]pass, len(s.ends)), s.work.tmp
	for k, c := range t.chords {
		for _, o := range t.chords {
			x[o] = 0
		}
		x[c] = 1
		s.balance(t, x, nil)
		for _, e := range t.edges {
			if x[e] != 0 {
				out[e] = append(out[e], pass{k, x[e]})
			}
		}
	}
	return out
}

// direct sets work.dir, which holds what to balance, to the solution of the true linear system, as
// gmres does: by the loops' matrix, of which an edge's slope adds to those of the loops along it, and a
// joint's cross terms to those along its legs. It reports whether the solution balances all but a share
// of miss; where it does not, for slopes that lie far apart cancel, work.dir is of no use.
func (s *Solver) direct(t *topology, miss float64) bool {
	if t.passes == nil {
		t.passes = s.passesOf(t)
	}
	n := len(t.chords)
	var matrix [mostDense * mostDense]float64
	var right [mostDense]float64
	a, b := matrix[:n*n], right[:n]
	for _, e := range t.edges {
		if s.joint[e] < 0 {
			couple(a, n, t.passes[e], t.passes[e], s.s[e])
		}
	}
	for j := range s.net.Joints {
		legs := &s.net.Joints[j].Edges
		for i, e := range legs {
			for k, o := range legs {
				couple(a, n, t.passes[e], t.passes[o], s.js[j][i][k])
			}
		}
	}
	for i, c := range t.chords {
		b[i] = s.work.dir[c]
	}
	if !eliminate(a, b) {
		return false
	}
	for i, c := range t.chords {
		s.work.dir[c], s.work.tmp[c] = b[i], b[i]
	}
	s.apply(t, s.work.tmp)
	return s.balanced(t, 1, miss)
}

// couple adds to the matrix of n loops what the head along one edge, by the loops that pass it, rises by
// with the flow in another.
func couple(a []float64, n int, head, flow []pass, slope float64) {
	for _, h := range head {
		row := a[h.chord*n : h.chord*n+n]
		for _, f := range flow {
			row[f.chord] += slope * h.way * f.way
		}
	}
}

// eliminate solves the system of the square matrix a, row by row, for b, in place, by Gauss's
// elimination with pivots. It reports false where a column leaves nothing to divide by.
func eliminate(a, b []float64) bool {
	n := len(b)
	for k := range n {
		pivot := k
		for i := k + 1; i < n; i++ {
			if math.Abs(a[i*n+k]) > math.Abs(a[pivot*n+k]) {
				pivot = i
			}
		}
		if pivot != k {
			for j := k; j < n; j++ {
				a[k*n+j], a[pivot*n+j] = a[pivot*n+j], a[k*n+j]
			}
			b[k], b[pivot] = b[pivot], b[k]
		}
		row := a[k*n : k*n+n]
		if row[k] == 0 {
			return false
		}
		for i := k + 1; i < n; i++ {
			share := a[i*n+k] / row[k]
			for j := k + 1; j < n; j++ {
				a[i*n+j] -= share * row[j]
			}
			b[i] -= share * b[k]
		}
	}
	for k := n - 1; k >= 0; k-- {
		for j := k + 1; j < n; j++ {
			b[k] -= a[k*n+j] * b[j]
		}
		b[k] /= a[k*n+k]
	}
	return true
}
