package hydraulic

import (
	"dryfit/graph"
	"dryfit/graph/hydraulic/laws"
)

// design is what a maker chooses the parts of a pump's line by: the flow and the head of the
// most water power, m³/s and m.
type design struct{ flow, head float64 }

// designOf returns the design of a pump at its slowest and at its fastest speed; false where
// no curve is known.
func (b *builder) designOf(p *graph.Part) (low, high design, ok bool) {
	m := &ModelPart{Part: p, Row: b.settled(p).LossRow.V}
	for _, name := range p.SpeedNames() {
		r, err := b.speed(m, name)
		if err != nil {
			continue
		}
		var d design
		d.flow, d.head = r.Curve.Best()
		if d.flow <= 0 {
			continue
		}
		if !ok || d.flow < low.flow {
			low = d
		}
		if !ok || d.flow > high.flow {
			high = d
		}
		ok = true
	}
	return low, high, ok
}

// sizeToLine puts the drop of a catalogue row where the maker of the part meant it to be: at
// the best flow of the line's pump, or at its pipe's share of that beside the line. Where there is
// no pump it stays at the row's own flow.
func (b *builder) sizeToLine(m *ModelPart, law *laws.PartLaw) {
	if m.Row.Sized == "" {
		return
	}
	pump := b.set.Net().LinePump(m.Part)
	if pump == nil {
		return
	}
	low, high, ok := b.designOf(pump)
	if !ok {
		return
	}
	to := low.flow
	if m.Row.Sized == "high" {
		to = high.flow
	}
	loss := &b.settled(m.Part).Loss
	if loss.Aside > 0 {
		to *= loss.Aside
	} else {
		to /= float64(max(loss.Among, 1))
		if loss.AtHalf {
			to /= 2
		}
	}
	m.sized, m.Given = &sizing{pump: pump.ID}, GivenSize
	head := law.Square * law.Ref * law.Ref
	*law = *laws.PowerLaw(to, head, law.Exponent)
}

// jetsOf returns the loss of a group of equal jets in parallel: count times the flow of one at
// the same head. One jet is described by a rated point, else by K on its bore. Of jets nobody
// has measured the maker sized them to their pump: they take the row's share of its head at
// its best flow, whatever their number and bore.
func (b *builder) jetsOf(m *ModelPart, j *graph.JetData) *laws.PartLaw {
	n := float64(max(j.Count, 1))
	density := b.m.Water.Density
	if r := j.Rated; r != nil && r.Flow > 0 {
		m.Source, m.Given = "described", GivenLoss
		q := n * r.Flow
		return &laws.PartLaw{Square: r.Drop.Head(density) / (q * q), Times: 1}
	}
	k, bore := m.Row.K, m.Row.BoreMM
	m.Source, m.Given = "catalogue", GivenRow
	if j.HasK {
		k, m.Source = j.K, "described"
	}
	if j.BoreMM > 0 {
		bore, m.Given = j.BoreMM, GivenBore
	} else if law := b.jetsByPump(m); law != nil {
		return law
	}
	if bore <= 0 {
		m.Source, m.Given = "none", GivenNothing
		return nil
	}
	return &laws.PartLaw{Square: laws.SquareOf(k, bore/1000) / (n * n), Times: 1}
}

// jetsByPump returns the loss of jets of which nothing but the pump is known; nil where there
// is no pump. Several groups of a pump share its flow by their counts.
func (b *builder) jetsByPump(m *ModelPart) *laws.PartLaw {
	pump := b.set.Net().LinePump(m.Part)
	if pump == nil {
		return nil
	}
	_, high, ok := b.designOf(pump)
	if !ok {
		return nil
	}
	if m.Row.HeadShare <= 0 {
		return nil
	}
	q := high.flow * float64(jetCount(m.Part)) / float64(max(b.jetsOfPump(pump), 1))
	if q <= 0 {
		return nil
	}
	m.sized, m.Given = &sizing{pump: pump.ID, head: true}, GivenSize
	return laws.PowerLaw(q, m.Row.HeadShare*high.head, 2)
}

// jetsOfPump counts the jets in a pump's line.
func (b *builder) jetsOfPump(pump *graph.Part) int {
	if b.jets == nil {
		b.jets = map[*graph.Part]int{}
		for _, p := range b.c.OfKind(graph.JetGroup) {
			b.jets[b.set.Net().LinePump(p)] += jetCount(p)
		}
	}
	return b.jets[pump]
}

// jetCount is how many jets a group is.
func jetCount(p *graph.Part) int {
	if p.Jets == nil {
		return 1
	}
	return max(p.Jets.Count, 1)
}
