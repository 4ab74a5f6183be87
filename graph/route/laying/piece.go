package laying

import (
	"fmt"
	"math"
	"slices"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/settle"
)

// cutPieces cuts the straight pieces of the new work, run by run, and makes their joints.
func (l *work) cutPieces() {
	for i, r := range l.c.Runs {
		l.judgeElbowsFit(i)
		switch {
		case r.New():
			l.cutRun(i)
			l.judgeKept(i)
		case r.RemainsOf != "" || r.Existing:
			l.joinOld(i)
			l.judgeStub(i)
			l.judgeOldLegs(i)
		}
	}
}

// cutRun cuts one run of new pipe.
func (l *work) cutRun(i int) {
	r, ln := l.c.Runs[i], &l.lines[i]
	switch {
	case r.Direct():
		l.joinDirect(i)
		return
	case len(r.Legs) == 0 && (!r.HasLength || len(r.Fittings) > 0):
		l.joinUnmeasured(i)
		return
	}
	l.nipples(i, &ln.from, false)
	legs := ln.legs
	if len(legs) == 0 {
		if route.TakenAsStraight(r) {
			l.find(r.Pos, graph.Note, graph.Say("%s is known only by its length: its pipe is cut as one straight piece", r.ID),
				"write its legs if it turns anywhere; measure it before it is cut")
		}
		legs = []graph.Vec{{X: r.LengthMM}} // one straight piece, whichever way it goes
	}
	from := ln.from
	start, first, run := 0, 0, 0.0
	for v := 1; v <= len(legs); v++ {
		run += legs[v-1].Len()
		to, ok := l.at(i, v)
		if len(r.Legs) == 0 {
			to, ok = ln.to, true
		}
		if !ok {
			continue
		}
		s := stretch{from: from, to: to, centre: run, start: start, end: v}
		if len(r.Legs) > 0 {
			s.way, s.away = legs[first].Unit(), legs[v-1].Unit()
		}
		l.cutStretch(i, first, s)
		from, start, first, run = to, v, v, 0
	}
	l.nipples(i, &ln.to, true)
}

// stretch is pipe between two fittings: straight, or hose that bends by itself.
type stretch struct {
	from, to   station
	centre     float64   // centre to centre
	way, away  graph.Vec // at its start and at its end; zero: not known
	start, end int       // indexes of its first point and its last
}

// cutStretch cuts one stretch: one piece, or several with couplings between where the
// longest stock is too short.
func (l *work) cutStretch(i, leg int, s stretch) {
	r := l.c.Runs[i]
	cut := s.centre - s.from.takeOff - s.to.takeOff
	if !r.Spec.Flexible() {
		for k := s.start; k < s.end; k++ {
			l.spare[legKey{i, k}] = cut - s.from.depth - s.to.depth
		}
	}
	lengths, row := []float64{cut}, catalog.Row{}
	if longest := route.LongestBar(l.c, r.Spec, r.Size, l.lay.Paths[i].Pipe); longest > 0 && cut > longest+1e-9 && !r.Spec.Flexible() {
		lengths, row = l.split(i, cut, longest)
	}
	from, at := s.from, s.from.takeOff
	for k, length := range lengths {
		to := s.to
		if k < len(lengths)-1 {
			to = l.addCoupling(i, leg, row, s, at+length+row.LengthMM/2)
		}
		p := route.Piece{
			Run: r, Leg: leg + 1, Spec: r.Spec, Size: r.Size, CutMM: length,
			CentreToCentreMM: length + from.takeOff + to.takeOff,
			From:             endOf(from), To: endOf(to),
		}
		if path := &l.lay.Paths[i]; path.Located {
			p.Start = path.Points[s.start].Add(s.way.Scale(at))
			p.Finish = p.Start.Add(s.way.Scale(length))
			if r.Spec.Flexible() {
				p.Finish = path.Points[s.end].Sub(s.away.Scale(to.takeOff))
			}
		}
		l.addPiece(i, p, from, to, s.way, s.away)
		at += length + row.LengthMM
		from = to
	}
}

// split divides a stretch into as few pieces as the stock allows: whole bars, then the
// rest. Each coupling takes the gap at its stop out of the sum of the pieces. A rest too
// short for its two sockets is lengthened out of the bar before it.
func (l *work) split(i int, cut, longest float64) ([]float64, catalog.Row) {
	r := l.c.Runs[i]
	row, ok := l.cat.Fitting("coupling", r.Spec, r.Size)
	if !ok {
		l.noRow("coupling", r.Spec, r.Size, r.Pos, r)
	}
	n := 2
	for cut-float64(n-1)*row.LengthMM > float64(n)*longest+1e-9 {
		n++
	}
	sum := cut - float64(n-1)*row.LengthMM
	out := make([]float64, n)
	for k := range n - 1 {
		out[k] = longest
	}
	out[n-1] = sum - float64(n-1)*longest
	if least := 4 * l.set.Depth(r.Spec, r.Size); out[n-1] < least {
		short := least - out[n-1]
		out[n-1] += short
		out[n-2] -= short
	}
	return out, row
}

// addCoupling puts a coupling into a stretch, at a distance from the start of the stretch.
func (l *work) addCoupling(i, leg int, row catalog.Row, s stretch, at float64) station {
	path := &l.lay.Paths[i]
	r := path.Run
	where, nth := "in "+route.LegWords(r, leg+1), 1
	for _, other := range path.Fittings {
		if other.Kind == "coupling" && other.Where == where {
			nth++
		}
	}
	f := route.Fitting{Kind: "coupling", Row: row, Run: r.ID, Where: where, Nth: nth, Point: -1, Count: 1, New: true}
	if path.Located {
		f.At = path.Points[s.start].Add(s.way.Scale(at))
	}
	path.Fittings = append(path.Fittings, f)
	depth := firstOf(row.SocketMM, l.set.Depth(r.Spec, r.Size))
	return station{
		words: fmt.Sprintf("coupling in %s", route.LegWords(r, leg+1)), kind: "coupling", joint: "cement",
		body: route.FittingBody(i, len(path.Fittings)-1), depth: depth, takeOff: 0,
		measure: row.Measure, what: fmt.Sprintf("coupling %s, its stop", r.Size),
		tolMinus: row.TolMinusMM / 2, tolPlus: row.TolPlusMM / 2,
	}
}

// endOf is the printed side of a station.
func endOf(s station) route.End {
	return route.End{
		Fitting: s.words, Kind: s.kind, TakeOffMM: s.takeOff, ShortMM: s.short, DepthMM: s.depth,
		TolMinusMM: s.tolMinus, TolPlusMM: s.tolPlus, Measure: s.measure,
	}
}

// addPiece numbers a piece, judges its length, and joins both its ends; way is its own at its
// start, away at its end.
func (l *work) addPiece(i int, p route.Piece, from, to station, way, away graph.Vec) {
	p.Number = len(l.lay.Pieces) + 1
	for _, s := range []station{from, to} {
		if !s.measure {
			continue
		}
		p.Measure = true
		for _, what := range append([]string{s.what}, s.also...) {
			if what != "" && !slices.Contains(p.MeasureWhat, what) {
				p.MeasureWhat = append(p.MeasureWhat, what)
			}
		}
	}
	l.judgePiece(i, &p)
	index := len(l.lay.Pieces)
	flexible := p.Spec.Flexible()
	path := &l.lay.Paths[i]
	name := fmt.Sprintf("piece %d", p.Number)
	p.From.Joint = l.join(route.Link{A: from.body, B: route.PieceBody(index), Into: way.Scale(-1), Spigot: 'b', Depth: from.depth, Flex: flexible, Piece: index},
		route.Joint{Kind: from.joint, Clips: from.clips(), A: from.words, B: name, Run: p.Run.ID, At: p.Start, Located: path.Located, Spec: p.Spec, Size: p.Size})
	p.To.Joint = l.join(route.Link{A: route.PieceBody(index), B: to.body, Into: away, Spigot: 'a', Depth: to.depth, Flex: flexible, Piece: index},
		route.Joint{Kind: to.joint, Clips: to.clips(), A: name, B: to.words, Run: p.Run.ID, At: p.Finish, Located: path.Located, Spec: p.Spec, Size: p.Size})
	l.lay.Pieces = append(l.lay.Pieces, p)
	path.Pieces = append(path.Pieces, index)
}

// asWritten names a leg of a run, or the run's length where that is all that was written.
func asWritten(r *graph.Run, leg int) string {
	if len(r.Legs) == 0 {
		return "the length of " + r.ID
	}
	return route.LegWords(r, leg)
}

// beadPlayMM is by how much less room for the bead of cement nobody minds: a length is read from a tape
// that far off, in inches to a thirty-second. Common practice, no source.
const beadPlayMM = 0.5

// judgePiece finds a piece too short for its two sockets; i is its path.
func (l *work) judgePiece(i int, p *route.Piece) {
	need := p.From.DepthMM + p.To.DepthMM
	short := shortPiece{key: legKey{i, p.Leg - 1}, run: p.Run, mm: math.Ceil(need + settle.BeadMM - p.CutMM)}
	between := fmt.Sprintf("between %s and %s", p.From.Fitting, p.To.Fitting)
	switch {
	case p.CutMM < need-0.05:
		short.severity, short.message = graph.Error,
			graph.Say("piece %d, %s, has %s; its two sockets need %s (%s and %s)", p.Number, between, mm(math.Max(p.CutMM, 0)), mm(need), mm(p.From.DepthMM), mm(p.To.DepthMM))
	case p.CutMM < need+settle.BeadMM-beadPlayMM:
		short.severity, short.message = graph.Warning,
			graph.Say("piece %d, %s, has %s; its two sockets take %s and leave %s for the cement bead, %s are wanted", p.Number, between, mm(p.CutMM), mm(need), mm(p.CutMM-need), mm(settle.BeadMM))
	default:
		return
	}
	l.short = append(l.short, short)
}

// nipples cuts the short pieces on which the adaptors of a station stand, and joins the
// adaptors to the part and to each other.
func (l *work) nipples(i int, s *station, last bool) {
	if s.part == nil || s.kept {
		return
	}
	path := &l.lay.Paths[i]
	r := path.Run
	base, way := graph.Vec{}, graph.Vec{}
	if path.Located {
		base = path.Points[0]
		if n := len(path.Points); last {
			base = path.Points[n-1]
			way = path.Points[n-2].Sub(base).Unit()
		} else {
			way = path.Points[1].Sub(base).Unit()
		}
	}
	body, words, kind := s.partBody, s.part.ID+"."+s.port, string(s.part.Kind)
	at := s.partTakeOff
	for k := range s.chain {
		a := &s.chain[k]
		next := route.Existing
		if a.fitting >= 0 && path.Fittings[a.fitting].New {
			next = route.FittingBody(i, a.fitting)
		}
		nextWords := fmt.Sprintf("%s at %s.%s", a.Kind, s.part.ID, s.port)
		if a.NippleMM > 0 {
			from := station{words: words, kind: kind, body: body, joint: "cement", takeOff: 0, depth: a.NippleFromMM}
			to := station{words: nextWords, kind: a.Kind, body: next, joint: "cement", depth: a.NippleToMM, measure: a.Row.Measure, what: a.said()}
			p := route.Piece{Run: r, Leg: 1, Spec: settle.RigidSpec(a.Spec, a.Size), Size: a.Size, CutMM: a.NippleMM, CentreToCentreMM: a.NippleMM, From: endOf(from), To: endOf(to)}
			if last && len(r.Legs) > 0 {
				p.Leg = len(r.Legs)
			}
			p.Start, p.Finish = base.Add(way.Scale(at)), base.Add(way.Scale(at+a.NippleMM))
			l.addPiece(i, p, from, to, way, way)
		} else {
			k, joint := route.Link{A: body, B: next, Into: way.Scale(-1), Spigot: 'b', Depth: l.set.Depth(a.Spec, a.Size), Piece: -1}, "cement"
			switch a.Kind {
			case settle.ThreadAdaptor: // the part is screwed into it
				k.Into, k.Spigot, k.Depth, joint = way, 'a', 0, "thread"
			case "coupling": // it goes over a spigot: that of the part, or of the bush before it
				k.Into, k.Spigot = way, 'a'
			}
			l.join(k,
				route.Joint{Kind: joint, A: words, B: nextWords, Run: r.ID, At: base.Add(way.Scale(at)), Located: path.Located, Spec: a.Spec, Size: a.Size})
		}
		at += a.NippleMM + a.AddsMM
		body, words, kind = next, nextWords, a.Kind
	}
}
