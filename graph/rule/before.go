package rule

import (
	"math"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
)

// wasSo reports whether something that is found of an old part in a mode was so before the work
// too: bad judges the part's flow of that time. Where that is not known, it was. Of a new part
// nothing was so.
func wasSo(in *Input, part *graph.Part, mode string, bad func(was *hydraulic.PartFlow) bool) bool {
	if !part.Existing {
		return false
	}
	before := sameMode(in.BeforeSolutions, mode)
	if before == nil {
		return true
	}
	was := before.Part(part.ID)
	return was == nil || bad(was)
}

// lessThan judges a flow by its least, m³/s.
func lessThan(least float64) func(*hydraulic.PartFlow) bool {
	return func(was *hydraulic.PartFlow) bool { return math.Abs(was.Flow) < least }
}

// neverGot reports whether an old unit got a flow in no mode before the work, or nobody knows.
func neverGot(in *Input, unit *graph.Part, flow float64) bool {
	if !unit.Existing {
		return false
	}
	for i := range in.BeforeSolutions {
		if was := in.BeforeSolutions[i].Part(unit.ID); was != nil && math.Abs(was.Flow) >= flow {
			return false
		}
	}
	return true
}
