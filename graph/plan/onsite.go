package plan

import (
	"fmt"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/stream"
)

// cutOnSite marks the pieces that can't be cut before the unit stands, where the description
// does not say how far its outlet stands from its inlet, or nobody said where it stands at
// all; a note names them. Of pipes whose legs are assumed those are all but the pieces at the
// tees; of legs that are written the one that ends at the inlet, and of the pipe from the
// outlet the first along each axis.
func (p *Plan) cutOnSite() {
	if p.After == nil {
		return
	}
	branch, _ := p.After.Layout.Stage.Branch()
	if branch == nil || branch.Unit.Existing || branch.TeeIn == nil {
		return
	}
	asked := p.Asked.Retrofit
	out := branch.Unit.Port(graph.Out)
	apart := out != nil && out.At != nil
	assumed := p.Proposal != nil && asked != nil && asked.Stand == nil && (len(asked.ToUnit) == 0 || len(asked.FromUnit) == 0) &&
		!(apart && len(asked.ToUnit)+len(asked.FromUnit) > 0) // one that is written leads to the unit
	if !assumed && (out == nil || apart) {
		return
	}
	at := map[*graph.Run][]*route.Piece{}
	for i := range p.After.Layout.Pieces {
		piece := &p.After.Layout.Pieces[i]
		at[piece.Run] = append(at[piece.Run], piece)
	}
	var pieces []*route.Piece
	to, from := ownRuns(p.After.Circuit, branch)
	if assumed {
		for _, r := range afterFirst(to) {
			pieces = append(pieces, at[r]...)
		}
		for _, r := range from[:max(0, len(from)-1)] {
			pieces = append(pieces, at[r]...)
		}
	} else {
		pieces = append(lastOf(to, at), firstAlongAxes(from, at)...)
	}
	for _, piece := range pieces {
		piece.OnSite = true
		p.OnSite = append(p.OnSite, piece.Number)
	}
	slices.Sort(p.OnSite)
	if len(p.OnSite) == 0 {
		return
	}
	p.After.Wait()
	hint, where := "write how far its outlet is from its inlet: port.out.at on the part", "where it stands: at, at-from and ports-face in [retrofit]"
	switch {
	case assumed && apart: // the first is written
		hint = "write " + where
	case assumed:
		hint += "; and " + where
	}
	p.Findings = append(p.Findings, graph.Diagnostic{Pos: branch.Unit.Pos, Rule: "cut-on-site", Severity: graph.Note,
		Message: graph.Say("%s", p.OnSiteText()), Hint: graph.Say("%s", hint)})
}

// OnSiteText says which pieces can't be cut before the unit stands; "" where all can.
func (p *Plan) OnSiteText() string {
	if len(p.OnSite) == 0 {
		return ""
	}
	numbers := make([]string, len(p.OnSite))
	for i, n := range p.OnSite {
		numbers[i] = fmt.Sprint(n)
	}
	what := "piece " + numbers[0] + " is"
	if len(numbers) > 1 {
		what = "pieces " + quantity.Listed(numbers, "and") + " are"
	}
	return "the last pipes can't be cut before the unit stands: " + what + " cut on site"
}

// ownRuns are the runs of a branch that carry this unit's water alone: of two units on one branch
// those between the unit and the tees it shares with the other.
func ownRuns(c *graph.Circuit, b *stream.UnitBranch) (to, from []*graph.Run) {
	shared := func(end graph.PortRef, way []*graph.Run) bool {
		return slices.ContainsFunc(c.Runs, func(r *graph.Run) bool {
			return (r.From.Part == end.Part || r.To.Part == end.Part) && !r.Removed && !slices.Contains(way, r) && !slices.Contains(b.StubRuns, r)
		})
	}
	to, from = b.ToUnitRuns, b.FromUnitRuns
	for i, r := range slices.Backward(to) {
		if shared(r.From, to) {
			to = to[i:]
			break
		}
	}
	for i, r := range from {
		if shared(r.To, from) {
			from = from[:i+1]
			break
		}
	}
	return to, from
}

func afterFirst(runs []*graph.Run) []*graph.Run { return runs[min(1, len(runs)):] }

// lastOf is the last piece of some runs in the way of the water.
func lastOf(runs []*graph.Run, at map[*graph.Run][]*route.Piece) []*route.Piece {
	for i := len(runs) - 1; i >= 0; i-- {
		if n := len(at[runs[i]]); n > 0 {
			return at[runs[i]][n-1:]
		}
	}
	return nil
}

// firstAlongAxes is the first piece along each axis of some runs in the way of the water.
func firstAlongAxes(runs []*graph.Run, at map[*graph.Run][]*route.Piece) []*route.Piece {
	var out []*route.Piece
	seen := map[graph.Vec]bool{}
	for _, r := range runs {
		for _, piece := range at[r] {
			way := piece.Finish.Sub(piece.Start).Unit()
			axis := graph.Vec{X: round(way.X * way.X), Y: round(way.Y * way.Y), Z: round(way.Z * way.Z)}
			if !seen[axis] {
				seen[axis] = true
				out = append(out, piece)
			}
		}
	}
	return out
}

func round(v float64) float64 { return float64(int(v*100 + 0.5)) }
