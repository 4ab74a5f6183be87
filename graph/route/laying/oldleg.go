package laying

import (
	"fmt"
	"math"

	"dryfit/catalog/quantity"
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
		l.find(r.LegPos(first+1), graph.Warning,
			graph.Say("%s is %s, and the take-offs and sockets at its ends take at least %s: less than nothing is left between %s and %s",
				which, mm(have), mm(stop+from.depth+to.depth), from.words, to.words),
			measureAgain(r, have, have+from.takeOff+from.depth+to.takeOff+to.depth, first == 0 && k == len(legs)-1))
	}
}

// measureAgain is the hint for an old leg that is too short from centre to centre: what it is where the
// tape read from face to face. That all of a run was measured so is a key of the run, which would
// lengthen every other leg of it: it is for a run that has no other.
func measureAgain(r *graph.Run, faces, centres float64, whole bool) quantity.Text {
	if whole && r.RemainsOf == "" {
		return "measure it again, centre to centre; from face to face say measured = \"faces\""
	}
	return graph.Say("measure it again, centre to centre: where %s is from face to face, it is %s from centre to centre, so write that",
		mm(faces), mm(centres))
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

// judgeStub finds what is left of a cut old run too short for the sockets at its two ends:
// the one that holds it already, and the new one.
func (l *work) judgeStub(i int) {
	r, legs := l.c.Runs[i], l.lines[i].legs
	if r.RemainsOf == "" {
		return
	}
	for k := range legs {
		from, known := l.at(i, k)
		to, alsoKnown := l.at(i, k+1)
		if !known || !alsoKnown || !isFresh(from) && !isFresh(to) {
			continue
		}
		have, need := legs[k].Len()-from.takeOff-to.takeOff, from.depth+to.depth
		if have > need-0.05 {
			continue
		}
		l.find(r.LegPos(k+1), graph.Error,
			graph.Say("what is left of %s between %s and %s is %s of pipe; its two sockets need %s (%s and %s)",
				r.RemainsOf, from.words, to.words, mm(math.Max(have, 0)), mm(need), mm(from.depth), mm(to.depth)),
			graph.Say("cut at least %s farther from %s", mm(math.Ceil(need-have)), oldEnd(from, to)))
	}
}

// isFresh reports whether a station is a new part, put on the end of the old pipe.
func isFresh(s station) bool { return s.part != nil && s.part.New() }

// oldEnd names the end that was there before.
func oldEnd(from, to station) string {
	if isFresh(from) {
		return to.words
	}
	return from.words
}
