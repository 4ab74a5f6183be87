package retrofit

import (
	"dryfit/graph"
	"dryfit/graph/retrofit/draft"
	"dryfit/graph/stream"
)

// guarded returns the work with a check of its own in the line behind the second tee, where
// a feeder or a salt cell lies down the water and neither an old check on the way to it nor
// anything in the bypass stops its chemical from coming back that way. It replaces the check in the unit's outlet: it keeps both ways.
// An ozone injector gets none: what creeps back of it is gas in water, and a check in the
// line costs every mode its loss.
func (w work) guarded(c *graph.Circuit, net *stream.Net, cut *graph.Run) work {
	w.guard = guardAsked(c) && net.DownstreamOfRunUntil(cut, heldBack(c, net)).First(graph.Feeder, graph.SaltCell) != nil
	w.against = net.Against(cut)
	return w
}

// guardAsked reports whether nobody said that no feeder is to be guarded.
func guardAsked(c *graph.Circuit) bool {
	return c.Retrofit == nil || c.Retrofit.FeederCheck == nil || *c.Retrofit.FeederCheck
}

// heldBack tells the old checks that keep a feeder's chemical from coming up to the work, which then
// needs none of its own; none of them where the request asks for one all the same.
func heldBack(c *graph.Circuit, net *stream.Net) func(*graph.Part) bool {
	if c.Retrofit != nil && c.Retrofit.FeederCheck != nil && *c.Retrofit.FeederCheck {
		return nil
	}
	return net.HoldsBack
}

// feeding returns the runs a cut in which is guarded, all at once: those the water passes on its
// way to a feeder.
func feeding(c *graph.Circuit, net *stream.Net) map[string]bool {
	out := map[string]bool{}
	if !guardAsked(c) {
		return out
	}
	for _, p := range c.Parts {
		if p.Kind != graph.Feeder && p.Kind != graph.SaltCell {
			continue
		}
		for _, r := range net.UpstreamUntil(p, heldBack(c, net)).Runs {
			out[r.ID] = true
		}
	}
	return out
}

// guardCheck is the check behind the second tee: a spring check, for it has unions and can be
// opened; ok is false where the work has none, or the bypass has a check itself.
func (w work) guardCheck(choice Choice) (b body, ok bool) {
	if !w.guard || choice.Bypass == "spring" {
		return body{}, false
	}
	return w.inline("spring-check", w.lineSpec, w.lineSize, true), true
}

// lineCheck is that check as it will be built in.
func (w work) lineCheck() *graph.Part {
	return &graph.Part{ID: "line-check", Kind: graph.CheckValve, Type: w.weakestSpring(), Spec: w.lineSpec, Size: w.lineSize,
		Check: &graph.CheckData{Style: "spring"}, Ports: []graph.Port{{Name: graph.In}, {Name: graph.Out}}, Surroundings: graph.NothingSaid()}
}

// weakestSpring is the spring of a check that only has to shut; "" where the catalogue has none.
func (w work) weakestSpring() string {
	if springs := w.cat.Springs(); len(springs) > 0 {
		return springs[0].Name
	}
	return ""
}

// putGuard stands the check behind the second tee and returns the port the old pipe goes on
// from.
func putGuard(d *draft.Draft, w work, a assembly, from graph.PortRef, water graph.Vec) graph.PortRef {
	d.PointTo("feeder-check", "cut")
	defer d.PointTo("cut")
	p := d.AddPart(d.Names.Fresh("line-check"), graph.CheckValve, w.lineSpec, w.lineSize)
	p.Check, p.Type = &graph.CheckData{Style: "spring"}, w.weakestSpring()
	d.AddRun(from, draft.At(p.ID, graph.In), w.lineSpec, w.lineSize, []graph.Leg{draft.Leg(water.Scale(a.half + a.guardPiece))})
	return draft.At(p.ID, graph.Out)
}
