package laying

import (
	"fmt"

	"dryfit/graph"
	"dryfit/graph/route"
)

// judgeOldLegs finds legs of old pipe that leave less than nothing between the sockets at
// their ends: measured or written wrong. Sockets nobody could read from a standard get their
// tolerance off.
func (l *work) judgeOldLegs(i int) {
	r, legs := l.c.Runs[i], l.lines[i].legs
	if r.Faces {
		return
	}
	start, long := 0, 0.0 // of pipe between two fittings; hose goes round its bends by itself
	for k := range legs {
		long += legs[k].Len()
		to, known := l.at(i, k+1)
		if !known {
			continue
		}
		from, _ := l.at(i, start)
		first, have := start, long
		start, long = k+1, 0
		stop := from.takeOff + to.takeOff - from.tolMinus - to.tolMinus
		if have-stop >= from.depth+to.depth-1 || from.depth == 0 || to.depth == 0 {
			continue
		}
		if r.RemainsOf != "" && (from.part != nil && from.part.New() || to.part != nil && to.part.New()) {
			continue // what the saw left of a leg is judged with the work
		}
		which := route.LegWords(r, k+1)
		if first < k {
			which = fmt.Sprintf("the way along legs %d to %d of %s", first+1, k+1, r.ID)
		}
		if r.RemainsOf != "" {
			which = fmt.Sprintf("leg %s of %s", r.Legs[first].Quoted(), r.RemainsOf)
		}
		l.find(legPos(r, first+1), graph.Warning,
			graph.Say("%s is %s, and the take-offs and sockets at its ends take at least %s: less than nothing is left between %s and %s",
				which, mm(have), mm(stop+from.depth+to.depth), from.words, to.words),
			"measure it again, centre to centre; from face to face say measured = \"faces\"")
	}
}

// judgeElbowsFit finds a run known by its length that is shorter than its own elbows are, from
// centre to the end of each socket: pipe or elbows were counted wrong. Of work yet to be done
// that is an error.
func (l *work) judgeElbowsFit(i int) {
	r, path := l.c.Runs[i], &l.lay.Paths[i]
	if len(r.Legs) > 0 || !r.HasLength || len(r.Fittings) == 0 || r.RemainsOf != "" {
		return
	}
	least, elbows := 0.0, 0
	for k := range path.Fittings {
		f := &path.Fittings[k]
		if f.Point >= 0 || !f.From.IsZero() || f.Row.TakeOffMM == 0 {
			continue
		}
		each := f.Row.TakeOffMM - f.Row.TolMinusMM + firstOf(f.Row.SocketMM, l.set.Depth(r.Spec, r.Size))
		least, elbows = least+2*float64(f.Count)*each, elbows+f.Count
	}
	if r.LengthMM >= least-1 {
		return
	}
	pos, severity := r.Pos, graph.Warning
	if at := r.KeyPos["length"]; at.IsValid() {
		pos = at
	}
	if r.New() {
		severity = graph.Error
	}
	l.find(pos, severity,
		graph.Say("%s is %s long, and its %d fittings alone take at least %s of that, sockets and all", r.ID, mm(r.LengthMM), elbows, mm(least)),
		"measure it along the middle of the pipe, through the elbows, and count them again")
}
