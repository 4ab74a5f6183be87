package catalog

import "sync"

// What Spread knows about.
const (
	SpreadPumpHead  = "pump-head"  // head of a pump at a flow
	SpreadPartLoss  = "part-loss"  // loss of a filter, heater or other equipment
	SpreadUnitLoss  = "unit-loss"  // loss of a heat pump
	SpreadJetLoss   = "jet-loss"   // loss of a jet
	SpreadFittingK  = "fitting-k"  // K of elbows and tees
	SpreadBore      = "bore"       // bore of rigid pipe
	SpreadHoseBore  = "hose-bore"  // bore of hose, and of flexible pipe
	SpreadRoughness = "roughness"  // roughness of the wall
	SpreadCracking  = "cracking"   // cracking pressure of a spring
	SpreadValveKv   = "valve-kv"   // Kv of a partly open valve
	SpreadRunLength = "run-length" // length of a run that nobody measured leg by leg
)

type spread struct {
	what, known string
	low, high   float64
	source      string
}

var spreads = sync.OnceValue(func() []spread {
	s := readSheet("spreads.csv")
	var out []spread
	for _, l := range s.lines {
		out = append(out, spread{l[0], l[1], s.number(l[2]), s.number(l[3]), l[4]})
	}
	return out
})

// Spread returns how far a number of a class may be off, in per cent of it (low is negative),
// when it is "measured", "data-sheet" or "assumed", and where that comes from. Where a row
// has a range of its own, that counts for what is assumed. It panics for a class or grade
// it does not know.
func Spread(what, known string) (lowPct, highPct float64, source string) {
	for _, s := range spreads() {
		if s.what == what && s.known == known {
			return s.low, s.high, s.source
		}
	}
	panic("catalog: no spread of " + what + " that is " + known)
}
