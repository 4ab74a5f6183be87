package laying

import (
	"cmp"
	"math"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// Each leg of old pipe is off by no more than tapeMM where it was measured with care, and none
// that was measured from bend to bend is shorter than leastLegMM, nor than the two sockets at
// its ends are deep. Common practice, no source.
const (
	tapeMM     = 5
	leastLegMM = 20
)

// oldMend is a measure of what was there before, a leg or the place of a port, that would close its
// loop if it were written otherwise.
type oldMend struct {
	pos    graph.Pos
	what   quantity.Text // what is written: a leg and of which run, or the place of a port
	now    quantity.Text // what it would have to be, as a description has it
	port   bool          // the place of a port
	likely bool          // as a slip of the pen has it: turned about, or a digit too few, too many or two exchanged
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
	l.missed = append(l.missed, missedLoop{pos: w.ties[loop[0].tie].pos(), message: message, mends: l.oldMends(w, loop, miss), mended: "closes it",
		none: w.leftOut(loop, miss) + "no one leg that is longer, shorter or goes another way closes it: more than one is off, or where the ports of a part stand; measure them again before anything is cut"})
}

// leftOut asks for a leg that would close a loop if it were written: what the loop misses by, in the runs of
// it, the way each goes; "" where that is no straight leg along an axis.
func (w *web) leftOut(loop []step, miss graph.Vec) quantity.Text {
	const few = 3 // runs
	if len(miss.Components()) != 1 {
		return ""
	}
	var runs []string
	var said quantity.Text
	for _, s := range loop {
		t := &w.ties[s.tie]
		if t.run == nil || t.isNew() || len(t.run.Legs) == 0 || slices.Contains(runs, t.run.Said()) {
			continue
		}
		by := miss
		if s.back {
			by = miss.Scale(-1)
		}
		if runs = append(runs, t.run.Said()); len(runs) > few {
			return ""
		}
		if said != "" {
			said += ", or "
		}
		said += graph.Say("\"%s\" in %s", graph.Leg{By: by}.Words(), t.run.Said())
	}
	if said == "" {
		return ""
	}
	return "is a leg left out: " + said + "? "
}

// missedLoop is a loop of old pipe that does not close by more than its tape explains, or that puts
// the ports of a part where they can't be.
type missedLoop struct {
	pos     graph.Pos
	message quantity.Text
	mends   []oldMend     // each of them alone
	mended  quantity.Text // what they do
	none    quantity.Text // the hint where there are none
	also    quantity.Text // what else may be so
	related []graph.Related
}

// reportOldLoops tells of the loops of old pipe that do not close, when all else is found: one
// that a leg told for another loop would close as well is left out, a leg that several of them ask
// for stands first, and a leg that is wrong by itself too is the likeliest, and told with the loop.
func (l *work) reportOldLoops() {
	said := map[graph.Pos]bool{}
	for i, m := range l.missed {
		if slices.ContainsFunc(m.mends, func(o oldMend) bool { return said[o.pos] }) {
			continue
		}
		if len(m.mends) == 0 {
			l.find(m.pos, graph.Warning, m.message, m.none, m.related...)
			continue
		}
		mends, others := l.likeliest(i)
		first := mends[0]
		hint := graph.Say("%s %s as %s; measure %s again before anything is cut", first.what, m.mended, first.now, first.measure())
		if len(mends) > 1 {
			hint = graph.Say("%s %s as %s, and so does each %s below; measure them again before anything is cut", first.what, m.mended, first.now, eachOf(mends[1:]))
		}
		for _, o := range mends {
			said[o.pos] = true
		}
		for _, o := range mends[1:] {
			others = append(others, graph.Related{Pos: o.pos, Message: graph.Say("or %s, as %s", o.what, o.now)})
		}
		l.old.drop(first.pos)
		l.find(first.pos, graph.Warning, m.message, hint+m.also, append(others, m.related...)...)
	}
}

// likeliest is the mends of a missed loop, the likeliest first, and what else was said of them,
// which is said with the loop from then on.
func (l *work) likeliest(loop int) (mends []oldMend, others []graph.Related) {
	mends = slices.Clone(l.missed[loop].mends)
	shared := func(o oldMend) int {
		n := 0
		for i := range l.missed {
			if i != loop && slices.ContainsFunc(l.missed[i].mends, func(p oldMend) bool { return p.pos == o.pos }) {
				n++
			}
		}
		return n
	}
	slices.SortStableFunc(mends, func(a, b oldMend) int { return cmp.Compare(shared(b), shared(a)) })
	for i := range mends {
		found := false
		for d, ok := l.takeWarning(mends[i].pos); ok; d, ok = l.takeWarning(mends[i].pos) {
			others, found = append(others, graph.Related{Pos: d.Pos, Message: d.Message}), true
		}
		if found {
			first := mends[i]
			return slices.Insert(slices.Delete(mends, i, i+1), 0, first), others
		}
	}
	return mends, others
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

// oldMends are the measures on a loop of old pipe each of which would close it alone: legs longer or
// shorter, or as long another way, and the places of ports; those first that a slip of the pen
// explains, for that is no matter of chance.
func (l *work) oldMends(w *web, loop []step, miss graph.Vec) []oldMend {
	var out []oldMend
	for _, s := range loop {
		t := &w.ties[s.tie]
		by := miss
		if s.back {
			by = miss.Scale(-1)
		}
		if t.run != nil {
			out = append(out, l.oldLegMends(t, by)...)
		} else if m, ok := portMend(w, t, by); ok {
			out = append(out, m)
		}
	}
	slices.SortStableFunc(out, func(a, b oldMend) int {
		switch {
		case a.likely != b.likely && a.likely:
			return -1
		case a.likely != b.likely:
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

// oldLegMends are the legs of a run that would close its loop if the way along them were another by
// so much.
func (l *work) oldLegMends(t *tie, by graph.Vec) []oldMend {
	var out []oldMend
	least := max(leastLegMM, 2*l.set.Depth(t.run.Spec, t.run.Size))
	for k, is := range l.measures(t) {
		leg := is.by
		now := tidied(leg.Add(by))
		along := now.Unit().Dot(leg.Unit()) > math.Cos(graph.StraightDeg*math.Pi/180)
		if now.Len() < least || !along && len(now.Components()) != 1 {
			continue
		}
		turned := !along && math.Abs(now.Len()-leg.Len()) <= tapeMM
		if !along && !turned {
			continue // longer and another way: two slips in one
		}
		out = append(out, oldMend{
			pos: t.run.LegPos(k + 1), what: is.what, now: graph.Say("\"%s\"", graph.Leg{By: now}.Words()),
			likely: turned || penSlip(leg.Len(), now.Len()),
		})
	}
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
