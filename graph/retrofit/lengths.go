package retrofit

import (
	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/retrofit/draft"
	"dryfit/graph/route/laying"
	"dryfit/graph/settle"
)

// body is an in-line part as the lengths see it, mm.
type body struct {
	row    catalog.Row
	length float64 // stop to stop
	socket float64 // depth of its sockets
}

// tee returns the row of a tee.
func (w work) tee() catalog.Row {
	row, _ := w.cat.Fitting("tee", w.lineSpec, w.lineSize)
	return row
}

// inline returns an in-line part of a kind: with unions of its own or plain, as asked,
// where the catalogue has both. A kind may be a style, as "spring-check" is.
func (w work) inline(kind string, spec catalog.Spec, size catalog.Size, trueUnion bool) body {
	row, found := catalog.Row{}, false
	if trueUnion {
		row, found = w.cat.Fitting("true-union-"+kind, spec, size)
	}
	if !found {
		row, _ = w.cat.Fitting(kind, spec, size)
	}
	b := body{row: row, length: row.LengthMM, socket: row.SocketMM}
	if b.socket == 0 {
		b.socket = w.depth(spec, size)
	}
	return b
}

// depth returns the depth of a socket of the spec and size, mm.
func (w work) depth(spec catalog.Spec, size catalog.Size) float64 {
	return settle.SocketDepth(w.cat, draft.Rigid(spec), size)
}

// oldRigid returns the size of rigid pipe of the tees' spec that the old pipe is; for hose the
// smallest there is a barb to that does not narrow the hose, else the largest with one; the old
// size itself where there is none.
func (w work) oldRigid() catalog.Size {
	size, _ := w.onHose()
	if size.IsZero() {
		return w.oldSize.In(w.lineSpec.Family())
	}
	return size
}

// onHose returns the size of the tees on hose, and the largest that there is a barb to as well
// and that would narrow it; zero sizes where there is none.
func (w work) onHose() (size, narrow catalog.Size) {
	if !w.oldSpec.IsHose() {
		return size, narrow
	}
	for _, s := range w.cat.PipeSizes(w.lineSpec) {
		if _, ok := w.cat.Reducing("barb", w.lineSpec, s, w.oldSize); !ok {
			continue
		}
		if !catalog.Narrower(catalog.NominalInch(w.lineSpec, s), catalog.NominalInch(w.oldSpec, w.oldSize)) {
			return s, narrow
		}
		narrow = s
	}
	return narrow, catalog.Size{}
}

// sizeWords says why the tees on hose are not of the smallest size that takes it.
func (l *limb) sizeWords(w work) {
	size, narrow := w.onHose()
	if narrow.IsZero() || w.lineSize != size {
		return
	}
	l.find(l.d.Pos, graph.Note, graph.Say("the tees and the bypass are %s, on barbs for %s hose: %s would narrow the line", size, w.oldSize, narrow),
		"the barbs stand in the bill; the pipes to the unit may be of another size: size in [retrofit]")
}

// element returns the bypass element of a choice; ok is false where the choice has none.
func (w work) element(choice Choice) (kind graph.Kind, b body, ok bool) {
	switch choice.Bypass {
	case "spring":
		return graph.CheckValve, w.inline("spring-check", w.lineSpec, w.lineSize, w.trueUnion), true
	case "valve":
		return graph.BallValve, w.inline(string(graph.BallValve), w.lineSpec, w.lineSize, w.trueUnion), true
	}
	return "", body{}, false
}

// straight is how much straight pipe a check in new pipe of a spec and size wants after a pump
// or an elbow, mm: by the bore that leads into it, which is not always that of the pipe that is
// cut; a tee passed straight through is not counted. 0 where no row gives the bore.
func (w work) straight(spec catalog.Spec, size catalog.Size) float64 {
	row, _ := w.cat.Pipe(draft.Rigid(spec), size)
	return settle.StraightBores * row.BoreMM
}

// elbow returns the take-off and depth of the elbow between two legs of the unit's branch: of
// none where the pipe runs straight on, or turns as no elbow does, which laying it out refuses.
func (w work) elbow(a, b graph.Vec) draft.End {
	kind, ok := laying.ElbowOf(a.AngleTo(b))
	if !ok {
		return draft.End{}
	}
	row, _ := w.cat.Fitting(kind, draft.Rigid(w.branchSpec), w.branchSize)
	return draft.End{TakeOff: row.TakeOffMM, Depth: row.SocketMM}
}
