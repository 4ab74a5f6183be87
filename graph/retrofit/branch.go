package retrofit

import (
	"math"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/retrofit/draft"
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
	d        *draft.Draft
	findings []graph.Diagnostic
	bush     draft.End // the tee's branch with its bush
	port     draft.End // the unit's port with its transition
	valve    body
	union    body
	feeder   bool          // a check keeps a feeder's chemical out
	reachMM  float64       // how much pipe assumed legs should have; 0: as short as they go
	guessed  bool          // where the unit stands is assumed
	adrift   graph.PortRef // where the line that is cut begins, where no legs tie it to what the unit's place is counted from; else empty
	survey   *survey       // of the way to where the unit stands; nil where nobody said
	drawn    *survey       // of what stands round pipes that the user leads all the way; nil otherwise
	pipes    [2]*draft.Strand
	unled    bool // no pipes lead there
}

// newLimb looks up what the strands are made of.
func newLimb(w work, d *draft.Draft) *limb {
	l := &limb{w: w, d: d, valve: w.inline(string(w.isolators), w.branchSpec, w.branchSize, w.trueUnion),
		union: w.inline(string(graph.Union), w.branchSpec, w.branchSize, false)}
	l.bush = w.stop(w.lineTee(), graph.Branch, w.branchSpec, w.branchSize)
	l.port = draft.End{Depth: w.depth(w.branchSpec, w.branchSize)}
	if w.unit != nil {
		l.port = w.stop(w.unit, graph.In, w.branchSpec, w.branchSize)
		l.port.Depth = max(l.port.Depth, w.sunkMM()-l.port.TakeOff)
	}
	return l
}

// sunkMM is how far the unit's case reaches past the stops of its ports, mm: so much of the pipe
// beside a port is in the case, and no union can stand there. 0 where its size or which way its
// ports look is not given.
func (w work) sunkMM() float64 {
	mm := 0.0
	stand := w.asked.Stand
	if stand == nil {
		stand = &graph.Stand{}
	}
	for _, q := range w.unit.Ports {
		mm = max(mm, w.unit.SunkMM(q.Name, portFace(w.unit, q.Name, stand)))
	}
	return mm
}

// assumedLegs is the shortest straight pipe out from the tee that holds an isolator, a union
// and, where it runs up or down, a tee for a drain or a bleed; up to the next 50 mm.
func (l *limb) assumedLegs(way graph.Vec) []graph.Leg {
	mm := l.bush.TakeOff + draft.Nipple(l.bush.Depth, l.valve.socket) + l.valve.length +
		draft.Nipple(l.valve.socket, l.union.socket) + l.union.length + draft.Nipple(l.union.socket, l.port.Depth) + l.port.TakeOff
	if math.Abs(way.Z) > 0.1 {
		row, _ := l.w.cat.Fitting("tee", draft.Rigid(l.w.branchSpec), l.w.branchSize)
		mm += 2*row.TakeOffMM + draft.Nipple(row.SocketMM, row.SocketMM)
	}
	if l.feeder {
		swing, spring := l.w.inline("swing-check", l.w.branchSpec, l.w.branchSize, true), l.w.inline("spring-check", l.w.branchSpec, l.w.branchSize, false)
		mm += max(swing.length+draft.Nipple(swing.socket, swing.socket), spring.length+draft.Nipple(spring.socket, spring.socket))
	}
	mm = max(mm+max(0, l.w.asked.ExtraMM), l.reach())
	return []graph.Leg{draft.Leg(way.Scale(math.Ceil(mm/50) * 50))}
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

// otherSpring is how far the spring of a row may be off the pressure asked for, as a share, and be called that.
const otherSpring = 0.1

// springWords tells of a spring asked for by a pressure at which none of the catalogue's opens: the nearest
// stands in the bypass, with that one's own pressure and range.
func (l *limb) springWords(c Choice) {
	asked := l.w.asked.SpringPa
	row, ok := l.w.cat.Row(c.Spring)
	if asked <= 0 || !ok || math.Abs(row.CrackingPa-asked) <= otherSpring*asked {
		return
	}
	l.find(l.w.asked.KeyPos["spring"], graph.Note, graph.Say("no spring of the catalogue opens at %s: the nearest, %q, stands in the bypass with its own %s", quantity.Pressure.Of(asked), row.Name, quantity.Pressure.Of(row.CrackingPa)),
		"of a spring whose sheet you have write a row of your own, [[catalog.check-valve]] with name, style = \"spring-check\", cracking, cracking-low, cracking-high, k, rating and source, and its name as spring")
}

// legs returns the legs from the first tee to the unit and from it to the second, as asked
// or assumed. Where the legs asked for leave along the line, a short one square to it is put
// before (or after) them.
func (l *limb) legs(way, line, apart graph.Vec) (to, from []graph.Leg) {
	out, back := l.w.asked.ToUnit, l.w.asked.FromUnit
	l.d.PointTo("to-unit", "from-unit", "at")
	note := func(text, hint quantity.Text) { l.find(l.d.Pos, graph.Note, text, hint) }
	if l.standsAssumed(way, apart, out, back) {
		out, back = l.ledAssumed(line, apart, way, out, back)
	}
	out, back, failed := l.led(line, apart, out, back)
	l.unled = failed
	if l.w.asked.Stand == nil {
		l.survey, l.drawn = nil, l.survey
	}
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
			back = []graph.Leg{draft.Leg(assumed[0].By.Scale(-1))}
		}
	}
	if d, told := l.branchNotKept(line, out[0].By); told {
		l.findings = append(l.findings, d)
	}
	along := func(v graph.Vec) bool { return math.Abs(v.Unit().Dot(line.Unit())) > 0.02 }
	short := l.bush.TakeOff + l.w.elbow(graph.Vec{X: 1}, graph.Vec{Y: 1}).TakeOff +
		draft.Nipple(l.bush.Depth, l.w.elbow(graph.Vec{X: 1}, graph.Vec{Y: 1}).Depth)
	short = math.Ceil(short/10) * 10
	if leg := draft.Leg(way.Scale(short)); along(out[0].By) {
		note(graph.Say("to-unit leaves along the line here: %s square to it are put before it", quantity.Length.Of(short)),
			graph.Say("begin to-unit with \"%s\", or with another leg square to the line", leg.Words()))
		out = append([]graph.Leg{leg}, out...)
	}
	if leg := draft.Leg(way.Scale(-short)); along(back[len(back)-1].By) {
		note(graph.Say("from-unit comes back along the line here: %s square to it are put behind it", quantity.Length.Of(short)),
			graph.Say("end from-unit with \"%s\", or with another leg square to the line", leg.Words()))
		back = append(append([]graph.Leg{}, back...), leg)
	}
	return out, back
}

// strands builds the unit's two pipes between the branches of the tees.
// apart is the way from the first tee to the second, and line the way of the pipe.
func (l *limb) strands(teeA, teeB string, way, line, apart graph.Vec, feeder bool) (to, from *draft.Strand) {
	l.feeder = feeder
	outLegs, backLegs := l.legs(way, line, apart)
	unit := l.w.unit.ID
	to = draft.NewStrand("to-unit", draft.At(teeA, graph.Branch), draft.At(unit, graph.In), outLegs, l.bush, l.port, l.w.elbow)
	from = draft.NewStrand("from-unit", draft.At(unit, graph.Out), draft.At(teeB, graph.Branch), backLegs, l.port, l.bush, l.w.elbow)
	if s := l.surveyed(); s != nil {
		to.Start, to.Located = s.teeA, true
		from.Start, from.Located = walk(s.teeB, graph.Reversed(backLegs)), true
	}
	l.pipes = [2]*draft.Strand{to, from}

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

// strandKey is the key that writes a strand: the one to the unit, or that from it.
func strandKey(from bool) string {
	if from {
		return "from-unit"
	}
	return "to-unit"
}

// isolator stands as near the tee as it goes.
func (l *limb) isolator(s *draft.Strand, id string, atEnd bool) {
	l.d.PointTo("isolators", strandKey(atEnd), "at")
	p := l.d.AddPart(l.d.Names.Fresh(id), l.w.isolators, l.w.branchSpec, l.w.branchSize)
	p.Type = l.valve.row.Name
	legs := s.FromStart()
	if atEnd {
		legs = s.FromEnd()
	}
	l.stand(s, p, l.valve, atEnd, legs, "isolator")
}

// unionAt stands next to the unit.
func (l *limb) unionAt(s *draft.Strand, id string, atEnd bool) {
	l.d.PointTo(strandKey(!atEnd), "at")
	p := l.d.AddPart(l.d.Names.Fresh(id), graph.Union, l.w.branchSpec, l.w.branchSize)
	legs := s.FromStart()
	if atEnd {
		legs = s.FromEnd()
	}
	l.stand(s, p, l.union, atEnd, legs[:1], "union next to the unit")
}

// feederCheck keeps a feeder's chemical from coming back into the unit: a swing check where
// the water runs level or up, which costs least, else the weakest spring check; either with
// unions of its own, for what sticks in it has to be got at.
func (l *limb) feederCheck(s *draft.Strand) {
	var level []int
	for _, k := range s.FromEnd() {
		if s.Legs[k].By.Unit().Z > -0.02 {
			level = append(level, k)
		}
	}
	l.d.PointTo("feeder-check", "from-unit", "at")
	p := l.d.AddPart(l.d.Names.Fresh("feeder-check"), graph.CheckValve, l.w.branchSpec, l.w.branchSize)
	p.Check = &graph.CheckData{Style: "swing"}
	b := l.w.inline("swing-check", l.w.branchSpec, l.w.branchSize, true)
	p.Type = b.row.Name
	legs := level
	if len(level) == 0 {
		legs = s.FromEnd()
		p.Check.Style, p.Type = "spring", ""
		if springs := l.w.cat.Springs(); len(springs) > 0 {
			p.Type = springs[0].Name
		}
		b = l.w.inline("spring-check", l.w.branchSpec, l.w.branchSize, false)
	}
	legs = l.straightFirst(s, b, legs)
	if k, ok := l.tapBehind(s, b, legs); ok {
		legs = []int{k}
	}
	l.stand(s, p, b, true, legs, "check before the feeder")
}

// straightFirst puts the legs first that have the straight a check wants before it, the others
// behind them; both in the order given.
func (l *limb) straightFirst(s *draft.Strand, b body, legs []int) []int {
	wanted := l.w.straight(l.w.branchSpec, l.w.branchSize)
	var first, rest []int
	for _, k := range legs {
		at := s.Back[k].Pos - draft.Nipple(b.socket, s.Back[k].Depth) - b.length
		if k == 0 || at-s.Front[k].Pos >= wanted {
			first = append(first, k)
		} else {
			rest = append(rest, k)
		}
	}
	return append(first, rest...)
}

// stand puts a part into the first leg that has room for it, and reports it if none has.
func (l *limb) stand(s *draft.Strand, p *graph.Part, b body, atEnd bool, legs []int, what string) {
	it := draft.Item{Part: p.ID, In: graph.In, Out: graph.Out, Length: b.length, Depth: b.socket}
	short, k, ok := s.Put(it, atEnd, legs...)
	if !ok {
		l.findings = append(l.findings, s.RoomFinding(l.d.Pos, l.d.Job.Units, what, short, k))
		l.d.Drop(p.ID)
		return
	}
	s.IDs = append(s.IDs, p.ID)
}

// lay turns a strand into runs.
func (l *limb) lay(s *draft.Strand) {
	l.d.PointTo(s.Name(), "at")
	for _, st := range s.Stretches() {
		id := l.d.AddRun(st.From, st.To, l.w.branchSpec, l.w.branchSize, st.Legs)
		s.IDs = append(s.IDs, id)
		if r := l.d.Runs[len(l.d.Runs)-1]; !l.w.asked.Inside {
			r.Outside, r.Insulated = true, true // the way to a unit leads outdoors unless it is said not to
		}
		if at, said := l.w.asked.KeyPos["size"]; said {
			l.d.Runs[len(l.d.Runs)-1].KeyPos = map[string]graph.Pos{"size": at}
		}
	}
}

// branchNotKept says that the tees' branches do not point the way asked for: where the line
// runs that way itself, or where the first leg to the unit leaves another way. first is
// that leg.
func (l *limb) branchNotKept(line, first graph.Vec) (graph.Diagnostic, bool) {
	l.d.PointTo("branch")
	asked := l.w.asked.Branch
	if asked.Len() == 0 {
		return graph.Diagnostic{}, false
	}
	cosLine, cosFirst := math.Abs(asked.Unit().Dot(line.Unit())), asked.Unit().Dot(first.Unit())
	d := graph.Diagnostic{Pos: l.d.Pos, Rule: "retrofit", Severity: graph.Warning}
	switch {
	case cosLine > 0.02:
		d.Message = graph.Say("branch = %q is not kept: the line runs that way here, and the tees' branches stand square to it", graph.WayWords(asked))
		d.Hint = "name a way square to the pipe that is cut, or leave branch out"
	case cosFirst < 0.99 && math.Abs(first.Unit().Dot(line.Unit())) <= 0.02:
		d.Message = graph.Say("branch = %q is not kept: the first leg to the unit goes %s, and the branch points that way", graph.WayWords(asked), graph.WayWords(first))
		d.Hint = graph.Say("begin to-unit with a leg %s, or leave branch out", graph.WayWords(asked))
	default:
		return graph.Diagnostic{}, false
	}
	return d, true
}
