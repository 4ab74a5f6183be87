package curves

import (
	"slices"

	"dryfit/graph"
	"dryfit/graph/plan"
)

// bySetting divides a set whose modes set the circuit differently (a valve turned, the filter
// dirty) into one for each circuit after the work, with the circuit of the same modes before.
func bySetting(s plan.CurveSet) []plan.CurveSet {
	var out []plan.CurveSet
	for _, after := range s.Systems {
		if after.Stage != graph.After {
			continue
		}
		one := plan.CurveSet{Pump: s.Pump, Unit: s.Unit, AsSaid: s.AsSaid}
		for _, c := range s.Systems {
			if c.Stage == graph.After && slices.Equal(c.Modes, after.Modes) || c.Stage == graph.Before && shares(c.Modes, after.Modes) {
				one.Systems = append(one.Systems, c)
			}
		}
		for _, u := range s.Duties {
			if slices.Contains(after.Modes, u.Mode) {
				one.Duties = append(one.Duties, u)
			}
		}
		for _, v := range s.Speeds {
			if slices.ContainsFunc(one.Duties, func(u plan.Duty) bool { return u.Speed == v.Speed }) {
				one.Speeds = append(one.Speeds, v)
			}
		}
		out = append(out, one)
	}
	if len(out) < 2 {
		return []plan.CurveSet{s}
	}
	return out
}

func shares(a, b []string) bool {
	return slices.ContainsFunc(a, func(m string) bool { return slices.Contains(b, m) })
}
