package picture

import (
	"math"

	"dryfit/graph"
	"dryfit/render/isometric/members"
	"dryfit/render/isometric/space"
	"dryfit/render/scene"
	"dryfit/render/symbol"
)

// across is the axis the bars of a sign on a pipe are parallel to: Z, and on upright pipe X.
func across(way graph.Vec) space.Axis {
	if math.Abs(way.Z) > 0.9*way.Len() {
		return 0
	}
	return 2
}

// flatMM is how much of a bar 1 mm long has to stand across its pipe on the page, mm: less and the
// sign lies down on the pipe and can't be read. Judgement, no source.
const flatMM = 0.55

// bars is the way of a sign's bars on the page, across a pipe that runs a way in space and along
// on the page: along an axis as ISO 6412-2 has it, another one where a slant would swallow them.
func bars(way graph.Vec, along scene.Point) scene.Point {
	u, v := space.Unit(along), space.Project(across(way).Unit())
	if math.Abs(space.Cross(u, v)) >= flatMM {
		return v
	}
	for a := range space.Axis(3) {
		if w := space.Project(a.Unit()); math.Abs(space.Cross(u, w)) > math.Abs(space.Cross(u, v)) {
			v = w
		}
	}
	return v
}

// skew returns the items of a sign set onto a pipe: its X along the pipe on the page, its Y
// along the axis its bars keep.
func skew(s symbol.Symbol, at, u, v scene.Point) []scene.Item {
	f := func(q scene.Point) scene.Point {
		return space.Add(at, space.Add(space.Times(q.X, u), space.Times(-q.Y, v)))
	}
	out := make([]scene.Item, len(s.Items))
	for i, it := range s.Items {
		switch it := it.(type) {
		case scene.Shape:
			out[i] = it.Map(f)
		case scene.Text:
			it.At = f(it.At)
			out[i] = space.Readable(u, v).Lay(it)
		}
	}
	return out
}

// paintSigns draws the parts that stand in line.
func (p *Picture) paintSigns() {
	for i := range p.Ms {
		m := &p.Ms[i]
		if m.Run != nil {
			continue
		}
		s, look := p.D.Sign(m.Part)
		a, b := space.Project(p.A[i]), space.Project(p.B[i])
		u := space.Unit(space.Sub(b, a))
		mid := space.Along(a, b, 0.5)
		if p.D.Turned(m.Part) {
			u = space.Times(-1, u)
		}
		for k, e := range []scene.Point{a, b} { // the pipe up to the sign
			half := (s.Out - s.In) / 2
			if space.Length(space.Sub(e, mid)) > half+0.05 {
				p.block(blockPipe, scene.Line(e, space.Add(mid, space.Times(half, space.Unit(space.Sub(e, mid)))), scene.Stroke(p.penAt(i, k == 1))).Named("part:"+m.Part.ID))
			}
		}
		v := bars(m.Way(), u)
		p.sign(s, space.Add(mid, space.Times(-(s.In+s.Out)/2, u)), u, v, "symbol:"+m.Part.ID)
		p.used(symbol.Of(m.Part.Kind, withPen(look)), s.Legend)
		p.wantTag(m.Part, mid, extent(s))
	}
}

// penAt is that of the pipe which comes to an end of a part in line: a new valve between old pipe has old
// pipe up to its sign. Where none is drawn it is the part's own.
func (p *Picture) penAt(i int, far bool) float64 {
	m := &p.Ms[i]
	end, isNew := m.A, m.IsNew
	if far {
		end = m.B
	}
	for k := range p.Ms {
		n := &p.Ms[k]
		if n.Run != nil && (n.A.Sub(end).Len() < space.SameLevel && n.CutA == "" || n.B.Sub(end).Len() < space.SameLevel && n.CutB == "") {
			isNew = n.IsNew
			break
		}
	}
	if isNew {
		return PenNew
	}
	return PenOld
}

func withPen(l symbol.Look) symbol.Look {
	l.Pen = members.PenOldSign
	return l
}

// sign adds a skewed sign and keeps labels off it.
func (p *Picture) sign(s symbol.Symbol, at, u, v scene.Point, name string) {
	for _, it := range skew(s, at, u, v) {
		if sh, ok := it.(scene.Shape); ok {
			it = sh.Named(name)
			p.Fixed = append(p.Fixed, space.Outline(sh, sh.Style.StrokeMM/2+0.2)...)
		}
		p.Items = append(p.Items, it)
	}
	b := s.Box
	c := b.Centre()
	centre := space.Add(at, space.Add(space.Times(c.X, u), space.Times(-c.Y, v)))
	p.Fixed = append(p.Fixed, space.Slab(centre, space.Times(0.35*b.W(), u), space.Times(0.35*b.H(), v))...)
}

// extent is how far a sign reaches from its middle, roughly.
func extent(s symbol.Symbol) float64 { return s.Box.H()/2 + 0.4 }
