package rule

import (
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/heat/job"
	"dryfit/graph/hydraulic"
	"dryfit/graph/route"
	"dryfit/graph/route/solid"
	"dryfit/graph/settle"
)

// Rule is one thing a good job keeps, as a value: listing, explaining, documenting and
// testing all read it, so they can't drift apart.
type Rule struct {
	Name     string         // in plain words, hyphenated: "unit-after-filter"
	Asks     string         // what it asks, one sentence
	Why      string         // why it holds, one or two sentences
	Source   string         // standard and clause, or "common practice, no source", or "from memory: …"
	Severity graph.Severity // the heaviest it gives
	Needs    Needs          // what it reads
	Compares bool           // it tells by itself what of old work was so before the new; so does every rule of flows
	Anywhere bool           // it says the same wherever the unit is let in: no reason for or against a place
	Check    func(in *Input, report Report)
}

// Report takes one finding of a rule, and whether it is about work that was there before:
// of that the rule as a whole gives at most one note.
type Report func(existing bool, d graph.Diagnostic)

// Needs says which parts of Input a rule reads.
type Needs int

// What a rule may need.
const (
	NeedsCircuit Needs = iota // the circuit alone
	NeedsLayout               // positions and pieces too
	NeedsFlow                 // solutions too
)

// Input is all that rules read.
type Input struct {
	Circuit         *graph.Circuit       // as described: both stages
	Before, After   *graph.Circuit       // nil where the stage is not there
	Layout          *route.Layout        // of After (or of Before, where nothing is new)
	Bodies          *solid.Bodies        // of the layout; nil: made here where they are asked for
	Settled         *settle.Stage        // of After; nil: the layout's, or settled here
	Solutions       []hydraulic.Solution // of After
	BeforeLayout    *route.Layout        // of Before; nil: what old work is like is taken to have been so
	BeforeSolutions []hydraulic.Solution
	DirtySolutions  []hydraulic.Solution // of After with the filter dirty and the jets turned down
	BeforeDirty     []hydraulic.Solution // the same of Before
	Isolated        []UnitOff            // of After with one unit shut off and what is in its bypass by hand open
	BeforeIsolated  []UnitOff            // the same of Before
	Alone           []Alone              // suctions of After, one at a time with the others of their pump blocked
	Design          *job.DesignDay       // coldest day and supply; nil: not worked out
	Cut             *Cut                 // the place of the cut that is judged; nil where there is none

	view *view // worked out once by Apply
	past *past // the same of the circuit before the work; nil where there is none
}

// UnitOff is a mode solved with one unit shut off and what is in its bypass by hand open.
type UnitOff struct {
	Unit string
	hydraulic.Solution
}

// Alone is the greatest flow through one suction while the others of its pump are blocked.
type Alone struct {
	Port string // "tub.footwell"
	Pump string
	Mode string
	Flow float64 // m³/s
}

// Cut is a place on existing pipe at which the new work is let in. A circuit drawn in full
// has none: there the cut is history.
type Cut struct {
	Run      *graph.Run
	Leg      int             // from 1; 0 where the run is known only by its length
	FromMM   float64         // first cut line, from the start of the leg
	LeastMM  float64         // where the first cut line lies at the nearest for the work to stand on straight pipe
	MostMM   float64         // and at the farthest
	RoomMM   float64         // straight pipe there is, between the sockets at its ends; 0 where not measured
	NeededMM float64         // what the new work needs of it
	Terms    []quantity.Text // NeededMM term by term, in words
	Pos      graph.Pos       // where the description asks for the cut; zero: the leg's or the run's
}
