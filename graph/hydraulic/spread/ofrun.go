package spread

import (
	"math"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/settle"
)

// ofRun returns what an unknown of a run moves in its model: nothing where no water passes.
func ofRun(r *hydraulic.ModelRun, n settle.Unknown) []unknown {
	if r == nil || r.Edge < 0 || r.LengthM == 0 && n.Number != settle.EntranceNumber {
		return nil
	}
	u, spec, old := start(n, ""), r.Run.Spec, !r.Run.New()
	switch n.Number {
	case settle.EntranceNumber:
		if !r.FromTub {
			return nil
		}
		u.set, u.used = onEntrances, byClass(n.Spread, "no loss but the pipe's own end")
	case settle.LengthNumber:
		u.set = onLengths(n.Whose)
		u.used = used{value: graph.Say("%s", quantity.Length.Of(1000*r.LengthM)), given: true, guess: n.Class == "" && r.Run.Known == graph.Assumed}
	case settle.BarbNumber:
		for _, f := range r.Fittings {
			if f.Barb {
				u.set, u.used = onBarbs(old), byClass(n.Spread, graph.Say("K %.2g on the barb's own bore", f.K))
				return one(u)
			}
		}
		return nil
	case settle.FittingsNumber:
		for _, f := range r.Fittings {
			if !f.Barb && f.Kind != "entrance" && f.Kind != "exit" {
				return one(fittings(n, ""))
			}
		}
		return nil
	case settle.UnlistedNumber:
		u.set, u.used = onUnlisted(n.Whose), byClass(n.Spread, "none")
	case settle.JointsNumber:
		u.set, u.used = onJoints(old), byClass(n.Spread, "no loss")
	case settle.RoughNumber:
		u.set, u.used = onRoughness(spec, old), byClass(n.Spread, graph.Say("%s µm", microns(r.RoughnessM)))
	case settle.BoreNumber:
		u.set, u.used, u.power = onBores(spec, old), byClass(n.Spread, "the catalogue's"), 5
		if r.Run.BoreMM > 0 {
			u.set = onWrittenBore(r.Run, n.Class != "")
			u.used = used{value: graph.Say("%s", quantity.Length.Of(1000*r.BoreM)), given: true, guess: r.Run.Known == graph.Assumed}
		}
	}
	return one(u)
}

// microns is a roughness in m as words in µm, of two digits.
func microns(m float64) string {
	um := 1e6 * m
	if um <= 0 {
		return "0"
	}
	return quantity.Trim(quantity.Round(um, max(0, 1-int(math.Floor(math.Log10(um))))))
}
