package laying

import (
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
)

// lengthFinding is a loop that does not close, or a piece too short for its sockets.
type lengthFinding struct {
	loop     *newLoop
	piece    *shortPiece
	severity graph.Severity
}

// mendedTogether are findings that the same changes mend, and these.
type mendedTogether struct {
	findings []lengthFinding
	legs     []mendedLeg
}

// reportNewLoops words what of the new work does not close or is too short for its sockets. Both are
// said of lengths, and a leg that is made longer opens the loops it is on: so what hangs together is
// told once, by the first of it, and the others name that.
func (l *work) reportNewLoops(w *web) {
	m, refused := l.mend(w)
	asked, at := map[*newLoop]change{}, map[*newLoop]graph.Pos{}
	for _, way := range m.ways {
		for _, g := range l.together(w, way, m.open) {
			l.tellTogether(w, g, func(n *newLoop, pos graph.Pos, hint change) {
				if before, ok := asked[n]; ok {
					asked[n] = before.and(", and ", hint)
				} else {
					asked[n], at[n] = hint, pos
				}
			})
		}
	}
	loopAt := map[*newLoop]int{} // of the findings
	for i := range l.loops {
		n := &l.loops[i]
		if m.open[i] {
			asked[n] = l.noLeg(w, n)
		}
		if n.miss.Len() > 0 {
			l.missedLoop(w, n, at[n], asked[n])
			loopAt[n] = len(l.lay.Findings) - 1
		}
	}
	for i := range l.short {
		p := &l.short[i]
		if l.longEnough(m, p) {
			continue
		}
		hint := p.longer()
		if refused[p.key] {
			hint.text += "; none other of the new work on its loop takes that up: cut more out of the old pipe, or lead the new pipe there anew"
		}
		l.found(p.run.LegPos(p.key.leg+1), p.severity, p.message, hint)
	}
	l.oneLeg(w, loopAt)
	l.doubt(w, loopAt)
}

// longer asks for a piece to be longer, whatever hangs on it.
func (p *shortPiece) longer() change {
	return change{graph.Say("make %s at least %s longer", asWritten(p.run, p.key.leg+1), mm(p.mm)), []string{p.run.ID}}
}

// together parts what is mended along a way into what hangs together by loops, the gravest of each first.
func (l *work) together(w *web, way mendedWay, open map[int]bool) []mendedTogether {
	of := make([]int, len(l.loops)) // the group of each loop
	for i := range of {
		of[i] = i
	}
	groups := make([]mendedTogether, len(of)+len(way.legs)) // by that, then of legs on no loop
	for _, c := range way.legs {
		into := -1
		for i := range of {
			if _, on := c.leg.loops[i]; !on {
				continue
			}
			if into < 0 {
				into = of[i]
			}
			for k, was := 0, of[i]; k < len(of); k++ {
				if of[k] == was {
					of[k] = into
				}
			}
		}
	}
	for _, i := range way.missed {
		if n := &l.loops[i]; !open[i] {
			groups[of[i]].findings = append(groups[of[i]].findings, lengthFinding{loop: n, severity: w.missedSeverity(n)})
		}
	}
	for k, c := range way.legs {
		g := &groups[len(of)+k]
		for i := range of {
			if _, on := c.leg.loops[i]; on {
				g = &groups[of[i]]
			}
		}
		g.legs = append(g.legs, c)
		for i := range l.short {
			if p := &l.short[i]; p.key == c.leg.key && l.longEnough(mending{ways: []mendedWay{way}}, p) {
				g.findings = append(g.findings, lengthFinding{piece: p, severity: p.severity})
			}
		}
	}
	for _, g := range groups {
		slices.SortStableFunc(g.findings, func(a, b lengthFinding) int { return int(b.severity - a.severity) })
	}
	return slices.DeleteFunc(groups, func(g mendedTogether) bool { return len(g.findings) == 0 })
}

// tellTogether tells findings that the same changes mend: the first says them all. What is asked for a
// loop is handed over, for it may miss along other ways too.
func (l *work) tellTogether(w *web, g mendedTogether, ofLoop func(n *newLoop, at graph.Pos, hint change)) {
	first := g.findings[0]
	all := g.lengths(first.piece)
	for k, f := range g.findings {
		hint := all
		switch {
		case k > 0 && len(g.legs) > 1:
			hint.text = graph.Say("what is asked for %s mends this too", w.called(first))
		case f.piece != nil && slices.ContainsFunc(g.findings, func(o lengthFinding) bool { return o.loop != nil }):
			hint = all.and(": so the loop closes too", change{})
		}
		if f.loop != nil {
			leg := g.legs[0].leg
			ofLoop(f.loop, leg.tie.run.LegPos(leg.key.leg+1), hint)
			continue
		}
		l.found(f.piece.run.LegPos(f.piece.key.leg+1), f.piece.severity, f.piece.message, hint)
	}
}

// called is how the finding of others is referred to.
func (w *web) called(f lengthFinding) quantity.Text {
	if f.loop != nil {
		return graph.Say("the loop through %s", w.loopWords(f.loop.steps))
	}
	return graph.Say("%s", asWritten(f.piece.run, f.piece.key.leg+1))
}

// lengths words the changes of a group: for a piece that is too short its own leg first.
func (g *mendedTogether) lengths(piece *shortPiece) change {
	if piece == nil {
		var out change
		for k, c := range g.legs {
			if k > 0 {
				out.text += ", and "
			}
			out = out.and("", c.leg.tie.longer(c.leg.key.leg, c.leg.by, c.byMM))
		}
		return out
	}
	if len(g.legs) == 1 && len(g.legs[0].leg.loops) == 0 {
		return piece.longer()
	}
	var own change
	var with []quantity.Text
	var names []string
	for _, c := range g.legs {
		longer := c.leg.tie.longer(c.leg.key.leg, c.leg.by, c.byMM)
		if c.leg.key == piece.key {
			own = longer
			continue
		}
		names = append(names, longer.names...)
		with = append(with, quantity.Text(strings.TrimPrefix(string(longer.text), "make ")))
	}
	if with == nil {
		return own
	}
	return own.and(", and with it, or the loop does not close, ", change{quantity.Join(with, ", and "), names})
}

// missedLoop words a loop that does not close, at a leg that is changed for it or, where none is, its
// first new run or part.
func (l *work) missedLoop(w *web, n *newLoop, pos graph.Pos, hint change) {
	for _, s := range n.steps {
		if t := &w.ties[s.tie]; t.isNew() && !pos.IsValid() {
			pos = t.pos()
		}
	}
	for _, s := range n.steps {
		if t := w.ties[s.tie]; t.gone {
			hint.text += graph.Say(" (%s was taken out, and says how far apart its ends stand)", t.run.ID)
		}
	}
	if hose := w.hose(n); hose != nil {
		hint.text += graph.Say(" (or let the hose of %s take it up)", hose.ID)
	}
	l.found(pos, w.missedSeverity(n), graph.Say("the loop through %s does not close: it misses by %s", w.loopWords(n.steps), graph.DistanceWords(n.miss)), hint)
	l.lay.Findings[len(l.lay.Findings)-1].Behind = w.beyond(n)
}

// beyond are the places of the open legs of a loop that would have to be shorter than nothing.
func (w *web) beyond(n *newLoop) []graph.Pos {
	var out []graph.Pos
	for _, s := range n.steps {
		if r := w.ties[s.tie].run; r != nil {
			for _, g := range r.Legs {
				if g.Beyond {
					out = append(out, g.Pos)
				}
			}
		}
	}
	return out
}

// missedSeverity is a warning where hose takes up what the loop misses by.
func (w *web) missedSeverity(n *newLoop) graph.Severity {
	if w.hose(n) != nil {
		return graph.Warning
	}
	return graph.Error
}

// hose is the first run of a loop that bends by itself; nil.
func (w *web) hose(n *newLoop) *graph.Run {
	for _, s := range n.steps {
		if r := w.ties[s.tie].run; r != nil && r.Spec.Flexible() {
			return r
		}
	}
	return nil
}

// noLeg says why no lengths close a loop: that no leg of new pipe runs along an axis by which it misses,
// that the longest of them is too short, or that they are on other loops too.
func (l *work) noLeg(w *web, n *newLoop) change {
	for _, axis := range axesOf(n.miss) {
		var out change
		longest, enough := 0.0, false
		for leg, change := range l.legsAlong(w, n, axis) {
			t, k, is := leg.tie, leg.key.leg, leg.by.Len()
			enough = enough || is+change >= 1 && l.takes(leg.key, change) != tooShort
			if is <= longest {
				continue
			}
			name, names := graph.Say("%s", route.LegWords(t.run, k+1)), []string{t.run.ID}
			if t.drawnAlong(k) {
				name, names = graph.Say("your leg %s", t.run.Legs[k].Quoted()), nil
			}
			longest = is
			out.names, out.text = names, graph.Say("%s runs that way and is too short to be %s shorter: lead the pipe there anew, or measure the old pipe again", name, mm(axis.Len()))
		}
		switch {
		case longest == 0:
			return change{text: "no leg of the new work runs that way: add one, or measure the old pipe again"}
		case !enough:
			return out
		}
	}
	return change{text: "the legs that run that way are on other loops too, and no lengths of theirs were found that close all of them: lead the pipe there anew, or measure the old pipe again"}
}
