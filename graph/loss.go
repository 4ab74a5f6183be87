package graph

import (
	"math"

	"dryfit/catalog/quantity"
	"dryfit/graph/hydraulic/formula"
)

// Loss is a part's loss as the description gives it: just one of the forms is set.
type Loss struct {
	None     bool        // an ideal junction or part
	Points   []LossPoint // one: by Exponent through it; several: a table, flow rising
	Exponent float64     // of the one point: drop as flow to this power; 0: the kind's
	K        float64     // with BoreMM, if HasK
	HasK     bool
	BoreMM   float64 // 0: the port's bore
	Kv       float64 // m³/h at 1 bar; 0: not this form (a Cv is converted when read)
	Pos      Pos
}

// LossPoint is one line of a data sheet.
type LossPoint struct {
	Flow float64 // m³/s
	Drop Drop
}

// Drop is a loss at some flow: a pressure in Pa, or a head in m of the water pumped.
type Drop struct {
	Value  float64
	IsHead bool
}

// Head returns the drop in m of water of the density (kg/m³).
func (d Drop) Head(density float64) float64 {
	if d.IsHead {
		return d.Value
	}
	return d.Value / (density * formula.Gravity)
}

// Pascals returns the drop in Pa, a metre of the water weighing so much (Pa).
func (d Drop) Pascals(metre float64) float64 {
	if d.IsHead {
		return d.Value * metre
	}
	return d.Value
}

// Dimension is what the drop is given as.
func (d Drop) Dimension() quantity.Dimension {
	if d.IsHead {
		return quantity.Head
	}
	return quantity.Pressure
}

// Words says the form of the loss: "6 kPa at 10 m3/h", "K 4.5 on 40 mm".
func (l *Loss) Words() quantity.Text {
	switch {
	case l.None:
		return "none"
	case l.HasK:
		return KWords(l.K, l.BoreMM)
	case l.Kv > 0:
		return Say("%s", quantity.Kv.Of(l.Kv))
	}
	var points []quantity.Text
	for _, p := range l.Points {
		points = append(points, p.Words())
	}
	return quantity.Join(points, ", ")
}

// Words says the point: "6 kPa at 10 m3/h", the flow so that nobody who copies it is off by more than half
// a per cent: 1.75 m3/h are not 1.8.
func (p LossPoint) Words() quantity.Text {
	const usual = 0.1 / 3600 // m³/s, to which flows are printed
	flow := quantity.Flow.Of(p.Flow)
	if off := math.Abs(math.Remainder(p.Flow, usual)); off > 0.005*p.Flow {
		flow = quantity.Flow.Finely(p.Flow)
	}
	return Say("%s at %s", p.Drop.Dimension().Of(p.Drop.Value), flow)
}

// KWords says a loss coefficient and the bore it stands on in mm; 0: that of the port.
func KWords(k, boreMM float64) quantity.Text {
	if boreMM > 0 {
		return Say("K %s on %s", quantity.Trim(quantity.Round(k, 3)), quantity.Length.Finely(boreMM))
	}
	return Say("K %s", quantity.Trim(quantity.Round(k, 3)))
}

// Times returns a loss of so many times the drop at every flow, in the same form. rounded says how
// a drop and a Kv are written down.
func (l *Loss) Times(by float64, rounded func(x float64, d quantity.Dimension) float64) *Loss {
	out := *l
	out.Points = append([]LossPoint(nil), l.Points...)
	for i := range out.Points {
		d := &out.Points[i].Drop
		d.Value = rounded(d.Value*by, d.Dimension())
	}
	out.K *= by
	if out.Kv > 0 {
		out.Kv = rounded(out.Kv/math.Sqrt(by), quantity.Kv)
	}
	return &out
}
