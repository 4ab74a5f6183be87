package picture

import (
	"math"

	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/render/isometric/members"
	"dryfit/render/isometric/space"
	"dryfit/render/scene"
	"dryfit/render/symbol"
)

// keepClearDash is the pattern of the outline of a box that no pipe may pass, mm.
var keepClearDash = []float64{3, 1.4}

// How a box is drawn that reaches beyond the pipes: never further than beyondMM, and half as far
// at halfMM of its real length.
const (
	beyondMM = 12.0
	halfMM   = 300.0
)

// paintKeepClear draws the boxes that are to be kept clear as dashed outlines. Their faces stand
// between the pipes as they do in the cabinet, and labels keep off their lines. On a sheet with
// no pipe near a box it is left out.
func (p *Picture) paintKeepClear() {
	if p.D.Only != nil || p.D.In.Gone != nil {
		return
	}
	for _, k := range p.keptClear() {
		a, b := k.Low, k.High
		lo := graph.Vec{X: math.Min(a.X, b.X), Y: math.Min(a.Y, b.Y), Z: math.Min(a.Z, b.Z)}
		hi := graph.Vec{X: math.Max(a.X, b.X), Y: math.Max(a.Y, b.Y), Z: math.Max(a.Z, b.Z)}
		if !p.near(lo, hi) {
			continue
		}
		lo, hi = p.beyond(lo), p.beyond(hi)
		for _, s := range cuboid(lo, hi) {
			s.Style = scene.Dashed(penDim, keepClearDash...)
			p.block(0.3, s.Named("keep-clear"))
		}
		p.used(symbol.Symbol{Items: []scene.Item{scene.Rect(-6, -2, 12, 4, scene.Dashed(penDim, keepClearDash...))}}, "kept clear")
		p.wantBoxName(k.Said(k.Number), lo, hi)
	}
}

// keptClear are the boxes: those the parts drawn have; where these have none, as where no place is
// found, those that are asked for.
func (p *Picture) keptClear() []route.Kept {
	out, r := route.KeptClear(p.D.Lay), p.D.In.Asked
	if len(out) > 0 || r == nil || r.Stand == nil {
		return out
	}
	origin, ok := p.countedFrom(r)
	if !ok {
		return nil
	}
	for i, k := range r.Stand.KeepClear {
		out = append(out, route.Kept{KeepClear: k, Number: i + 1, Low: origin.Add(k.From), High: origin.Add(k.To)})
	}
	return out
}

// countedFrom is where the corners of the boxes are counted from.
func (p *Picture) countedFrom(r *graph.Retrofit) (graph.Vec, bool) {
	if from := r.Stand.From; from.Part != "" {
		at, ok := p.D.Lay.Positions[from.String()]
		return at, ok
	}
	in, ok := p.D.Lay.Positions[r.Unit+"."+graph.In]
	return in.Sub(r.Stand.At), ok
}

// near reports whether a box stands among the pipes drawn, or within half a metre of them.
func (p *Picture) near(lo, hi graph.Vec) bool {
	const about = 500
	for a := space.Axis(0); a < 3; a++ {
		met := p.Sp[a].Real
		if len(met) == 0 || a.Of(hi) < met[0]-about || a.Of(lo) > met[len(met)-1]+about {
			return false
		}
	}
	return true
}

// beyond is where a point is shown: among the pipes as they are, beyond the last of them a
// little further the further it is.
func (p *Picture) beyond(v graph.Vec) graph.Vec {
	out := p.Sp.Show(v)
	for a := space.Axis(0); a < 3; a++ {
		met := p.Sp[a].Real
		d := math.Min(0, a.Of(v)-met[0]) + math.Max(0, a.Of(v)-met[len(met)-1])
		out = out.Add(a.Unit().Scale(p.Scale * beyondMM * d / (math.Abs(d) + halfMM)))
	}
	return out
}

// wantBoxName asks for a spot for what a box is, along the inside of its edges, else outside.
func (p *Picture) wantBoxName(what string, lo, hi graph.Vec) {
	c := callout{lines: []line{{what, members.TextEm, false}}, name: "keep-clear"}
	if z := p.D.Zoom; z > 1 {
		c.zoom(z)
	}
	w, h := c.size()
	r := request{name: c.name + " " + what, words: what + " (kept clear)", rank: 4}
	corners := []graph.Vec{lo, {X: hi.X, Y: lo.Y, Z: lo.Z}, {X: lo.X, Y: hi.Y, Z: lo.Z}, {X: lo.X, Y: lo.Y, Z: hi.Z}, {X: hi.X, Y: lo.Y, Z: hi.Z}, {X: lo.X, Y: hi.Y, Z: hi.Z}, hi}
	mid := space.Project(lo.Add(hi).Scale(0.5))
	c.at = space.Project(corners[3])
	r.first = func() (out []candidate) {
		for n, v := range corners {
			at := space.Project(v)
			for _, inwards := range []float64{1, -1} {
				to := space.Times(inwards, space.Unit(space.Sub(mid, at)))
				for _, far := range []float64{0.6, 2, 4, 7} {
					support := math.Abs(to.X)*w/2 + math.Abs(to.Y)*h/2
					out = p.calloutAt(out, &c, space.Add(at, space.Times(support+far, to)), to, w, h, 2*float64(n)+far+6*(1-inwards))
				}
			}
		}
		return out
	}
	far := c
	far.far = []float64{2}
	r.again = far.anywhere()
	p.requests = append(p.requests, r)
}
