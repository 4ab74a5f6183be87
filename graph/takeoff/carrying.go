package takeoff

import (
	"math"

	"dryfit/catalog/quantity"
	"dryfit/catalog/tables"
	"dryfit/graph"
)

// shareCarried is the share of the spacing below which new pipe needs no support of its own,
// as what it joins carries it. Source: judgement, no source.
const shareCarried = 0.25

// addCarrying lists insulation, wall sleeves and supports of the new pipe, by the runs that
// need them.
func (b *biller) addCarrying() {
	temp := b.lay.Stage.Water.TemperatureC.V
	for i := range b.lay.Paths {
		path := &b.lay.Paths[i]
		r := path.Run
		if !r.New() || path.LengthMM <= 0 {
			continue
		}
		size := r.Size.String()
		outside := ""
		if path.Pipe.OutsideMM > 0 {
			outside = b.say(quantity.Say("%s outside", quantity.Length.Finely(path.Pipe.OutsideMM)))
		}
		if r.Outside || r.Insulated {
			b.add(line{Item: Item{Name: join("pipe insulation", size, outside), Kind: "insulation", Spec: r.Spec, Size: size,
				Quantity: path.LengthMM / 1000, Unit: "m", Source: "length of the runs outside or insulated", New: true, Where: places(r.ID)}, size: r.Size})
		}
		if r.ThroughWall {
			name := join("wall sleeve for pipe", size, outside)
			if r.Outside || r.Insulated {
				name += " and its insulation"
			}
			b.add(line{Item: Item{Name: name, Kind: "wall-sleeve", Spec: r.Spec, Size: size, Quantity: 1, Unit: "pc",
				Source: "one for each run through a wall", New: true, Where: places(r.ID)}, size: r.Size})
		}
		b.addSupports(r, path.LengthMM, temp)
	}
	for _, p := range b.lay.Circuit.Parts {
		if p.New() && (p.Kind.IsHandValve() || p.Kind == graph.CheckValve || p.Kind == graph.DiverterValve) {
			size := b.lay.Stage.Part(p.ID).Size.V
			b.add(line{Item: Item{Name: join("clip or bracket under a valve", size.String()), Kind: "valve-support", Size: size.String(), Quantity: 1, Unit: "pc",
				Source: "valves are carried on their own; a maker's installation guide", New: true, Where: places(p.ID)}, size: size})
		}
	}
}

// addSupports lists the clips of one run: as many as spans of the spacing at the water's
// temperature; none where the run is so short that what it joins carries it.
func (b *biller) addSupports(r *graph.Run, lengthMM, tempC float64) {
	spacing, source, ok := tables.SupportSpacing(r.Spec, r.Size, tempC)
	if !ok || lengthMM < shareCarried*spacing {
		return
	}
	n := math.Ceil(lengthMM/spacing - 1e-9)
	b.add(line{Item: Item{
		Name: join("pipe clip", r.Size.String(), string(r.Spec), b.say(quantity.Say("at most %s apart at %s", b.metres(tables.Apart(spacing, quantity.SystemOf(b.c.Job.Units))), quantity.Temperature.Of(tempC)))),
		Kind: "pipe-clip", Spec: r.Spec, Size: r.Size.String(), Quantity: n, Unit: "pc", Source: b.say(quantity.Prose(source)), New: true, Where: places(r.ID),
	}, size: r.Size})
}
