package rule

import (
	"math"

	"dryfit/graph"
)

// wasShort reports whether a pump had too little suction head before the work too, or
// nobody knows.
func wasShort(in *Input, mode string, pump *graph.Part) bool {
	before := sameMode(in.BeforeSolutions, mode)
	if before == nil {
		return true
	}
	f := before.Part(pump.ID)
	return f == nil || !f.NPSHKnown || f.NPSHAvailableM < npshAt(pump.Pump.NPSH, math.Abs(f.Flow), before.Water.Density)
}

// npshAt returns the required NPSH in m of water of a density (kg/m³), straight between the
// points of the sheet and level beyond its ends.
func npshAt(points []graph.CurvePoint, flow, density float64) float64 {
	last := points[0]
	for _, p := range points {
		if flow <= p.Flow {
			at := p.Head.Head(density)
			if p.Flow == last.Flow {
				return at
			}
			from := last.Head.Head(density)
			return from + float64((flow-last.Flow)/(p.Flow-last.Flow)*(at-from))
		}
		last = p
	}
	return last.Head.Head(density)
}
