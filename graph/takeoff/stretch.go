package takeoff

import "dryfit/graph/takeoff/stock"

// Stretch is one part of a bar as it is marked out, from its end, mm.
type Stretch struct {
	FromMM, ToMM float64
	Piece        int // number of the piece; 0: what is left over
}

// Stretches lays a bar out: its pieces in the order they are cut, a kerf after each, then
// what is left over, if anything. The gaps between are what the saw takes.
func (l *CutList) Stretches(b stock.Bar) []Stretch {
	length := make(map[int]float64, len(l.Pieces))
	for _, p := range l.Pieces {
		length[p.Number] = p.SawMM()
	}
	var out []Stretch
	at := 0.0
	for _, n := range b.Pieces {
		out = append(out, Stretch{FromMM: at, ToMM: at + length[n], Piece: n})
		at += length[n] + l.KerfMM
	}
	if b.OffcutMM > 0 {
		out = append(out, Stretch{FromMM: b.StockMM - b.OffcutMM, ToMM: b.StockMM})
	}
	return out
}
