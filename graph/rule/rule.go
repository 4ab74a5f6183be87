package rule

import (
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/route"
)

// Rule is one thing a good job keeps, as a value: listing, explaining, documenting and
// testing all read it, so they can't drift apart.
type Rule struct {
	Name     string                                         // in plain words, hyphenated: "unit-after-filter"
	Asks     string                                         // what it asks, one sentence
	Why      string                                         // why it holds, one or two sentences
	Source   string                                         // standard and clause, or "common practice, no source", or "from memory: …"
	Severity graph.Severity                                 // the heaviest it gives
	Needs    Needs                                          // what it reads
	Check    func(in *Input, report func(graph.Diagnostic)) // pure
}

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
	Solutions       []hydraulic.Solution // of After
	BeforeSolutions []hydraulic.Solution
}
