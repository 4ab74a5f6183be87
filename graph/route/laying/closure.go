package laying

import (
	"slices"

	"dryfit/graph"
	"dryfit/graph/route"
)

// closureLimitMM is by how much a loop may miss itself and still close: less than the
// width of a saw cut. Common practice, no source.
const closureLimitMM = 1

// closeLoops walks every loop of known distances and says by how much it misses itself. New work
// on a loop of old pipe that does not close may go by either side of that loop: where it closes
// by one of them, what is wrong is in the old pipe, and is said of that alone.
func (l *work) closeLoops(w *web) {
	var old []oldLoop // that miss
	for k := range w.ties {
		t := &w.ties[k]
		if t.tree || t.from == t.to {
			continue
		}
		// the tie itself, then back through the tree from its end to its start
		loop := append([]step{{tie: k}}, w.chain(t.to, t.from)...)
		sum := graph.Vec{}
		var runs []string
		isNew := false
		for _, s := range loop {
			u := &w.ties[s.tie]
			isNew = isNew || u.isNew()
			if s.back {
				sum = sum.Sub(u.by)
			} else {
				sum = sum.Add(u.by)
			}
			if u.run != nil {
				runs = append(runs, u.run.ID)
			}
		}
		if runs == nil {
			continue
		}
		c := route.Closure{Runs: runs, ErrorMM: sum.Scale(-1)}
		if isNew {
			c.ErrorMM = lessOld(loop, c.ErrorMM, old)
		}
		c.Closed = c.ErrorMM.Len() <= closureLimitMM
		if !c.Closed && !isNew {
			old = append(old, oldLoop{loop, c.ErrorMM})
		}
		switch {
		case isNew:
			n := newLoop{steps: loop}
			if !c.Closed {
				n.miss = c.ErrorMM
			}
			l.loops = append(l.loops, n)
		case !c.Closed:
			l.missedOldLoop(w, loop, c.ErrorMM)
		}
		l.lay.Closures = append(l.lay.Closures, c)
	}
}

// oldLoop is a loop of old pipe and by how much it misses itself.
type oldLoop struct {
	steps []step
	miss  graph.Vec
}

// lessOld is by how much a loop with new pipe in it misses itself when it goes by the better side
// of each loop of old pipe it shares something with.
func lessOld(loop []step, miss graph.Vec, old []oldLoop) graph.Vec {
	for _, o := range old {
		if !slices.ContainsFunc(loop, func(s step) bool {
			return slices.ContainsFunc(o.steps, func(t step) bool { return t.tie == s.tie })
		}) {
			continue
		}
		for _, other := range []graph.Vec{miss.Add(o.miss), miss.Sub(o.miss)} {
			if other.Len() <= closureLimitMM {
				miss = other
			}
		}
	}
	return miss
}
