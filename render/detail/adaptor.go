package detail

import (
	"slices"
	"strings"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/settle"
	"dryfit/render/scene"
	"dryfit/render/sheet"
	"dryfit/render/tag"
)

// adaptor is a fitting nobody wrote, between a part's socket and pipe: a bush, a reducer, a
// transition, a thread adaptor, a barb.
type adaptor struct {
	kind              string
	name              string  // "barb 1-1/2 in x 38 mm"
	words             string  // "barb at v2.in"
	measure           bool    // its length is a guess
	way               float64 // along the axis, away from the part: 1 or -1
	stop, end         float64 // along the axis: where what it stands on stops, and where its pipe does
	depthIn, depthOut float64
	in, out           float64 // outside diameters of pipe on its two sides
	joint             int     // between it and what it stands on; 0: that is a short piece, which has its own
}

// fitted is what stands between a part's port and the pipe there, from the part outwards.
type fitted struct {
	pieces   []tube // the short pieces
	adaptors []adaptor
}

// fittedAt finds what stands between a port and its pipe, along an axis on which the part's
// centre or stop lies at from; way is the sense of the axis, away from the port. A bush next to
// the pipe is left to whoever draws the socket it is in.
func (c *chain) fittedAt(path *route.Path, at graph.PortRef, from, way float64) fitted {
	var out fitted
	end := c.endAt(path, at)
	if end == nil || end.Part == nil {
		return out
	}
	s := end.Part.Row.V.TakeOffMM
	switch {
	case end.Part.Kind != graph.Tee:
		s = 0
	case at.Port == graph.Branch && end.Part.Row.V.BranchTakeOffMM > 0:
		s = end.Part.Row.V.BranchTakeOffMM
	}
	short := c.shortAt(path, at)
	body := c.lay.BodyAt(end.Part.Part, at.Port)
	fits := fittingsAt(path, at)
	for k, a := range end.Adaptors {
		outside := func(side int) float64 {
			spec, size := a.Spec, a.Size
			if side > 0 {
				spec, size = a.Spec2, a.Size2
			}
			if mm := c.lay.Stage.PipeRow(spec, size).OutsideMM; mm > 0 {
				return mm
			}
			return size.NominalMM()
		}
		own := ""
		if k < len(fits) {
			own = route.FittingBody(c.indexOf(path), fits[k])
		}
		fit := adaptor{kind: a.Kind, name: fittingName(a.Kind, a.Size, a.Size2), words: a.Kind + " at " + at.String(), measure: a.Row.Measure, way: way, in: outside(0), out: outside(1), depthIn: a.NippleToMM, depthOut: a.DepthMM}
		if a.NippleMM > 0 && len(short) > 0 {
			p := short[0]
			short = short[1:]
			t := tube{from: from + way*s, to: from + way*(s+a.NippleMM), depthFrom: a.NippleFromMM, depthTo: a.NippleToMM, outside: fit.in,
				number: p.Number, joinFrom: p.From.Joint, joinTo: p.To.Joint, run: path.Run.ID, size: p.Size, hubFrom: fit.in,
				bushFrom: k > 0 && isBush(route.End{Kind: end.Adaptors[k-1].Kind}), bushTo: isBush(route.End{Kind: a.Kind})}
			out.pieces = append(out.pieces, t.turned(way))
		} else {
			fit.joint = c.jointOf(body, own)
		}
		s += a.NippleMM
		fit.stop, fit.end = from+way*s, from+way*(s+a.AddsMM)
		s += a.AddsMM
		if last := k == len(end.Adaptors)-1; !last || !isBush(route.End{Kind: a.Kind}) {
			out.adaptors = append(out.adaptors, fit)
		}
		body = own
	}
	return out
}

// bushJoint is the number of the joint between a bush next to pipe and the socket it is in.
func (c *chain) bushJoint(path *route.Path, at graph.PortRef) int {
	end, fits := c.endAt(path, at), fittingsAt(path, at)
	if end == nil || end.Part == nil || len(fits) == 0 {
		return 0
	}
	body := c.lay.BodyAt(end.Part.Part, at.Port)
	if n := len(fits); n > 1 {
		body = route.FittingBody(c.indexOf(path), fits[n-2])
	}
	return c.jointOf(body, route.FittingBody(c.indexOf(path), fits[len(fits)-1]))
}

// turned is a tube whose axis runs the other way where way is below 0: tubes go up the axis.
func (t tube) turned(way float64) tube {
	if way < 0 {
		t.from, t.to = t.to, t.from
		t.depthFrom, t.depthTo = t.depthTo, t.depthFrom
		t.joinFrom, t.joinTo = t.joinTo, t.joinFrom
		t.hubFrom, t.hubTo = t.hubTo, t.hubFrom
		t.bushFrom, t.bushTo = t.bushTo, t.bushFrom
	}
	return t
}

// endAt is what a path meets at a port, as it was settled.
func (c *chain) endAt(path *route.Path, at graph.PortRef) *settle.End {
	run := c.lay.Stage.Run(path.Run.ID)
	if run == nil {
		return nil
	}
	if run.From.Same(at) {
		return &run.Ends[0]
	}
	return &run.Ends[1]
}

// shortAt are the short pieces on which adaptors stand at one end of a path, from the part
// outwards: they are the first of its pieces, or the last.
func (c *chain) shortAt(path *route.Path, at graph.PortRef) []*route.Piece {
	var out []*route.Piece
	for _, i := range path.Pieces {
		if p := &c.lay.Pieces[i]; isShort(p, at) {
			out = append(out, p)
		}
	}
	return out
}

// longs are the other pieces of a path.
func (c *chain) longs(path *route.Path) []*route.Piece {
	var out []*route.Piece
	for _, i := range path.Pieces {
		if p := &c.lay.Pieces[i]; !isShort(p, path.Run.From) && !isShort(p, path.Run.To) {
			out = append(out, p)
		}
	}
	return out
}

// isShort reports whether a piece stands between a port and an adaptor there, or between two.
func isShort(p *route.Piece, at graph.PortRef) bool {
	there := func(words string) bool { return words == at.String() || strings.HasSuffix(words, " at "+at.String()) }
	return there(p.From.Fitting) && there(p.To.Fitting)
}

// fittingsAt are the indexes of a path's adaptors at a port, from the part outwards.
func fittingsAt(path *route.Path, at graph.PortRef) []int {
	var out []int
	for k := range path.Fittings {
		if path.Fittings[k].Where == "at "+at.String() {
			out = append(out, k)
		}
	}
	if path.Run.To.Same(at) {
		slices.Reverse(out)
	}
	return out
}

// jointOf is the number of the joint between two bodies; 0: none.
func (c *chain) jointOf(a, b string) int {
	for i := range c.lay.Joints {
		if j := &c.lay.Joints[i]; j.BodyA == a && j.BodyB == b || j.BodyA == b && j.BodyB == a {
			return j.Number
		}
	}
	return 0
}

func (c *chain) indexOf(path *route.Path) int {
	for i := range c.lay.Paths {
		if &c.lay.Paths[i] == path {
			return i
		}
	}
	return -1
}

// sleeves draws the bodies of what nobody wrote, which pipe goes into, and names them.
func (d *drawing) sleeves(f frame, list fitted) {
	for _, a := range list.adaptors {
		near, far := a.stop-a.way*a.depthIn, a.end+a.way*a.depthOut
		named, joined := (near+a.stop)/2, near
		switch a.kind {
		case "reducing-bush":
			named, joined = (a.stop+far)/2, (a.stop+far)/2 // in the socket
			d.items = append(d.items, f.bush(a.stop, far, a.in))
		case "barb":
			d.solid(f.barb(near, a)...)
		default:
			mid := (near + far) / 2
			d.solid(f.rect(near, mid, a.in*hubShare, scene.Outline(sheet.Thin)).Named("fitting"), f.rect(mid, far, a.out*hubShare, scene.Outline(sheet.Thin)).Named("fitting"))
		}
		d.want(request{name: "name:fitted", lines: []string{a.name}, at: d.sides(f, named, a.in*hubShare), em: sheet.LeastEm})
		d.joint(f, a.joint, joined, a.in)
	}
}

// barb is the outline of a barb from the face of its socket to where its hose ends.
func (f frame) barb(near float64, a adaptor) []scene.Item {
	hub, tail := a.in*hubShare/2, a.out/2
	face := a.stop + a.way*bead
	items := []scene.Item{f.rect(near, face, 2*hub, scene.Outline(sheet.Thin)).Named("fitting"), f.bead(near, a.way, hub)}
	if a.end != face {
		items = append(items, f.rect(face, a.end, 1.6*tail, scene.Outline(sheet.Thin)).Named("fitting"))
	}
	return items
}

// teeth is the tail of a barb from where its hose ends to its tip, seen through the hose.
func (f frame) teeth(from, to, half float64) []scene.Item {
	const n = 3
	var items []scene.Item
	for _, side := range []float64{1, -1} {
		var pts []scene.Point
		for k := range n {
			a, b := from+(to-from)*float64(k)/n, from+(to-from)*float64(k+1)/n
			pts = append(pts, f.p(a, side*0.82*half), f.p(b, side*0.62*half))
		}
		items = append(items, scene.Polyline(pts, scene.Dashed(sheet.Fine, hidden...)).Named("barb"))
	}
	return append(items, scene.Polyline([]scene.Point{f.p(to, 0.62*half), f.p(to, -0.62*half)}, scene.Dashed(sheet.Fine, hidden...)).Named("barb"))
}

// fittingName is a fitting of one size or of two.
func fittingName(kind string, a, b catalog.Size) string {
	words := tag.FittingWord(kind)
	switch {
	case a.IsZero():
		return words
	case b.IsZero() || a == b:
		return words + " " + a.String()
	}
	return words + " " + a.String() + " x " + b.String()
}

// fitted draws the short pieces, and the tails that are in hose.
func (d *drawing) fitted(f frame, list fitted) {
	for _, a := range list.adaptors {
		if a.kind == "barb" {
			d.items = append(d.items, f.teeth(a.end, a.end+a.way*a.depthOut, a.out/2)...)
		}
	}
	for _, t := range list.pieces {
		d.pipe(f, t)
	}
}
