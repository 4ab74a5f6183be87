// Package plan carries one job through the house: it lays out, solves, judges and lists the
// circuit before and after the work, ranks the places for the cut, and returns one value,
// the Plan, of which every verb prints a part.
package plan

import (
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/heat/job"
	"dryfit/graph/hydraulic"
	"dryfit/graph/hydraulic/spread"
	"dryfit/graph/plan/advice"
	"dryfit/graph/plan/search"
	"dryfit/graph/plan/stage"
	"dryfit/graph/retrofit"
	"dryfit/graph/route"
	"dryfit/graph/stream"
	"dryfit/graph/takeoff"
)

// Want says what a verb prints, so that nothing else is computed.
type Want uint

// What can be wanted, to be or-ed together.
const (
	Findings Want = 1 << iota
	Flows
	Ranges
	Lists  // bill, cut list and stock plan
	Places // every place for the cut, ranked
	Advice // the choice of bypass element
	Heat   // loss, the year, sizes and supply
	Swift  // no changes are tried that would make a place possible which is ruled out
)

// Plan is one job, worked out.
type Plan struct {
	Circuit       *graph.Circuit       // complete: with the chosen proposal built in, where the description asked for one
	Asked         *graph.Circuit       // as the file has it, with the fit to what was read on it
	Before, After *stage.Stage         // nil where the description has no such stage
	Described     []hydraulic.Solution // after the work by the description alone, where what was read contradicts it; else nil
	Proposal      *retrofit.Proposal   // the one built in; nil where nothing was asked
	Places        []search.Verdict
	OnSite        []int                    // numbers of the pieces that can't be cut before the unit stands
	stopped       []*graph.Part            // pumps whose lines an old check the wrong way round shuts
	against       []graph.Diagnostic       // what the search found against the place it was asked for, flows too where no verb asks for them
	next          quantity.Text            // what to measure or decide where nothing does; ""
	nextHint      quantity.Text            // the hint of a finding that next ends in; ""
	mends         []quantity.Text          // what would make a place possible that is ruled out and asked for
	spare         map[string]quantity.Text // by the rule that says what loses too much of its water: what would leave it that
	measure       *retrofit.Place          // the nearest place, where only a measure of its run tells; else nil
	straight      quantity.Text            // what would give the check in the bypass its straight pipe, where it lacks some; ""
	searched      *stage.Stage             // what stands today, as the search for a place laid it out; nil where none was searched
	fitted        *stage.Stage             // with the proposal built in, as the search laid it out and solved it; nil where none was searched
	Findings      []graph.Diagnostic       // sorted
	Following     []graph.Diagnostic       // what only follows from one of them, and is told by nobody
	Bill          *takeoff.Bill
	Cuts          *takeoff.CutList
	Assembly      *route.Assembly
	Tolerances    *route.Tolerances // of the loops the new work closes
	Supposed      *Supposed         // what comes of it where only a measure can tell whether the work fits; else nil
	Ranges        *spread.Ranges
	Advice        *advice.Comparison
	Heat          *job.Report

	tell    graph.Tell   // while it is being made
	heatOf  *job.Input   // what its heat hangs on, once somebody asked
	account *job.Account // of the description's own heat, once somebody asked
}

// LayoutBefore is the layout of what is there; nil where nothing is.
func (p *Plan) LayoutBefore() *route.Layout {
	if p.Before == nil {
		return nil
	}
	return p.Before.Layout
}

// AsItStands reports whether the water passes after the work what it passed before: there is no work, or it
// found no place.
func (p *Plan) AsItStands() bool {
	return p.Before == p.After || p.Before != nil && graph.SameWater(p.Before.Circuit, p.After.Circuit)
}

// Net returns which way the water goes after the work, or as the circuit stands.
func (p *Plan) Net() *stream.Net {
	stage := p.After
	if stage == nil || stage.Layout == nil {
		return stream.NewNet(p.Circuit)
	}
	return stage.Layout.Stage.Net()
}
