package removal

import (
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/retrofit"
	"dryfit/graph/retrofit/draft"
	"dryfit/graph/route"
	"dryfit/graph/stream"
)

// Of returns the circuit with the unit named in the request taken out again: its pipes,
// the bypass and both tees go, and the line is closed with one new piece between two slip
// couplings, which need no play; hose with one new hose, end to end. lay is the stage before the work. The proposal is nil where
// the line can't be closed so, and the findings say why.
func Of(c *graph.Circuit, lay *route.Layout) (*retrofit.Proposal, []graph.Diagnostic) {
	k, problem, hint := takenOut(c, lay)
	var g gap
	if problem == "" {
		g, problem, hint = k.gap(lay)
	}
	if problem != "" {
		return nil, []graph.Diagnostic{{Pos: c.Retrofit.Pos, Rule: "retrofit", Severity: graph.Error, Message: problem, Hint: hint}}
	}
	d, gone := draft.Of(c), k.ids()
	for _, id := range gone {
		d.Remove(id)
	}
	closed := graph.Say("the old pipe is cut at their outer faces and closed with %s between two slip couplings", quantity.Length.Of(g.by.Len()))
	if k.onHose() {
		hose := k.newHose(d, lay)
		closed = graph.Say("the hoses at both come off, and one new hose leads from %s to %s, %s of it", hose.From, hose.To, quantity.Length.Of(graph.LegsMM(hose.Legs)))
	} else {
		k.close(d, g)
	}
	findings := []graph.Diagnostic{{Pos: d.Pos, Rule: "retrofit", Severity: graph.Note,
		Message: graph.Say("%q comes out with its pipes, its bypass and the tees %q and %q, %d parts in all; ", k.unit.ID, k.TeeIn.ID, k.TeeOut.ID, countParts(c, gone)) + closed,
		Hint:    "shut the pump off and drain the line first; keep the unit's unions"}}
	for _, ref := range c.Retrofit.AdaptorsKept {
		findings = append(findings, graph.Diagnostic{Pos: ref.Pos, Rule: "retrofit", Severity: graph.Note,
			Message: graph.Say("%s is left as it is: no adaptor comes off where the line is closed", ref), Hint: "leave adaptors-kept out"})
	}
	return &retrofit.Proposal{Circuit: d.Circuit, NewIDs: d.IDs}, findings
}

// leaving is a unit that goes, with its branch and the runs that come to its tees and lead on.
type leaving struct {
	*stream.UnitBranch
	unit    *graph.Part
	in, out *graph.Run
}

// drawIt is how a unit is taken out that none of this takes out.
const drawIt quantity.Text = "take [retrofit] out and draw it: removed = true on all that goes, what is left of the line's runs as runs of their own with remains-of, and the new pipe that closes it"

// takenOut finds what goes with the unit named in the request, or says why it can't go by rule, and what would do.
func takenOut(c *graph.Circuit, lay *route.Layout) (leaving, quantity.Text, quantity.Text) {
	unit := lay.Circuit.Part(c.Retrofit.Unit)
	if unit == nil || unit.Kind != graph.HeatPump {
		return leaving{}, graph.Say("there is no existing heat pump %q to take out", c.Retrofit.Unit), graph.Say("write existing = true on %q and on all that hangs on it", c.Retrofit.Unit)
	}
	net := lay.Stage.Net()
	b, problem := net.UnitBranch(unit)
	if b == nil || b.TeeIn == nil {
		return leaving{}, graph.Say("%s: there are no two tees to take out with it", problem), drawIt
	}
	if b.TeeIn.Kind != graph.Tee || b.TeeOut.Kind != graph.Tee {
		return leaving{}, graph.Say("%q hangs on %s %q and %s %q; only a unit between two tees can be taken out by rule", unit.ID, b.TeeIn.Kind, b.TeeIn.ID, b.TeeOut.Kind, b.TeeOut.ID), drawIt
	}
	for _, other := range net.Branches() {
		if other.Unit != b.Unit && other.TeeIn == b.TeeIn {
			return leaving{}, graph.Say("%q shares the tees %q and %q with %q, which would be left without water", unit.ID, b.TeeIn.ID, b.TeeOut.ID, other.Unit.ID), drawIt
		}
	}
	in, out := net.Coming(b.TeeIn), net.Leaving(b.TeeOut)
	if len(in) != 1 || len(out) != 1 {
		return leaving{}, graph.Say("the line at %q and %q does not lead straight on", b.TeeIn.ID, b.TeeOut.ID), drawIt
	}
	k := leaving{b, unit, in[0], out[0]}
	if k.in.Spec.Family() != k.out.Spec.Family() || k.in.Size != k.out.Size {
		return leaving{}, graph.Say("the line comes to %q as %s %s and leaves %q as %s %s", b.TeeIn.ID, k.in.Spec, k.in.Size, b.TeeOut.ID, k.out.Spec, k.out.Size), drawIt
	}
	return k, "", ""
}

// onHose reports whether the line is hose: no coupling joins two ends of that, and it is not joined
// where it can be whole. Common practice, no source.
func (k leaving) onHose() bool { return k.in.Spec.IsHose() }

// newHose leads one hose from where the hose to the first tee begins to where that from the second
// ends, on the barbs that are there.
func (k leaving) newHose(d *draft.Draft, lay *route.Layout) *graph.Run {
	from, legs := wayTo(lay.Path(k.in.ID), k.TeeIn.ID)
	to, rest := wayTo(lay.Path(k.out.ID), k.TeeOut.ID)
	on := func(by graph.Vec, around graph.Surroundings) {
		if last := len(legs) - 1; legs[last].By.AngleTo(by) < 0.01 {
			legs[last].By = legs[last].By.Add(by)
			return
		}
		legs = append(legs, graph.Leg{By: by, Surroundings: around})
	}
	on(lay.Positions[k.TeeOut.ID+"."+graph.RunIn].Sub(lay.Positions[k.TeeIn.ID+"."+graph.RunOut]), graph.NothingSaid())
	for _, g := range graph.Reversed(rest) {
		on(g.By, g.Surroundings)
	}
	d.AddRun(from, to, k.in.Spec, k.in.Size, legs)
	r := d.Runs[len(d.Runs)-1]
	for _, end := range []graph.PortRef{from, to} {
		if p := d.Part(end.Part); p != nil && p.Existing {
			r.AdaptorsKept = append(r.AdaptorsKept, graph.PortRef{Part: end.Part, Port: end.Port, Pos: d.Pos})
		}
	}
	return r
}

// wayTo is the legs of a run on the way to the tee at one of its ends, and the port at the other.
func wayTo(path *route.Path, tee string) (far graph.PortRef, legs []graph.Leg) {
	for i := 1; i < len(path.Points); i++ {
		legs = append(legs, graph.Leg{By: path.Points[i].Sub(path.Points[i-1]), Surroundings: path.Run.Around(i)})
	}
	if path.Run.To.Part == tee {
		return path.Run.From, legs
	}
	return path.Run.To, graph.Reversed(legs)
}

// ids names every part and run that goes, the two runs of the line that are put back shorter too.
func (k leaving) ids() []string {
	gone := []string{k.unit.ID, k.TeeIn.ID, k.TeeOut.ID, k.in.ID, k.out.ID}
	for _, list := range [][]*graph.Part{k.BypassParts, k.ToUnitParts, k.FromUnitParts, k.StubParts} {
		for _, p := range list {
			gone = append(gone, p.ID)
		}
	}
	for _, list := range [][]*graph.Run{k.BypassRuns, k.ToUnitRuns, k.FromUnitRuns, k.StubRuns} {
		for _, r := range list {
			gone = append(gone, r.ID)
		}
	}
	return gone
}

// gap is what is left open in the line: its two ends, and the straight piece that closes it, mm.
type gap struct {
	first, second shortenedRun
	by            graph.Vec
}

// gap finds it, or says why one straight piece can't close it, and what would do.
func (k leaving) gap(lay *route.Layout) (gap, quantity.Text, quantity.Text) {
	first, okA := shortened(lay.Path(k.in.ID), k.TeeIn.ID)
	second, okB := shortened(lay.Path(k.out.ID), k.TeeOut.ID)
	a, okC := lay.Positions[k.TeeIn.ID+"."+graph.RunOut]
	z, okD := lay.Positions[k.TeeOut.ID+"."+graph.RunIn]
	if !okA || !okB || !okC || !okD {
		return gap{}, graph.Say("the runs %q and %q and what lies between the tees have to be measured leg by leg to close the line", k.in.ID, k.out.ID), "write their legs, in place of a length"
	}
	across := z.Sub(a)
	if across.AngleTo(first.way) > 1 || across.AngleTo(second.way.Scale(-1)) > 1 {
		return gap{}, graph.Say("the tees %q and %q do not stand in one straight line", k.TeeIn.ID, k.TeeOut.ID), drawIt
	}
	return gap{first, second, across.Unit().Scale(across.Len() + first.cutBack + second.cutBack)}, "", ""
}

// close joins the ends of the line with one new piece between two slip couplings.
func (k leaving) close(d *draft.Draft, g gap) {
	slipA, slipB := d.Names.Fresh("slip-a"), d.Names.Fresh("slip-b")
	d.AddPart(slipA, graph.SlipCoupling, draft.Rigid(k.in.Spec), k.in.Size)
	d.AddPart(slipB, graph.SlipCoupling, draft.Rigid(k.out.Spec), k.out.Size)
	joinRemains(d, k.in, k.TeeIn.ID, g.first.legs, draft.At(slipA, graph.In))
	d.AddRun(draft.At(slipA, graph.Out), draft.At(slipB, graph.In), draft.Rigid(k.in.Spec), k.in.Size, []graph.Leg{draft.Leg(g.by)})
	joinRemains(d, k.out, k.TeeOut.ID, g.second.legs, draft.At(slipB, graph.Out))
}

// countParts counts the parts among some ids.
func countParts(c *graph.Circuit, ids []string) int {
	n := 0
	for _, id := range ids {
		if c.Part(id) != nil {
			n++
		}
	}
	return n
}

// shortenedRun is a run cut off at the face of the tee at one of its ends.
type shortenedRun struct {
	legs    []graph.Leg
	cutBack float64   // by how much it is shorter, mm
	way     graph.Vec // along the shortened leg towards the tee
}

// shortened cuts a run off at the face of the tee.
func shortened(path *route.Path, tee string) (shortenedRun, bool) {
	if path == nil || len(path.Points) < 2 {
		return shortenedRun{}, false
	}
	last := len(path.Points) - 1
	atEnd := path.Run.To.Part == tee
	k, stop := 1, path.Stops[0]
	if atEnd {
		k, stop = last, path.Stops[last]
	}
	s := shortenedRun{cutBack: stop.TakeOffMM + stop.DepthMM}
	for i := 1; i <= last; i++ {
		by := path.Points[i].Sub(path.Points[i-1])
		if i == k {
			s.way = by.Unit()
			if !atEnd {
				s.way = s.way.Scale(-1)
			}
			if by.Len() <= s.cutBack {
				return shortenedRun{}, false
			}
			by = by.Unit().Scale(by.Len() - s.cutBack)
		}
		s.legs = append(s.legs, graph.Leg{By: by, Surroundings: path.Run.Around(i)})
	}
	return s, true
}

// joinRemains puts what is left of an old run back, joined to a new part where the tee was.
func joinRemains(d *draft.Draft, old *graph.Run, tee string, legs []graph.Leg, to graph.PortRef) {
	if old.To.Part == tee {
		d.Remains(old, old.From, to, legs)
		return
	}
	d.Remains(old, to, old.To, legs)
}
