package retrofit

import (
	"math"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/retrofit/draft"
	"dryfit/graph/settle"
)

// work is the request with every default filled in for one cut run.
type work struct {
	asked *graph.Retrofit
	unit  *graph.Part
	cat   *catalog.Catalog

	oldSpec              catalog.Spec
	oldSize              catalog.Size
	lineSpec, branchSpec catalog.Spec // of the tees and what lies between them; of the unit's branch
	lineSize, branchSize catalog.Size
	isolators            graph.Kind
	trueUnion            bool
	kept                 [2]bool // an old adaptor at the start of the leg that is cut, or at its end, stays and the string begins in it
	playMM               float64 // how far an old end at the leg that is cut can be drawn back
	guard                bool    // a check behind the second tee, where the bypass has none
	against              bool    // the cut run is drawn against the water

	stops stops // of its parts, as they were worked out
}

// newWork fills the defaults in. known is what was worked out of the fittings in another circuit.
//
// The tees are of the cut pipe's family, so that they glue to it, on hose of the spec asked for
// where there is a barb to it; the unit's branch is of the spec asked for. The line is never smaller than the cut pipe nor than the branch, the
// branch never smaller than the unit's ports: trade practice, computed from pipe loss.
func newWork(c *graph.Circuit, cut *graph.Run, known stops) work {
	w := work{asked: c.Retrofit, unit: c.Part(c.Retrofit.Unit), cat: c.Catalog,
		oldSpec: cut.Spec, oldSize: cut.Size, isolators: graph.BallValve, trueUnion: true, stops: known}
	if w.asked.Isolators != "" {
		w.isolators = graph.Kind(w.asked.Isolators)
	}
	if w.asked.TrueUnion != nil {
		w.trueUnion = *w.asked.TrueUnion
	}
	w.lineSpec = draft.Rigid(cut.Spec)
	if s := w.asked.Spec; s != "" && s.Family() == w.lineSpec.Family() {
		w.lineSpec = draft.Rigid(s)
	} else if s != "" && cut.Spec.IsHose() { // barbs are made for both series
		onHose := w
		onHose.lineSpec = draft.Rigid(s)
		if size, _ := onHose.onHose(); !size.IsZero() {
			w.lineSpec = onHose.lineSpec
		}
	}
	w.branchSpec = w.lineSpec
	if w.asked.Spec != "" {
		w.branchSpec = w.asked.Spec
	}
	w.lineSize = larger(w.oldRigid(), w.asked.BypassSize.In(w.lineSpec.Family()))
	w.branchSize = w.branch()
	w.lineSize = larger(w.lineSize, w.branchSize.In(w.lineSpec.Family()))
	return w
}

// branch returns the size of the pipes to and from the unit: as asked, else the largest of
// the unit's ports and what the flow and the way need, 1-1/2 in (50 mm) to 6 m³/h and 10 m
// each way, then 2 in (63 mm). Trade practice, computed from pipe loss. More than the cut
// pipe is of no use, and is taken only where the unit's ports are larger; and what no transition
// joins to ports of the other series is that of the ports.
func (w work) branch() catalog.Size {
	family := w.branchSpec.Family()
	if !w.asked.Size.IsZero() {
		return w.asked.Size.In(family)
	}
	var own, ports catalog.Size
	flow := 0.0
	if w.unit != nil {
		own = settle.UnitPorts(w.cat, w.unit).V
		ports = w.made(own.In(family))
		flow = settle.UnitLimits(w.cat, w.unit).Rated.V
	}
	const mostFlow, mostWayMM = 6.0 / 3600, 10000
	size := catalog.UsualBranch(family)
	if flow > mostFlow || w.wayMM() > mostWayMM {
		size = catalog.Size{Nominal: 2}.In(family)
	}
	if cut := w.oldRigid().In(family); !cut.IsZero() && cut.Nominal < size.Nominal {
		size = cut
	}
	if size.Nominal > ports.Nominal && !w.joins(size, own) {
		return ports
	}
	return larger(size, ports)
}

// wayMM is how long the way to the unit is, as far as the request tells: the legs of the longer of its
// pipes that are written, or where it stands, at right angles.
func (w work) wayMM() float64 {
	mm := max(graph.LegsMM(w.asked.ToUnit), graph.LegsMM(w.asked.FromUnit))
	if s := w.asked.Stand; s != nil {
		mm = max(mm, math.Abs(s.At.X)+math.Abs(s.At.Y)+math.Abs(s.At.Z))
	}
	return mm
}

// made returns a size, or where no pipe of the unit's branch is made in it the next larger one
// that is: a bush or a transition takes it to the port, or is what is told as missing.
func (w work) made(size catalog.Size) catalog.Size {
	for _, s := range w.cat.PipeSizes(w.branchSpec) {
		if s.Metric == size.Metric && s.Nominal >= size.Nominal && !size.IsZero() {
			return s
		}
	}
	return size
}

// joins reports whether pipe of the unit's branch can be joined to a port of the unit: it is of
// the port's series, so that a bush does it, or a transition of those two sizes is made.
func (w work) joins(size, port catalog.Size) bool {
	if port.IsZero() || size.Metric == port.Metric {
		return true
	}
	spec := settle.RigidSpec("", port)
	_, ok := w.cat.Transition(draft.Rigid(w.branchSpec), size, spec, port)
	return ok
}

// larger returns the larger of two sizes of one family.
func larger(a, b catalog.Size) catalog.Size {
	if b.Nominal > a.Nominal {
		return b
	}
	return a
}
