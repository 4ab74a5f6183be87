package laying

import (
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/settle"
)

// backwardsDeg is the turn from which water goes back the way it came: no bend that somebody forgot
// to write, but a way that is written the wrong way round. Judgement, no source.
const backwardsDeg = 150

// timesItsSize is how many times as large as the catalogue takes equipment to be the distance of
// its ports by the legs may be, before a leg is taken to be wrong. Judgement, no source.
const timesItsSize = 2

// judgeThrough warns of equipment whose length the description gives and that the legs have the
// water leave by the side it came in: its length then ties nothing together, and what hangs on it
// has no place.
func (l *work) judgeThrough(p *graph.Part) {
	if !p.Existing || p.Box != nil || !p.OwnLength() || settle.InLine(p.Kind) || !p.Kind.TwoPort() {
		return
	}
	if _, placed := p.Through(); placed {
		return
	}
	in, inRun, _, okIn := l.legWay(p.ID, graph.In)
	out, outRun, outPos, okOut := l.legWay(p.ID, graph.Out)
	if !okIn || !okOut || in.Scale(-1).AngleTo(out) < backwardsDeg {
		return
	}
	turned := func(r *graph.Run, port string) oldMend {
		r = l.asWritten(r)
		k := len(r.Legs) - 1
		if r.From.Same(graph.PortRef{Part: p.ID, Port: port}) {
			k = 0
		}
		return oldMend{
			pos: r.LegPos(k + 1), what: graph.Say("leg %s of %s", r.Legs[k].Quoted(), r.Said()),
			now: graph.Say("\"%s\"", graph.Leg{By: r.Legs[k].By.Scale(-1)}.Words()),
		}
	}
	l.missed = append(l.missed, missedLoop{
		pos: outPos, mended: "goes on straight",
		message: graph.Say("the water comes into %q going %s and leaves it going %s: its length of %s says where its outlet stands only where it goes straight through", p.ID, graph.WayWords(in.Scale(-1)), graph.WayWords(out), mm(p.LengthMM)),
		mends:   []oldMend{turned(outRun, graph.Out), turned(inRun, graph.In)},
		also:    graph.Say("; where it does turn, write port.out.at on %q in place of its length", p.ID),
	})
}

// sunkMM is how far a port may be sunk into its part, mm: a nut or a tail's own socket. Common
// practice, no source.
const sunkMM = 60

// judgePortBeforePort warns of equipment one of whose ports stands before another, the way that other
// looks: what lies between the two would stand in the way of its pipe. A tub has ports on every side
// of its shell, and a unit's are held against each other where they are read.
func (l *work) judgePortBeforePort(p *graph.Part) {
	if p.Kind == graph.Tub || p.Unit != nil || p.Box != nil || p.Kind.UserPorts() || p.Kind == graph.Tee {
		return
	}
	for i := range p.Ports {
		q := &p.Ports[i]
		at, ok := p.PortAt(i)
		if !ok || q.Faces == nil {
			continue
		}
		if way, _, _, ok := l.legWay(p.ID, q.Name); ok && q.Faces.AngleTo(way) >= backwardsDeg {
			continue // told of its pipe
		}
		for j := range p.Ports {
			other := &p.Ports[j]
			place, ok := p.PortAt(j)
			before := place.Sub(at).Dot(q.Faces.Unit())
			if i == j || !ok || before <= sunkMM || besides(q, other, place.Sub(at)) {
				continue
			}
			placed := other // the one whose place is written
			if placed.At == nil {
				placed = q
			}
			l.find(placed.Pos, graph.Warning,
				graph.Say("port %s of %q faces %s, and its port %s stands %s before it: what lies between the two would be in the way of its pipe", q.Name, p.ID, graph.WayWords(*q.Faces), other.Name, mm(before)),
				graph.Say("look how it stands: a place is counted from the first port to the right, up or back, or the other way; mend at, or faces of %s", q.Name),
				graph.Related{Pos: p.Pos, Message: graph.Say("%s %q is here", p.Kind, p.ID)})
			return
		}
	}
}

// besides reports whether another port looks the same way from beside: two bosses on one side of a
// body, one longer than the other, are in nobody's way.
func besides(q, other *graph.Port, apart graph.Vec) bool {
	if other.Faces == nil || other.Faces.AngleTo(*q.Faces) >= 45 {
		return false
	}
	return apart.Across(q.Faces.Unit()).Len() > sunkMM
}

// asWritten is a run, or that which was cut where it is what is left of one.
func (l *work) asWritten(r *graph.Run) *graph.Run {
	for _, gone := range l.c.Gone {
		if r.RemainsOf != "" && gone.ID == r.RemainsOf {
			return gone
		}
	}
	return r
}

// judgeSpan warns of equipment that stands already whose ports the legs alone put farther apart than
// a thing of its kind is large, with each leg or place that would bring them together if it went the
// other way; false where they may stand so.
func (l *work) judgeSpan(w *web, p *graph.Part, a, b int, by graph.Vec) bool {
	body := l.set.Part(p.ID).Body
	most := max(body.LongMM, body.ThickMM, body.HighMM)
	if !p.Existing || p.Kind.UserPorts() || most == 0 || by.Len() <= timesItsSize*most {
		return false
	}
	var turned []oldMend
	for _, s := range w.chain(a, b) {
		t := &w.ties[s.tie]
		for k, leg := range l.measures(t) {
			back := leg.by.Scale(-2)
			if s.back {
				back = leg.by.Scale(2)
			}
			if by.Add(back).Len() > most {
				continue
			}
			m := oldMend{pos: t.run.LegPos(k + 1), what: leg.what, now: graph.Say("\"%s\"", graph.Leg{By: leg.by.Scale(-1)}.Words())}
			turned = append(turned, m)
		}
	}
	message := graph.Say("the legs put %s and %s of %q %s apart (%s), and a %s is hardly larger than %s", w.ports[a].Port, w.ports[b].Port, p.ID, mm(by.Len()), graph.DistanceWords(by), p.Kind, mm(most))
	l.missed = append(l.missed, missedLoop{
		pos: p.Pos, message: message, mends: turned, mended: "brings them together",
		none:    "a leg on the way round is off, or the place of a port: measure them again before anything is cut; where it is so large write port.<name>.at on it",
		related: []graph.Related{{Pos: p.Pos, Message: graph.Say("%s %q is here", p.Kind, p.ID)}},
	})
	return true
}

// measure is a leg of a run as it is laid out, and what it is called.
type measure struct {
	by   graph.Vec
	what quantity.Text
}

// measures are the legs a tie consists of that stood before; none of a part or of new work.
func (l *work) measures(t *tie) []measure {
	if t.run == nil || t.isNew() {
		return nil
	}
	var out []measure
	for k, leg := range l.tieLegs(t) {
		name := graph.Say("%s", route.LegWords(t.run, k+1))
		if k < len(t.run.Legs) {
			name = graph.Say("leg %s of %s", t.run.Legs[k].Quoted(), t.run.Said())
		}
		out = append(out, measure{leg, name})
	}
	return out
}
