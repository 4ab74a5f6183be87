package advice

import (
	"dryfit/catalog/quantity"
	"dryfit/graph/hydraulic"
)

// Comparison compares every bypass element a job could have.
type Comparison struct {
	Pump     string // id of the pump that feeds the unit; of several the nearest
	Constant bool   // the unit's line has one flow, wherever it has any
	Asked    bool   // it is known what the unit asks of its flow
	Jets     bool   // there are jets; else what they lose is no word to print
	Today    bool   // a circuit before the work is known, and the jets' change is against it; else it is 0
	Choices  []BypassChoice
	Best     int // index into Choices; -1: none keeps the promise
	Why      quantity.Text
	Remedies []Remedy // where no choice works: what would, with its effect worked out
}

// BypassChoice is one bypass element, solved.
type BypassChoice struct {
	Name   quantity.Text // "spring-check 2 psi", "throttle valve, Kv 12.4 m3/h", "no bypass"
	Spring string        // catalogue row; "" for others
	Kv     float64       // m³/h of a throttle valve; 0 for others
	Modes  []ChoiceMode
	Keeps  bool          // the promise: unit's flow at least least, at most most, in every mode it is wanted
	Rated  bool          // and at least rated at low speed
	Unfit  bool          // the rule bypass-fits-pump warns of it: a throttle at several speeds, a spring at one
	Dirty  *ChoiceMode   // the mode in which a dirty filter, and half of the jets turned down, leaves the unit too little; nil: none
	Why    quantity.Text // why it is taken, or not
}

// ChoiceMode is what one choice does in one mode. Flows m³/s.
type ChoiceMode struct {
	Mode                 string
	UnitFlow, BypassFlow float64
	State                string           // of the check
	MarginPa             float64          // to its other state
	Spring               hydraulic.Spring // of the check
	Chatters             bool             // it stands too near to it
	JetsChange           float64          // share of today's jets' flow
	PumpFlow             float64
	RiseK                float64
	Error                quantity.Text // why there are no numbers
}

// Remedy is a change that would make the job work.
type Remedy struct {
	What   quantity.Text
	Effect quantity.Text // in words, with the flows worked out
	Works  bool

	Attended bool // only while somebody stands by: no line for a unit that runs unattended
}
