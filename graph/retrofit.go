package graph

import "dryfit/catalog"

// Retrofit is the request to fit a unit into the existing circuit.
type Retrofit struct {
	Unit             string       // part id
	Remove           bool         // take the unit named out again instead
	Cut              *Cut         // nil: the tool ranks every place
	Bypass           string       // "auto", "spring", "valve", "none"
	Spring           string       // "auto" or the cracking pressure as a catalogue row name
	SpringPa         float64      // asked for by pressure; 0: not asked
	Branch           Vec          // way the new tees point; zero: the tool chooses
	Spec             catalog.Spec // of the new work; "" the cut pipe's
	Size             catalog.Size // of the unit's branch; zero: the larger of unit's ports and what the rules ask
	BypassSize       catalog.Size // zero: the cut pipe's
	Isolators        string       // kind of the isolators: "ball-valve", "gate-valve", "butterfly-valve"; "" = ball-valve
	TrueUnion        *bool        // isolators and bypass element with unions of their own; nil: yes
	ExtraMM          float64      // straight pipe on request beyond the shortest assembly
	Drains           *bool
	FeederCheck      *bool
	Inside           bool // no new pipe runs outdoors: nothing is insulated
	ToUnit, FromUnit []Leg
	Pos              Pos
	KeyPos           map[string]Pos
}

// Cut is a place on an existing run.
type Cut struct {
	Run  string
	Leg  int     // from 1; 0: not said
	AtMM float64 // from the start of the leg to the first cut line; negative: not said
	Pos  Pos
}
