package route

import "dryfit/graph"

// placeChains gives each adaptor between a part and its pipe the place of its two faces.
func (l *layer) placeChains() {
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

func (l *layer) placeChain(path *Path, s *station, from, towards graph.Vec) {
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

// Existing names, as Joint.BodyA and BodyB do, everything that is there already.
const Existing = ground

// BodyAt names the rigid body that the socket at a port belongs to, as Joint.BodyA and
// BodyB do: Existing for what is there already.
func (lay *Layout) BodyAt(p *graph.Part, port string) string {
	return bodyOf(lay.Stage.Part(p.ID), port)
}

// PieceBody and FittingBody name the rigid bodies of a piece (index into Pieces) and of a
// fitting (indexes into Paths and its Fittings), as Joint.BodyA and BodyB do.
func PieceBody(piece int) string { return pieceBody(piece) }

// FittingBody names the rigid body of a fitting: see PieceBody.
func FittingBody(run, fitting int) string { return fittingBody(run, fitting) }
