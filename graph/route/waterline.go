package route

import (
	"math"

	"dryfit/graph"
)

// WaterLine returns how high the tub's water stands in the layout, mm from its datum: by the
// depth of a pump's eye, else of a tub's first port, whichever of them is given and placed.
// It is false where neither is.
func (l *Layout) WaterLine() (mm float64, ok bool) {
	if l == nil {
		return 0, false
	}
	for _, kind := range []graph.Kind{graph.Pump, graph.Tub} {
		for _, p := range l.Circuit.OfKind(kind) {
			if !p.BelowWaterSet || len(p.Ports) == 0 {
				continue
			}
			if at, placed := l.Places[p.ID+"."+p.Ports[0].Name]; placed {
				return at.Z + p.BelowWaterMM, true
			}
		}
	}
	return 0, false
}

// Below returns how far the lowest placed port of a part lies below the water line, mm,
// negative above it: as the description says of the part, else by the layout. It is false
// where nothing tells. A nil layout tells nothing.
func (l *Layout) Below(p *graph.Part) (mm float64, ok bool) {
	if p.BelowWaterSet {
		return p.BelowWaterMM, true
	}
	line, ok := l.WaterLine()
	if !ok {
		return 0, false
	}
	low := math.Inf(1)
	for _, port := range p.Ports {
		if at, placed := l.Places[p.ID+"."+port.Name]; placed {
			low = min(low, at.Z)
		}
	}
	return line - low, !math.IsInf(low, 1)
}
