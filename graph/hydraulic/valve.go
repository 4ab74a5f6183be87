package hydraulic

import (
	"math"

	"dryfit/catalog/tables"
	"dryfit/graph/hydraulic/formula"
	"dryfit/graph/hydraulic/laws"
	"dryfit/graph/settle"
)

// ValveAt is a hand valve by its opening curve.
type ValveAt struct {
	kind  string
	curve [][2]float64 // share open -> share of the fully open Kv, of a row of the user's; nil: the kind's table of K
	full  float64      // K fully open, on bore
	Share float64      // open, as described, 0 to 1
	bore  float64      // m
}

// leastOpen is the least share open a valve is worked out at: nearer to shut nothing is known
// of it but that little passes.
const leastOpen = 0.02

// k returns K on the bore at a share open.
func (v *ValveAt) k(share float64) float64 {
	share = min(max(share, leastOpen), 1)
	if v.curve != nil {
		return tables.CurveK(v.curve, share, v.full)
	}
	k, _ := tables.OpeningK(v.kind, share, v.full)
	return k
}

// valveOf is a hand valve of a settled stage in water of a density, kg/m³: by its own loss fully open, else
// its row's.
func valveOf(p *settle.Part, density float64) *ValveAt {
	v := &ValveAt{kind: string(p.Kind), curve: p.Loss.Row.Opening, bore: p.Bore.V / 1000}
	if v.bore <= 0 {
		return v
	}
	row := p.Loss.Row
	law := laws.RowLaw(row, v.bore, density)
	if l := p.Part.Loss; l != nil && !l.None {
		law, _ = laws.DescribedLaw(l, v.bore, density, laws.ExponentOf(row).Likely)
	}
	if law != nil {
		v.full = lossK(law, v.bore)
	}
	return v
}

// StandsAt returns the share open, 0 to 1, at which a hand valve passes a Kv, m³/h at 1 bar: where its
// handle stands, by the curve its flows are worked out by. ok is false where it passes no more than that
// fully open, or nothing says what it costs then.
func StandsAt(p *settle.Part, kv, density float64) (share float64, ok bool) {
	v := valveOf(p, density)
	if kv <= 0 || v.full <= 0 {
		return 0, false
	}
	k := formula.KvToK(kv, v.bore)
	if k <= v.full {
		return 0, false
	}
	shut, open := 0.0, 1.0
	for range 40 {
		middle := (shut + open) / 2
		if v.k(middle) > k {
			shut = middle
		} else {
			open = middle
		}
	}
	return (shut + open) / 2, true
}

// setPosition sets a hand valve: fully open by its loss, partly open by its opening curve on
// its bore, or by the Kv described for its position.
func (b *builder) setPosition(m *ModelPart, law *laws.PartLaw) *laws.PartLaw {
	p := m.Part
	own, position, kv := float64(p.Opening()), float64(b.m.Mode.Opening(p)), 0.0
	if p.Valve != nil {
		kv = p.Valve.Kv
	}
	at := valveOf(b.settled(p), b.m.Water.Density)
	at.Share = position
	switch {
	case position <= 0:
		m.Shut = true
		return nil
	case kv > 0:
		m.Source, m.Given = "described", GivenKv
		law = &laws.PartLaw{Square: formula.KvHead(kv), Times: 1}
		if position != own && m.BoreM > 0 { // the Kv is that of the part's own position
			m.Given = GivenPosition
			ratio := 1.0
			if own > 0 {
				ratio = at.k(position) / at.k(own)
			}
			law.Square *= ratio
		}
		return law
	case position >= 1 || m.BoreM <= 0:
		return law
	}
	m.Valve, m.Given = at, GivenPosition
	out := &laws.PartLaw{Square: laws.SquareOf(at.k(position), m.BoreM), Times: 1}
	if p.Loss != nil && p.Loss.None { // nothing when open
		out.Square = max(0, out.Square-laws.SquareOf(at.k(1), m.BoreM))
		m.Valve = nil
	}
	if m.Source == "none" {
		m.Source = "catalogue"
	}
	return out
}

// lossK returns the loss coefficient on a bore that a law has at a velocity of 1.5 m/s, about
// what pipe carries.
func lossK(l *laws.PartLaw, bore float64) float64 {
	q := 1.5 * formula.Area(bore)
	h, _ := l.Loss(q)
	return math.Abs(h) / (formula.HeadPerFlow2(bore) * q * q)
}
