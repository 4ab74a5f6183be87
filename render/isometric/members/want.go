package members

import (
	"math"

	"dryfit/render/isometric/space"
	"dryfit/render/scene"
)

// Letter heights (em), mm: capitals of em 3.4 are 2.5 mm high.
const (
	DimEm   = 2.9
	JointEm = 2.5
	PieceEm = 3.2
	TagEm   = 2.9
	TextEm  = 2.5
)

// Display lengths, mm.
const (
	leastNew = 17.0
	mostNew  = 46.0
	leastOld = 11.0
	mostOld  = 24.0
	fromNode = 3.2 // from the centre of an elbow or tee to its first joint
	NextSpot = 4.6 // from one joint to the next where fittings are set close together

	leastPiece = 8.0  // of a piece between couplings, in an overview
	PieceRoom  = 12.0 // the same with the joints of these
)

// want is the display length a member asks for: it grows with the root of the real length,
// so that longer pipe is drawn longer and all are readable, and is never less than what
// stands on it takes.
func (d *Drawing) want(m *Member, scale float64) float64 {
	length := m.Way().Len()
	if m.Run == nil {
		s, _ := d.Sign(m.Part)
		return s.Out - s.In
	}
	if d.Overview {
		if d.Dense {
			return scale * 9
		}
		return scale * math.Max(math.Min(mostNew, math.Max(leastNew, 9+0.9*math.Sqrt(length))), leastPiece*float64(len(d.Sleeves(m))+1))
	}
	if m.CutA != "" || m.CutB != "" {
		return math.Max(scale*24+PieceRoom*float64(len(d.Sleeves(m))), d.textRoom(m, d.LegText(m)))
	}
	if !m.IsNew && !d.OldAll {
		return scale * math.Min(mostOld, math.Max(leastOld, 8+0.5*math.Sqrt(length)))
	}
	soft := scale * math.Min(mostNew, math.Max(leastNew, 9+0.9*math.Sqrt(length)))
	return math.Max(soft, math.Max(d.standing(m), d.textRoom(m, d.LengthText(length))))
}

// textRoom is the display length a member needs for the text of its length: beside an upright
// one it stands level.
func (d *Drawing) textRoom(m *Member, text string) float64 {
	em := DimEm * math.Max(1, d.Zoom)
	if way := m.Way(); math.Hypot(way.X, way.Y) < space.SameLevel {
		return em + 7
	}
	return scene.TextWidth(text, em, false) + 7
}

// standing is the length taken up by the joints and fittings at both ends, the couplings along it,
// the pieces' leaders and a flow arrow.
func (d *Drawing) standing(m *Member) float64 {
	n := 12.0 + PieceRoom*float64(len(d.Sleeves(m)))
	for _, far := range []bool{false, true} {
		s := d.Stack(m, far)
		if k := len(s.Joints); k > 0 {
			n += s.Base + NextSpot*float64(k-1)
		}
	}
	return n
}
