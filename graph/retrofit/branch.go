package retrofit

import (
	"math"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// branchWay returns the way the tees' branches point: as asked, else that of the first leg
// to the unit, else the first of front, up, back, right, left and down that stands square
// to the line.
func (w work) branchWay(line graph.Vec) graph.Vec {
	square := func(v graph.Vec) bool { return v.Len() > 0 && math.Abs(v.Unit().Dot(line.Unit())) < 0.02 }
	if square(w.asked.Branch) {
		return w.asked.Branch.Unit()
	}
	if len(w.asked.ToUnit) > 0 && square(w.asked.ToUnit[0].By) {
		return w.asked.ToUnit[0].By.Unit()
	}
	for _, v := range []graph.Vec{{Y: -1}, {Z: 1}, {Y: 1}, {X: 1}, {X: -1}, {Z: -1}} {
		if square(v) {
			return v
		}
	}
	return line.Cross(graph.Vec{Z: 1}).Unit() // a diagonal line
}

// limb is the unit's branch being built: both strands and what stands in them.
type limb struct {
	w        work
	d        *draft
	findings []graph.Diagnostic
	bush     end // the tee's branch with its bush
	port     end // the unit's port with its transition
	valve    body
	union    body
	feeder   bool    // a check keeps a feeder's chemical out
	reachMM  float64 // how much pipe assumed legs should have; 0: as short as they go
	survey   *survey // of the way to where the unit stands; nil where nobody said
}

// newLimb looks up what the strands are made of.
func newLimb(w work, d *draft) *limb {
	l := &limb{w: w, d: d, valve: w.inline(string(w.isolators), w.branchSpec, w.branchSize, w.trueUnion),
		union: w.inline(string(graph.Union), w.branchSpec, w.branchSize, false)}
	l.bush = w.stop(w.lineTee(), graph.Branch, w.branchSpec, w.branchSize)
	l.port = end{depth: w.depth(w.branchSpec, w.branchSize)}
	if w.unit != nil {
		l.port = w.stop(w.unit, graph.In, w.branchSpec, w.branchSize)
	}
	return l
}

// assumedLegs is the shortest straight pipe out from the tee that holds an isolator, a union
// and, where it runs up or down, a tee for a drain or a bleed; up to the next 50 mm.
func (l *limb) assumedLegs(way graph.Vec) []graph.Leg {
	mm := l.bush.takeOff + nipple(l.bush.depth, l.valve.socket) + l.valve.length +
		nipple(l.valve.socket, l.union.socket) + l.union.length + nipple(l.union.socket, l.port.depth) + l.port.takeOff
	if math.Abs(way.Z) > 0.1 {
		row, _ := l.w.cat.Fitting("tee", rigid(l.w.branchSpec), l.w.branchSize)
		mm += 2*row.TakeOffMM + nipple(row.SocketMM, row.SocketMM)
	}
	if l.feeder {
		swing, spring := l.w.inline("swing-check", l.w.branchSpec, l.w.branchSize, true), l.w.inline("spring-check", l.w.branchSpec, l.w.branchSize, false)
		mm += max(swing.length+nipple(swing.socket, swing.socket), spring.length+nipple(spring.socket, spring.socket))
	}
	mm = max(mm+max(0, l.w.asked.ExtraMM), l.reach())
	return []graph.Leg{leg(way.Scale(math.Ceil(mm/50) * 50))}
}

// reach is what a leg comes to that has the pipe asked for and the parts that stand in it; 0
// where none is asked for.
func (l *limb) reach() float64 {
	if l.reachMM == 0 {
		return 0
	}
	return l.reachMM + l.valve.length + l.union.length
}

// find adds a finding.
func (l *limb) find(pos graph.Pos, severity graph.Severity, message, hint quantity.Text) {
	l.findings = append(l.findings, graph.Diagnostic{Pos: pos, Rule: "retrofit", Severity: severity, Message: message, Hint: hint})
}

// legs returns the legs from the first tee to the unit and from it to the second, as asked
// or assumed. Where the legs asked for leave along the line, a short one square to it is put
// before (or after) them.
func (l *limb) legs(way, line, apart graph.Vec) (to, from []graph.Leg) {
	out, back := l.w.asked.ToUnit, l.w.asked.FromUnit
	note := func(text, hint quantity.Text) { l.find(l.d.pos, graph.Note, text, hint) }
	out, back, failed := l.led(line, apart, out, back)
	if len(out) == 0 || len(back) == 0 {
		assumed := l.assumedLegs(way)
		what := "the legs to and from the unit are"
		switch {
		case len(out) > 0:
			what = "the legs from the unit are"
		case len(back) > 0:
			what = "the legs to the unit are"
		}
		if !failed {
			note(graph.Say("%s assumed: straight out from the tees, %s, the least that holds an isolator and a union", what, quantity.Length.Of(assumed[0].LengthMM())),
				"say where the unit stands: at, at-from and ports-face in [retrofit], and port.out.at on the unit; the pipes find it")
		}
		if len(out) == 0 {
			out = assumed
		}
		if len(back) == 0 {
			back = []graph.Leg{leg(assumed[0].By.Scale(-1))}
		}
	}
	if d, told := l.branchNotKept(line, out[0].By); told {
		l.findings = append(l.findings, d)
	}
	along := func(v graph.Vec) bool { return math.Abs(v.Unit().Dot(line.Unit())) > 0.02 }
	short := l.bush.takeOff + l.w.elbow(graph.Vec{X: 1}, graph.Vec{Y: 1}).takeOff +
		nipple(l.bush.depth, l.w.elbow(graph.Vec{X: 1}, graph.Vec{Y: 1}).depth)
	short = math.Ceil(short/10) * 10
	if along(out[0].By) {
		note(graph.Say("the legs to the unit leave along the line here: %s square to it are put before them", quantity.Length.Of(short)),
			"give to-unit and from-unit for this place")
		out = append([]graph.Leg{leg(way.Scale(short))}, out...)
	}
	if n := len(back) - 1; along(back[n].By) {
		back = append(append([]graph.Leg{}, back...), leg(way.Scale(-short)))
	}
	return out, back
}

// strands builds the unit's two pipes between the branches of the tees.
// apart is the way from the first tee to the second, and line the way of the pipe.
func (l *limb) strands(teeA, teeB string, way, line, apart graph.Vec, feeder bool) (to, from *strand) {
	l.feeder = feeder
	outLegs, backLegs := l.legs(way, line, apart)
	unit := l.w.unit.ID
	to = newStrand("to-unit", at(teeA, graph.Branch), at(unit, graph.In), outLegs, l.bush, l.port, l.w)
	from = newStrand("from-unit", at(unit, graph.Out), at(teeB, graph.Branch), backLegs, l.port, l.bush, l.w)
	if s := l.survey; s != nil {
		to.start, to.located = s.teeA, true
		from.start, from.located = walk(s.teeB, reversed(backLegs)), true
	}

	l.isolator(to, "v1", false)
	l.unionAt(to, "union-1", true)
	l.unionAt(from, "union-2", false)
	l.isolator(from, "v2", true)
	if feeder {
		l.feederCheck(from)
	}
	l.drainsAndBleeds(to, from, apart)
	return to, from
}

// up and down the legs of a strand.
func (s *strand) fromStart() []int {
	out := make([]int, len(s.legs))
	for i := range out {
		out[i] = i
	}
	return out
}

func (s *strand) fromEnd() []int {
	out := make([]int, len(s.legs))
	for i := range out {
		out[i] = len(out) - 1 - i
	}
	return out
}

// isolator stands as near the tee as it goes.
func (l *limb) isolator(s *strand, id string, atEnd bool) {
	p := l.d.part(l.d.names.fresh(id), l.w.isolators, l.w.branchSpec, l.w.branchSize)
	p.Type = l.valve.row.Name
	legs := s.fromStart()
	if atEnd {
		legs = s.fromEnd()
	}
	l.stand(s, p, l.valve, atEnd, legs, "isolator")
}

// unionAt stands next to the unit.
func (l *limb) unionAt(s *strand, id string, atEnd bool) {
	p := l.d.part(l.d.names.fresh(id), graph.Union, l.w.branchSpec, l.w.branchSize)
	legs := s.fromStart()
	if atEnd {
		legs = s.fromEnd()
	}
	l.stand(s, p, l.union, atEnd, legs[:1], "union next to the unit")
}

// feederCheck keeps a feeder's chemical from coming back into the unit: a swing check where
// the water runs level or up, which costs least, else the weakest spring check; either with
// unions of its own, for what sticks in it has to be got at.
func (l *limb) feederCheck(s *strand) {
	var level []int
	for _, k := range s.fromEnd() {
		if s.legs[k].By.Unit().Z > -0.02 {
			level = append(level, k)
		}
	}
	p := l.d.part(l.d.names.fresh("feeder-check"), graph.CheckValve, l.w.branchSpec, l.w.branchSize)
	p.Check = &graph.CheckData{Style: "swing"}
	b := l.w.inline("swing-check", l.w.branchSpec, l.w.branchSize, true)
	p.Type = b.row.Name
	legs := level
	if len(level) == 0 {
		legs = s.fromEnd()
		p.Check.Style, p.Type = "spring", ""
		if springs := l.w.cat.Springs(); len(springs) > 0 {
			p.Type = springs[0].Name
		}
		b = l.w.inline("spring-check", l.w.branchSpec, l.w.branchSize, false)
	}
	l.stand(s, p, b, true, l.straightFirst(s, b, legs), "check before the feeder")
}

// straightFirst puts the legs first that have the straight a check wants before it, the others
// behind them; both in the order given.
func (l *limb) straightFirst(s *strand, b body, legs []int) []int {
	row, ok := l.w.cat.Pipe(l.w.branchSpec, l.w.branchSize)
	if !ok {
		return legs
	}
	var first, rest []int
	for _, k := range legs {
		at := s.back[k].pos - nipple(b.socket, s.back[k].depth) - b.length
		if k == 0 || at-s.front[k].pos >= straightDiameters*row.BoreMM {
			first = append(first, k)
		} else {
			rest = append(rest, k)
		}
	}
	return append(first, rest...)
}

// stand puts a part into the first leg that has room for it, and reports it if none has.
func (l *limb) stand(s *strand, p *graph.Part, b body, atEnd bool, legs []int, what string) {
	it := item{part: p.ID, in: graph.In, out: graph.Out, length: b.length, depth: b.socket}
	short, k, ok := s.put(it, atEnd, legs...)
	if !ok {
		l.findings = append(l.findings, s.roomFinding(l.d.pos, l.d.Job.Units, what, short, k))
		l.d.drop(p.ID)
		return
	}
	s.ids = append(s.ids, p.ID)
}

// lay turns a strand into runs.
func (l *limb) lay(s *strand) {
	for _, st := range s.stretches() {
		id := l.d.run(st.from, st.to, l.w.branchSpec, l.w.branchSize, st.legs)
		s.ids = append(s.ids, id)
		if r := l.d.Runs[len(l.d.Runs)-1]; !l.w.asked.Inside {
			r.Outside, r.Insulated = true, true // the way to a unit leads outdoors unless it is said not to
		}
	}
}
