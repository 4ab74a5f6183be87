package isometric

import (
	"math"

	"dryfit/graph"
	"dryfit/render/scene"
	"dryfit/render/symbol"
)

// across is the axis the bars of a sign on a pipe are parallel to: Z, and on upright pipe X.
func across(way graph.Vec) axis {
	if math.Abs(way.Z) > 0.9*way.Len() {
		return 0
	}
	return 2
}

// skew returns the items of a sign set onto a pipe: its X along the pipe on the page, its Y
// along the axis its bars keep.
func skew(s symbol.Symbol, at, u, v scene.Point) []scene.Item {
	f := func(q scene.Point) scene.Point { return add(at, add(times(q.X, u), times(-q.Y, v))) }
	out := make([]scene.Item, len(s.Items))
	for i, it := range s.Items {
		switch it := it.(type) {
		case scene.Shape:
			out[i] = it.Map(f)
		case scene.Text:
			it.At = f(it.At)
			out[i] = readable(u, v).lay(it)
		}
	}
	return out
}

// paintSigns draws the parts that stand in line.
func (p *picture) paintSigns() {
	for i := range p.ms {
		m := &p.ms[i]
		if m.run != nil {
			continue
		}
		s, look := p.d.sign(m.part)
		a, b := project(p.a[i]), project(p.b[i])
		u := unit(sub(b, a))
		mid := along(a, b, 0.5)
		if p.d.turned(m.part) {
			u = times(-1, u)
		}
		pen := penOld
		if m.isNew {
			pen = penNew
		}
		for _, e := range []scene.Point{a, b} { // the pipe up to the sign
			half := (s.Out - s.In) / 2
			if length(sub(e, mid)) > half+0.05 {
				p.block(blockPipe, scene.Line(e, add(mid, times(half, unit(sub(e, mid)))), scene.Stroke(pen)).Tagged("part:"+m.part.ID))
			}
		}
		v := project(across(m.way()).unit())
		p.sign(s, add(mid, times(-(s.In+s.Out)/2, u)), u, v, "symbol:"+m.part.ID)
		p.used(symbol.Of(m.part.Kind, withPen(look)), s.Legend)
		p.wantTag(m.part, mid, extent(s))
	}
}

func withPen(l symbol.Look) symbol.Look {
	l.Pen = penOldSign
	return l
}

// sign adds a skewed sign and keeps labels off it.
func (p *picture) sign(s symbol.Symbol, at, u, v scene.Point, tag string) {
	for _, it := range skew(s, at, u, v) {
		if sh, ok := it.(scene.Shape); ok {
			it = sh.Tagged(tag)
			p.fixed = append(p.fixed, outline(sh, sh.Style.StrokeMM/2+0.2)...)
		}
		p.items = append(p.items, it)
	}
	b := s.Box
	c := b.Centre()
	centre := add(at, add(times(c.X, u), times(-c.Y, v)))
	p.fixed = append(p.fixed, slab(centre, times(0.35*b.W(), u), times(0.35*b.H(), v))...)
}

// extent is how far a sign reaches from its middle, roughly.
func extent(s symbol.Symbol) float64 { return s.Box.H()/2 + 0.4 }

// turned reports whether the water goes through a two-port part from out to in.
func (d *drawing) turned(p *graph.Part) bool {
	port, r := d.net.Inlet(p)
	return r != nil && port == graph.Out
}
