package laying

import (
	"dryfit/graph"
	"dryfit/graph/route"
)

// judgeOldLegs finds legs of old pipe that leave less than nothing between the sockets at
// their ends: measured or written wrong. Sockets nobody could read from a standard get their
// tolerance off.
func (l *work) judgeOldLegs(i int) {
	r, legs := l.c.Runs[i], l.lines[i].legs
	if r.RemainsOf != "" || r.Faces {
		return
	}
	for k := range legs {
		from, known := l.at(i, k)
		to, alsoKnown := l.at(i, k+1)
		if !known || !alsoKnown {
			continue
		}
		stop := from.takeOff + to.takeOff - from.tolMinus - to.tolMinus
		have := legs[k].Len() - stop
		if have >= from.depth+to.depth-1 || from.depth == 0 || to.depth == 0 {
			continue
		}
		l.find(legPos(r, k+1), graph.Warning,
			graph.Say("%s is %s, and the take-offs and sockets at its ends take at least %s: less than nothing is left between %s and %s",
				route.LegWords(r, k+1), mm(legs[k].Len()), mm(stop+from.depth+to.depth), from.words, to.words),
			"measure it again, centre to centre; from face to face say measured = \"faces\"")
	}
}
