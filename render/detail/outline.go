package detail

import (
	"math"

	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/settle"
	"dryfit/render/scene"
	"dryfit/render/sheet"
	"dryfit/render/symbol"
)

// How fittings are sketched across the pipe, in outside diameters. Common practice, no
// source: walls of moulded fittings are about a tenth of the pipe's diameter.
const (
	hubShare  = 1.22 // outside of a socket
	nutShare  = 1.55 // of a union's nut
	bodyShare = 1.4  // of a valve's body
)

// frame is an axis on the sheet: a point s mm along it and t mm across it.
type frame struct {
	at   scene.Point // of s = 0, on the sheet
	u, v scene.Point // of length 1 on the sheet: along the axis and across it
	per  float64
	set  *settle.Stage // what the parts are
}

func (f frame) p(s, t float64) scene.Point {
	return scene.Point{X: f.at.X + (s*f.u.X+t*f.v.X)/f.per, Y: f.at.Y + (s*f.u.Y+t*f.v.Y)/f.per}
}

// rect is a rectangle from s0 to s1, w mm across.
func (f frame) rect(s0, s1, w float64, st scene.Style) scene.Shape {
	return scene.Polygon([]scene.Point{f.p(s0, w/2), f.p(s1, w/2), f.p(s1, -w/2), f.p(s0, -w/2)}, st)
}

func (f frame) line(s0, t0, s1, t1 float64, st scene.Style) scene.Shape {
	return scene.Line(f.p(s0, t0), f.p(s1, t1), st)
}

func (f frame) poly(st scene.Style, st0 ...float64) scene.Shape {
	var pts []scene.Point
	for i := 0; i+1 < len(st0); i += 2 {
		pts = append(pts, f.p(st0[i], st0[i+1]))
	}
	return scene.Polygon(pts, st)
}

var hidden = []float64{1.6, 0.9}

// tube draws a pipe: solid where it is seen, dashed inside its sockets; broken off where it
// goes on.
func (f frame) tube(t tube) []scene.Item {
	pen := sheet.Thick * 0.7
	if t.old {
		pen = sheet.Fine
	}
	w := t.outside
	from, to := t.from+t.depthFrom, t.to-t.depthTo
	if t.open < 0 || t.over {
		from = t.from
	}
	if t.open > 0 || t.over {
		to = t.to
	}
	var items []scene.Item
	if to > from {
		items = append(items, f.rect(from, to, w, scene.Filled(1)))
		if t.old {
			items = append(items, f.hatch(from, to, w))
		}
		items = append(items,
			f.line(from, w/2, to, w/2, scene.Stroke(pen)).Named("pipe"), f.line(from, -w/2, to, -w/2, scene.Stroke(pen)).Named("pipe"))
	}
	dash := scene.Dashed(sheet.Fine, hidden...)
	inside := func(end, face float64) {
		if t.over {
			items = append(items, f.line(end, w/2, end, -w/2, scene.Stroke(pen)).Named("pipe"))
			return
		}
		items = append(items, scene.Polyline([]scene.Point{f.p(face, w/2), f.p(end, w/2), f.p(end, -w/2), f.p(face, -w/2)}, dash).Named("insertion"))
	}
	switch {
	case t.open < 0:
		items = append(items, f.broken(t.from, w, pen))
	case t.depthFrom > 0:
		inside(t.from, from)
	}
	switch {
	case t.open > 0:
		items = append(items, f.broken(t.to, w, pen))
	case t.depthTo > 0:
		inside(t.to, to)
	}
	return items
}

// hatch fills old pipe with thin lines at 45 degrees.
func (f frame) hatch(from, to, w float64) scene.Shape {
	step := 1.6 * f.per
	out := scene.Shape{Style: scene.Style{StrokeMM: sheet.Hair, Grey: 0.45}, Name: "old-pipe"}
	for s := from - w; s < to; s += step {
		// t from -w/2 to w/2, s from here on by as much
		lo, hi := math.Max(s, from), math.Min(s+w, to)
		if hi-lo < 0.2*step {
			continue
		}
		l := f.line(lo, lo-s-w/2, hi, hi-s-w/2, out.Style)
		out.Paths = append(out.Paths, l.Paths...)
	}
	return out
}

// broken is the line where a pipe is broken off on the drawing.
func (f frame) broken(s, w, pen float64) scene.Shape {
	a, b := f.p(s, w/2), f.p(s, -w/2)
	k := 0.16 * w
	c1, c2, c3, c4 := f.p(s+k, w/3), f.p(s+k, w/6), f.p(s-k, -w/6), f.p(s-k, -w/3)
	return scene.Shape{Style: scene.Stroke(pen), Name: "break", Paths: []scene.SubPath{{Start: a, Segments: []scene.Segment{
		{Curve: true, C1: c1, C2: c2, To: f.p(s, 0)}, {Curve: true, C1: c3, C2: c4, To: b}}}}}
}

// tee is the outline of a tee about s = at: its sockets along the axis and its branch to the
// side of positive t.
func (f frame) tee(at float64, fit *settle.Part, w, branch float64) []scene.Item {
	row := fit.Row.V
	h, face := w*hubShare/2, row.TakeOffMM+row.SocketMM
	out := row.BranchTakeOffMM
	if out == 0 {
		out = row.TakeOffMM
	}
	b, bf := branch*hubShare/2, out+row.SocketMM
	if bf <= h || row.TakeOffMM == 0 {
		return nil
	}
	return []scene.Item{
		f.poly(scene.Outline(sheet.Thin), at-face, h, at-b, h, at-b, bf, at+b, bf, at+b, h, at+face, h, at+face, -h, at-face, -h).Named("fitting"),
		f.bead(at-face, 1, h), f.bead(at+face, -1, h),
		scene.Line(f.p(at-b, bf-bead), f.p(at+b, bf-bead), scene.Stroke(sheet.Hair)),
	}
}

// bead is the rim of a socket, mm.
const bead = 5.0

func (f frame) bead(face, way, half float64) scene.Shape {
	return f.line(face+way*bead, half, face+way*bead, -half, scene.Stroke(sheet.Hair))
}

// inline is the outline of a part in a straight pipe, from its inlet's stop to its outlet's.
func (f frame) inline(from, to, depthIn, depthOut, w float64, p *graph.Part, union bool) []scene.Item {
	hub := w * hubShare
	st := scene.Outline(sheet.Thin)
	items := []scene.Item{f.rect(from-depthIn, to+depthOut, hub, st).Named("fitting")}
	length := to - from
	mid := (from + to) / 2
	switch {
	case p.Kind == graph.Union:
		nut := math.Max(length*0.6, 0.35*w)
		items = append(items, f.rect(mid-nut/2, mid+nut/2, w*nutShare, st).Named("fitting"))
	case length > 0.6*w:
		body := length
		if union {
			nut := length * 0.24
			items = append(items, f.rect(from, from+nut, w*nutShare, st).Named("fitting"), f.rect(to-nut, to, w*nutShare, st).Named("fitting"))
			body = length - 2*nut
		}
		items = append(items, f.rect(mid-body/2, mid+body/2, w*bodyShare, st).Named("fitting"))
		items = append(items, f.sign(mid, body, w*bodyShare, p)...)
	}
	return append(items, f.bead(from-depthIn, 1, hub/2), f.bead(to+depthOut, -1, hub/2))
}

// sign puts the part's symbol on its body, as large as it fits.
func (f frame) sign(mid, length, w float64, p *graph.Part) []scene.Item {
	look := symbol.LookOf(p, f.set)
	look.Pen = sheet.Fine
	s := symbol.Of(p.Kind, look)
	b := scene.Bounds(s.Items...)
	k := math.Min(1.2, math.Min(0.8*length/f.per/math.Max(b.W(), 1), 0.8*w/f.per/math.Max(b.H(), 1)))
	if k < 0.35 {
		return nil
	}
	way := symbol.Right
	switch {
	case f.u.X < -0.5:
		way = symbol.Left
	case f.u.Y < -0.5:
		way = symbol.Up
	case f.u.Y > 0.5:
		way = symbol.Down
	}
	c := f.p(mid, 0)
	shift := s.At(scene.Point{}, way)
	sb := scene.Bounds(shift...).Centre()
	var items []scene.Item
	for _, it := range shift {
		if sh, ok := it.(scene.Shape); ok {
			items = append(items, sh.Map(func(q scene.Point) scene.Point {
				return scene.Point{X: c.X + k*(q.X-sb.X), Y: c.Y + k*(q.Y-sb.Y)}
			}))
		}
	}
	return items
}

// bush is a reducing bush in a socket from its stop to its face.
func (f frame) bush(stop, face, w float64) scene.Item {
	return f.rect(stop, face, w, scene.Stroke(sheet.Hair)).Named("bush")
}

// teeFromBranch is the outline of a tee whose branch leaves the sheet.
func (f frame) teeFromBranch(at float64, fit *settle.Part, w float64) []scene.Item {
	h, face := w*hubShare/2, fit.Row.V.TakeOffMM+fit.Row.V.SocketMM
	if fit.Row.V.TakeOffMM == 0 {
		return nil
	}
	return []scene.Item{f.rect(at-face, at+face, 2*h, scene.Outline(sheet.Thin)).Named("fitting"), f.bead(at-face, 1, h), f.bead(at+face, -1, h)}
}

// stubElbow is the outline of a bend at s = at whose other end leaves the sheet.
func (f frame) stubElbow(at float64, e route.End, w float64) []scene.Item {
	h, face := w*hubShare/2, e.TakeOffMM+e.DepthMM
	return []scene.Item{f.rect(at-face, at+h, 2*h, scene.Outline(sheet.Thin)).Named("fitting"), f.bead(at-face, 1, h)}
}

// elbow is the outline of a bend at s = at, entered along the axis and left along e: along
// and across the axis, of length 1.
func (f frame) elbow(at float64, e route.End, w float64, way scene.Point) []scene.Item {
	h, face := w*hubShare/2, e.TakeOffMM+e.DepthMM
	k := math.Copysign(1, way.Y)
	sin, cos := math.Abs(way.Y), way.X
	if sin < 0.05 {
		return f.stubElbow(at, e, w)
	}
	half := sin / (1 + cos) // tan of half the angle
	cut := 0.45 * h * half
	pt := func(along, left float64) (float64, float64) { // from along and left of the exit
		return at + along*cos - left*sin, k * (along*sin + left*cos)
	}
	var pts []float64
	add := func(s, t float64) { pts = append(pts, s, t) }
	add(at-face, k*h)
	add(at-h*half, k*h)
	add(pt(face, h))
	add(pt(face, -h))
	add(pt(cut-h*half, -h))
	add(at+h*half-cut, -k*h)
	add(at-face, -k*h)
	a1, a2 := pt(face-bead, h)
	b1, b2 := pt(face-bead, -h)
	return []scene.Item{f.poly(scene.Outline(sheet.Thin), pts...).Named("fitting"), f.bead(at-face, 1, h),
		f.line(a1, a2, b1, b2, scene.Stroke(sheet.Hair))}
}
