package network

import "math"

// mostKrylov is the longest basis before the search starts afresh.
const mostKrylov = 60

// mostDirect is how many steps are given to the preconditioner that holds the joints' cross terms:
// one or two do, where it could be eliminated to any accuracy.
const mostDirect = 12

// gmres sets work.dir, which holds what to balance, to the solution of the true linear
// system, joints' cross terms and falling laws included, by a preconditioner: the network of
// positive resistances, or that with the cross terms. It stops where what is left of the
// imbalance, as the preconditioner weighs it, is the share miss, or after so many steps as most;
// it reports whether it came that near.
//
// Source: Y. Saad, M. H. Schultz (1986), SIAM J. Sci. Stat. Comput. 7(3), 856-869, from
// memory; the heads of rows of tees solved by it are closed by hand in the tests.
func (s *Solver) gmres(t *topology, miss float64, most int, precondition func(t *topology, x []float64)) bool {
	n := len(t.chords)
	pack := func(to, x []float64) {
		for i, c := range t.chords {
			to[i] = x[c]
		}
	}
	unpack := func(x, from []float64) {
		for i, c := range t.chords {
			x[c] = from[i]
		}
	}
	precondition(t, s.work.dir)
	basis := func(i int) []float64 {
		if i == len(s.work.krylov) {
			s.work.krylov = append(s.work.krylov, nil)
		}
		if cap(s.work.krylov[i]) < n {
			s.work.krylov[i] = make([]float64, n)
		}
		return s.work.krylov[i][:n]
	}
	v := basis(0)
	pack(v, s.work.dir)
	norm := math.Sqrt(dot(v, v))
	if norm == 0 || !finite(norm) {
		return norm == 0
	}
	scale(v, 1/norm)
	m := min(n, most)
	h, g := s.work.gmres.of(m)
	g[0] = norm
	used, near := 0, false
	for k := range m {
		unpack(s.work.tmp, basis(k))
		s.apply(t, s.work.tmp)
		if k == 0 && s.balanced(t, norm, miss) {
			return true // the preconditioner alone did
		}
		precondition(t, s.work.tmp)
		w := basis(k + 1)
		pack(w, s.work.tmp)
		for i := range k + 1 {
			h[i*m+k] = 0
		}
		for range 2 { // twice is enough
			for i := 0; i <= k; i++ {
				c := dot(w, basis(i))
				h[i*m+k] += c
				add(w, basis(i), -c)
			}
		}
		next := math.Sqrt(dot(w, w))
		if !s.work.gmres.turn(k, m, next) {
			break
		}
		used = k + 1
		if near = math.Abs(g[k+1]) <= miss*norm || next <= 1e-13; near {
			break
		}
		scale(w, 1/next)
	}
	s.work.gmres.back(used, m)
	x := basis(used)
	clear(x)
	for i := range used {
		add(x, basis(i), g[i])
	}
	unpack(s.work.dir, x)
	return near
}

// rotations is working memory of gmres: the triangle its rotations leave, and their angles.
type rotations struct{ h, cs, sn, g []float64 }

// of returns it for as many steps as m; what it holds is of no use.
func (r *rotations) of(m int) (h, g []float64) {
	if len(r.cs) < m {
		r.h, r.cs, r.sn, r.g = make([]float64, (m+1)*m), make([]float64, m), make([]float64, m), make([]float64, m+1)
	}
	return r.h[:(m+1)*m], r.g[:m+1]
}

// turn takes step k of m into the triangle, what is left of it next: by the rotations so far, and by
// one more, which leaves the size of what remains in g[k+1]. It reports false where nothing is left.
func (r *rotations) turn(k, m int, next float64) bool {
	h, cs, sn, g := r.h, r.cs, r.sn, r.g
	for i := range k {
		a, b := h[i*m+k], h[(i+1)*m+k]
		h[i*m+k], h[(i+1)*m+k] = cs[i]*a+sn[i]*b, cs[i]*b-sn[i]*a
	}
	a := h[k*m+k]
	long := math.Hypot(a, next)
	if long == 0 {
		return false
	}
	cs[k], sn[k] = a/long, next/long
	h[k*m+k] = long
	g[k], g[k+1] = cs[k]*g[k], -sn[k]*g[k]
	return true
}

// back solves the triangle of so many steps of m for the shares of the basis, in g.
func (r *rotations) back(used, m int) {
	h, g := r.h, r.g
	for i := used - 1; i >= 0; i-- {
		for j := i + 1; j < used; j++ {
			g[i] -= h[i*m+j] * g[j]
		}
		g[i] /= h[i*m+i]
	}
}

// balanced reports whether a direction of so many times the flows whose imbalances are in work.tmp
// balances what there is to balance but for a share.
func (s *Solver) balanced(t *topology, times, share float64) bool {
	left, all := 0.0, 0.0
	for _, c := range t.chords {
		d := s.res[c] + times*s.work.tmp[c]
		left, all = left+d*d, all+s.res[c]*s.res[c]
	}
	return left <= share*share*all
}

// apply turns the chords' flows in x into the imbalances they make by the present slopes.
func (s *Solver) apply(t *topology, x []float64) {
	s.balance(t, x, nil)
	dh := s.work.old
	for _, e := range t.edges {
		dh[e] = s.s[e] * x[e]
	}
	for j, t := range s.net.Joints {
		for i, e := range t.Edges {
			sum := 0.0
			for k, o := range t.Edges {
				sum += s.js[j][i][k] * x[o]
			}
			dh[e] = sum
		}
	}
	s.imbalance(t, dh, x)
}

func dot(a, b []float64) float64 {
	sum := 0.0
	b = b[:len(a)]
	for i, v := range a {
		sum += v * b[i]
	}
	return sum
}

func add(to, what []float64, times float64) {
	to = to[:len(what)]
	for i, v := range what {
		to[i] += times * v
	}
}

func scale(v []float64, by float64) {
	for i := range v {
		v[i] *= by
	}
}
