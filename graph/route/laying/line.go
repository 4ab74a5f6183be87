package laying

import (
	"fmt"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/settle"
)

// layLines works out each run by itself: what stands at its ends, an elbow where two legs
// meet, and its legs from centre to centre.
func (l *work) layLines() {
	l.lines = make([]line, len(l.c.Runs))
	l.lay.Paths = make([]route.Path, len(l.c.Runs))
	for i, r := range l.c.Runs {
		l.lay.Paths[i] = route.Path{Run: r, Pipe: l.pipeOf(l.set.Runs[i])}
		l.layLine(i)
	}
}

// pipeOf returns the row of a run's pipe with the run's own values laid over it.
func (l *work) pipeOf(r *settle.Run) catalog.Row {
	if r.Pipe.V.Name == "" && r.New() && r.BoreMM == 0 && r.Spec != "" && !r.Direct() {
		l.noRow("pipe", r.Spec, r.Size, r.Pos, r.Run)
	}
	return r.Row()
}

func (l *work) layLine(i int) {
	r := l.c.Runs[i]
	ln := &l.lines[i]
	*ln = line{run: r, gliding: r.Spec.Flexible()}
	ln.from, ln.to = l.stationAt(l.set.Runs[i], false), l.stationAt(l.set.Runs[i], true)
	path := &l.lay.Paths[i]

	l.addChain(i, &ln.from, 0, false)
	if n := len(r.Legs); n > 0 {
		for k := range n - 1 {
			ln.bends = append(ln.bends, l.bend(i, k))
		}
		l.addChain(i, &ln.to, n, true)
		ln.legs = l.effectiveLegs(i)
		at := graph.Vec{}
		path.Points = []graph.Vec{at}
		for _, by := range ln.legs {
			at = at.Add(by)
			path.Points = append(path.Points, at)
			path.LengthMM += by.Len()
		}
		path.Stops = l.stops(i)
		return
	}
	path.LengthMM = r.LengthMM
	for _, f := range r.Fittings {
		row, ok := l.cat.Fitting(f.Kind, r.Spec, r.Size)
		if !ok && r.New() {
			l.noRow(f.Kind, r.Spec, r.Size, f.Pos, r)
		}
		path.Fittings = append(path.Fittings, route.Fitting{
			Kind: f.Kind, Row: row, Run: r.ID, Where: "in " + r.ID, Point: -1, Count: f.Count, New: r.New(),
		})
	}
	l.addChain(i, &ln.to, -1, true)
}

// addChain enters a station's adaptors among the run's fittings, in the run's direction.
func (l *work) addChain(i int, s *station, point int, reverse bool) {
	path := &l.lay.Paths[i]
	isNew := s.part != nil && (path.Run.New() || s.part.New()) && !s.kept
	for k := range s.chain {
		at := k
		if reverse {
			at = len(s.chain) - 1 - k
		}
		a := &s.chain[at]
		from, to := a.Size, a.Size2
		if reverse {
			from, to = to, from
		}
		a.fitting = len(path.Fittings)
		path.Fittings = append(path.Fittings, route.Fitting{
			Kind: a.Kind, Row: a.Row, Run: path.Run.ID, Where: fmt.Sprintf("at %s.%s", s.part.ID, s.port),
			Point: point, Count: 1, From: from, To: to, New: isNew,
		})
		if !a.Known {
			if isNew {
				l.noAdaptor(a, s, path.Run)
			} else {
				l.old.add("adaptor unknown", path.Run.Pos,
					graph.Say("%s.%s is %s and %s is %s: what joins them is not in the catalogue and counts as no loss", s.part.ID, s.port, a.Size, path.Run.ID, path.Run.Size),
					"name the size of the part if it takes its pipe directly")
			}
		}
	}
	if n := len(s.chain); n > 0 && isNew {
		s.body = route.FittingBody(i, s.chain[n-1].fitting)
	}
}

// noAdaptor says that no bush or reducer in the catalogue joins a part to a run. Of transitions
// and barbs the rules speak that are about them.
func (l *work) noAdaptor(a *adaptor, s *station, run *graph.Run) {
	if a.Kind == "transition" || a.Kind == "barb" {
		return
	}
	message := graph.Say("the catalogue has no %s from %s %s to %s %s, which %s.%s needs for %s",
		a.Kind, a.Spec, a.Size, a.Spec2, a.Size2, s.part.ID, s.port, run.ID)
	if s.part.New() {
		l.find(s.part.Pos, graph.Error, message, l.nearestPairs(a), graph.Related{Pos: run.Pos, Message: "the run is here"})
		return
	}
	l.find(run.Pos, graph.Error, message, l.nearestPairs(a), graph.Related{Pos: s.part.Pos, Message: "the part is here"})
}

// nearestPairs names what the catalogue has of the kind for the part's size.
func (l *work) nearestPairs(a *adaptor) quantity.Text {
	var have []string
	for r := range l.cat.All() {
		if r.Kind != a.Kind {
			continue
		}
		if r.Size == a.Size || r.Size2 == a.Size || r.Size == a.Size2 || r.Size2 == a.Size2 {
			name := sizePair(r.Size, r.Size2)
			if len(have) < 4 && (len(have) == 0 || have[len(have)-1] != name) {
				have = append(have, name)
			}
		}
	}
	if have == nil {
		return graph.Say("change one of the sizes, or give a row of your own: [[catalog.%s]]", a.Kind)
	}
	text := have[0]
	for _, h := range have[1:] {
		text += ", " + h
	}
	return graph.Say("the catalogue has %s; change one of the sizes, or give a row of your own: [[catalog.%s]]", text, a.Kind)
}

// effectiveLegs returns a run's legs from centre to centre. Legs of old pipe measured from
// face to face are longer by the take-off and the socket at each end.
func (l *work) effectiveLegs(i int) []graph.Vec {
	r := l.c.Runs[i]
	out := make([]graph.Vec, len(r.Legs))
	for k, leg := range r.Legs {
		out[k] = leg.By
		if !r.Faces {
			continue
		}
		adds := 0.0
		for _, vertex := range []int{k, k + 1} {
			if s, ok := l.at(i, vertex); ok {
				adds += s.takeOff + s.depth
			}
		}
		gap := leg.By.Len()
		if gap > 0 {
			out[k] = leg.By.Scale((gap + adds) / gap)
		}
	}
	return out
}

// at returns what stands at a vertex of a run (0 its start, len(legs) its end); false
// where the pipe goes straight on.
func (l *work) at(i, vertex int) (station, bool) {
	ln := &l.lines[i]
	n := len(l.c.Runs[i].Legs)
	switch {
	case vertex == 0:
		return ln.from, true
	case vertex >= n:
		return ln.to, true
	}
	f := ln.bends[vertex-1]
	if f < 0 {
		return station{}, false
	}
	fit := &l.lay.Paths[i].Fittings[f]
	depth := fit.Row.SocketMM
	if depth == 0 {
		depth = l.set.Depth(ln.run.Spec, ln.run.Size)
	}
	return station{
		words: fmt.Sprintf("%s at bend %d of %s", fit.Kind, vertex, ln.run.ID), kind: fit.Kind,
		body: route.FittingBody(i, f), joint: "cement",
		takeOff: fit.Row.TakeOffMM, depth: depth, tolMinus: fit.Row.TolMinusMM, tolPlus: fit.Row.TolPlusMM,
		measure: fit.Row.Measure || fit.Row.TakeOffMM == 0,
		what:    fmt.Sprintf("%s %s, centre to socket stop", fit.Kind, ln.run.Size),
	}, true
}

// stops returns what stands at each point of a run with legs: how far its pipe stops short
// of the point and how deep it goes in.
func (l *work) stops(i int) []route.End {
	out := make([]route.End, len(l.lay.Paths[i].Points))
	for v := range out {
		if s, ok := l.at(i, v); ok {
			out[v] = route.End{Fitting: s.words, Kind: s.kind, TakeOffMM: s.takeOff, ShortMM: s.short, DepthMM: s.depth,
				TolMinusMM: s.tolMinus, TolPlusMM: s.tolPlus, Measure: s.measure}
		}
	}
	return out
}
