package laying

import (
	"slices"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/settle"
)

// opposite returns the port that stands in one line with the port, for tees' runs and
// in-line parts; "" for every other.
func opposite(p *graph.Part, port string) string {
	switch {
	case p.Kind == graph.Tee && port == graph.RunIn:
		return graph.RunOut
	case p.Kind == graph.Tee && port == graph.RunOut:
		return graph.RunIn
	case settle.InLine(p.Kind) && port == graph.In:
		return graph.Out
	case settle.InLine(p.Kind) && port == graph.Out:
		return graph.In
	}
	return ""
}

// findWays finds the way the pipe leaves each port: from the first and last legs, and
// from there on through in-line parts, tees' runs and direct joints.
func (l *work) findWays() {
	var queue []graph.PortRef
	set := func(ref graph.PortRef, way graph.Vec) {
		key := ref.String()
		if _, have := l.ways[key]; have || way == (graph.Vec{}) {
			return
		}
		l.ways[key] = way
		queue = append(queue, ref)
	}
	for _, r := range l.c.Runs {
		if n := len(r.Legs); n > 0 {
			set(r.From, r.Legs[0].By.Unit())
			set(r.To, r.Legs[n-1].By.Unit().Scale(-1))
		}
	}
	for len(queue) > 0 {
		ref := queue[0]
		queue = queue[1:]
		way := l.ways[ref.String()]
		if p := l.parts[ref.Part]; p != nil {
			if o := opposite(p, ref.Port); o != "" {
				set(graph.PortRef{Part: ref.Part, Port: o}, way.Scale(-1))
			}
		}
		for _, e := range l.ends[ref.String()] {
			if r := l.c.Runs[e.run]; r.Direct() {
				set(r.Other(ref), way.Scale(-1))
			}
		}
	}
}

// legWay is the way the pipe leaves a port by a leg of its own; false where the run there
// has no legs.
func (l *work) legWay(part, port string) (graph.Vec, *graph.Run, graph.Pos, bool) {
	for _, e := range l.ends[part+"."+port] {
		r := l.c.Runs[e.run]
		n := len(r.Legs)
		switch {
		case n == 0:
		case e.last:
			return r.Legs[n-1].By.Unit().Scale(-1), r, r.LegPos(n), true
		default:
			return r.Legs[0].By.Unit(), r, r.LegPos(1), true
		}
	}
	return graph.Vec{}, nil, graph.Pos{}, false
}

// legAt is the leg by which the pipe leaves a port, where legWay finds one.
func (l *work) legAt(part, port string) legKey {
	for _, e := range l.ends[part+"."+port] {
		switch n := len(l.c.Runs[e.run].Legs); {
		case n == 0:
		case e.last:
			return legKey{e.run, n - 1}
		default:
			return legKey{e.run, 0}
		}
	}
	return legKey{-1, -1}
}

// judgeWays finds the bends nobody wrote: in-line parts whose pipes are not in line, tees
// whose run is bent or whose branch is not square, legs that do not leave a port the way
// it faces.
func (l *work) judgeWays() {
	for _, p := range l.c.Parts {
		switch {
		case p.Kind == graph.Tee:
			l.judgeTee(p)
		case settle.InLine(p.Kind):
			l.judgeInLine(p)
			l.judgeLength(p)
		}
		l.judgeThrough(p)
		l.judgePortBeforePort(p)
		for i := range p.Ports {
			l.judgeFacing(p, &p.Ports[i])
		}
	}
}

// bent says a bend is missing: an error in new work, one note for old.
func (l *work) bent(p *graph.Part, runs []*graph.Run, pos graph.Pos, message, hint quantity.Text) {
	isNew := p.New()
	for _, r := range runs {
		isNew = isNew || r.New()
	}
	if !isNew {
		l.old.add("bend missing", pos, message, hint)
		return
	}
	l.find(pos, graph.Error, message, hint, graph.Related{Pos: p.Pos, Message: graph.Say("%s %q is here", p.Kind, p.ID)})
}

// judgeLength warns of a new in-line part of which nobody knows how long it is.
func (l *work) judgeLength(p *graph.Part) {
	if p.Existing || p.Kind == graph.SlipCoupling || l.set.Part(p.ID).Row.V.LengthMM > 0 {
		return
	}
	if l.judgeBetween(p) {
		return
	}
	size := l.set.Part(p.ID).Size.V
	measure := quantity.Text("measure it and write length = \"… mm\"")
	if p.KeyPos == nil && (p.Kind == graph.ButterflyValve || p.Kind == graph.GateValve) { // asked for in [retrofit]: no part of the file to write it in
		measure = "leave isolators out in [retrofit] for ball valves, whose length is known"
	}
	l.find(p.Pos, graph.Warning, graph.Say("nobody says how long %s %q of %s is from stop to stop, so nothing beyond it is in its place", p.Kind, p.ID, size),
		graph.Say("%s; %s", measure, l.nearestSizes(string(p.Kind), size)))
}

// judgeBetween is judgeLength of a part that joins two sizes by itself (a barb, a reducer, a transition) where
// the catalogue has none that joins these two: by both, for neither alone says what is missing. It reports
// whether it is one.
func (l *work) judgeBetween(p *graph.Part) bool {
	if !settle.TwoSizes(p.Kind) {
		return false
	}
	in, out := l.set.RunAt(p.ID, graph.In), l.set.RunAt(p.ID, graph.Out)
	if in == nil || out == nil || in.Size.IsZero() || out.Size.IsZero() || in.Spec == out.Spec && in.Size == out.Size {
		return false
	}
	hint := quantity.Text("")
	for _, r := range []*settle.Run{in, out} {
		if have := l.joinedTo(string(p.Kind), r.Size); len(have) > 0 {
			hint += graph.Say("%s %s goes to %s; ", r.Spec, r.Size, quantity.Join(have, " or "))
		}
	}
	l.find(p.Pos, graph.Warning, graph.Say("the catalogue has no %s from %s %s to %s %s, so nobody says how long %q is from stop to stop, and nothing beyond it is in its place", p.Kind, in.Spec, in.Size, out.Spec, out.Size, p.ID),
		graph.Say("%sgive one of the two runs a size in which they meet, measure %q and write length = \"… mm\", or give a row of your own: [[catalog.%s]]", hint, p.ID, p.Kind))
	return true
}

// joinedTo lists the sizes that rows of a kind join to one, in the order of the catalogue.
func (l *work) joinedTo(kind string, size catalog.Size) (out []quantity.Text) {
	add := func(s catalog.Size) {
		if t := graph.Say("%s", s); !slices.Contains(out, t) {
			out = append(out, t)
		}
	}
	for r := range l.cat.All() {
		switch {
		case r.Kind != kind || r.Size2.IsZero():
		case r.Size == size:
			add(r.Size2)
		case r.Size2 == size:
			add(r.Size)
		}
	}
	return out
}

func (l *work) judgeInLine(p *graph.Part) {
	in, inRun, _, okIn := l.legWay(p.ID, graph.In)
	out, outRun, pos, okOut := l.legWay(p.ID, graph.Out)
	if !okIn || !okOut {
		return
	}
	if turn := in.Scale(-1).AngleTo(out); turn > graph.StraightDeg {
		before := len(l.lay.Findings)
		l.bent(p, []*graph.Run{inRun, outRun}, pos,
			graph.Say("%q is in line, but its pipe comes in going %s and leaves going %s: an elbow of %s is missing",
				p.ID, graph.WayWords(in.Scale(-1)), graph.WayWords(out), degrees(turn)),
			graph.Say("write the way round the bend as one more leg of %s, so that a leg lies on each side of the elbow", outRun.ID))
		l.turnedAt(before, turn, false, l.legAt(p.ID, graph.In), l.legAt(p.ID, graph.Out))
	}
}

func (l *work) judgeTee(p *graph.Part) {
	a, aRun, _, okA := l.legWay(p.ID, graph.RunIn)
	b, bRun, pos, okB := l.legWay(p.ID, graph.RunOut)
	if okA && okB {
		if turn := a.Scale(-1).AngleTo(b); turn > graph.StraightDeg {
			before := len(l.lay.Findings)
			l.bent(p, []*graph.Run{aRun, bRun}, pos,
				graph.Say("the run of tee %q is straight, but its pipe comes in going %s and leaves going %s: a turn of %s",
					p.ID, graph.WayWords(a.Scale(-1)), graph.WayWords(b), degrees(turn)),
				graph.Say("begin %s in the line of the tee's run, or use the branch for it", bRun.ID))
			l.turnedAt(before, turn, false, l.legAt(p.ID, graph.RunIn), l.legAt(p.ID, graph.RunOut))
			return
		}
	}
	run := a
	if !okA {
		run = b
	}
	if !okA && !okB {
		return
	}
	if c, cRun, pos, ok := l.legWay(p.ID, graph.Branch); ok {
		if off := run.AngleTo(c); off < 90-graph.StraightDeg || off > 90+graph.StraightDeg {
			l.bent(p, []*graph.Run{cRun}, pos,
				graph.Say("the branch of tee %q leaves going %s, %s from its run; it must be square to it (90°)", p.ID, graph.WayWords(c), degrees(off)),
				graph.Say("begin %s square to the run of the tee", cRun.ID))
		}
	}
}

func (l *work) judgeFacing(p *graph.Part, port *graph.Port) {
	if port.Faces == nil {
		return
	}
	way, run, pos, ok := l.legWay(p.ID, port.Name)
	if !ok {
		return
	}
	switch off := port.Faces.AngleTo(way); {
	case off >= backwardsDeg:
		before := len(l.lay.Findings)
		l.backwards(p, port, run, way, pos)
		l.turnedAt(before, off, false, l.legAt(p.ID, port.Name))
	case off > graph.StraightDeg:
		l.bent(p, []*graph.Run{run}, pos,
			graph.Say("port %s.%s faces %s, but its pipe goes %s: an elbow of %s is missing", p.ID, port.Name, graph.WayWords(*port.Faces), graph.WayWords(way), degrees(off)),
			graph.Say("begin with a leg %s", graph.WayWords(*port.Faces)))
	}
}

// backwards says that pipe leaves a port into what the port is on: the way the port faces, or the
// leg there, is written the wrong way round. An error in new work, a warning in old.
func (l *work) backwards(p *graph.Part, port *graph.Port, run *graph.Run, way graph.Vec, pos graph.Pos) {
	into, severity := graph.Say("%s %q", p.Kind, p.ID), graph.Warning
	if p.Kind == graph.Tub {
		into = "the tub's shell"
	}
	if p.New() || run.New() {
		severity = graph.Error
	}
	l.find(pos, severity,
		graph.Say("port %s.%s faces %s, but its pipe goes %s, into %s", p.ID, port.Name, graph.WayWords(*port.Faces), graph.WayWords(way), into),
		graph.Say("one of the two is written the wrong way round: begin with a leg %s, or write faces = \"%s\" at the port", graph.WayWords(*port.Faces), graph.WayWords(way)),
		graph.Related{Pos: port.Pos, Message: graph.Say("the port is here")})
}
