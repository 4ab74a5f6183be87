package rule

import (
	"fmt"
	"math"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// cutRules say whether a person can cut the pipe at the place and put the work in. They
// judge Input.Cut alone.
func cutRules() []*Rule {
	return []*Rule{
		{
			Name:     "cut-room",
			Asks:     "The straight pipe at the cut is as long as what goes in, with the sockets and the straight length it needs.",
			Why:      "What is too long by a hair's breadth does not go in.",
			Source:   "sum of the parts' lengths in the catalogue",
			Severity: graph.Error,
			Check:    cutRoom,
		},
		{
			Name:     "cut-measured",
			Asks:     "The run that is cut was measured leg by leg.",
			Why:      "A length with bends in it does not say how long the straight between them is.",
			Source:   "follows from the description",
			Severity: graph.Warning,
			Check:    cutMeasured,
		},
		{
			Name:     "cut-one-leg",
			Asks:     "The straight that is cut is written as one leg.",
			Why:      "Of two legs that go the same way each is looked at by itself, and the room of the whole straight is not seen.",
			Source:   "follows from the description",
			Severity: graph.Note,
			Check:    cutOneLeg,
		},
		{
			Name:     "cut-reachable",
			Asks:     "The cut can be reached.",
			Why:      "Nobody can cut, clean and cement what he can't get at.",
			Source:   "common practice, no source",
			Severity: graph.Error,
			Check:    cutReachable,
		},
		{
			Name:     "cut-clear-room",
			Asks:     "There is 100 mm of free room around the pipe at the cut.",
			Why:      "A hand has to get round the pipe, with a saw, and a wet joint wants a quarter turn.",
			Source:   "common practice, no source",
			Severity: graph.Error,
			Check:    cutClearRoom,
		},
	}
}

// clearMM is the free room around pipe that a hand and a saw need, mm. Common practice, no
// source.
const clearMM = 100

// pos returns where the description speaks of the cut.
func (c *Cut) pos() graph.Pos {
	if c.Pos.IsValid() {
		return c.Pos
	}
	if leg := c.leg(); leg != nil {
		return or(leg.Pos, c.Run.Pos)
	}
	return c.Run.Pos
}

func (c *Cut) leg() *graph.Leg {
	if c.Leg < 1 || c.Leg > len(c.Run.Legs) {
		return nil
	}
	return &c.Run.Legs[c.Leg-1]
}

// where says it in words.
func (c *Cut) where() string {
	if c.Leg > 0 && len(c.Run.Legs) > 1 {
		return fmt.Sprintf("leg %d of run %q", c.Leg, c.Run.Said())
	}
	return fmt.Sprintf("run %q", c.Run.Said())
}

// bare is what there is to cut on a leg of a run: pipe between its sockets, or hose; where another leg goes
// on as it does no socket stands there, and it is its own pipe alone.
func bare(r *graph.Run, leg int) string {
	switch {
	case r.Spec.IsHose():
		return r.Spec.Word()
	case r.GoesOn(leg-1) || r.GoesOn(leg):
		return "pipe in that leg alone"
	}
	return "pipe between its sockets"
}

func cutRoom(in *Input, report Report) {
	c := in.Cut
	if c == nil || c.Leg == 0 {
		return
	}
	if c.RoomMM >= c.NeededMM {
		cutBeyond(in, report)
		return
	}
	v := in.ask()
	d := graph.Diagnostic{
		Pos: c.pos(), Severity: graph.Error, Related: []graph.Related{hereRun(c.Run)},
		Message: graph.Say("%s has %s of straight %s; the work needs %s", c.where(), v.length(c.RoomMM), bare(c.Run, c.Leg), v.length(c.NeededMM)),
		Hint:    "cut where there is more room: dryfit cutin ranks the places, and says what would make this one possible where something was tried and does",
	}
	if len(c.Terms) > 0 {
		d.Message += ": " + quantity.Join(c.Terms, ", ")
	}
	report(false, d)
}

// offMM is how far a cut may lie off where the work just stands on straight pipe: less is nothing to mark, mm.
const offMM = 0.5

// cutBeyond finds a cut that is asked for at a place of the leg from which the work reaches into what stands
// at one of its ends, though the leg has room for it.
func cutBeyond(in *Input, report Report) {
	c := in.Cut
	if c.NeededMM == 0 || c.FromMM >= c.LeastMM-offMM && c.FromMM <= c.MostMM+offMM {
		return
	}
	end, way, over := "end", "nearer to the start of the leg", c.FromMM-c.MostMM
	if c.FromMM < c.LeastMM {
		end, way, over = "start", "farther from the start of the leg", c.LeastMM-c.FromMM
	}
	v := in.ask()
	report(false, graph.Diagnostic{
		Pos: c.pos(), Severity: graph.Error, Related: []graph.Related{hereRun(c.Run)},
		Message: graph.Say("cut at %s the work reaches %s into what stands at the %s of %s: it needs %s of straight pipe, and does not lie on the %s there are", quantity.Closely(c.FromMM), v.length(over), end, c.where(), v.length(c.NeededMM), v.length(c.RoomMM)),
		Hint:    graph.Say("cut it %s: at from %s to %s; or leave at out, and it is cut where it lies best", way, quantity.Closely(math.Ceil(c.LeastMM)), quantity.Closely(math.Floor(c.MostMM))),
	})
}

func cutMeasured(in *Input, report Report) {
	c := in.Cut
	if c == nil {
		remainsMeasured(in, report)
		return
	}
	if c.Leg > 0 {
		return
	}
	report(false, graph.Diagnostic{
		Pos: c.pos(), Severity: graph.Warning, Related: []graph.Related{hereRun(c.Run)},
		Message: graph.Say("run %q is known only by its length: 0 legs measured, needs all", c.Run.Said()),
		Hint:    "measure its legs and write legs = [\"…\"] in place of length",
	})
}

// cutOneLeg finds the legs beside the one that is cut which go on as it does, with nothing round them
// that differs.
func cutOneLeg(in *Input, report Report) {
	c := in.Cut
	if c == nil || c.leg() == nil {
		return
	}
	first, last := c.Run.Straight(c.Leg)
	if first == last {
		return
	}
	report(false, graph.Diagnostic{
		Pos: c.pos(), Severity: graph.Note, Related: []graph.Related{{Pos: or(c.Run.Legs[first-1].Pos, c.Run.Pos), Message: "the straight begins here"}},
		Message: graph.Say("%s of run %q go the same way: no bend stands between them, and only leg %d was looked at for this cut", graph.LegsWords(first, last), c.Run.Said(), c.Leg),
		Hint:    graph.Say("write them as one leg: \"%s\"", c.Run.OneLeg(first, last).Words()),
	})
}

// remainsMeasured looks at the cuts of a description that holds them already: what is left of the
// old pipe.
func remainsMeasured(in *Input, report Report) {
	if in.After == nil {
		return
	}
	for _, r := range in.After.Runs {
		if r.RemainsOf == "" || len(r.Legs) > 0 {
			continue
		}
		from, to := in.After.Part(r.From.Part), in.After.Part(r.To.Part)
		if from == nil || to == nil || !from.New() && !to.New() {
			continue
		}
		report(false, graph.Diagnostic{
			Pos: r.Pos, Severity: graph.Warning,
			Message: graph.Say("what is left of run %q is known only by its length, so nobody can say where the saw goes: 0 legs measured, needs all", r.RemainsOf),
			Hint:    "measure its legs and write legs = [\"…\"] in place of length, up to the new part; else mark the cut from the new string held beside it",
		})
	}
}

func cutReachable(in *Input, report Report) {
	c := in.Cut
	if c == nil {
		return
	}
	if r := c.Run.Around(c.Leg).Reachable; r == nil || *r {
		return
	}
	v := in.ask()
	report(false, graph.Diagnostic{
		Pos: c.pos(), Severity: graph.Error, Related: []graph.Related{hereRun(c.Run)},
		Message: graph.Say("%s of %s can be reached, by the description; the cut needs %s", v.length(0), c.where(), v.length(c.NeededMM)),
		Hint:    "take off a panel or the foam and say so, or choose another place",
	})
}

func cutClearRoom(in *Input, report Report) {
	c := in.Cut
	if c == nil {
		return
	}
	free := c.Run.Around(c.Leg).ClearMM
	if free < 0 || free >= clearMM {
		return
	}
	v := in.ask()
	report(false, graph.Diagnostic{
		Pos: c.pos(), Severity: graph.Error, Related: []graph.Related{hereRun(c.Run)},
		Message: graph.Say("%s has %s of free room around it; a hand and a saw need %s", c.where(), v.length(free), v.length(clearMM)),
		Hint:    "move what is in the way, or choose another place",
	})
}
