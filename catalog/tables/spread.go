package tables

import (
	"sync"

	"dryfit/catalog/data"
	"dryfit/catalog/quantity"
)

// What Spread knows about. All but those that say otherwise are shares of the number.
const (
	SpreadPumpSize     = "pump-size"             // water power of a pump of which only the type is known
	SpreadPumpAny      = "pump-any"              // the same of a pump of which nobody says the type
	SpreadPumpLabel    = "pump-label"            // the same, where its label gives the watts
	SpreadSmallLabel   = "pump-label-small"      // the same of a small pump
	SpreadPumpAmps     = "pump-label-amps"       // the same, where its label gives volts and amps
	SpreadSmallAmps    = "pump-label-small-amps" // the same of a small pump
	SpreadPumpShape    = "pump-shape"            // flow against head of such a pump, at one power
	SpreadDriveShape   = "pump-shape-drive"      // the same of one with a drive, whose fastest speed in use is not the fastest it has
	SpreadBoxShape     = "pump-shape-box"        // the same of the box of a plug-in tub
	SpreadPumpHead     = "pump-head"             // head of a pump with a curve
	SpreadPumpFlow     = "pump-flow"             // flow of a pump with a curve
	SpreadSpeedRatio   = "speed-ratio"           // speed that is given by its ratio to another
	SpreadDrive        = "drive-speed"           // the same of a pump with a drive
	SpreadDriveOfType  = "drive-type"            // the same, where its speeds are those of its type
	SpreadDriveWatts   = "drive-watts"           // the same, where its speeds are told by the watts it shows
	SpreadPartLoss     = "part-loss"             // loss of a heater or other equipment
	SpreadSideStream   = "side-stream"           // share of its line's water that a part in a stream beside it was made for
	SpreadNewValve     = "new-valve"             // loss of a valve or check that is part of the new work
	SpreadOldCheck     = "old-check"             // loss of a swing check that stands in the line today
	SpreadFilterLoss   = "filter-loss"           // loss of a filter in use
	SpreadUnitLoss     = "unit-loss"             // loss of a heat pump
	SpreadJetLoss      = "jet-loss"              // loss of a jet given by a rated point or by K
	SpreadJetBore      = "jet-bore"              // bore of a jet
	SpreadJetHoses     = "jet-hoses"             // loss of the hoses and the manifold jets hang on, as a share of the jets'
	SpreadFittingK     = "fitting-k"             // K of elbows and other fittings of one pipe
	SpreadTeeK         = "tee-k"                 // loss of tees
	SpreadTeeStraight  = "tee-straight"          // K of what goes straight on through a tee, in hundredths, added to the handbook's
	SpreadReducingTee  = "reducing-tee"          // loss of a tee whose branch is between two thirds of its run and as wide
	SpreadBore         = "bore"                  // bore of rigid pipe
	SpreadBoreWritten  = "bore-written"          // bore that a description says, in hundredths of a mm, added
	SpreadHoseBore     = "hose-bore"             // bore of hose, and of flexible pipe
	SpreadRoughness    = "roughness"             // of the wall of new pipe
	SpreadRoughnessOld = "roughness-old"         // of the wall of pipe that has been in use
	SpreadRoughnessAny = "roughness-any"         // of the wall of pipe of which nobody says the kind
	SpreadRibs         = "ribs"                  // roughness that stands for the ribs of flexible pipe and hose
	SpreadCracking     = "cracking"              // cracking pressure of a spring
	SpreadHoldOpen     = "hold-open"             // flow that holds a swing check open
	SpreadBallKv       = "ball-kv"               // Kv of a ball valve: assumed where it is by the handbook's opening curve, or nobody has the valve in hand
	SpreadGateKv       = "gate-kv"               // the same of a gate valve
	SpreadButterflyKv  = "butterfly-kv"          // the same of a butterfly valve
	SpreadBallOpen     = "ball-open"             // loss of a ball valve fully open
	SpreadGateOpen     = "gate-open"             // the same of a gate valve
	SpreadFlapOpen     = "butterfly-open"        // the same of a butterfly valve
	SpreadPosition     = "position"              // position of a handle, in hundredths of its way
	SpreadWheel        = "wheel"                 // position of a gate, whose wheel is counted in turns, in hundredths of its way
	SpreadWayOpening   = "way-opening"           // power by which a diverter's Kv goes with its turn, in hundredths, added to 1
	SpreadRunLength    = "run-length"            // length of a run that nobody measured leg by leg
	SpreadLegs         = "legs"                  // length of a run measured leg by leg
	SpreadJointsNew    = "joints-new"            // K of joints and burrs in a new run, in hundredths of a velocity head
	SpreadJointsOld    = "joints-old"            // the same of an old run
	SpreadUnlisted     = "unlisted"              // K of elbows in an old run that nobody listed, in hundredths
	SpreadEntrance     = "entrance"              // K of the cover and body of a suction nobody described, in hundredths
	SpreadBarb         = "barb"                  // K of a barb
	SpreadReading      = "throttle-reading"      // flow at which a throttle is set by a reading
	SpreadGauge        = "gauge-reading"         // pressure read by a gauge, in hundredths of a bar
	SpreadLevel        = "level"                 // m below the water of what nothing says so
)

// Span is how far a number may be off: nine in ten lie between Low and High, half of all
// below Middle. It is a share of the number (-0.2: a fifth less), or what is added to it.
type Span struct{ Low, Middle, High float64 }

// class is what a number is and how well it is known.
type class struct{ what, known string }

type spread struct {
	class
	span   Span
	source func() quantity.Text
}

// table is the file of spreads, in its order and by class.
type table struct {
	all []spread
	of  map[class]*spread
}

var spreads = sync.OnceValue(func() table {
	s := data.Read("spreads.csv")
	t := table{make([]spread, len(s.Lines)), make(map[class]*spread, len(s.Lines))}
	for i, l := range s.Lines {
		span := Span{s.Number(l[2]) / 100, s.Number(l[3]) / 100, s.Number(l[4]) / 100}
		source := sync.OnceValue(func() quantity.Text { return quantity.Prose(l[5]) }) // few are asked for
		t.all[i] = spread{class{l[0], l[1]}, span, source}
		t.of[t.all[i].class] = &t.all[i]
	}
	return t
})

func spreadOf(what, known string) *spread {
	if s, ok := spreads().of[class{what, known}]; ok {
		return s
	}
	panic("catalog: no spread of " + what + " that is " + known)
}

// Spread returns how far a number of a class may be off when it is "measured", "data-sheet"
// or "assumed". It panics for a class or grade it does not know, as SpreadSource does.
func Spread(what, known string) Span { return spreadOf(what, known).span }

// SpreadSource returns where a spread comes from.
func SpreadSource(what, known string) quantity.Text { return spreadOf(what, known).source() }

// SpreadClass is one line of the table of spreads.
type SpreadClass struct {
	What, Known string
	Span
	Source quantity.Text
}

// Spreads returns the whole table of spreads, in the order of the file.
func Spreads() []SpreadClass {
	var out []SpreadClass
	for _, s := range spreads().all {
		out = append(out, SpreadClass{s.what, s.known, s.span, s.source()})
	}
	return out
}
