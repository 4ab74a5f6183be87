package settle

import (
	"math"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// Body is the room equipment takes that the description gives no box of, mm: how far it goes behind
// a port, how thick and how high it is about its ports. Nothing of what is pipe or fitting.
type Body struct {
	LongMM, ThickMM, HighMM float64
	Origin
}

// words says how large a body is.
func (b *Body) words() Value {
	if b.LongMM == 0 {
		return Value{}
	}
	mm := quantity.Length.Of
	return words(string(graph.Say("%s behind a port, %s thick and %s high", mm(b.LongMM), mm(b.ThickMM), mm(b.HighMM))), b.Origin)
}

// UnitBody returns the body of a unit in whichever stage it stands: of the row it names, else of
// the one a unit is usually taken to be.
func UnitBody(cat *catalog.Catalog, p *graph.Part) Body {
	row, named := catalog.Row{}, false
	if p.Type != "" {
		row, named = cat.Row(p.Type)
	}
	return bodyOf(cat, p, Pick[catalog.Row]{row, ofRow(&row, p.KeyPos["type"], !named)}, Pick[catalog.Row]{}, 0)
}

// bodyOf is the body of a part taken to be of a row: the row's, else that of what the part would be
// taken for without it, else of its kind's usual row; of a pump that of the one that gives about as
// much of the water, of a density (kg/m³).
func bodyOf(cat *catalog.Catalog, p *graph.Part, of, otherwise Pick[catalog.Row], density float64) Body {
	row, from := of.V, of.Origin
	if p.Box != nil || Fitted(p.Kind) || p.Kind == graph.Tub {
		return Body{}
	}
	if p.Pump != nil && (p.Type == "" || row.BodyLongMM == 0 || row.BodyThickMM == 0) {
		if r, ok := pumpAlike(cat, p.Pump.Speeds, density); ok {
			row, from = r, assumed("as that of "+quantity.Text(r.Name)+", the pump of the catalogue nearest to it in what it gives")
		}
	}
	if row.BodyLongMM == 0 || row.BodyThickMM == 0 {
		row, from = otherwise.V, otherwise.Origin
	}
	if row.BodyLongMM == 0 || row.BodyThickMM == 0 {
		usual, ok := cat.Generic(string(p.Kind))
		if !ok {
			return Body{}
		}
		row, from = usual, assumed("as that of "+quantity.Text(usual.Name))
	}
	high := row.BodyHighMM
	if high == 0 {
		high = row.BodyThickMM
	}
	return Body{row.BodyLongMM, row.BodyThickMM, high, from}
}

// pumpAlike is the row of the catalogue's pumps whose largest speed is nearest to the largest of
// those described: in flow times head where there is a curve, else in power; the first of equals.
func pumpAlike(cat *catalog.Catalog, speeds []graph.Speed, density float64) (best catalog.Row, ok bool) {
	work, power := largest(speeds, density)
	nearest := math.Inf(1)
	for r := range cat.All() {
		if r.Kind != string(graph.Pump) || r.OwnsCurve() || r.BodyLongMM == 0 {
			continue
		}
		itsWork, itsPower := largest(graph.SpeedsOf(*r), density)
		off := math.Inf(1)
		switch {
		case work > 0 && itsWork > 0:
			off = math.Abs(math.Log(work / itsWork))
		case power > 0 && itsPower > 0:
			off = math.Abs(math.Log(power / itsPower))
		}
		if off < nearest {
			best, nearest, ok = *r, off, true
		}
	}
	return best, ok
}

// largest is the most flow times the shut-off head of a pump's speeds, m⁴/s, and the most power, W.
func largest(speeds []graph.Speed, density float64) (work, power float64) {
	for i := range speeds {
		power = max(power, speeds[i].PowerW)
		if c := speeds[i].Curve; len(c) > 0 {
			work = max(work, c[0].Head.Head(density)*c[len(c)-1].Flow)
		}
	}
	return work, power
}
