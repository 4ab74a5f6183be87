package rule

import (
	"math"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/settle"
)

// standing is the flow below which water counts as standing, m³/s.
const standing = hydraulic.Standing

// limits returns the least, rated and most flow of a unit, m³/s; 0 where not known.
func (v *view) limits(u *graph.Part) (least, rated, most float64) {
	p := v.part(u)
	return p.Least.V, p.Rated.V, p.Most.V
}

// byRow says whose a limit is that neither the description nor a row of the user's gives: a guess, and
// no sheet; "" of any other.
func byRow(limit settle.Value) quantity.Text {
	if limit.Row == "" || limit.How != settle.Row && limit.How != settle.Assumed {
		return ""
	}
	return graph.Say(" (the catalogue's guess for %s)", limit.Row)
}

// sheetFirst puts what is to be read and written of a limit that is a guess before what else would help.
func sheetFirst(limit settle.Value, key string, hint quantity.Text) quantity.Text {
	if byRow(limit) == "" {
		return hint
	}
	return graph.Say("read it from its sheet or plate first and write %s; then ", key) + hint
}

// running is one mode in which a pump of the unit's runs and the unit is not shut off by hand.
type running struct {
	solution *hydraulic.Solution
	flow     float64 // through the unit, m³/s, either way
}

// modesOf returns the modes in which a unit is meant to have flow.
func modesOf(in *Input, b branch) []running {
	var out []running
	for i := range in.Solutions {
		s := &in.Solutions[i]
		flow := s.Part(b.Unit.ID)
		if flow == nil || !b.FedIn(s.Mode) || flow.Idle() || isolated(s, b) {
			continue
		}
		out = append(out, running{s, math.Abs(hydraulic.Passing(flow.Flow))})
	}
	return out
}

// runsIn reports whether a pump runs in the mode.
func runsIn(s *hydraulic.Solution, pump *graph.Part) bool { return s.Mode.Speeds[pump.ID] != "" }

// astray reports whether the pump in whose line a part stands is off in the mode, and every other that feeds it, and
// what passes the part only what pumps of other lines send through.
func (v *view) astray(s *hydraulic.Solution, f *hydraulic.PartFlow) bool {
	pump := v.net.LinePump(f.Part)
	runs := func(p *graph.Part) bool { return runsIn(s, p) }
	if pump == nil || runs(pump) || slices.ContainsFunc(v.net.Feeds(f.Part), runs) {
		return false
	}
	through := s.Part(pump.ID)
	return through != nil && hydraulic.Astray(f.Flow, through.Flow)
}

// isolated reports whether the mode shuts a hand valve in the unit's pipes.
func isolated(s *hydraulic.Solution, b branch) bool { return len(shutBy(s.Mode, b)) > 0 }
