package laws

import (
	"dryfit/catalog"
	"dryfit/catalog/tables"
	"dryfit/graph"
	"dryfit/graph/hydraulic/formula"
)

// DescribedLaw returns the loss a description gives, in any of its forms; bore in m is that
// of the pipe, used where K has none of its own. falls reports a table whose drop falls with
// the flow, which is held level there.
//
// exponent is that of the kind, for a loss of one point that gives none.
func DescribedLaw(l *graph.Loss, bore, density, exponent float64) (law *PartLaw, falls bool) {
	switch {
	case l.None:
		return nil, false
	case l.HasK:
		if l.BoreMM > 0 {
			bore = l.BoreMM / 1000
		}
		if bore <= 0 {
			return nil, false
		}
		return &PartLaw{Square: SquareOf(l.K, bore), Times: 1}, false
	case l.Kv > 0:
		return &PartLaw{Square: formula.KvHead(l.Kv), Times: 1}, false
	}
	var q, h []float64
	for _, p := range l.Points {
		if p.Flow > 0 {
			q, h = append(q, p.Flow), append(h, p.Drop.Head(density))
		}
	}
	switch len(q) {
	case 0:
		return nil, false
	case 1:
		if l.Exponent > 0 {
			exponent = l.Exponent
		}
		return PowerLaw(q[0], h[0], exponent), false
	}
	table, falls := NewLossTable(q, h)
	return &PartLaw{Table: table, Times: 1}, falls
}

// RowLaw returns the loss a catalogue row gives: handbook L/D, K, Kv or one point of a
// sheet, the first it has. bore in m is that of the pipe.
func RowLaw(row catalog.Row, bore, density float64) *PartLaw {
	if row.BoreMM > 0 && row.K > 0 {
		bore = row.BoreMM / 1000
	}
	switch {
	case row.LoverD > 0 && bore > 0:
		return &PartLaw{Square: SquareOf(formula.HandbookK(row.LoverD, bore), bore), Times: 1}
	case row.K > 0 && bore > 0:
		return &PartLaw{Square: SquareOf(row.K, bore), Times: 1}
	case row.Kv > 0:
		return &PartLaw{Square: formula.KvHead(row.Kv), Times: 1}
	case row.LossFlow > 0:
		return PowerLaw(row.LossFlow, row.LossDropPa/(density*formula.Gravity), ExponentOf(row).Likely)
	}
	return nil
}

// ExponentOf returns the exponent of a row's loss: its own, else that of its style or kind.
func ExponentOf(row catalog.Row) tables.Exponent {
	if row.Exponent > 0 {
		return tables.Exponent{Likely: row.Exponent, Low: row.Exponent, High: row.Exponent, Source: row.Source}
	}
	return tables.ExponentOf(row.Style, row.Kind)
}
