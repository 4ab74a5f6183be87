package description

import (
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
)

// How deep the water of a tub or a pool may stand under its surface, m: outside of what there is, so that a
// slipped digit of its volume or its area is asked about. Common practice, no source.
const (
	leastDepthM = 0.1
	mostDepthM  = 4
)

// depthAgrees holds the volume of the water against its area: that of [use], or else the cover's.
func depthAgrees(r *field.Reader) {
	c := r.Circuit
	volume, area, at := c.Water.VolumeM3, graph.Amount{}, graph.Pos{}
	if c.Cover != nil && c.Cover.AreaM2.Set {
		area, at = c.Cover.AreaM2, c.Cover.KeyPos["area"]
	}
	if c.Use != nil && c.Use.AreaM2.Set {
		area, at = c.Use.AreaM2, c.Use.KeyPos["area"]
	}
	if volume <= 0 || !area.Set || area.V <= 0 {
		return
	}
	depth := volume / area.V
	if depth >= leastDepthM && depth <= mostDepthM {
		return
	}
	d := r.Add(c.Water.KeyPos["volume"], "is the unit of one of the two right, and its decimal point?",
		"%s of water over an area of %s would stand %s deep", quantity.Volume.Of(volume), quantity.Area.Of(area.V), quantity.Length.Of(depth*1000))
	located.Related(d, at, "the area is here")
}
