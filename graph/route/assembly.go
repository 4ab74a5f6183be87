package route

import "dryfit/graph"

// Assembly is the order in which the joints of the new work can be made by a person with
// two hands, or what stands against it.
type Assembly struct {
	Steps    []Step
	OK       bool // every joint of the new work can be made
	Findings []graph.Diagnostic
	Loops    []Loop // the closed chains of the new work, in the order they are closed
}

// Step is one step of the fitter's work.
type Step struct {
	Number int // from 1
	Phase  Phase
	Text   string
	Joints []int // Joint.Number, in the order they are made

	// What Text is made of where it says of each joint what is put to what: Before, the meetings,
	// Behind. Empty where it names a union's nuts or what slides.
	Before, Behind string
	Meetings       []Meeting // of Joints
}

// Meeting is a joint as it is made, in the words of its two sides.
type Meeting struct {
	Comes, Stays string
	Onto         bool   // what comes goes over what stays: hose over a barb, a socket over a port
	Run          string // of the joint
}

func (m Meeting) String() string { return m.Comes + " " + m.Prep() + " " + m.Stays }

// Prep is the word between the two.
func (m Meeting) Prep() string {
	if m.Onto {
		return "onto"
	}
	return "into"
}

// Phase says where a step is done.
type Phase int

// The phases, in the order of the work.
const (
	Bench  Phase = iota // sub-assemblies put together before anything is cut
	Waits               // what of them hangs on a piece cut on site: put together when the unit stands
	InLine              // into the old line
	Pipes               // the pipes out to the unit
	Unit                // the breakable joints at the unit, last
)

// Lead opens the text of a step of the phase.
func (p Phase) Lead() string {
	return map[Phase]string{Bench: "on the bench: ", Waits: "on the bench, when the unit stands: ", InLine: "in the old line: ", Unit: "at the unit, last: "}[p]
}

// OnBench reports whether what is made then lies free: nothing of it hangs on what is there already.
func (p Phase) OnBench() bool { return p == Bench || p == Waits }

// Loop is one closed chain of the new work: from an old end through new work back to an
// old end, or round new work alone.
type Loop struct {
	Closing int      // Joint.Number of the joint that closes it
	How     string   // what lets it be closed: "union", "slip coupling", "flexible hose", "play", "together with joint 7"; "" where nothing does
	Joints  []int    // Joint.Number of all joints on it
	Pieces  []int    // indexes into Layout.Pieces
	Parts   []string // ids of the parts on it
	PlayMM  float64  // there is at the closing joint, mm; -1: as much as is needed
}
