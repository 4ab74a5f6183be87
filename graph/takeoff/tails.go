package takeoff

import "dryfit/graph"

// addTails lists the unions that are bought for their tails: where old pipe goes with the tail it is cemented
// into, and new pipe comes, another tail has to fit the old nut, or the whole new half the old thread.
func (b *biller) addTails() {
	for _, at := range b.lay.NewTails(b.c) {
		p := b.lay.Stage.Part(at.Part)
		size := p.Size.V
		b.add(line{Item: Item{Name: join("union for its tail, of the make of the old one", size.String()), Kind: string(graph.Union), Spec: p.Spec.V,
			Size: size.String(), Quantity: 1, Unit: "pc", Source: "cemented pipe does not come out of its socket; common practice, no source",
			New: true, Measure: true, Where: places("tail of " + at.String())}, size: size})
	}
}
