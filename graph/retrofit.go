package graph

import (
	"fmt"

	"dryfit/catalog"
)

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
	Bleeds           *bool     // air bleeds at high points; nil: yes
	SlipCoupling     bool      // the string is let into the old line with a slip coupling, or one at each cut
	AdaptorsKept     []PortRef // ends of the cut run whose old adaptor stays, and the new work begins in it
	ServiceValve     bool      // a valve in parallel to the spring check, open while the unit is shut off
	Stand            *Stand
	Pos              Pos
	KeyPos           map[string]Pos
}

// Stand is where the unit stands, so that its two pipes can be found.
type Stand struct {
	At        Vec     // of its inlet, mm, counted from From
	From      PortRef // a port of the old work; Part "": the centre of the first new tee
	PortsFace Vec     // way its ports look, unit; zero: as the part says
	KeepClear []KeepClear
	Along     []Leg // what both pipes follow first, from their tees
	Pos       Pos
}

// KeepClear is a box no new pipe may pass, by two opposite corners, mm: counted as Stand.At is, or from the
// first port of the part that has it.
type KeepClear struct {
	From, To Vec
	What     string // in the user's words; ""
	Pos      Pos
}

// Said is what stands or moves in the box, in the user's words, else which box of its list it is, from 1.
func (k *KeepClear) Said(number int) string {
	if k.What != "" {
		return k.What
	}
	return fmt.Sprintf("box %d of keep-clear", number)
}

// Cut is a place on an existing run.
type Cut struct {
	Run  string
	Leg  int     // from 1; 0: not said
	AtMM float64 // from the start of the leg to the first cut line; negative: not said
	Pos  Pos
}

// Cabinet is [cabinet]: the room inside it, as measured. Nil in a Circuit where nobody
// described it.
type Cabinet struct {
	From   PortRef // the port of the old work the corners are counted from
	Corner Vec     // one corner, mm
	Far    Vec     // the opposite one
	Pos    Pos
	KeyPos map[string]Pos
}
