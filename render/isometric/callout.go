package isometric

import (
	"math"
	"slices"
	"strings"

	"dryfit/graph"
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
	tag      string
	rank     int
	far      []float64 // distances tried; none: it stands where it is put, without a leader
	leaveOut bool      // where there is no room
	plain    bool      // with a leader always, from the mark itself
	always   bool      // in an overview too
	long     bool      // its leader may cross pipe
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

// anywhere is the callout on a leader as long as it takes; nil for one that may be left out.
func (c callout) anywhere() *callout {
	if c.leaveOut {
		return nil
	}
	c.plain, c.long, c.far = true, true, []float64{2.5, 4, 6, 8, 11, 14, 18, 23, 28}
	return &c
}

// words is what the callout says, in one line.
func (c *callout) words() string {
	var out []string
	for _, l := range c.lines {
		out = append(out, l.text)
	}
	text := strings.Join(out, " ")
	if c.ring && c.tag == "piece" {
		return "piece " + text
	}
	return text
}

// withLeader is the distance from which a callout gets a leader, mm.
const withLeader = 2.6

func (c *callout) size() (w, h float64) {
	for _, l := range c.lines {
		w = math.Max(w, scene.TextWidth(l.text, l.size, l.bold))
		h += l.size * linePitch
	}
	if c.ring {
		w = 2 * ringR(w)
		h = w
	}
	return w, h
}

// ringR is the radius of the circle round a piece's number: 3M across. Source: common
// practice, no source.
func ringR(textW float64) float64 { return math.Max(3.1, textW/2+1.1) }

// turns is the number of ways from a mark that are tried for a callout.
const turns = 24

// wantCallout asks for a place about a mark: near it, else farther and farther off.
func (p *picture) wantCallout(c callout) {
	if p.overview && c.rank >= 2 && (!c.always || p.d.dense) {
		return
	}
	if z := p.d.zoom; z > 1 {
		c.zoom(z)
	}
	r := request{tag: c.tag + " " + c.lines[0].text, words: c.words(), again: c.anywhere(), rank: c.rank, places: p.calloutPlaces(c, 0, 3)}
	if c.leaveOut {
		r.places = append(p.calloutPlaces(c, 0, len(c.far)), nothing())
	} else {
		for from := 3; from < len(c.far); from += 2 {
			r.later = append(r.later, func() []candidate { return p.calloutPlaces(c, from, from+2) })
		}
	}
	p.requests = append(p.requests, r)
}

// calloutPlaces are the places of a callout at some of its distances.
func (p *picture) calloutPlaces(c callout, from, to int) []candidate {
	w, h := c.size()
	var out []candidate
	for i := from; i < min(to, len(c.far)); i++ {
		for k := range turns {
			sin, cos := math.Sincos(2 * math.Pi * (float64(k) + 0.5) / turns)
			dir := scene.Point{X: cos, Y: -sin}
			support := math.Abs(cos)*w/2 + math.Abs(sin)*h/2
			if c.ring {
				support = w / 2
			}
			mid := add(c.at, times(c.clear+c.far[i]+support, dir))
			out = append(out, p.calloutAt(c, mid, dir, w, h, float64(i)*4+calloutTurn(dir)))
		}
	}
	return out
}

// calloutTurn makes the sides of a mark that are read first cheaper.
func calloutTurn(dir scene.Point) float64 { return 0.4 * (1 - 0.6*dir.X + 0.4*dir.Y) }

// calloutAt is one place of a callout.
func (p *picture) calloutAt(c callout, mid, dir scene.Point, w, h, cost float64) candidate {
	box := scene.Box{MinX: mid.X - w/2, MinY: mid.Y - h/2, MaxX: mid.X + w/2, MaxY: mid.Y + h/2}
	parts := []scene.Box{box.Grow(0.2)}
	edge := w / 2
	if c.ring {
		parts = discBoxes(mid, w/2+0.3)
	} else {
		edge = math.Min(w/2/math.Max(math.Abs(dir.X), 1e-9), h/2/math.Max(math.Abs(dir.Y), 1e-9)) + 0.3
	}
	tip := sub(mid, times(edge, dir))
	start := add(c.at, times(c.clear, dir))
	leader := len(c.far) > 0 && (length(sub(tip, start)) > withLeader || c.plain)
	if leader {
		parts = append(parts, strip(start, tip, 0.15)...)
	}
	return candidate{label.Place{Box: unionOf(parts), Cost: cost, Parts: parts}, func() []scene.Item {
		var out []scene.Item
		if leader {
			from := start
			if c.plain {
				from = c.at
			}
			tag := "leader:" + c.tag
			if c.long {
				tag = "long-leader"
			}
			out = append(out, scene.Line(from, tip, scene.Stroke(penDim)).Tagged(tag))
		}
		if c.ring {
			out = append(out, scene.Circle(mid, w/2, scene.Outline(sheet.Fine)).Tagged("ring"))
		}
		y := mid.Y
		for _, l := range c.lines {
			y -= l.size * linePitch / 2
		}
		for _, l := range c.lines {
			y += l.size * linePitch / 2
			out = append(out, scene.Text{At: scene.Point{X: mid.X, Y: y}, Text: l.text, SizeMM: l.size, Bold: l.bold,
				Anchor: scene.Centre, Middle: true, Tag: "label:" + c.tag})
			y += l.size * linePitch / 2
		}
		return out
	}}
}

// wantTag asks for a place for a part's name beside its sign.
func (p *picture) wantTag(part *graph.Part, at scene.Point, room float64) {
	lines := []line{{p.d.names.Short(part.ID), tagEm, true}}
	switch {
	case p.overview:
		lines[0].text = p.d.names.Tag(part.ID)
	case p.d.only == nil:
		for _, f := range p.d.facts(part) {
			lines = append(lines, line{f, textEm, false})
		}
	}
	p.wantCallout(callout{at: at, clear: room, lines: lines, tag: "part:" + part.ID, rank: 3, always: part.Kind != graph.Tee || part.New(), far: []float64{0.2, 1.2, 2.4, 4, 6, 9, 13, 18}})
}

// wantPieces asks for places for the pieces' numbers, in circles on leaders.
func (p *picture) wantPieces() {
	for i := range p.ms {
		m := &p.ms[i]
		if len(m.pieces) == 0 {
			continue
		}
		a, b := project(p.a[i]), project(p.b[i])
		for k, piece := range m.pieces {
			share := p.leaderShare(i)
			if n := len(m.pieces); n > 1 {
				share = (float64(k) + 0.5) / float64(n)
			}
			p.wantCallout(callout{at: along(a, b, share), clear: 1.5, lines: []line{{number(piece.Number), pieceEm, true}}, ring: true,
				tag: "piece", rank: 1, plain: true, far: []float64{3, 4.5, 6.5, 9, 12, 16}})
		}
	}
}

// wantOld asks for places for the names of old runs, each beside its longest leg.
func (p *picture) wantOld() {
	longest := map[string]int{}
	for i := range p.ms {
		if m := &p.ms[i]; m.run != nil && !m.isNew && !m.stub {
			if k, ok := longest[oldID(m)]; !ok || p.shown(i) > p.shown(k)+0.01 {
				longest[oldID(m)] = i
			}
		}
	}
	for i := range p.ms {
		m := &p.ms[i]
		name := oldID(m)
		if k, ok := longest[name]; !ok || k != i {
			continue
		}
		words := "existing pipe"
		if t := p.d.names.Towards(p.d.net, m.run.ID); t != "" {
			words = "existing, " + t
		}
		a, b := project(p.a[i]), project(p.b[i])
		p.wantCallout(callout{at: along(a, b, p.leaderShare(i)), clear: 1, lines: []line{{words, textEm, false}},
			tag: "old:" + m.run.ID, rank: 4, leaveOut: true, always: true, far: []float64{0.3, 1.2, 2.5, 4, 6, 9, 13, 18}})
	}
}

// oldID is the run a member is of.
func oldID(m *member) string {
	if m.run == nil {
		return ""
	}
	return m.run.ID
}

// wantSizes asks for places for the sizes of pipe that is not the sheet's.
func (p *picture) wantSizes() {
	said := map[string]bool{}
	for i := range p.ms {
		m := &p.ms[i]
		if m.run == nil || (!m.isNew && !p.d.oldAll) || m.run.Size.IsZero() || said[m.run.ID] {
			continue
		}
		k := pipeOf{m.run.Spec, m.run.Size}
		if k == p.d.common {
			continue
		}
		said[m.run.ID] = true
		text := k.size.String()
		if k.spec != p.d.common.spec {
			text = pipeText(k)
		}
		a, b := project(p.a[i]), project(p.b[i])
		p.wantCallout(callout{at: along(a, b, p.leaderShare(i)), clear: 1, lines: []line{{text, textEm, false}}, tag: "size", rank: 4,
			far: []float64{0.3, 1.2, 2.5, 4, 6, 9, 13}})
	}
}
