package laying

import (
	"fmt"
	"slices"

	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/settle"
)

// join adds a joint of the new work and returns its number; joints between things that are
// there already are none.
func (l *work) join(k route.Link, j route.Joint) int {
	if k.A == route.Existing && k.B == route.Existing {
		return 0
	}
	k.Run = -1
	if i, ok := l.runs[j.Run]; ok {
		k.Run = i
	}
	k.Old = k.A == route.Existing || k.B == route.Existing
	j.Number = len(l.lay.Joints) + 1
	j.BodyA, j.BodyB, j.Spigot, j.Into, j.DepthMM, j.Nut = k.A, k.B, k.Spigot, k.Into, k.Depth, k.Open
	j.PlayMM = k.Play
	l.lay.Joints = append(l.lay.Joints, j)
	l.links = append(l.links, k)
	return j.Number
}

// joinOld makes the joints where old pipe meets new work: old pipe into a new part.
func (l *work) joinOld(i int) {
	r, ln, path := l.c.Runs[i], &l.lines[i], &l.lay.Paths[i]
	for _, last := range []bool{false, true} {
		s := &ln.from
		if last {
			s = &ln.to
		}
		if s.part == nil || s.part.Existing {
			continue
		}
		l.nipples(i, s, last)
		k := route.Link{A: s.body, B: route.Existing, Spigot: 'b', Depth: s.depth, Flex: r.Spec.Flexible(), Piece: -1}
		leg := min(1, len(r.Legs))
		if last {
			leg = len(r.Legs)
		}
		around := r.Around(leg)
		k.Play, k.Aside = max(around.PlayMM, 0), around.PushesAside
		j := route.Joint{Kind: s.joint, Clips: s.clips(), A: s.words, B: route.OldWords(r), Remains: true, Run: r.ID, Spec: r.Spec, Size: r.Size, Located: path.Located}
		if path.Located {
			n := len(path.Points)
			at, way := path.Points[0], path.Points[1].Sub(path.Points[0]).Unit()
			if last {
				at, way = path.Points[n-1], path.Points[n-2].Sub(path.Points[n-1]).Unit()
			}
			j.At, k.Into = at.Add(way.Scale(s.takeOff)), way.Scale(-1)
		} else if way, ok := l.ways[s.part.ID+"."+s.port]; ok {
			k.Into = way.Scale(-1)
		}
		l.join(k, j)
	}
}

// joinDirect makes the joint of two parts that join without pipe between them.
func (l *work) joinDirect(i int) {
	r, ln := l.c.Runs[i], &l.lines[i]
	if ln.from.part == nil || ln.to.part == nil {
		return
	}
	l.judgeDirect(i)
	at, located := l.lay.Positions[r.From.String()]
	way := l.ways[r.From.String()]
	kind := "cement"
	if ln.from.partJoint == "thread" || ln.to.partJoint == "thread" {
		kind = "thread"
	}
	l.join(route.Link{A: ln.from.partBody, B: ln.to.partBody, Into: way, Spigot: 'a', Depth: ln.from.depth, Piece: -1},
		route.Joint{Kind: kind, A: r.From.String(), B: r.To.String(), Run: r.ID, At: at, Located: located, Spec: r.Spec, Size: r.Size})
}

// joinUnmeasured makes the joints of a new run known only by its length and fittings: two
// for each fitting and one at each end of the run. No piece can be cut for it.
func (l *work) joinUnmeasured(i int) {
	r, ln := l.c.Runs[i], &l.lines[i]
	l.find(r.Pos, graph.Note, graph.Say("%s is known only by its length: its pipe is in no bar and in no cut list, and its place is not known", r.ID), "write its legs")
	l.lay.Unmeasured = append(l.lay.Unmeasured, i)
	for _, s := range []*station{&ln.from, &ln.to} {
		if s.part == nil {
			continue
		}
		body := fmt.Sprintf("run %d", i)
		l.nipples(i, s, s == &ln.to)
		l.join(route.Link{A: s.body, B: body, Spigot: 'b', Depth: s.depth, Flex: r.Spec.Flexible(), Piece: -1},
			route.Joint{Kind: s.joint, Clips: s.clips(), A: s.words, B: "pipe of " + r.ID, Run: r.ID, Spec: r.Spec, Size: r.Size})
	}
	for k := range l.lay.Paths[i].Fittings {
		f := &l.lay.Paths[i].Fittings[k]
		if f.Point >= 0 || !f.From.IsZero() {
			continue
		}
		for n := range 2 * f.Count {
			l.join(route.Link{A: fmt.Sprintf("run %d", i), B: fmt.Sprintf("%s/%d", route.FittingBody(i, k), n), Spigot: 'a', Piece: -1},
				route.Joint{Kind: "cement", A: "pipe of " + r.ID, B: fmt.Sprintf("%s %s", f.Kind, f.Place()), Run: r.ID, Spec: r.Spec, Size: r.Size})
		}
	}
}

// joinParts makes the joints inside new parts: the nut of a union, both nuts of a
// true-union valve; and those nuts of old parts whose tails take new pipe.
func (l *work) joinParts() {
	for _, p := range l.c.Parts {
		if p.Existing {
			l.joinOldTails(p)
			continue
		}
		set := l.set.Part(p.ID)
		spec, size := set.Spec.V, set.Size.V
		at, located := l.lay.Positions[p.ID+"."+graph.In]
		if p.Kind == graph.Union {
			l.join(route.Link{A: route.TailBody(p, graph.In), B: route.TailBody(p, graph.Out), Into: l.ways[p.ID+"."+graph.Out], Spigot: 'a', Open: true, Piece: -1, Part: p.ID, Unit: l.besideUnit(p)},
				route.Joint{Kind: "union", A: p.ID + ".in", B: p.ID + ".out", At: at, Located: located, Spec: spec, Size: size})
			continue
		}
		if !p.Kind.TwoPort() {
			continue
		}
		for _, port := range []string{graph.In, graph.Out} {
			if !set.OpensAt(port) {
				continue
			}
			at, located := l.lay.Positions[p.ID+"."+port]
			unit := p.Kind == graph.HeatPump || l.besideUnit(p)
			l.join(route.Link{A: route.PartBody(p), B: route.TailBody(p, port), Into: l.ways[p.ID+"."+port], Spigot: 'a', Open: true, Piece: -1, Part: p.ID, Unit: unit},
				route.Joint{Kind: "union", A: p.ID, B: "tail of " + p.ID + "." + port, At: at, Located: located, Spec: spec, Size: size})
		}
	}
	for _, p := range l.c.Parts {
		if p.Kind == graph.SlipCoupling && p.New() {
			l.markSlip(p)
		}
	}
}

// joinOldTails makes the nuts of an old part by which its tails with new pipe in them go on again.
func (l *work) joinOldTails(p *graph.Part) {
	set := l.set.Part(p.ID)
	for _, port := range []string{graph.In, graph.Out} {
		tail := route.TailBody(p, port)
		if !slices.ContainsFunc(l.links, func(k route.Link) bool { return k.A == tail || k.B == tail }) {
			continue
		}
		at, located := l.lay.Positions[p.ID+"."+port]
		l.join(route.Link{A: route.Existing, B: tail, Into: l.ways[p.ID+"."+port], Spigot: 'a', Open: true, Piece: -1, Part: p.ID, Unit: p.Kind == graph.HeatPump || l.besideUnit(p)},
			route.Joint{Kind: "union", A: p.ID, B: "tail of " + p.ID + "." + port, At: at, Located: located, Spec: set.Spec.V, Size: set.Size.V})
	}
}

// besideUnit reports whether a part is the first that opens on the way from a unit: only
// its run, and no other part, stands between.
func (l *work) besideUnit(p *graph.Part) bool {
	for _, port := range []string{graph.In, graph.Out} {
		ref := graph.PortRef{Part: p.ID, Port: port}
		for _, e := range l.ends[ref.String()] {
			other := l.parts[l.c.Runs[e.run].Other(ref).Part]
			if other != nil && other.Kind == graph.HeatPump {
				return true
			}
		}
	}
	return false
}

// markSlip marks the joints of a slip coupling that has bare pipe to be parked on: on one
// side a straight piece at least as long, clear of the socket at its other end, as the
// coupling is over all.
func (l *work) markSlip(p *graph.Part) {
	parks := l.bareBeside(p) >= l.overall(p)-0.05
	for k := range l.links {
		if n := &l.links[k]; n.A == route.PartBody(p) || n.B == route.PartBody(p) {
			n.Part, n.Slip = p.ID, parks
			l.lay.Joints[k].Kind = "slip"
		}
	}
}

// overall is the length of a slip coupling from face to face.
func (l *work) overall(p *graph.Part) float64 {
	set := l.set.Part(p.ID)
	return settle.OverSlip(set.Row.V, l.set.Depth(set.Spec.V, set.Size.V))
}

// bareBeside is the longest bare straight pipe on one side of a slip coupling.
func (l *work) bareBeside(p *graph.Part) float64 {
	best := 0.0
	for _, port := range []string{graph.In, graph.Out} {
		for _, e := range l.ends[p.ID+"."+port] {
			legs := l.lines[e.run].legs
			if len(legs) == 0 {
				continue
			}
			vertex, leg := 1, legs[0]
			if e.last {
				vertex, leg = len(legs)-1, legs[len(legs)-1]
			}
			far, ok := l.at(e.run, vertex)
			if !ok {
				far = station{}
			}
			best = max(best, leg.Len()-far.takeOff-far.depth)
		}
	}
	return best
}

// inLine returns what the tolerances of the loops need to know of the new in-line parts, by id.
func (l *work) inLine() map[string]route.InLinePart {
	out := map[string]route.InLinePart{}
	for _, p := range l.c.Parts {
		if !settle.InLine(p.Kind) || p.Existing || p.Kind == graph.SlipCoupling {
			continue
		}
		row := l.set.Part(p.ID).Row.V
		size := l.set.Part(p.ID).Size.V
		way := l.ways[p.ID+"."+graph.Out]
		out[p.ID] = route.InLinePart{
			TolMM: max(row.TolMinusMM, row.TolPlusMM), Way: way, Measure: row.Measure || row.LengthMM == 0,
			What: fmt.Sprintf("%s: %s %s, stop to stop", p.ID, p.Kind, size),
		}
	}
	return out
}
