package laying

import (
	"dryfit/graph"
	"dryfit/graph/route"
)

// placeChains gives each adaptor between a part and its pipe the place of its two faces.
func (l *work) placeChains() {
	for i := range l.lines {
		path := &l.lay.Paths[i]
		if !path.Located {
			continue
		}
		n := len(path.Points)
		l.placeChain(path, &l.lines[i].from, path.Points[0], path.Points[1])
		l.placeChain(path, &l.lines[i].to, path.Points[n-1], path.Points[n-2])
	}
}

func (l *work) placeChain(path *route.Path, s *station, from, towards graph.Vec) {
	way, at := towards.Sub(from).Unit(), s.partTakeOff
	for k := range s.chain {
		a := &s.chain[k]
		at += a.NippleMM
		if a.fitting >= 0 {
			f := &path.Fittings[a.fitting]
			near := at
			if a.NippleMM > 0 {
				near -= a.NippleToMM
			}
			f.Near, f.Far = from.Add(way.Scale(near)), from.Add(way.Scale(at+a.AddsMM+a.DepthMM))
		}
		at += a.AddsMM
	}
}
