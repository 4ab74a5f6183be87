package retrofit

import (
	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// standsAssumed reports whether the unit's place has to be assumed though the distance of its
// ports is known: nobody says where it stands, and the legs of a pipe or of both are missing.
// Legs straight out from both tees would then not meet its ports.
func (l *limb) standsAssumed(way, apart graph.Vec, out, back []graph.Leg) bool {
	return l.w.asked.Stand == nil && portGap(l.w.unit).Len() > 0 && (len(out) == 0 || len(back) == 0) && !anyOpen(out) && !anyOpen(back) &&
		way.Len() > 0 && apart.Len() > 0
}

// ledAssumed finds the pipes that are not written to a unit taken to stand where the other
// pipe leads, or straight out from the first tee where none is written. Where none can be
// found, the distance of its ports is left out of what is drawn: the last pieces are cut on site.
func (l *limb) ledAssumed(line, apart, way graph.Vec, out, back []graph.Leg) (to, from []graph.Leg) {
	stand := &graph.Stand{Pos: l.d.Pos}
	text, hint := quantity.Text(""), quantity.Text("say where it stands: at, at-from and ports-face in [retrofit]; the pipes find it")
	written := "to-unit"
	switch {
	case len(out) > 0:
		stand.At, stand.PortsFace = walk(graph.Vec{}, out), out[len(out)-1].By.Unit().Scale(-1)
	case len(back) > 0:
		written = "from-unit"
		stand.At, stand.PortsFace = walk(apart, graph.Reversed(back)).Sub(portGap(l.w.unit)), back[0].By.Unit()
	default:
		assumed := l.assumedLegs(way)
		stand.At, stand.PortsFace = assumed[0].By, way.Scale(-1)
		text = graph.Say("where %q stands is assumed: straight out from the first tee, %s, the least that holds an isolator and a union; the pipe back is found from there",
			l.w.unit.ID, quantity.Length.Of(assumed[0].LengthMM()))
	}
	if text == "" {
		text = graph.Say("the other pipe of %q is found from where %s leads, and from how far apart its ports are", l.w.unit.ID, written)
	}
	before, asked := len(l.findings), l.w.asked
	if l.survey != nil {
		own := *asked
		own.Stand = stand
		l.w.asked, l.guessed = &own, text != ""
		var failed bool
		if to, from, failed = l.led(line, apart, out, back); !failed {
			l.find(l.d.Pos, graph.Note, text, hint)
			return to, from
		}
	}
	l.w.asked, l.guessed, l.findings = asked, false, l.findings[:before]
	l.portsLoose()
	return out, back
}

// portsLoose takes the distance of the unit's ports out of what is drawn.
func (l *limb) portsLoose() {
	for i, p := range l.d.Parts {
		if p.ID != l.w.unit.ID {
			continue
		}
		loose := *p
		loose.Ports = append([]graph.Port(nil), p.Ports...)
		for k := range loose.Ports {
			loose.Ports[k].At = nil
		}
		l.d.Parts[i] = &loose
	}
}
