package formula

import "math"

// Handbook L/D of fittings: K = L/D·f_T on the bore of the fitting.
//
// Source: Crane Co., Flow of Fluids Through Valves, Fittings, and Pipe, TP-410, 2009; the
// elbows and the fixed form of the tee from memory.
const (
	LoverDElbow90   = 30
	LoverDElbow45   = 16
	LoverDTeeRun    = 20
	LoverDTeeBranch = 60
	LoverDGate      = 8
	LoverDBall      = 3
	LoverDSwing     = 100
	LoverDButterfly = 45
)

// LoverD returns the handbook's L/D of a kind of fitting for which the catalogue has no row;
// 0 where there is none. The elbow of 22.5° counts as half of the one of 45° (judgement).
func LoverD(kind string) float64 {
	switch kind {
	case "elbow-90":
		return LoverDElbow90
	case "elbow-45":
		return LoverDElbow45
	case "elbow-22.5":
		return LoverDElbow45 / 2
	case "tee":
		return LoverDTeeRun
	}
	return 0
}

// FullyTurbulent returns f_T [-], the friction factor of fully turbulent flow by which
// handbook L/D are turned into K, for a bore in m: Colebrook-White at Re = 7.5e6·D with
//
//	ε/D = 3.4126825352925e-5·D^-1.0112
//
// It is a size factor for fittings and belongs to commercial steel: the friction of plastic
// pipe has nothing to do with it. 0.0200 at 1-1/2 in, 0.0189 at 2 in.
//
// Source: a fit to the table in Crane TP-410, 2009, which it gives back as rounded there.
func FullyTurbulent(bore float64) float64 {
	f, _ := Colebrook(7.5e6*bore, 3.4126825352925e-5*math.Pow(bore, -1.0112))
	return f
}

// HandbookK returns K [-] on the bore (m) of a fitting with a handbook L/D.
func HandbookK(loverD, bore float64) float64 { return loverD * FullyTurbulent(bore) }
