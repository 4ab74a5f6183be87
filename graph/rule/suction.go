package rule

import (
	"math"

	"dryfit/graph"
)

func pumpSuctionHead(in *Input, report Report) {
	v := in.ask()
	for i := range in.Solutions {
		s := &in.Solutions[i]
		for k := range s.Parts {
			f := &s.Parts[k]
			if !f.NPSHKnown || f.Part.Pump == nil || len(f.Part.Pump.NPSH) == 0 {
				continue
			}
			need := npshAt(f.Part.Pump.NPSH, math.Abs(f.Flow), s.Water.Density)
			if f.NPSHAvailableM >= need {
				continue
			}
			report(f.Part.Existing && wasShort(in, s.Mode.Name, f.Part), graph.Diagnostic{
				Pos: key(f.Part, "npsh"), Severity: graph.Error,
				Message: graph.Say("mode %q: pump %q has %s of suction head at %s; it needs %s", s.Mode.Name, f.Part.ID, v.head(f.NPSHAvailableM), v.flow(math.Abs(f.Flow)), v.head(need)),
				Hint:    "clean the filter on the suction, open its valves, or shorten and widen it; never by new work between tub and pump",
			})
		}
	}
}

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
