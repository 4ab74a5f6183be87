package solid

import (
	"fmt"
	"math"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/settle"
)

// part enters the body of a part, where its place is known.
func (b *builder) part(p *graph.Part) {
	switch {
	case p.Box != nil:
		b.boxed(p)
	case p.Kind == graph.Tee:
		b.tee(p)
	case settle.InLine(p.Kind):
		b.inLine(p)
	case p.Kind == graph.Tub || p.Kind == graph.Suction || p.Kind == graph.JetGroup:
		b.bodyOf(p, "") // in the shell: the shell is not described
	case len(p.Ports) < 2 || p.Kind.OnePort():
		b.endPiece(p)
	default:
		b.equipment(p)
	}
}

// bodyOf returns a body of a part as yet without shapes; port "" is the part itself.
func (b *builder) bodyOf(p *graph.Part, port string) Body {
	out := Body{ID: "old part " + p.ID, Name: fmt.Sprintf("%s %q", p.Kind, p.ID), New: p.New(), Part: p.ID, Pos: p.Pos, Group: -1}
	switch {
	case p.New() && port != "":
		out.ID = b.lay.BodyAt(p, port)
	case p.New():
		out.ID = "part " + p.ID
	}
	for _, q := range p.Ports {
		if g, ok := b.lay.Groups[p.ID+"."+q.Name]; ok && out.Group < 0 {
			out.Group = g
		}
	}
	return out
}

// at is the place of a port and the way the pipe leaves it.
func (b *builder) at(p *graph.Part, port string) (place, way graph.Vec, ok bool) {
	place, ok = b.lay.Positions[p.ID+"."+port]
	if !ok {
		return place, way, false
	}
	way, known := b.lay.Ways[p.ID+"."+port]
	if q := p.Port(port); !known && q != nil && q.Faces != nil {
		way = *q.Faces
	}
	return place, way.Unit(), true
}

// boxed is a part whose box the description gives, counted from its first port.
func (b *builder) boxed(p *graph.Part) {
	body := b.bodyOf(p, "")
	if len(p.Ports) > 0 {
		first := p.Ports[0]
		origin, ok := b.lay.Positions[p.ID+"."+first.Name]
		if first.At != nil {
			origin = origin.Sub(*first.At)
		}
		if ok {
			body.Core = []Shape{Box(origin.Add(p.Box[0]), origin.Add(p.Box[1]))}
			body.Likely = body.Core
		}
	}
	b.out.add(body)
}

// tee is a bar along the run of a tee and one to its branch.
func (b *builder) tee(p *graph.Part) {
	body, g := b.bodyOf(p, graph.RunIn), b.girthOfPart(p)
	fit, depth := b.lay.Stage.Part(p.ID), b.socketOf(p)
	centre, way, ok := b.at(p, graph.RunIn)
	if _, out, okOut := b.at(p, graph.RunOut); ok && way == (graph.Vec{}) && okOut {
		way = out.Scale(-1)
	}
	if ok && way != (graph.Vec{}) {
		half := fit.Row.V.TakeOffMM + depth
		body.add(centre.Add(way.Scale(half)), centre.Sub(way.Scale(half)), g)
		if _, branch, ok := b.at(p, graph.Branch); ok && branch != (graph.Vec{}) {
			reach := fit.Row.V.BranchTakeOffMM
			if reach == 0 {
				reach = fit.Row.V.TakeOffMM
			}
			thin := g
			if fit.Reducing() {
				thin = b.girthOf(fit.Row.V, fit.Spec.V, fit.Branch.V)
				thin.likely = thin.pipe * (1 + 2*SocketWall)
			}
			body.add(centre, centre.Add(branch.Scale(reach+depth)), thin)
		}
	}
	body.assume(g, "outside of tee "+p.ID)
	b.out.add(body)
}

// add gives a body a bar; certain of it is at least the thickness of its pipe.
func (b *Body) add(from, to graph.Vec, g girth) {
	b.Likely = append(b.Likely, Cylinder(from, to, g.likely/2))
	if g.assumed {
		b.Core = append(b.Core, Cylinder(from, to, g.pipe/2))
	} else {
		b.Core = append(b.Core, Cylinder(from, to, g.likely/2))
	}
}

func (b *Body) assume(g girth, what string) {
	if g.assumed {
		b.Assumed = graph.Say("%s (taken as %s)", what, quantity.Length.Finely(g.likely))
	}
}

// inLine is a bar from face to face; where the part opens, each tail is a body of its own.
func (b *builder) inLine(p *graph.Part) {
	in, wayIn, ok := b.at(p, graph.In)
	out, wayOut, okOut := b.at(p, graph.Out)
	whole := b.bodyOf(p, "")
	if wayIn == (graph.Vec{}) {
		wayIn = wayOut.Scale(-1)
	}
	if wayOut == (graph.Vec{}) {
		wayOut = wayIn.Scale(-1)
	}
	ends := []string{whole.ID}
	for _, port := range []string{graph.In, graph.Out} {
		if p.New() {
			ends = append(ends, b.lay.BodyAt(p, port))
		}
	}
	if !ok || !okOut || wayIn == (graph.Vec{}) {
		for _, id := range ends {
			whole.ID = id
			b.out.add(whole)
		}
		b.joinTails(ends)
		return
	}
	g, depth := b.girthOfPart(p), b.socketOf(p)
	row := b.lay.Stage.Part(p.ID).Row.V
	whole.assume(g, fmt.Sprintf("outside of %s %s", p.Kind, p.ID))
	mid := in.Add(out.Sub(in).Scale(0.5))
	// what of it is certain: less its tolerance, half at each end
	slack := 0.0
	if row.Measure && !p.OwnLength() {
		slack = math.Min(row.TolMinusMM/2, out.Sub(in).Scale(0.5).Len())
	}
	put := func(id string, from, to graph.Vec, trimFrom, trimTo float64) {
		b.out.add(whole.bar(id, g, from, to, trimFrom, trimTo))
	}
	faceIn, faceOut := in.Add(wayIn.Scale(depth)), out.Add(wayOut.Scale(depth))
	switch {
	case len(ends) == 3 && p.Kind == graph.Union:
		put(ends[1], faceIn, mid, slack, 0)
		put(ends[2], mid, faceOut, 0, slack)
		b.out.join(b.out.Index(ends[1]), b.out.Index(ends[2]))
		return
	case len(ends) == 3 && (ends[1] != whole.ID || ends[2] != whole.ID):
		from, to := in, out
		if ends[1] == whole.ID {
			from = faceIn
		} else {
			put(ends[1], faceIn, in, slack, 0)
		}
		if ends[2] == whole.ID {
			to = faceOut
		} else {
			put(ends[2], out, faceOut, 0, slack)
		}
		put(whole.ID, from, to, 0, 0)
	default:
		put(whole.ID, faceIn, faceOut, slack, slack)
	}
	b.joinTails(ends)
}

// bar is the body as a bar between two points, of which so much at either end is not certain.
func (b Body) bar(id string, g girth, from, to graph.Vec, trimFrom, trimTo float64) Body {
	b.ID = id
	way := to.Sub(from).Unit()
	b.Likely = []Shape{Cylinder(from, to, g.likely/2)}
	r := g.likely / 2
	if g.assumed {
		r = g.pipe / 2
	}
	if length := to.Sub(from).Len(); length > trimFrom+trimTo {
		b.Core = []Shape{Cylinder(from.Add(way.Scale(trimFrom)), to.Sub(way.Scale(trimTo)), r)}
	}
	return b
}

// joinTails joins the tails of a part (after the first) to its body, the first.
func (b *builder) joinTails(ends []string) {
	for _, id := range ends[1:] {
		b.out.join(b.out.Index(ends[0]), b.out.Index(id))
	}
}

// endPiece is what stands at the end of a run: a cap, a drain valve, a bleed.
func (b *builder) endPiece(p *graph.Part) {
	body, g, depth := b.bodyOf(p, graph.In), b.girthOfPart(p), b.socketOf(p)
	if at, way, ok := b.at(p, graph.In); ok && way != (graph.Vec{}) {
		long := math.Max(b.lay.Stage.Part(p.ID).Row.V.LengthMM, g.pipe/2)
		body.add(at.Add(way.Scale(depth)), at.Sub(way.Scale(long)), g)
		body.Core = []Shape{Cylinder(at.Add(way.Scale(depth)), at, g.pipe/2)}
	}
	body.assume(g, fmt.Sprintf("outside and length of %s %s", p.Kind, p.ID))
	b.out.add(body)
}

// end is the index of the body that a run meets at a port; -1 where it has none.
func (b *builder) end(ref graph.PortRef) int {
	p := b.lay.Circuit.Part(ref.Part)
	switch {
	case p == nil:
		return -1
	case p.Existing:
		return b.out.Index("old part " + p.ID)
	case p.Box != nil || p.Kind == graph.Tub:
		return b.out.Index("part " + p.ID)
	}
	return b.out.Index(b.lay.BodyAt(p, ref.Port))
}
