package laying

import (
	"cmp"
	"math"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
)

// Each leg of old pipe is off by no more than tapeMM where it was measured with care, and none
// that was measured from bend to bend is shorter than leastLegMM, nor than the two sockets at
// its ends are deep. Common practice, no source.
const (
	tapeMM     = 5
	leastLegMM = 20
)

// oldLegMend is a leg of old pipe that would close its loop if it were written otherwise.
type oldLegMend struct {
	pos    graph.Pos
	leg    quantity.Text // as it is written, and of which run
	now    quantity.Text // what it would have to be
	turned bool          // it is as long as now, another way
}

// missedOldLoop says of a loop of pipe that was there before that it does not close: a note where
// the tape explains it, or hose takes it up; else a warning at the leg that would close it, once all else is found.
func (l *work) missedOldLoop(w *web, loop []step, miss graph.Vec) {
	loop, miss = w.inFileOrder(loop, miss)
	message := graph.Say("the loop of old pipe through %s does not close: it misses by %s", w.loopWords(loop), graph.DistanceWords(miss))
	again := quantity.Text("the existing pipe was measured so; measure again where the new work hangs on it")
	legs, hose := 0, false
	for _, s := range loop {
		if t := &w.ties[s.tie]; t.run != nil {
			legs += len(t.run.Legs)
			hose = hose || t.run.Spec.Flexible()
		}
	}
	if hose || miss.Len() <= float64(tapeMM*legs) {
		l.old.add("loop does not close", w.ties[loop[0].tie].pos(), message, again)
		return
	}
	l.missed = append(l.missed, missedLoop{pos: w.ties[loop[0].tie].pos(), message: message, mends: l.oldLegMends(w, loop, miss)})
}

// missedLoop is a loop of old pipe that does not close by more than its tape explains.
type missedLoop struct {
	pos     graph.Pos
	message quantity.Text
	mends   []oldLegMend
}

// reportOldLoops tells of the loops of old pipe that do not close, when all else is found: one
// that a leg told for another loop would close as well is left out, and a leg that is too short
// by itself is the likeliest, and told with the loop.
func (l *work) reportOldLoops() {
	said := map[graph.Pos]bool{}
	for _, m := range l.missed {
		if slices.ContainsFunc(m.mends, func(o oldLegMend) bool { return said[o.pos] }) {
			continue
		}
		if len(m.mends) == 0 {
			l.find(m.pos, graph.Warning, m.message,
				"no one leg that is longer, shorter or goes another way closes it: more than one is off, or where the ports of a part stand; measure them again before anything is cut")
			continue
		}
		mends, others := m.mends, []graph.Related(nil)
		for i, o := range mends {
			if d, ok := l.takeWarning(o.pos); ok {
				others = append(others, graph.Related{Pos: d.Pos, Message: d.Message})
				mends = slices.Concat(mends[i:i+1], mends[:i], mends[i+1:])
				break
			}
		}
		first := mends[0]
		hint := graph.Say("%s closes it as \"%s\"; measure that leg again before anything is cut", first.leg, first.now)
		if len(mends) > 1 {
			hint = graph.Say("%s closes it as \"%s\", and so does each leg below; measure them again before anything is cut", first.leg, first.now)
		}
		for _, o := range mends {
			said[o.pos] = true
		}
		for _, o := range mends[1:] {
			others = append(others, graph.Related{Pos: o.pos, Message: graph.Say("or %s, as \"%s\"", o.leg, o.now)})
		}
		l.find(first.pos, graph.Warning, m.message, hint, others...)
	}
}

// takeWarning takes the first warning at a position out of the findings.
func (l *work) takeWarning(at graph.Pos) (graph.Diagnostic, bool) {
	i := slices.IndexFunc(l.lay.Findings, func(d graph.Diagnostic) bool { return d.Severity == graph.Warning && d.Pos == at })
	if i < 0 {
		return graph.Diagnostic{}, false
	}
	d := l.lay.Findings[i]
	l.lay.Findings = slices.Delete(l.lay.Findings, i, i+1)
	return d, true
}

// inFileOrder walks a loop from that of its runs that is described first, and the way that run
// goes, so that it is said in the same words whichever tie closed it.
func (w *web) inFileOrder(loop []step, miss graph.Vec) ([]step, graph.Vec) {
	first := -1
	for i, s := range loop {
		t := &w.ties[s.tie]
		if t.run != nil && (first < 0 || beforeInFile(t.run.Pos, w.ties[loop[first].tie].run.Pos)) {
			first = i
		}
	}
	if first < 0 {
		return loop, miss
	}
	out := slices.Concat(loop[first:], loop[:first])
	if out[0].back {
		slices.Reverse(out[1:])
		for i := range out {
			out[i].back = !out[i].back
		}
		miss = miss.Scale(-1)
	}
	return out, miss
}

func beforeInFile(a, b graph.Pos) bool {
	return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column)) < 0
}

// oldLegMends are the legs of a loop of old pipe each of which would close it alone: longer or
// shorter, or as long another way; these first, for that is no matter of chance.
func (l *work) oldLegMends(w *web, loop []step, miss graph.Vec) []oldLegMend {
	var out []oldLegMend
	for _, s := range loop {
		t := &w.ties[s.tie]
		if t.run == nil {
			continue
		}
		least := max(leastLegMM, 2*l.set.Depth(t.run.Spec, t.run.Size))
		by := miss
		if s.back {
			by = miss.Scale(-1)
		}
		for k, leg := range l.tieLegs(t) {
			now := tidied(leg.Add(by))
			along := now.Unit().Dot(leg.Unit()) > math.Cos(straightDeg*math.Pi/180)
			if now.Len() < least || !along && len(now.Components()) != 1 {
				continue
			}
			turned := !along && math.Abs(now.Len()-leg.Len()) <= tapeMM
			if !along && !turned {
				continue // longer and another way: two slips in one
			}
			name := graph.Say("%s", route.LegWords(t.run, k+1))
			if k < len(t.run.Legs) {
				name = graph.Say("leg %s of %s", t.run.Legs[k].Quoted(), t.run.Said())
			}
			out = append(out, oldLegMend{pos: legPos(t.run, k+1), leg: name, now: graph.Leg{By: now}.Words(), turned: turned})
		}
	}
	slices.SortStableFunc(out, func(a, b oldLegMend) int {
		switch {
		case a.turned != b.turned && a.turned:
			return -1
		case a.turned != b.turned:
			return 1
		case beforeInFile(a.pos, b.pos):
			return -1
		case beforeInFile(b.pos, a.pos):
			return 1
		}
		return 0
	})
	return out
}

// tidied leaves out what of a leg runs along an axis by less than half a mm, which is no measure.
func tidied(v graph.Vec) graph.Vec {
	for _, of := range []*float64{&v.X, &v.Y, &v.Z} {
		if math.Abs(*of) < 0.5 {
			*of = 0
		}
	}
	return v
}

// tieLegs are the legs of a run as they were laid out, or as they are written where it was cut.
func (l *work) tieLegs(t *tie) []graph.Vec {
	if t.path >= 0 {
		return l.lines[t.path].legs
	}
	var out []graph.Vec
	for _, leg := range t.run.Legs {
		out = append(out, leg.By)
	}
	return out
}
