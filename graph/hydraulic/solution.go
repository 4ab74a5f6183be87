package hydraulic

import (
	"math"

	"dryfit/graph"
	"dryfit/graph/hydraulic/network"
)

// Solution is the steady flow of one stage in one mode. Flows are m³/s, positive in the
// direction the part or run is written (in to out, from to to); drops are Pa of total
// pressure lost in that direction; heads are m of the water pumped.
type Solution struct {
	Mode        graph.Mode
	Stage       graph.Stage
	Water       Water
	Parts       []PartFlow // in the order of the circuit
	Runs        []RunFlow  // in the order of the circuit
	Residual    float64    // largest imbalance of any node, m³/s
	EnergyError float64    // largest imbalance round any loop, m
	Iterations  int
	flow        *network.Flow      // of the network: where to begin with one much like it
	Notes       []graph.Diagnostic // what the reader of the numbers must know: beyond a table's end, two answers, no flow, …
}

// Alike is what a flow may be off another, as a share of it, and still be the same: what the solver
// leaves is far less, and no reading tells it. Judgement.
const Alike = 1e-4

// Standing is the flow below which water counts as standing, m³/s: a litre an hour. Common
// practice, no source.
const Standing = 1e-3 / 3600

// Passing is a flow, m³/s, and none where the water stands: what the solver leaves in the line of a pump
// that is off is no flow that anybody gets.
func Passing(flow float64) float64 {
	if math.Abs(flow) <= Standing {
		return 0
	}
	return flow
}

// NoFlow is the state of a unit whose water stands.
const NoFlow = "no flow"

// PumpOff is the state of a unit whose own pump is off while another pump draws or drives some of its water
// through that one and the unit: it is not called for heat then, and is promised nothing.
const PumpOff = "its pump is off"

// Idle reports whether the part is a unit that gets no water of its own pump, see PumpOff.
func (f *PartFlow) Idle() bool { return f.State == PumpOff }

// PartFlow is what passes one part.
type PartFlow struct {
	Part  *graph.Part
	Flow  float64   // m³/s; of a tee, manifold or tub: all that enters it
	Drop  float64   // Pa; of a running pump: minus its rise; of a tee: of its run; of a manifold: of its common port; of a diverter: of the open way that loses most
	State string    // check: "shut", "lifting" (opened by a spring and passing water) or "open" (swing); hand valve: "open", "shut", "30 %", "throttled" (set by its Kv); pump: its speed or "off"; unit: NoFlow or PumpOff; else ""
	Legs  []LegFlow // tee, manifold, tub, diverter: each port
	// Moving is what passes where the water moved already when the pump started, m³/s: Flow, but where a
	// pump whose curve rises holds at two flows, of which a start from rest comes to the smaller. Of
	// what has one way through it; else 0.
	Moving float64
	Fed    float64 // m³/s, of jets: what leaves by them; 0 where water is drawn back through them, to a pump they are not on
	Apart  bool    // jets, a pump: they are of another water than the unit's; jets then not among those of JetsFlow
	// of a check valve
	MarginPa   float64 // to its other state: shut: cracking minus the pressure across it; lifting: pressure across minus cracking
	MarginFlow float64 // m³/s, the change of flow through its bypassed branch (shut) or through it (lifting) to the other state
	Spring     Spring  // where it opens and between what it may
	// of a running pump
	HeadM, PowerW, Efficiency float64 // power and efficiency 0 where not given
	NPSHAvailableM            float64 // m of the water; level with it, where nothing says how deep the pump stands
	NPSHKnown                 bool    // it is known how deep
	ShutOffPa                 float64
	GreatestPa                float64 // the most it puts on its line: more than at shut-off where its curve rises
	ShutOffExtrapolated       bool    // the curve starts above no flow
	// of a unit
	RiseK    float64 // water temperature rise at its rated output; 0 where no rating is given, its water stands or has to be cooled, or its pump is off
	StaticPa float64 // gauge pressure at its inlet, from the tub's surface; where it follows
	// LevelKnown tells whether StaticPa counts how far the part lies below the water: as
	// described, or as the legs of the layout lead to it.
	LevelKnown bool
}

// LegFlow is the flow into a part (positive) at one port, and the loss from there to the part's middle.
type LegFlow struct {
	Port string
	Flow float64 // m³/s into the part
	Drop float64 // Pa
	K    float64 // on the common leg's velocity (tees)
}

// RunFlow is what passes one run.
type RunFlow struct {
	Run      *graph.Run
	Flow     float64 // m³/s
	Velocity float64 // m/s
	Drop     float64 // Pa, pipe and its fittings
	PipeDrop float64 // Pa, of the straight pipe alone
	Reynolds float64
	Friction float64 // Darcy factor
	BoreMM   float64
	Suction  bool    // between the tub and the inlet of a running pump
	StaticPa float64 // gauge, highest along the run
	// LevelKnown tells whether StaticPa counts how far the run lies below the water, as the
	// layout has it; else it is counted from the water's surface.
	LevelKnown bool
	// Bare tells that the run has neither length nor bore: two parts that touch. Nothing can be
	// said of velocity and pressure in it.
	Bare bool
}

// Part returns the flow of the part with the id, or nil.
func (s *Solution) Part(id string) *PartFlow {
	for i := range s.Parts {
		if s.Parts[i].Part.ID == id {
			return &s.Parts[i]
		}
	}
	return nil
}

// JetsFlow returns what leaves by all jet groups of the water that the unit heats, m³/s, whichever way they are written, and
// whether there are any.
func (s *Solution) JetsFlow() (flow float64, found bool) {
	for i := range s.Parts {
		if s.Parts[i].Part.Kind == graph.JetGroup && !s.Parts[i].Apart {
			flow, found = flow+s.Parts[i].Fed, true
		}
	}
	return flow, found
}

// OtherWater reports whether pumps run in the mode, and all that do are of another water than the unit's:
// nothing of that mode is the unit's business.
func (s *Solution) OtherWater() bool {
	runs := false
	for i := range s.Parts {
		p := &s.Parts[i]
		if p.Part.Kind != graph.Pump || p.State == "off" || p.State == "" {
			continue
		}
		if runs = true; !p.Apart {
			return false
		}
	}
	return runs
}

// Run returns the flow of the run with the id, or nil.
func (s *Solution) Run(id string) *RunFlow {
	for i := range s.Runs {
		if s.Runs[i].Run.ID == id {
			return &s.Runs[i]
		}
	}
	return nil
}
