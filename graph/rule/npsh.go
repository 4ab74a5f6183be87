package rule

import (
	"math"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
)

// highPump is how far above the water a pump may stand of which nothing says its level, m: on the
// ground beside a sunken pool, with a strainer that keeps it primed. Common practice, no source.
const highPump = 1.5

// suction is what a pump needs of suction head in a mode, m; how much it has is in its flow.
type suction struct {
	s    *hydraulic.Solution
	f    *hydraulic.PartFlow
	need float64
}

// spare is what it has more than it needs, m; of a pump whose level nothing gives, were it level with
// the water.
func (u suction) spare() float64 { return u.f.NPSHAvailableM - u.need }

// tighter takes a mode of a pump up into a list of pumps, each with the mode that leaves it least.
func tighter(list []suction, u suction) []suction {
	for i := range list {
		if list[i].f.Part == u.f.Part {
			if u.spare() < list[i].spare() {
				list[i] = u
			}
			return list
		}
	}
	return append(list, u)
}

// nobodyKnowsHowDeep is what is said of a pump whose suction head hangs on its level, which nothing
// gives.
func (v *view) nobodyKnowsHowDeep(u suction) graph.Diagnostic {
	where, f, mode := graph.Say("it may stand at most %s above it", v.length(1000*u.spare())), u.f, u.s.Mode.Name
	if u.spare() < 0 {
		where = graph.Say("it has to stand at least %s below it", v.length(-1000*u.spare()))
	}
	return graph.Diagnostic{
		Pos: key(f.Part, "npsh"), Severity: graph.Warning, Mode: mode,
		Message: graph.Say("mode %q: level with the water pump %q would have %s of suction head at %s; it needs %s, and nothing says how far below the water it stands", mode, f.Part.ID, v.head(f.NPSHAvailableM), v.flow(math.Abs(f.Flow)), v.head(u.need)),
		Hint:    graph.Say("measure from the water line to its eye and write below-water on it (less than nothing above the water), or on the tub and give the legs between: %s", where),
	}
}

// hadLess reports whether a pump had less to spare of its suction head before the work too than
// some m, or nobody knows.
func hadLess(in *Input, mode string, pump *graph.Part, spare float64) bool {
	before := sameMode(in.BeforeSolutions, mode)
	if before == nil {
		return true
	}
	f := before.Part(pump.ID)
	return f == nil || f.NPSHAvailableM-npshAt(pump.Pump.NPSH, math.Abs(f.Flow), before.Water.Density) < spare
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
