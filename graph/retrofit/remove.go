package retrofit

import (
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/retrofit/draft"
	"dryfit/graph/route"
)

// Remove returns the circuit with the unit named in the request taken out again: its pipes,
// the bypass and both tees go, and the line is closed with one new piece between two slip
// couplings, which need no play. lay is the stage before the work. The proposal is nil where
// the line can't be closed so, and the findings say why.
func Remove(c *graph.Circuit, lay *route.Layout) (*Proposal, []graph.Diagnostic) {
	refuse := func(format string, args ...any) (*Proposal, []graph.Diagnostic) {
		return nil, []graph.Diagnostic{{Pos: requestPos(c), Rule: "retrofit", Severity: graph.Error, Message: graph.Say(format, args...)}}
	}
	unit := lay.Circuit.Part(c.Retrofit.Unit)
	if unit == nil || unit.Kind != graph.HeatPump {
		return refuse("there is no existing heat pump %q to take out", c.Retrofit.Unit)
	}
	net := lay.Stage.Net()
	b, problem := net.UnitBranch(unit)
	if b == nil || b.TeeIn == nil {
		return refuse("%s: there are no two tees to take out with it", problem)
	}
	if b.TeeIn.Kind != graph.Tee || b.TeeOut.Kind != graph.Tee {
		return refuse("%q hangs on %s %q and %s %q; only a unit between two tees can be taken out by rule", unit.ID, b.TeeIn.Kind, b.TeeIn.ID, b.TeeOut.Kind, b.TeeOut.ID)
	}
	for _, other := range lay.Circuit.Units() {
		if ob, _ := net.UnitBranch(other); other != unit && ob != nil && ob.TeeIn == b.TeeIn {
			return refuse("%q shares the tees %q and %q with %q, which would be left without water", unit.ID, b.TeeIn.ID, b.TeeOut.ID, other.ID)
		}
	}
	in, out := net.Coming(b.TeeIn), net.Leaving(b.TeeOut)
	if len(in) != 1 || len(out) != 1 {
		return refuse("the line at %q and %q does not lead straight on", b.TeeIn.ID, b.TeeOut.ID)
	}

	d := draft.Of(c)
	gone := []string{unit.ID, b.TeeIn.ID, b.TeeOut.ID, in[0].ID, out[0].ID}
	for _, list := range [][]*graph.Part{b.BypassParts, b.ToUnitParts, b.FromUnitParts, b.StubParts} {
		for _, p := range list {
			gone = append(gone, p.ID)
		}
	}
	for _, list := range [][]*graph.Run{b.BypassRuns, b.ToUnitRuns, b.FromUnitRuns, b.StubRuns} {
		for _, r := range list {
			gone = append(gone, r.ID)
		}
	}
	for _, id := range gone {
		d.Remove(id)
	}

	up, down := pathOf(lay, in[0].ID), pathOf(lay, out[0].ID)
	first, okA := shortened(up, b.TeeIn.ID)
	second, okB := shortened(down, b.TeeOut.ID)
	a, okC := lay.Places[b.TeeIn.ID+"."+graph.RunOut]
	z, okD := lay.Places[b.TeeOut.ID+"."+graph.RunIn]
	if !okA || !okB || !okC || !okD {
		return refuse("the runs %q and %q and what lies between the tees have to be measured leg by leg to close the line", in[0].ID, out[0].ID)
	}
	across := z.Sub(a)
	if across.AngleTo(first.way) > 1 || across.AngleTo(second.way.Scale(-1)) > 1 {
		return refuse("the tees %q and %q do not stand in one straight line: draw how the line is to be closed", b.TeeIn.ID, b.TeeOut.ID)
	}
	slipA, slipB := d.Names.Fresh("slip-a"), d.Names.Fresh("slip-b")
	d.AddPart(slipA, graph.SlipCoupling, rigid(in[0].Spec), in[0].Size)
	d.AddPart(slipB, graph.SlipCoupling, rigid(out[0].Spec), out[0].Size)
	joinRemains(d, in[0], b.TeeIn.ID, first.legs, draft.At(slipA, graph.In))
	d.AddRun(draft.At(slipA, graph.Out), draft.At(slipB, graph.In), rigid(in[0].Spec), in[0].Size,
		[]graph.Leg{draft.Leg(across.Unit().Scale(across.Len() + first.cutBack + second.cutBack))})
	joinRemains(d, out[0], b.TeeOut.ID, second.legs, draft.At(slipB, graph.Out))
	note := graph.Diagnostic{Pos: d.Pos, Rule: "retrofit", Severity: graph.Note,
		Message: graph.Say("%q comes out with its pipes, its bypass and the tees %q and %q, %d parts in all; the old pipe is cut at their outer faces and closed with %s between two slip couplings",
			unit.ID, b.TeeIn.ID, b.TeeOut.ID, countParts(c, gone), quantity.Length.Of(across.Len()+first.cutBack+second.cutBack)),
		Hint: "shut the pump off and drain the line first; keep the unit's unions"}
	findings := []graph.Diagnostic{note}
	for _, ref := range c.Retrofit.AdaptorsKept {
		findings = append(findings, graph.Diagnostic{Pos: ref.Pos, Rule: "retrofit", Severity: graph.Note,
			Message: graph.Say("%s is left as it is: the line is closed on its old pipe, and no adaptor comes off", ref), Hint: "leave adaptors-kept out"})
	}
	return &Proposal{Circuit: d.Circuit, NewIDs: d.IDs}, findings
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
		s.legs = append(s.legs, graph.Leg{By: by, Surroundings: around(path.Run, i)})
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
