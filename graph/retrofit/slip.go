package retrofit

import (
	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/retrofit/draft"
	"dryfit/graph/settle"
)

// slide puts the slip couplings in that are asked for: one at the end of the string, where its
// other end can be pushed home because the old pipe gives way so far, or because the string
// opens at a valve with unions; where nothing gives, one at each end. Then the string goes in
// sideways between the two cuts with both couplings slid back on bare old pipe, which has to be as
// long as they are. Common practice, no source; the order of assembly is what proves it.
func (w work) slide(a *assembly, opens bool) {
	row, ok := w.slipCoupling()
	if !ok {
		return
	}
	fixed := w.playMM < a.endDepth && !opens
	a.slips[1] = draft.Nipple(a.lastDepth, row.SocketMM) + settle.SlipClearMM
	a.lastAdd, a.lastDepth = a.lastAdd+a.slips[1], row.SocketMM
	if !fixed {
		return
	}
	a.slips[0] = draft.Nipple(a.endDepth, row.SocketMM) + settle.SlipClearMM
	a.endAdd, a.endDepth = a.endAdd+a.slips[0], row.SocketMM
	over := settle.OverSlip(row, row.SocketMM)
	for k, depth := range []float64{a.endDepth, a.lastDepth} {
		a.parks[k] = max(0, over-depth-a.beads[k])
	}
}

// slipCoupling is the one that lets the string in; ok is false where none is asked for, or the
// old pipe is hose, which gives way by itself.
func (w work) slipCoupling() (row catalog.Row, ok bool) {
	if !w.asked.SlipCoupling || w.oldSpec.IsHose() {
		return row, false
	}
	return w.cat.Fitting("slip-coupling", draft.Rigid(w.oldSpec), w.oldRigid())
}

// putSlip stands a slip coupling at a cut, a piece of new pipe away from what the string ends
// with there, and returns the port the old pipe goes on from. from is that end of the string; atStart says
// that it is the start of the old run's direction.
func putSlip(d *draft.Draft, old *graph.Run, w work, id string, from graph.PortRef, piece graph.Vec, atStart bool) graph.PortRef {
	d.PointTo("slip-coupling", "cut")
	defer d.PointTo("cut")
	slip := d.AddPart(d.Names.Fresh(id), graph.SlipCoupling, draft.Rigid(old.Spec), w.oldRigid())
	legs := []graph.Leg{draft.Leg(piece)}
	if atStart {
		d.AddRun(draft.At(slip.ID, graph.Out), from, draft.Rigid(old.Spec), w.oldRigid(), legs)
		return draft.At(slip.ID, graph.In)
	}
	d.AddRun(from, draft.At(slip.ID, graph.In), draft.Rigid(old.Spec), w.oldRigid(), legs)
	return draft.At(slip.ID, graph.Out)
}
