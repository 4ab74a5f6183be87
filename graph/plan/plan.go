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
	"dryfit/graph/retrofit"
	"dryfit/graph/route"
	"dryfit/graph/route/solid"
	"dryfit/graph/rule"
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
)

// Tell is told what is being done, and which step of how many, from 0; of is 0 where nobody
// knows. It decides nothing.
type Tell func(what string, done, of int)

// step tells where there is somebody to tell.
func (t Tell) step(what string, done, of int) {
	if t != nil {
		t(what, done, of)
	}
}

// Plan is one job, worked out.
type Plan struct {
	Circuit       *graph.Circuit     // complete: with the chosen proposal built in, where the description asked for one
	Asked         *graph.Circuit     // as described
	Before, After *Stage             // nil where the description has no such stage
	Proposal      *retrofit.Proposal // the one built in; nil where nothing was asked
	Places        []Verdict
	OnSite        []int              // numbers of the pieces that can't be cut before the unit stands
	mends         []quantity.Text    // what would make a place possible that is ruled out and asked for
	searched      *Stage             // what stands today, as the search for a place laid it out; nil where none was searched
	fitted        *Stage             // with the proposal built in, as the search laid it out and solved it; nil where none was searched
	Findings      []graph.Diagnostic // sorted
	Bill          *takeoff.Bill
	Cuts          *takeoff.CutList
	Assembly      *route.Assembly
	Tolerances    *route.Tolerances // of the loops the new work closes
	Ranges        *spread.Ranges
	Advice        *hydraulic.Advice
	Heat          *job.Report

	tell    Tell         // while it is being made
	account *job.Account // of the description's own heat, once somebody asked
}

// Stage is the circuit before or after the work, laid out and solved.
type Stage struct {
	Circuit   *graph.Circuit
	Layout    *route.Layout
	Bodies    *solid.Bodies        // of the layout
	Clashes   []graph.Diagnostic   // bodies that run through each other
	Blocked   []graph.Diagnostic   // joints on whose way something stands when their turn comes
	Solutions []hydraulic.Solution // one for each mode; nil where not wanted
	NoAnswer  []NoAnswer           // modes without one

	solved   bool
	found    []graph.Diagnostic // while solving
	dirtyFor string             // the unit that Dirty is about; "": not solved

	// Bad days, of the after stage: the unit shut off; filter dirty and jets turned down; one
	// suction alone, the others of its pump blocked.
	Isolated, Dirty []hydraulic.Solution
	Alone           []rule.Alone
}

// Net returns which way the water goes after the work, or as the circuit stands.
func (p *Plan) Net() *stream.Net {
	stage := p.After
	if stage == nil || stage.Layout == nil {
		return stream.NewNet(p.Circuit)
	}
	return stage.Layout.Stage.Net()
}

// NoAnswer is a mode whose flows could not be worked out.
type NoAnswer struct {
	Mode string
	Why  quantity.Text
}

// Verdict is what was found of one place for the cut.
type Verdict struct {
	Rank    int
	Place   retrofit.Place
	Verdict string // "best", "possible", "possible if", "ruled out", "measure first", "not looked at"
	Reasons []Reason
	Mend    []quantity.Text // what would make a ruled-out place possible
	Summary quantity.Text   // flows there, in words
}

// Reason is one reason for a verdict.
type Reason struct {
	Rule     string
	Text     quantity.Text
	Pos      graph.Pos
	Severity graph.Severity
}
