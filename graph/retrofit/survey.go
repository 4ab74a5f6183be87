package retrofit

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/retrofit/draft"
	"dryfit/graph/retrofit/lead"
	"dryfit/graph/route"
	"dryfit/graph/route/solid"
	"dryfit/graph/settle"
)

// survey is what is known of the room between two new tees and the place of the unit.
type survey struct {
	lay    *route.Layout
	bodies func() *solid.Bodies // of what is there
	known  *ledPipes            // what was found here before, or is now
	common *lead.Known          // to the pipes led from all places
	teeA   graph.Vec            // centres, from the layout's datum, mm
	teeB   graph.Vec
	group  int // of the places the tees' are tied to by legs
	cuts   []cutLeg
	trying bool // see Site.TriedBeside
}

// ledPipes is what was found for one place.
type ledPipes struct {
	found    bool
	to, from []graph.Leg
	ok       bool
	findings []graph.Diagnostic
	around   []lead.Box     // what the pipes are kept clear of
	pair     *lead.Pair     // as found
	refused  []lead.Refused // what was found before and can't be had
	settled  bool           // no other pair is looked for
}

// cutLeg is a leg that is cut, with the string that goes into it.
type cutLeg struct {
	run      string
	leg      int
	from, to graph.Vec // outer faces of the string
	radiusMM float64
	near     lead.Near // of which pipe it is the line
}

// led gives the pipes that lead to where the unit stands the legs that are not written: those
// left open, and whole pipes. failed says that none were found, and findings say why.
func (l *limb) led(line, apart graph.Vec, out, back []graph.Leg) (to, from []graph.Leg, failed bool) {
	s, stand := l.survey, l.w.asked.Stand
	if l.adrift.Part != "" && stand != nil && stand.From.Part != "" && (len(out) == 0 || len(back) == 0) {
		l.untied(fromTied(l.adrift.String()))
		return nil, nil, true
	}
	if s == nil || stand == nil {
		to, from = l.closed(out, back, apart, nil)
		return to, from, false
	}
	if anyOpen(out) || anyOpen(back) {
		in, _, ok := l.stands(s, nil, nil)
		if !ok {
			return nil, nil, true
		}
		in = in.Sub(s.teeA)
		out, back = l.closed(out, back, apart, &in)
	}
	if len(out) > 0 && len(back) > 0 {
		l.stands(s, out, back) // says where they lead elsewhere
		return out, back, false
	}
	if k := s.known; !k.found {
		before := len(l.findings)
		k.to, k.from, k.ok = l.lead(s, line, out, back)
		k.found, k.findings = true, l.findings[before:len(l.findings):len(l.findings)]
	} else {
		l.findings = append(l.findings, k.findings...)
	}
	return s.known.to, s.known.from, !s.known.ok
}

// stands tells where the unit's ports are: its inlet as the request says, or where a pipe that
// is written leads.
func (l *limb) stands(s *survey, out, back []graph.Leg) (in, outlet graph.Vec, ok bool) {
	stand := l.w.asked.Stand
	origin := s.teeA
	if stand.From.Part != "" {
		var known bool
		group, tied := s.lay.Groups[stand.From.String()]
		origin, known = s.lay.Positions[stand.From.String()]
		if !known || !tied || group != s.group {
			l.untied(s.tiedHint())
			return in, outlet, false
		}
	}
	in = origin.Add(stand.At)
	apart := portGap(l.w.unit)
	outlet = in.Add(apart)
	off := func(where graph.Vec, what string) {
		if d := where.Sub(in); d.Len() > 1 {
			l.find(stand.Pos, graph.Warning, graph.Say("%s as written leads to another place than at: %s of it", what, graph.DistanceWords(d)),
				"the legs written win; leave them out to have them found, or mend at")
		}
		in, outlet = where, where.Add(apart)
	}
	switch {
	case len(out) > 0:
		off(walk(s.teeA, out), "to-unit")
	case len(back) > 0:
		off(walk(s.teeB, graph.Reversed(back)).Sub(apart), "from-unit")
	}
	return in, outlet, true
}

// untied tells that where the unit stands is not known from here.
func (l *limb) untied(hint quantity.Text) {
	stand := l.w.asked.Stand
	l.find(stand.Pos, graph.Error, graph.Say("the place of %q is counted from %s, and no legs tie that to the cut", l.w.unit.ID, stand.From), hint)
}

// tiedHint says how a place comes to be counted from something legs tie to the cut: by the legs that
// lack, or from a port that is tied to it.
func (s *survey) tiedHint() quantity.Text {
	stood := func(p *graph.Part) bool { return p.Existing || p.Kind == graph.Tub }
	if ref, ok := s.lay.TiedPort(s.group, stood); ok {
		return fromTied(ref)
	}
	return measureBetween
}

const measureBetween = "measure the legs between them"

func fromTied(port string) quantity.Text {
	return graph.Say("%s, or count at from a port that legs tie to the cut: at-from = \"%s\"", measureBetween, port)
}

// portGap is the way from a unit's inlet to its outlet.
func portGap(unit *graph.Part) graph.Vec {
	gap, _ := unit.Through()
	return gap
}

func walk(from graph.Vec, legs []graph.Leg) graph.Vec {
	for _, g := range legs {
		from = from.Add(g.By)
	}
	return from
}

// lead finds the pipe, or the two, that are not written; ok is false where none can be, and a
// finding says why.
func (l *limb) lead(s *survey, line graph.Vec, out, back []graph.Leg) (to, from []graph.Leg, ok bool) {
	in, outlet, ok := l.stands(s, out, back)
	if !ok {
		return nil, nil, false
	}
	stand := l.w.asked.Stand
	s.known.around = s.boxes(l, in, outlet, true)
	ways := l.w.squareWays(line)
	if len(ways) == 0 {
		l.find(stand.Pos, graph.Error, "the line runs aslant where it is cut: no pipe at right angles can leave it square",
			"write to-unit and from-unit for this place, or cut another leg")
		return nil, nil, false
	}
	p := l.problem(s, in, outlet, out, back)
	p.Ways = ways
	pair, met := s.find(l, &p, in, outlet)
	if pair == nil {
		what := s.standsIn(l, in, outlet)
		if what != "" {
			l.find(stand.Pos, graph.Error, what, "no pipe can be led there, wherever the line is cut: measure again how far the unit's inlet is from the port it is counted from, or move the unit")
			return nil, nil, false
		}
		l.find(stand.Pos, graph.Error, noPair(l.w.unit.ID, met, s.common.Cut()),
			"move the unit, keep less clear, cut elsewhere, or write to-unit and from-unit")
		return nil, nil, false
	}
	if pair.Cost.Traps > 0 && !(l.w.asked.Drains != nil && !*l.w.asked.Drains) {
		pair = l.roomy(&p, pair)
	}
	s.known.pair = pair
	if !l.guessed && !s.trying {
		l.nearlyLevel(p, pair)
	}
	if !pair.Proved && !l.guessed {
		l.find(stand.Pos, graph.Note, graph.Say("the pipes to %q are the best that were found; whether there are better ones was not looked at to the end", l.w.unit.ID),
			"lead them yourself where you see a better way: along, branch or keep-clear, or to-unit and from-unit")
	}
	if to = out; len(out) == 0 {
		to = legsOf(pair.To)
	}
	if from = back; len(back) == 0 {
		from = graph.Reversed(legsOf(pair.From))
	}
	return to, from, true
}

// legsOf are the legs of a pipe that was found.
func legsOf(by []graph.Vec) []graph.Leg {
	var out []graph.Leg
	for _, v := range by {
		out = append(out, draft.Leg(v))
	}
	return out
}

// problem asks for the pipes between the new tees and where the unit's ports stand: what of them
// is written, what stands in them and which pairs are refused; not which ways they may leave.
func (l *limb) problem(s *survey, in, outlet graph.Vec, out, back []graph.Leg) lead.Problem {
	stand := l.w.asked.Stand
	p := lead.Problem{Boxes: s.known.around, ClipMM: l.clipMM(), SelfMM: 2 * l.girth("elbow-90", catalog.Row{}), To: l.pipe(), From: l.pipe(), Known: s.common}
	p.To.Start, p.To.End, p.To.Face = s.teeA, in, portFace(l.w.unit, graph.In, stand)
	p.From.Start, p.From.End, p.From.Face, p.From.Back = s.teeB, outlet, portFace(l.w.unit, graph.Out, stand), true
	for _, g := range out {
		p.To.Legs = append(p.To.Legs, g.By)
	}
	for _, g := range graph.Reversed(back) {
		p.From.Legs = append(p.From.Legs, g.By)
	}
	l.check(&p.From)
	p.Refused, p.Roughly = s.known.refused, l.guessed
	return p
}

// roomy is a pair with room for a drain or a bleed beside the unit, where that costs neither a trap
// nor an elbow; else the pair there is. The problem asks for that room from now on.
func (l *limb) roomy(p *lead.Problem, pair *lead.Pair) *lead.Pair {
	tee, _ := l.w.cat.Fitting("tee", draft.Rigid(l.w.branchSpec), l.w.branchSize)
	tap := lead.Item{LengthMM: 2 * tee.TakeOffMM, DepthMM: tee.SocketMM, RadiusMM: l.girth("tee", tee)}
	p.To.Tap, p.From.Tap = tap, tap
	if roomy, _ := lead.Find(*p); roomy != nil && roomy.Cost.Traps <= pair.Cost.Traps && roomy.Cost.Elbows <= pair.Cost.Elbows && roomy.Cost.Unstraight <= pair.Cost.Unstraight {
		return roomy
	}
	return pair
}

// find looks for the pipes with all there is in the way, then with less where there are none; the
// boxes of the problem become those they keep clear of.
func (s *survey) find(l *limb, p *lead.Problem, in, outlet graph.Vec) (pair *lead.Pair, met []string) {
	zones := s.zones(l.w.unit, l.w.asked.Stand, in, outlet)
	p.Boxes = slices.Concat(s.known.around, zones)
	pair, met = lead.Find(*p)
	if pair == nil && len(zones) > 0 { // better through the unit's air than nowhere: a rule warns
		p.Boxes = s.known.around
		pair, met = lead.Find(*p)
	}
	if pair == nil { // and through what is only taken to be so large: a finding says what to measure
		p.Boxes = s.boxes(l, in, outlet, false)
		if len(p.Boxes) < len(s.known.around) {
			pair, met = lead.Find(*p)
		}
	}
	return pair, met
}

// standsIn says that a port of the unit, or its case where it was described, stands in old work
// whose place is known; "" where it does not.
func (s *survey) standsIn(l *limb, in, outlet graph.Vec) quantity.Text {
	type spot struct {
		what  quantity.Text
		shape solid.Shape
	}
	pipe := l.girth("elbow-90", catalog.Row{}) / (1 + 2*solid.SocketWall)
	spots := []spot{
		{graph.Say("the inlet of %q", l.w.unit.ID), solid.Capsule(in, in, pipe)},
		{graph.Say("the outlet of %q", l.w.unit.ID), solid.Capsule(outlet, outlet, pipe)},
	}
	if l.w.unit.Box != nil {
		low, high := s.unitCase(l.w.unit, l.w.asked.Stand, in, outlet)
		spots = append(spots, spot{graph.Say("the case of %q", l.w.unit.ID), solid.Box(low, high)})
	}
	for _, at := range spots {
		for i := range s.bodies().All {
			b := &s.bodies().All[i]
			if b.Group != s.group || b.Guess {
				continue
			}
			for _, shape := range b.Likely {
				if solid.Distance(at.shape, shape) == 0 {
					return at.what + graph.Say(" stands in %s", b.Name)
				}
			}
		}
	}
	return ""
}

// noPair says that no pipes lead to a unit, or with cut only that none were found.
func noPair(unit string, met []string, cut bool) quantity.Text {
	if cut {
		return graph.Say("no two pipes at right angles from here to %q were found, though not every way was looked at%s", unit, inTheWay(met, ""))
	}
	return graph.Say("no two pipes at right angles lead from here to %q%s", unit, inTheWay(met, ": there is no room for their fittings"))
}

// inTheWay names what pipes would run into, or says what there is to say where they run into nothing.
func inTheWay(met []string, nothing string) string {
	const most = 4
	switch {
	case len(met) == 0:
		return nothing
	case len(met) == 1:
		return ": in the way is " + met[0]
	case len(met) > most:
		met = append(met[:most:most], fmt.Sprintf("%d more", len(met)-most))
	}
	return ": in the way are " + strings.Join(met, ", ")
}

// squareWays are the ways along an axis that stand square to the line, the one asked for
// alone where there is one.
func (w work) squareWays(line graph.Vec) []graph.Vec {
	var out []graph.Vec
	for _, v := range []graph.Vec{{Y: -1}, {Z: 1}, {Y: 1}, {X: 1}, {X: -1}, {Z: -1}} {
		if math.Abs(v.Dot(line.Unit())) > 0.02 {
			continue
		}
		if w.asked.Branch.Len() > 0 && w.asked.Branch.Unit() == v {
			return []graph.Vec{v}
		}
		out = append(out, v)
	}
	return out
}

// portFace is the way a port of the unit looks.
func portFace(unit *graph.Part, port string, stand *graph.Stand) graph.Vec {
	if q := unit.Port(port); q != nil && q.Faces != nil {
		return q.Faces.Unit()
	}
	return stand.PortsFace.Unit()
}

// facing gives the unit's ports the way they look, as the request says it.
func facing(d *draft.Draft, unit *graph.Part, stand *graph.Stand) {
	if stand == nil || stand.PortsFace.Len() == 0 {
		return
	}
	for i, p := range d.Parts {
		if p.ID == unit.ID {
			d.Parts[i] = faced(p, stand)
		}
	}
}

// faced is a unit whose ports look the way the request says, where they don't say it themselves.
func faced(unit *graph.Part, stand *graph.Stand) *graph.Part {
	if stand == nil || stand.PortsFace.Len() == 0 {
		return unit
	}
	turned := *unit
	turned.Ports = append([]graph.Port(nil), unit.Ports...)
	for k := range turned.Ports {
		if turned.Ports[k].Faces == nil {
			way := stand.PortsFace
			turned.Ports[k].Faces = &way
		}
	}
	return &turned
}

// pipe is what both of the unit's pipes are made of.
func (l *limb) pipe() lead.Pipe {
	bend := l.w.elbow(graph.Vec{X: 1}, graph.Vec{Y: 1})
	stop := func(e draft.End) lead.Stop { return lead.Stop{TakeOffMM: e.TakeOff, DepthMM: e.Depth} }
	p := lead.Pipe{Tee: stop(l.bush), Elbow: stop(bend), Port: stop(l.port), Isolator: l.item(l.valve), Union: l.item(l.union),
		RadiusMM: l.girth("elbow-90", catalog.Row{})}
	for _, g := range l.w.asked.Stand.Along {
		p.Along = append(p.Along, g.By)
	}
	return p
}

func (l *limb) item(b body) lead.Item {
	return lead.Item{LengthMM: b.length, DepthMM: b.socket, RadiusMM: l.girth("", b.row)}
}

// check enters the check against a feeder, with the straight it wants.
func (l *limb) check(p *lead.Pipe) {
	if !l.feeder {
		return
	}
	swing, spring := l.w.inline("swing-check", l.w.branchSpec, l.w.branchSize, true), l.w.inline("spring-check", l.w.branchSpec, l.w.branchSize, false)
	it := l.item(swing)
	it.LengthMM, it.DepthMM = max(swing.length, spring.length), max(swing.socket, spring.socket)
	p.Check = &it
	p.StraightMM = l.w.straight(l.w.branchSpec, l.w.branchSize)
}

// girth is the radius of a fitting of the unit's pipes, mm: the row's, or that of the kind's,
// else what its pipe and the wall of a socket come to.
func (l *limb) girth(kind string, row catalog.Row) float64 {
	if row.Kind == "" {
		row, _ = l.w.cat.Fitting(kind, draft.Rigid(l.w.branchSpec), l.w.branchSize)
	}
	outside := l.w.branchSize.NominalMM()
	if pipe, ok := l.w.cat.Pipe(draft.Rigid(l.w.branchSpec), l.w.branchSize); ok {
		outside = pipe.OutsideMM
	}
	return max(outside*(1+2*solid.SocketWall), row.OutsideMM) / 2
}

// clipMM is how far apart, axis to axis, two of the unit's pipes lie side by side: so that the
// elbows of both, or a valve or union and the other pipe, have 10 mm between them; up to the
// next 10 mm. Common practice, no source.
func (l *limb) clipMM() float64 {
	elbow, pipe := l.girth("elbow-90", catalog.Row{}), l.girth("elbow-90", catalog.Row{})/(1+2*solid.SocketWall)
	wide := max(l.girth("", l.valve.row), l.girth("", l.union.row))
	return math.Ceil((max(2*elbow, wide+pipe)+10)/10) * 10
}

// boxes is everything the pipes must keep clear of, with equipment nobody measured as large as it is
// taken to be, or without.
func (s *survey) boxes(l *limb, in, outlet graph.Vec, guesses bool) []lead.Box {
	out, stand := s.there(guesses), l.w.asked.Stand
	origin := in.Sub(stand.At)
	for i, k := range stand.KeepClear {
		out = append(out, sliced(solid.Box(origin.Add(k.From), origin.Add(k.To)), k.Said(i+1), lead.Apart)...)
	}
	for _, k := range route.KeptClear(s.lay) {
		if k.Group == s.group {
			out = append(out, sliced(solid.Box(k.Low, k.High), k.Said(k.Number), lead.Apart)...)
		}
	}
	return append(out, s.unitBox(l.w.unit, stand, in, outlet))
}

// there is what stands in the cabinet, the new string and the walls; guesses says whether what is
// only taken to be so large is in it.
func (s *survey) there(guesses bool) []lead.Box {
	var out []lead.Box
	for i := range s.bodies().All {
		b := &s.bodies().All[i]
		if b.Group != s.group || b.Guess && !guesses {
			continue
		}
		near := lead.Apart
		for _, c := range s.cuts {
			if b.Run == c.run && b.Leg == c.leg {
				near = c.near
			}
		}
		for _, shape := range b.Likely {
			out = append(out, sliced(shape, b.Name, near)...)
		}
	}
	for _, c := range s.cuts {
		out = append(out, sliced(solid.Cylinder(c.from, c.to, c.radiusMM), "the new string", c.near)...)
	}
	return append(out, s.walls()...)
}

// sliced is a solid as boxes along the axes: one that lies aslant in slices no longer than it
// is thick.
func sliced(shape solid.Shape, name string, near lead.Near) []lead.Box {
	a, b := shape.Axis()
	way := b.Sub(a)
	slices := 1
	if shape.Radius() > 0 && largestShare(way) < 0.999 && way.Len() > 0 {
		slices = max(1, min(200, int(math.Ceil(way.Len()/(2*shape.Radius())))))
	}
	if slices == 1 {
		low, high := shape.Bounds()
		return []lead.Box{{Low: low, High: high, Name: name, Near: near}}
	}
	var out []lead.Box
	for k := range slices {
		from, to := a.Add(way.Scale(float64(k)/float64(slices))), a.Add(way.Scale(float64(k+1)/float64(slices)))
		low, high := solid.Capsule(from, to, shape.Radius()).Bounds()
		out = append(out, lead.Box{Low: low, High: high, Name: name, Near: near})
	}
	return out
}

// largestShare is how much of a vector lies along the axis it goes along most, 0 to 1.
func largestShare(v graph.Vec) float64 {
	u := v.Unit()
	return max(math.Abs(u.X), math.Abs(u.Y), math.Abs(u.Z))
}

// wallMM is how thick a wall of the cabinet is taken to be, mm. Common practice, no source.
const wallMM = 20

// walls are the sides of the cabinet, where it is described: pipe goes square through them.
func (s *survey) walls() []lead.Box {
	c := s.lay.Circuit.Cabinet
	if c == nil {
		return nil
	}
	origin, ok := s.lay.Positions[c.From.String()]
	group, tied := s.lay.Groups[c.From.String()]
	if !ok || !tied || group != s.group {
		return nil
	}
	low, high := solid.Box(origin.Add(c.Corner), origin.Add(c.Far)).Bounds()
	var out []lead.Box
	for _, w := range []struct {
		name string
		of   func(*graph.Vec) *float64
	}{{"side", func(v *graph.Vec) *float64 { return &v.X }}, {"front or back", func(v *graph.Vec) *float64 { return &v.Y }}, {"floor or top", func(v *graph.Vec) *float64 { return &v.Z }}} {
		for _, outer := range []bool{false, true} {
			l, h := low, high
			if outer {
				*w.of(&l), *w.of(&h) = *w.of(&high), *w.of(&high)+wallMM
			} else {
				*w.of(&h), *w.of(&l) = *w.of(&low), *w.of(&low)-wallMM
			}
			out = append(out, lead.Box{Low: l, High: h, Name: "a " + w.name + " of the cabinet", Near: lead.Wall})
		}
	}
	return out
}

// unitBox is the unit itself: as described, else what is behind its ports.
func (s *survey) unitBox(unit *graph.Part, stand *graph.Stand, in, outlet graph.Vec) lead.Box {
	low, high := s.unitCase(unit, stand, in, outlet)
	return lead.Box{Name: fmt.Sprintf("%q itself", unit.ID), Near: lead.Unit, Low: low, High: high}
}

func (s *survey) unitCase(unit *graph.Part, stand *graph.Stand, in, outlet graph.Vec) (low, high graph.Vec) {
	return solid.Case(unit, settle.UnitBody(s.lay.Circuit.Catalog, unit), in, outlet, func(port string) graph.Vec { return portFace(unit, port, stand) })
}

// zones is the room the unit wants free round its case: no pipe is led there where there is
// another way. Its own pipes come to it through that before its ports.
func (s *survey) zones(unit *graph.Part, stand *graph.Stand, in, outlet graph.Vec) []lead.Box {
	low, high := s.unitCase(unit, stand, in, outlet)
	var out []lead.Box
	for _, z := range solid.Zones(unit, low, high, []graph.Vec{portFace(unit, graph.In, stand), portFace(unit, graph.Out, stand)}) {
		if !z.Ports {
			out = append(out, lead.Box{Low: z.Low, High: z.High, Name: fmt.Sprintf("the room %s of %q", z.What, unit.ID), Near: lead.Unit})
		}
	}
	return out
}
