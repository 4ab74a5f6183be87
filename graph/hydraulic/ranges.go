package hydraulic

import (
	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// Range is a value with what the spreads of the inputs make of it: nine in ten of the
// samples lie between Low and High.
type Range struct{ Low, Likely, High float64 }

// Ranges is the network solved again over a fixed low-discrepancy sample of the spreads.
type Ranges struct {
	Samples, Unsolved int
	Modes             []ModeRanges
	Promises          []Promise
	MeasureFirst      []Influence // what matters most comes first
}

// ModeRanges holds the ranges of one stage in one mode. Parts and Runs are in the order of
// the solution's.
type ModeRanges struct {
	Mode       string
	Stage      graph.Stage
	Parts      []Range // flow, m³/s
	Drops      []Range // Pa
	Runs       []Range // flow, m³/s
	JetsChange Range   // share of today's flow through the jets, -1..; after stage only
	HasJets    bool
}

// Promise is something the job should keep, and in what share of the sample it does.
type Promise struct {
	Mode  string
	Text  quantity.Text // "the unit gets at least its least flow, 2.9 m3/h"
	Share float64
}

// Influence is how far one unknown moves the unit's flow (or the jets', where there is no unit).
type Influence struct {
	What   string // "jets' drop"
	Part   string // id of the part or run, "" for a whole class
	Mode   string
	Effect float64 // share of the likely value, half the width of what this input alone does
	Moves  string  // what it moves: "the unit's flow"
}

// Of returns the ranges of a mode in a stage, or nil; a nil Ranges has none.
func (r *Ranges) Of(mode string, stage graph.Stage) *ModeRanges {
	if r == nil {
		return nil
	}
	for i := range r.Modes {
		if r.Modes[i].Mode == mode && r.Modes[i].Stage == stage {
			return &r.Modes[i]
		}
	}
	return nil
}
