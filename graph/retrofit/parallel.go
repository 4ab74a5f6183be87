package retrofit

import (
	"math"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/retrofit/draft"
	"dryfit/graph/retrofit/lead"
	"dryfit/graph/route"
	"dryfit/graph/route/solid"
	"dryfit/graph/settle"
	"dryfit/graph/stream"
)

// BesideUnits returns the units that are there already and on whose pipes another could be teed in,
// in the order of the description.
func BesideUnits(c *graph.Circuit, lay *route.Layout) []*stream.UnitBranch {
	if c.Retrofit == nil || lay == nil || c.Retrofit.Remove {
		return nil
	}
	var out []*stream.UnitBranch
	for _, b := range lay.Stage.Branches() {
		if b.Unit.ID != c.Retrofit.Unit && b.TeeIn != nil {
			out = append(out, b.UnitBranch)
		}
	}
	return out
}

// teeIn is one tee with a union beside it, let into one of the first unit's pipes, where the
// old end can be drawn back by the depth of a socket. Where it can't, a true-union valve
// stands there: its body comes out, and the gap it leaves is where tee and tail come in
// from. A plain union leaves none. Either stands between the tee and the first unit, so that
// what it shuts is that unit alone, whichever way its pipe is written.
type teeIn struct {
	path   *route.Path
	leg    int
	w      work
	a      assembly
	opens  body       // the union or the valve
	kind   graph.Kind // which of them
	ahead  bool       // it comes before the tee, the way the run is written
	place  Place
	beyond float64 // pipe from the tee to the first unit, mm
}

// Parallel returns the circuit with the unit asked for teed into the pipes of one that is
// there, in parallel with it and with pipes of its own as near as they come to the same
// length. The second place is the cut in the pipe back.
func (site *Site) Parallel(beside *stream.UnitBranch) (*Proposal, []graph.Diagnostic) {
	c, lay, net := site.circuit, site.lay, site.net
	unit := c.Part(c.Retrofit.Unit)
	want := (graph.LegsMM(c.Retrofit.ToUnit) + graph.LegsMM(c.Retrofit.FromUnit)) / 2
	to, okTo := site.bestTee(beside.ToUnitRuns, true, want)
	from, okFrom := site.bestTee(beside.FromUnitRuns, false, want)
	if !okTo || !okFrom {
		return nil, []graph.Diagnostic{{Pos: c.Retrofit.Pos, Rule: "retrofit", Severity: graph.Error, Message: noTee(beside.Unit, okTo, okFrom)}}
	}
	keepApart(lay, to, &from)
	d := draft.Of(c)
	teeA, teeB := d.Names.Fresh("tee-a"), d.Names.Fresh("tee-b")
	dirA := to.build(d, teeA, "-a", net)
	dirB := from.build(d, teeB, "-b", net)

	w := to.w
	l := newLimb(w, d)
	way := w.branchWay(dirA)
	if math.Abs(way.Dot(dirB)) > 0.02 {
		if v := dirA.Cross(dirB); v.Len() > 0 {
			way = v.Unit()
		}
	}
	if len(c.Retrofit.ToUnit) == 0 && len(c.Retrofit.FromUnit) == 0 {
		l.reachMM = (to.beyond + from.beyond) / 2
	}
	posA, okA := lay.Positions[to.path.Run.From.String()]
	posB, okB := lay.Positions[from.path.Run.From.String()]
	apart := graph.Vec{}
	if okA && okB {
		apart = posB.Add(from.centre()).Sub(posA.Add(to.centre()))
	}
	if c.Retrofit.Stand != nil && okA && okB {
		l.survey = &survey{trying: site.trying, lay: lay, bodies: site.bodies, common: site.common,
			known: site.ledFrom(ledKey{run: to.path.Run.ID, leg: to.leg, fromMM: to.place.FromMM, toMM: from.place.FromMM, back: from.path.Run.ID, branch: w.branchSize}),
			teeA:  posA.Add(to.centre()), teeB: posB.Add(from.centre()), group: lay.Groups[to.path.Run.From.String()],
			cuts: []cutLeg{to.cut(posA, lead.LineTo), from.cut(posB, lead.LineFrom)}}
	}
	for _, ref := range c.Retrofit.AdaptorsKept {
		l.find(ref.Pos, graph.Note, graph.Say("%s is left as it is: a second unit is teed into the pipes of %q, whose ends stay", ref, beside.Unit.ID), "leave adaptors-kept out")
	}
	standing(d, unit, c.Retrofit.Stand)
	outgoing, back := l.strands(teeA, teeB, way, dirA, apart, feederBelow(c, net, from.path.Run))
	l.lay(outgoing)
	l.lay(back)
	second := from.place
	p := &Proposal{Place: to.place, Second: &second, Choice: Choice{Bypass: "parallel"}, Circuit: d.Circuit, NewIDs: d.IDs,
		Strands: [2][]string{outgoing.IDs, back.IDs}, Unled: l.unled}
	if l.survey != nil {
		p.led = l.survey.known
	}
	p.Marking = marking(c, to.path, to.place, to.a)
	other := marking(c, from.path, from.place, from.a)
	p.SecondMarking = &other
	return p, l.findings
}

// noTee says in which of the two pipes of a unit no tee has a place: ok is of the pipe to it and of that from it.
func noTee(unit *graph.Part, okTo, okFrom bool) quantity.Text {
	which := "neither is"
	switch {
	case okTo:
		which = "the pipe from it is not"
	case okFrom:
		which = "the pipe to it is not"
	}
	return graph.Say("a tee goes into both pipes of %q, and %s known leg by leg where it could go: measure the legs to and from it", unit.ID, which)
}

// bestTee finds where in some runs a tee with its valve has most room; of several places the
// one from which the pipe on to the first unit is nearest to the length wanted. The runs come
// in the way of the water, towards the unit or away from it.
func (site *Site) bestTee(runs []*graph.Run, towards bool, want float64) (teeIn, bool) {
	c, lay, net := site.circuit, site.lay, site.net
	var best teeIn
	found := false
	between := make([]float64, len(runs)) // pipe of the runs between each and the unit
	for i := range runs {
		for j := range runs {
			if p := lay.Path(runs[j].ID); p != nil && (towards && j > i || !towards && j < i) {
				between[i] += p.LengthMM
			}
		}
	}
	for i, r := range runs {
		path := lay.Path(r.ID)
		if path == nil || len(path.Points) < 2 {
			continue
		}
		w := newWork(c, r, site.stops)
		for k := 1; k < len(path.Points); k++ {
			t := newTee(w, path, k, towards == net.Against(r))
			t.beyond = between[i] + t.restMM(towards != net.Against(r))
			better := !found || t.play() >= 0 && best.play() < 0
			if found && (t.play() >= 0) == (best.play() >= 0) {
				better = math.Abs(t.beyond-want) < math.Abs(best.beyond-want)
				if want == 0 {
					better = t.play() > best.play()
				}
			}
			if better {
				best, found = t, true
			}
		}
	}
	return best, found
}

func newTee(w work, path *route.Path, leg int, ahead bool) teeIn {
	t := teeIn{path: path, leg: leg, w: w, ahead: ahead, opens: w.inline(string(graph.Union), w.lineSpec, w.lineSize, false), kind: graph.Union}
	name := "union"
	if path.Run.Around(leg).PlayMM < max(w.tee().SocketMM, t.opens.socket)-0.05 {
		t.opens, t.kind, name = w.inline(string(graph.BallValve), w.lineSpec, w.lineSize, true), graph.BallValve, "valve"
	}
	tee := w.tee()
	t.a = assembly{half: tee.TakeOffMM, first: draft.Nipple(tee.SocketMM, t.opens.socket), element: t.opens.length}
	atTee, atOpening := graph.RunIn, graph.Out // where the old pipe goes in
	if ahead {
		atTee, atOpening = graph.RunOut, graph.In
	}
	teeAdd, teeDepth, openAdd, openDepth := 0.0, tee.SocketMM, 0.0, t.opens.socket
	if old, _ := w.oldEnd(w.lineTee(), atTee); old.TakeOff > 0 {
		teeAdd, teeDepth = old.TakeOff-t.a.half, old.Depth
	}
	if old, _ := w.oldEnd(w.lineOpening(t.kind, t.opens), atOpening); old.Depth > 0 {
		openAdd, openDepth = old.TakeOff, old.Depth
	}
	t.a.terms = []Term{
		{"old pipe into the tee", teeDepth},
		{"tee, stop to stop", 2*t.a.half + teeAdd},
		{graph.Say("nipple, two depths and %s", quantity.Length.Of(settle.BeadMM)), t.a.first},
		{graph.Say("%s, stop to stop", name), t.a.element + openAdd},
		{graph.Say("old pipe into the %s", name), openDepth},
	}
	t.a.endAdd, t.a.endDepth, t.a.lastAdd, t.a.lastDepth = teeAdd, teeDepth, openAdd, openDepth
	if ahead {
		t.a.endAdd, t.a.endDepth, t.a.lastAdd, t.a.lastDepth = openAdd, openDepth, teeAdd, teeDepth
		slices.Reverse(t.a.terms)
	}
	gap := t.a.endAdd + 2*t.a.half + t.a.first + t.a.element + t.a.lastAdd
	start, finish := draft.LegEnds(path, leg)
	length := path.Points[leg].Sub(path.Points[leg-1]).Len()
	needed := gap + t.a.endDepth + t.a.lastDepth
	t.place = Place{Run: path.Run.ID, Leg: leg, NeededMM: needed, Terms: t.a.terms,
		Datum: start.Datum(), DatumMM: start.Face(), HeldMM: start.OverMM(), Far: finish.Datum(), FarMM: finish.Face(), FarHeldMM: finish.OverMM(),
		RoomMM: length - start.Face() - finish.Face(), PlayMM: max(0, path.Run.Around(leg).PlayMM)}
	from := start.Face() + t.a.endDepth + max(0, t.play())/2
	t.place.FromMM, t.place.ToMM = from, from+gap
	return t
}

func (t teeIn) play() float64 { return t.place.RoomMM - t.place.NeededMM }

// toCentre is how far the tee's centre is from the first cut, the way the run is written.
func (t teeIn) toCentre() float64 {
	if t.ahead {
		return t.a.endAdd + t.a.element + t.a.first + t.a.half
	}
	return t.a.endAdd + t.a.half
}

// centre is the tee's centre from the start of its run.
func (t teeIn) centre() graph.Vec {
	a, b := t.path.Points[t.leg-1], t.path.Points[t.leg]
	return a.Sub(t.path.Points[0]).Add(b.Sub(a).Unit().Scale(t.place.FromMM + t.toCentre()))
}

// cut is the leg with the string in it; start is where the run begins.
func (t teeIn) cut(start graph.Vec, near lead.Near) cutLeg {
	dir := t.path.Points[t.leg].Sub(t.path.Points[t.leg-1]).Unit()
	centre := start.Add(t.centre())
	return cutLeg{run: t.path.Run.ID, leg: t.leg, radiusMM: t.w.stringRadius(), near: near,
		from: centre.Sub(dir.Scale(t.toCentre() + t.a.endDepth)), to: centre.Add(dir.Scale(t.place.ToMM - t.place.FromMM - t.toCentre() + t.a.lastDepth))}
}

// restMM is the pipe of the run from the tee to its end, or back to its start.
func (t teeIn) restMM(toEnd bool) float64 {
	before := t.place.FromMM + t.toCentre()
	for k := 1; k < t.leg; k++ {
		before += t.path.Points[k].Sub(t.path.Points[k-1]).Len()
	}
	if toEnd {
		return t.path.LengthMM - before
	}
	return before
}

// build cuts the run and lets the tee and its union or valve in, and returns the way along the pipe.
func (t teeIn) build(d *draft.Draft, tee, suffix string, net *stream.Net) graph.Vec {
	old := t.path.Run
	d.Remove(old.ID)
	d.AddPart(tee, graph.Tee, t.w.lineSpec, t.w.lineSize)
	opens := d.Names.Fresh(map[graph.Kind]string{graph.Union: "union", graph.BallValve: "service"}[t.kind] + suffix)
	part := d.AddPart(opens, t.kind, t.w.lineSpec, t.w.lineSize)
	if t.kind != graph.Union {
		part.Type = t.opens.row.Name
	}
	along := t.path.Points[t.leg].Sub(t.path.Points[t.leg-1])
	dir := along.Unit()
	in, out := graph.RunIn, graph.RunOut
	if net.Against(old) {
		in, out = graph.RunOut, graph.RunIn
	}
	comes, goes := [2]graph.PortRef{draft.At(tee, in), draft.At(tee, out)}, [2]graph.PortRef{draft.At(opens, graph.In), draft.At(opens, graph.Out)}
	first, last := t.place.FromMM+t.toCentre(), t.place.ToMM-t.a.lastAdd // where the old pipe's legs end and begin again
	if t.ahead {
		comes, goes = goes, comes
		first, last = t.place.FromMM+t.a.endAdd, first
	}
	var before, after []graph.Leg
	for k := 1; k < len(t.path.Points); k++ {
		l := graph.Leg{By: t.path.Points[k].Sub(t.path.Points[k-1]), Surroundings: old.Around(k)}
		switch {
		case k < t.leg:
			before = append(before, l)
		case k > t.leg:
			after = append(after, l)
		default:
			l.By = dir.Scale(first)
			before = append(before, l)
			l.By = dir.Scale(along.Len() - last)
			after = append(after, l)
		}
	}
	d.Remains(old, old.From, comes[0], before)
	d.AddRun(comes[1], goes[0], t.w.lineSpec, t.w.lineSize, []graph.Leg{draft.Leg(dir.Scale(t.a.half + t.a.first))})
	d.Remains(old, goes[1], old.To, after)
	return dir
}

// branchesApartMM is how far apart the two branches are wanted: room for the nuts of both
// and a hand. stringsApartMM is how far apart what goes into the two pipes is wanted: a strap
// round a nut passes between. Common practice, no source.
const (
	branchesApartMM = 200
	stringsApartMM  = 20
)

// keepApart moves the second tee along its leg, as little as it goes, until the two branches
// are clear of each other and so are the strings, whose nuts are wider than pipes laid side by
// side; where there is no room for both, until the branches are; where there is none for that
// it stays.
func keepApart(lay *route.Layout, to teeIn, from *teeIn) {
	posA, okA := lay.Positions[to.path.Run.From.String()]
	posB, okB := lay.Positions[from.path.Run.From.String()]
	if !okA || !okB {
		return
	}
	along := from.path.Points[from.leg].Sub(from.path.Points[from.leg-1]).Unit()
	apart := posB.Add(from.centre()).Sub(posA.Add(to.centre()))
	slack := max(0, from.play()) / 2
	first, second := to.string(posA), from.string(posB)
	for _, strings := range []bool{true, false} {
		for n := range 2*mostStepsAside + 1 {
			by := 50 * float64((n+1)/2) // 0, 50, -50, 100, -100 and so on
			if n%2 == 0 {
				by = -by
			}
			if math.Abs(by) > slack || !strings && math.Abs(by) > branchesApartMM+100 {
				continue
			}
			if math.Abs(apart.Add(along.Scale(by)).Dot(along)) < branchesApartMM ||
				strings && solid.Distance(first, second.Move(along.Scale(by))) < stringsApartMM {
				continue
			}
			from.place.FromMM += by
			from.place.ToMM += by
			return
		}
	}
}

// mostStepsAside is how many steps of 50 mm a tee is moved at most, either way.
const mostStepsAside = 20

// string is the room that the tee with its union or valve takes, as wide as the nuts; start is
// where the run begins.
func (t teeIn) string(start graph.Vec) solid.Shape {
	c := t.cut(start, lead.Line)
	return solid.Cylinder(c.from, c.to, max(c.radiusMM, t.opens.row.OutsideMM/2))
}
