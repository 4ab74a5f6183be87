package picture

import (
	"math"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/render/isometric/members"
	"dryfit/render/isometric/space"
	"dryfit/render/label"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// line is one line of a callout.
type line struct {
	text string
	size float64
	bold bool
}

const linePitch = 1.2 // em

// callout is an upright label that stands near a mark, on a leader where it stands off.
type callout struct {
	at       scene.Point
	clear    float64 // radius of what it must keep off, mm
	lines    []line
	ring     bool // in a circle: a piece's number
	name     string
	rank     int
	far      []float64 // distances tried; none: it stands where it is put, without a leader
	leaveOut bool      // where there is no room
	plain    bool      // with a leader always, from the mark itself
	always   bool      // in an overview too
	long     bool      // its leader may cross pipe
	of       string    // whose it is, for the note where there is no room: what it says alone would not tell
}

// zoom makes a callout larger, on a drawing that is made smaller for its page.
func (c *callout) zoom(z float64) {
	c.lines, c.far = slices.Clone(c.lines), slices.Clone(c.far)
	for i := range c.lines {
		c.lines[i].size *= z
	}
	for i := range c.far {
		c.far[i] *= z
	}
}

// anywhere is the callout on a leader as long as it takes; none for one that may be left out.
func (c callout) anywhere() []callout {
	if c.leaveOut {
		return nil
	}
	c.plain, c.long, c.far = true, true, []float64{2.5, 4, 6, 8, 11, 14, 18, 23, 28, 34, 41}
	return []callout{c}
}

// words is what the callout says, in one line.
func (c *callout) words() string {
	var out []string
	for _, l := range c.lines {
		out = append(out, l.text)
	}
	text := strings.Join(out, " ")
	if c.ring && c.name == "piece" {
		return "piece " + text
	}
	return text + c.of
}

// withLeader is the distance from which a callout gets a leader, mm.
const withLeader = 2.6

func (c *callout) size() (w, h float64) {
	for _, l := range c.lines {
		w = math.Max(w, scene.TextWidth(l.text, l.size, l.bold))
		h += l.size * linePitch
	}
	if c.ring {
		w = 2 * RingR(w)
		h = w
	}
	return w, h
}

// ringClear is kept free round a ring, half its pen among it, mm.
const ringClear = 0.2

// RingR is the radius of the circle round a piece's number: 3M across. Source: common
// practice, no source.
func RingR(textW float64) float64 { return math.Max(3.1, textW/2+1.1) }

// turns is the number of ways from a mark that are tried for a callout, longTurns for one on a leader
// that may cross pipe.
const (
	turns     = 24
	longTurns = 120
)

// wantCallout asks for a place about a mark: near it, else farther and farther off.
func (p *Picture) wantCallout(c callout) {
	if p.overview && c.rank >= 2 && (!c.always || p.D.Dense) {
		return
	}
	if z := p.D.Zoom; z > 1 {
		c.zoom(z)
	}
	r := request{name: c.name + " " + c.lines[0].text, words: c.words(), again: c.anywhere(), rank: c.rank}
	if c.leaveOut {
		r.first = func() []candidate { return append(p.calloutSpots(c, 0, len(c.far)), nothing()) }
	} else {
		r.first = func() []candidate { return p.calloutSpots(c, 0, 3) }
		for from := 3; from < len(c.far); from += 2 {
			r.later = append(r.later, func() []candidate { return p.calloutSpots(c, from, from+2) })
		}
	}
	p.requests = append(p.requests, r)
}

// calloutSpots are the spots of a callout at some of its distances.
func (p *Picture) calloutSpots(c callout, from, to int) []candidate {
	w, h := c.size()
	ways := turns
	if c.long { // a way past letters is narrow
		ways = longTurns
	}
	var out []candidate
	for i := from; i < min(to, len(c.far)); i++ {
		for k := range ways {
			sin, cos := math.Sincos(2 * math.Pi * (float64(k) + 0.5) / float64(ways))
			dir := scene.Point{X: cos, Y: -sin}
			if c.long && alongAxis(dir) {
				continue
			}
			support := math.Abs(cos)*w/2 + math.Abs(sin)*h/2
			if c.ring {
				support = w / 2
			}
			mid := space.Add(c.at, space.Times(c.clear+c.far[i]+support, dir))
			out = p.calloutAt(out, &c, mid, dir, w, h, float64(i)*4+calloutTurn(dir))
		}
	}
	return out
}

// mostAlong is the cosine of the least angle, 7°, between a leader that crosses pipe and an axis: one
// that ran along a pipe would be lost on it, and seem to come from farther on.
const mostAlong = 0.9925

// alongAxis reports whether a way on the drawing runs along one of the pipes' axes.
func alongAxis(dir scene.Point) bool {
	for ax := space.Axis(0); ax < 3; ax++ {
		if way := space.Unit(space.Project(ax.Unit())); math.Abs(way.X*dir.X+way.Y*dir.Y) > mostAlong {
			return true
		}
	}
	return false
}

// calloutTurn makes the sides of a mark that are read first cheaper.
func calloutTurn(dir scene.Point) float64 { return 0.4 * (1 - 0.6*dir.X + 0.4*dir.Y) }

// calloutAt adds one place of a callout, unless something fixed is there.
func (p *Picture) calloutAt(out []candidate, c *callout, mid, dir scene.Point, w, h, cost float64) []candidate {
	box := scene.Box{MinX: mid.X - w/2, MinY: mid.Y - h/2, MaxX: mid.X + w/2, MaxY: mid.Y + h/2}
	parts := []scene.Box{box.Grow(0.2)}
	edge := w / 2
	if c.ring {
		parts = space.DiscBoxes(mid, w/2+ringClear)
	}
	if !p.board.Clear(parts) {
		return out
	}
	bare := 0
	if c.long { // it crosses what is drawn, but no letters
		bare = len(parts)
	}
	if !c.ring {
		edge = math.Min(w/2/math.Max(math.Abs(dir.X), 1e-9), h/2/math.Max(math.Abs(dir.Y), 1e-9)) + 0.3
	}
	tip := space.Sub(mid, space.Times(edge, dir))
	start := space.Add(c.at, space.Times(c.clear, dir))
	leader := len(c.far) > 0 && (space.Length(space.Sub(tip, start)) > withLeader || c.plain)
	if leader {
		from := start
		if c.long {
			from = c.at
		}
		strip := space.Strip(from, tip, 0.15)
		if !c.long && !p.board.Clear(strip) {
			return out
		}
		parts = append(parts, strip...)
	}
	return append(out, candidate{label.Spot{Cost: cost, Parts: parts, Bare: bare}, func() []scene.Item {
		var out []scene.Item
		if leader {
			from := start
			if c.plain {
				from = c.at
			}
			name := "leader:" + c.name
			if c.long {
				name = "long-leader"
			}
			out = append(out, scene.Line(from, tip, scene.Stroke(penDim)).Named(name))
		}
		if c.ring {
			out = append(out, scene.Circle(mid, w/2, scene.Outline(sheet.Fine)).Named("ring"))
		}
		y := mid.Y
		for _, l := range c.lines {
			y -= l.size * linePitch / 2
		}
		for _, l := range c.lines {
			y += l.size * linePitch / 2
			out = append(out, scene.Text{At: scene.Point{X: mid.X, Y: y}, Text: l.text, SizeMM: l.size, Bold: l.bold,
				Anchor: scene.Centre, Middle: true, Name: "label:" + c.name})
			y += l.size * linePitch / 2
		}
		return out
	}})
}

// wantTag asks for a spot for a part's name beside its sign.
func (p *Picture) wantTag(part *graph.Part, at scene.Point, room float64) {
	lines := []line{{p.D.Names.Short(part.ID), members.TagEm, true}}
	switch {
	case p.overview:
		lines[0].text = p.D.Names.Tag(part.ID)
	case p.D.Only == nil:
		for _, f := range p.D.Facts(part) {
			lines = append(lines, line{f, members.TextEm, false})
		}
	}
	p.wantCallout(callout{at: at, clear: room, lines: lines, name: "part:" + part.ID, rank: 3, always: part.Kind != graph.Tee || part.New(), far: []float64{0.2, 1.2, 2.4, 4, 6, 9, 13, 18}})
}

// wantPieces asks for places for the pieces' numbers, in circles on leaders; that of hose,
// which goes on round corners, once.
func (p *Picture) wantPieces() {
	longest := map[*route.Piece]int{}
	for i := range p.Ms {
		for _, piece := range p.Ms[i].Pieces {
			if k, ok := longest[piece]; !ok || p.shown(i) > p.shown(k)+0.01 {
				longest[piece] = i
			}
		}
	}
	for i := range p.Ms {
		m := &p.Ms[i]
		for k, at := range p.pieceSpots(i) {
			piece := m.Pieces[k]
			if piece.Spec.Flexible() && longest[piece] != i {
				continue
			}
			p.wantPiece(piece, at)
		}
	}
}

// wantPiece asks for a spot for a piece's number near a point of it.
func (p *Picture) wantPiece(piece *route.Piece, at scene.Point) {
	p.wantCallout(callout{at: at, clear: 1.5, lines: []line{{Number(piece.Number), members.PieceEm, true}}, ring: true,
		name: "piece", rank: 1, plain: true, far: []float64{3, 4.5, 6.5, 9, 12, 16}})
}

// pieceSpots are the places of a member's pieces: of those between two fittings of a stack
// there, of the others along what is left.
func (p *Picture) pieceSpots(i int) []scene.Point {
	m := &p.Ms[i]
	if len(m.Pieces) == 0 {
		return nil
	}
	a, b := space.Project(p.A[i]), space.Project(p.B[i])
	out, short := make([]scene.Point, len(m.Pieces)), make([]bool, len(m.Pieces))
	long := 0
	for k, piece := range m.Pieces {
		if out[k], short[k] = p.shortAt(i, piece); !short[k] {
			long++
		}
	}
	nth, shares := 0, p.leaderShares(i)
	for k := range m.Pieces {
		switch {
		case short[k]:
			continue
		case !m.IsNew && m.Run != nil:
			out[k] = p.nippleAt(i)
		case long == len(shares):
			out[k] = space.Along(a, b, shares[nth])
		default: // couplings without a place
			out[k] = space.Along(a, b, (float64(nth)+0.5)/float64(long))
		}
		nth++
	}
	return out
}

// shortAt is the place of a piece that stands between two fittings at one end of a leg.
func (p *Picture) shortAt(i int, piece *route.Piece) (scene.Point, bool) {
	m := &p.Ms[i]
	if m.Run == nil {
		return scene.Point{}, false
	}
	for _, far := range []bool{false, true} {
		s := p.D.Stack(m, far)
		if from, to, ok := s.Holds(piece); ok {
			base := s.Base
			if base == 0 {
				base = -p.slack(i, far)
			}
			return space.Project(p.onLeg(i, far, base+members.NextSpot*float64(from+to)/2)), true
		}
	}
	return scene.Point{}, false
}

// nippleAt is where a nipple of an old run stands: behind the first of the fittings at the new
// part it ends at.
func (p *Picture) nippleAt(i int) scene.Point {
	m := &p.Ms[i]
	part := p.D.Parts[m.Run.To.Part]
	far := part != nil && part.New()
	base := p.D.Stack(m, far).Base
	if base == 0 {
		base = -p.slack(i, far)
	}
	return space.Project(p.onLeg(i, far, base+members.NextSpot))
}

// wantOld asks for places for the names of old runs, each beside its longest leg; none where
// nothing new is drawn, from which they could lead away.
func (p *Picture) wantOld() {
	if p.D.OldAll && p.D.In.Gone == nil {
		return
	}
	longest := map[string]int{}
	for i := range p.Ms {
		if m := &p.Ms[i]; m.Run != nil && !m.IsNew && !m.Stub {
			if k, ok := longest[oldID(m)]; !ok || p.shown(i) > p.shown(k)+0.01 {
				longest[oldID(m)] = i
			}
		}
	}
	for i := range p.Ms {
		m := &p.Ms[i]
		name := oldID(m)
		if k, ok := longest[name]; !ok || k != i {
			continue
		}
		words := "existing pipe"
		if m.Run.Removed {
			words = "taken out"
		} else if t := p.D.Names.Towards(p.D.Net, m.Run.ID); t != "" {
			words = "existing, " + t
		}
		a, b := space.Project(p.A[i]), space.Project(p.B[i])
		p.wantCallout(callout{at: space.Along(a, b, p.leaderShare(i)), clear: 1, lines: []line{{words, members.TextEm, false}},
			name: "old:" + m.Run.ID, rank: 4, leaveOut: true, always: true, far: []float64{0.3, 1.2, 2.5, 4, 6, 9, 13, 18}})
	}
}

// oldID is the run a member is of.
func oldID(m *members.Member) string {
	if m.Run == nil {
		return ""
	}
	return m.Run.ID
}

// wantSizes asks for places for the sizes of pipe that is not the sheet's.
func (p *Picture) wantSizes() {
	said := map[string]bool{}
	for i := range p.Ms {
		m := &p.Ms[i]
		if m.Run == nil || (!m.IsNew && !p.D.OldAll) || m.Run.Size.IsZero() || said[m.Run.ID] {
			continue
		}
		k := members.PipeOf{Spec: m.Run.Spec, Size: m.Run.Size}
		if k == p.D.Common {
			continue
		}
		said[m.Run.ID] = true
		text := k.Size.String()
		if k.Spec != p.D.Common.Spec {
			text = members.PipeText(k)
		} else if p.D.In.Units == quantity.InchSystem && !k.Size.Metric { // its lengths are in inches too: "2 in" alone may be one
			text += " pipe"
		}
		if cut := p.D.HoseCut(m); cut != "" {
			text += ", cut " + cut
		}
		a, b := space.Project(p.A[i]), space.Project(p.B[i])
		p.wantCallout(callout{at: space.Along(a, b, p.leaderShare(i)), clear: 1, lines: []line{{text, members.TextEm, false}}, name: "size", rank: 4,
			of: ", " + m.Run.Spec.Word() + " " + p.D.Names.Run(m.Run.ID), far: []float64{0.3, 1.2, 2.5, 4, 6, 9, 13}})
	}
}
