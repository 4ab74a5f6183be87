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
			near, far := at, at+a.AddsMM+a.DepthMM
			switch {
			case a.NippleMM > 0:
				near -= a.NippleToMM
			case a.Kind == "coupling": // over a bush or a spigot, as deep as over the pipe
				near -= a.DepthMM
			}
			if a.Kind == "reducing-bush" && a.Size.NominalMM() < a.Size2.NominalMM() { // its spigot is towards the pipe
				far -= a.DepthMM
			}
			f.Near, f.Far = from.Add(way.Scale(near)), from.Add(way.Scale(far))
		}
		at += a.AddsMM
	}
}
