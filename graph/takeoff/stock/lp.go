package stock

import "math"

// column is a pattern as the linear programme sees it.
type column struct {
	pattern
	rows []entry // kinds taken, rising
}

type entry struct {
	kind int
	n    float64
}

func newColumn(p pattern) column {
	c := column{pattern: p}
	for i, n := range p.take {
		if n > 0 {
			c.rows = append(c.rows, entry{i, float64(n)})
		}
	}
	return c
}

// within reports whether the pattern takes no more than there is.
func (c *column) within(need []int32) bool {
	for _, e := range c.rows {
		if int32(e.n) > need[e.kind] {
			return false
		}
	}
	return true
}

// relaxation is the pattern programme without whole numbers:
//
//	least   Σ cost·x + Σ penalty·y
//	so that Σ take·x + y ≥ need   for every kind,   Σ x ≤ count   for every bar,   x, y ≥ 0
//
// It is solved by the primal simplex method with an explicit inverse. Its numbers are
// floating point: they propose patterns and weights, and prove nothing themselves.
type relaxation struct {
	kinds, bars int
	need        []int32
	cost        []float64 // of a bar; the unit is the dearest bar
	penalty     []float64 // of a piece left out
	limited     []bool    // bars that have a count
	count       []int
	pool        []column
	inPool      []bool // basis membership of the pool's columns
	allowed     []bool

	m       int       // rows: kinds, then bars
	inverse []float64 // m × m
	value   []float64 // of the basic variables
	basis   []int     // row -> variable, see variable numbering below
	dual    []float64
	coef    []float64
	filled  []int32 // where the row that leaves the basis is not 0
}

// Variables are numbered: 0 … kinds-1 the pieces left out, then the surplus of each kind,
// then the bars not used, then the pool.
func (l *relaxation) surplus(i int) int   { return l.kinds + i }
func (l *relaxation) unused(b int) int    { return 2*l.kinds + b }
func (l *relaxation) patternAt(j int) int { return 2*l.kinds + l.bars + j }

const (
	lpTolerance = 1e-9
	// pushes degenerate corners apart, so that the method does not walk in circles
	lpPerturbation = 1e-9
)

// start sets the basis of nothing cut.
func (l *relaxation) start() {
	l.m = l.kinds + l.bars
	l.inverse = make([]float64, l.m*l.m)
	l.value = make([]float64, l.m)
	l.basis = make([]int, l.m)
	l.dual = make([]float64, l.m)
	l.coef = make([]float64, l.m)
	l.inPool = make([]bool, len(l.pool))
	l.allowed = make([]bool, len(l.pool))
	for j := range l.pool {
		l.allowed[j] = l.pool[j].within(l.need) && (l.count[l.pool[j].bar] > 0 || !l.limited[l.pool[j].bar])
	}
	for r := range l.m {
		l.inverse[r*l.m+r] = 1
		if r < l.kinds {
			l.basis[r] = r
			l.value[r] = float64(l.need[r]) + lpPerturbation*float64(1+r%7)
			continue
		}
		b := r - l.kinds
		l.basis[r] = l.unused(b)
		l.value[r] = float64(l.count[b]) + lpPerturbation*float64(1+r%5)
		if !l.limited[b] {
			l.value[r] = 1e7
		}
	}
}

// add puts a pattern into the pool of a started programme.
func (l *relaxation) add(c column) {
	l.pool = append(l.pool, c)
	l.inPool = append(l.inPool, false)
	l.allowed = append(l.allowed, true)
}

func (l *relaxation) costOf(v int) float64 {
	switch {
	case v < l.kinds:
		return l.penalty[v]
	case v < 2*l.kinds+l.bars:
		return 0
	}
	return l.cost[l.pool[v-2*l.kinds-l.bars].bar]
}

// prices sets the duals: what one piece of each kind is worth, and (not above 0) a bar more.
func (l *relaxation) prices() {
	for i := range l.dual {
		l.dual[i] = 0
	}
	for r, v := range l.basis {
		c := l.costOf(v)
		if c == 0 {
			continue
		}
		row := l.inverse[r*l.m : (r+1)*l.m]
		dual := l.dual[:len(row)]
		for i, x := range row {
			dual[i] += float64(c * x)
		}
	}
}

// entering returns the variable of the pool or of the rows that lowers the cost most, or -1.
func (l *relaxation) entering() int {
	best, at := -lpTolerance, -1
	try := func(v int, reduced float64) {
		if reduced < best {
			best, at = reduced, v
		}
	}
	for i := range l.kinds {
		try(i, l.penalty[i]-l.dual[i])
		try(l.surplus(i), l.dual[i])
	}
	for b := range l.bars {
		try(l.unused(b), -l.dual[l.kinds+b])
	}
	for j := range l.pool {
		if !l.allowed[j] || l.inPool[j] {
			continue
		}
		c := &l.pool[j]
		reduced := l.cost[c.bar] - l.dual[l.kinds+c.bar]
		for _, e := range c.rows {
			reduced -= float64(l.dual[e.kind] * e.n)
		}
		try(l.patternAt(j), reduced)
	}
	return at
}

// column sets coef to the variable's column in terms of the basis.
func (l *relaxation) column(v int) {
	for r := range l.m {
		row := l.inverse[r*l.m : (r+1)*l.m]
		switch {
		case v < l.kinds:
			l.coef[r] = row[v]
		case v < 2*l.kinds:
			l.coef[r] = -row[v-l.kinds]
		case v < 2*l.kinds+l.bars:
			l.coef[r] = row[v-l.kinds]
		default:
			c := &l.pool[v-2*l.kinds-l.bars]
			sum := row[l.kinds+c.bar]
			for _, e := range c.rows {
				sum += float64(row[e.kind] * e.n)
			}
			l.coef[r] = sum
		}
	}
}

// enter brings a variable into the basis and reports whether it could.
func (l *relaxation) enter(v int) bool {
	l.column(v)
	out, least := -1, math.Inf(1)
	for r := range l.m {
		if l.coef[r] <= 1e-8 {
			continue
		}
		ratio := max(0, l.value[r]) / l.coef[r]
		if out < 0 || ratio < least-1e-12 || ratio < least+1e-12 && l.coef[r] > l.coef[out] {
			out, least = r, ratio
		}
	}
	if out < 0 {
		return false
	}
	pivot := l.coef[out]
	row := l.inverse[out*l.m : (out+1)*l.m]
	l.filled = l.filled[:0]
	for i := range row {
		if row[i] /= pivot; row[i] != 0 {
			l.filled = append(l.filled, int32(i))
		}
	}
	l.value[out] /= pivot
	for r := range l.m {
		f := l.coef[r]
		if r == out || f == 0 {
			continue
		}
		other := l.inverse[r*l.m : (r+1)*l.m]
		for _, i := range l.filled {
			other[i] -= float64(f * row[i])
		}
		l.value[r] -= float64(f * l.value[out])
	}
	first := l.patternAt(0)
	if old := l.basis[out]; old >= first {
		l.inPool[old-first] = false
	}
	if v >= first {
		l.inPool[v-first] = true
	}
	l.basis[out] = v
	return true
}

// settle pivots until nothing in the pool lowers the cost, and reports whether it got there.
func (l *relaxation) settle(e *effort) bool {
	for range 40*l.m + 400 {
		l.prices()
		v := l.entering()
		if v < 0 {
			return true
		}
		if !l.enter(v) || !e.spend(l.m*l.m/2+len(l.pool)) {
			return false
		}
	}
	return false
}

// objective is the cost of the present point.
func (l *relaxation) objective() float64 {
	sum := 0.0
	for r, v := range l.basis {
		sum += float64(l.costOf(v) * l.value[r])
	}
	return sum
}

// use returns how often each pattern of the pool is cut.
func (l *relaxation) use() []float64 {
	x := make([]float64, len(l.pool))
	first := l.patternAt(0)
	for r, v := range l.basis {
		if v >= first {
			x[v-first] = max(0, l.value[r])
		}
	}
	return x
}
