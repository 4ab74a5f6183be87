package laying

import "dryfit/graph/route"

// stops returns what stands at each point of a run with legs: how far its pipe stops short
// of the point and how deep it goes in.
func (l *work) stops(i int) []route.End {
	out := make([]route.End, len(l.lay.Paths[i].Points))
	for v := range out {
		if s, ok := l.at(i, v); ok {
			out[v] = route.End{Fitting: s.words, Kind: s.kind, TakeOffMM: s.takeOff, ShortMM: s.short, DepthMM: s.depth,
				TolMinusMM: s.tolMinus, TolPlusMM: s.tolPlus, Measure: s.measure}
		}
	}
	return out
}
