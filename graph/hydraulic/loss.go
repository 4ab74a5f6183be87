package hydraulic

import (
	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/hydraulic/formula"
)

// describedLaw returns the loss a description gives, in any of its forms; bore in m is that
// of the pipe, used where K has none of its own. falls reports a table whose drop falls with
// the flow, which is held level there.
//
// exponent is that of the kind, for a loss of one point that gives none.
func describedLaw(l *graph.Loss, bore, density, exponent float64) (law *partLaw, falls bool) {
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
		return &partLaw{square: squareOf(l.K, bore), times: 1}, false
	case l.Kv > 0:
		return &partLaw{square: formula.KvHead(l.Kv), times: 1}, false
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
		return powerLaw(q[0], h[0], exponent), false
	}
	table, falls := newLossTable(q, h)
	return &partLaw{table: table, times: 1}, falls
}

// rowLaw returns the loss a catalogue row gives: handbook L/D, K, Kv or one point of a
// sheet, the first it has. bore in m is that of the pipe.
func rowLaw(row catalog.Row, bore, density float64) *partLaw {
	if row.BoreMM > 0 && row.K > 0 {
		bore = row.BoreMM / 1000
	}
	switch {
	case row.LoverD > 0 && bore > 0:
		return &partLaw{square: squareOf(formula.HandbookK(row.LoverD, bore), bore), times: 1}
	case row.K > 0 && bore > 0:
		return &partLaw{square: squareOf(row.K, bore), times: 1}
	case row.Kv > 0:
		return &partLaw{square: formula.KvHead(row.Kv), times: 1}
	case row.LossFlow > 0:
		return powerLaw(row.LossFlow, row.LossDropPa/(density*formula.Gravity), exponentOf(row).Likely)
	}
	return nil
}

// exponentOf returns the exponent of a row's loss: its own, else that of its style or kind.
func exponentOf(row catalog.Row) catalog.Exponent {
	if row.Exponent > 0 {
		return catalog.Exponent{Likely: row.Exponent, Low: row.Exponent, High: row.Exponent, Source: row.Source}
	}
	return catalog.ExponentOf(row.Style, row.Kind)
}
