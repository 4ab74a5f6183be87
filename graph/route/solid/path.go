package solid

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/graph"
	"dryfit/graph/route"
)

// path enters the bodies of a run: its pipe and its fittings, and joins them in a row.
func (b *builder) path(i int) {
	path := &b.lay.Paths[i]
	r := path.Run
	from, to := b.end(r.From), b.end(r.To)
	if len(path.Points) < 2 || !path.Located {
		b.out.join(from, to)
		return
	}
	near := b.chain(i, 0, from)
	far := b.chain(i, len(path.Points)-1, to)
	if r.New() {
		b.newPipe(i, near, far)
	} else {
		b.oldPipe(i, near, far)
	}
}

func (b *builder) group(r *graph.Run) int {
	if g, ok := b.lay.Groups[r.From.String()]; ok {
		return g
	}
	return -1
}

// chain enters the adaptors between a part and a run's pipe and returns the outermost.
func (b *builder) chain(i, point, part int) int {
	path := &b.lay.Paths[i]
	at := part
	for _, k := range b.chainOrder(path, point) {
		f := &path.Fittings[k]
		size := f.From
		if f.To.NominalMM() > size.NominalMM() {
			size = f.To
		}
		g := b.girthOf(f.Row, f.Row.Spec, size)
		body := b.fitting(i, k)
		body.within = f.Kind == "reducing-bush"
		body.add(f.Near, f.Far, g)
		small := min(b.pipeOutside(f.Row.Spec, f.From), b.pipeOutside(f.Row.Spec, f.To))
		body.Core = []Shape{Cylinder(f.Near, f.Far, small/2)}
		body.assume(g, fmt.Sprintf("outside of %s %s", f.Kind, f.Place()))
		next := b.out.add(body)
		b.out.join(at, next)
		at = next
	}
	return at
}

// chainOrder is the adaptors at one end of a path, from the part outwards.
func (b *builder) chainOrder(path *route.Path, point int) []int {
	var out []int
	for k := range path.Fittings {
		f := &path.Fittings[k]
		if f.Point == point && f.Near != f.Far && !strings.HasPrefix(f.Kind, "elbow") {
			out = append(out, k)
		}
	}
	if n := len(path.Points) - 1; point == n {
		slices.Reverse(out)
	}
	return out
}

// fitting returns the body of a fitting of a run, as yet without shapes.
func (b *builder) fitting(i, k int) Body {
	path := &b.lay.Paths[i]
	r, f := path.Run, &path.Fittings[k]
	body := Body{ID: route.FittingBody(i, k), Name: fmt.Sprintf("%s %s", f.Kind, f.Place()), New: f.New, Run: r.ID, Pos: r.Pos, Group: b.group(r)}
	if !f.New {
		body.ID = fmt.Sprintf("old fitting %d/%d", i, k)
	}
	if f.Point >= 1 && f.Point < len(path.Points)-1 && f.Point < len(r.Legs) {
		body.Leg = f.Point + 1
		body.Pos = r.LegPos(body.Leg)
	}
	return body
}

// elbows enters the elbows of a path and returns the index of each by its point.
func (b *builder) elbows(i int) map[int]int {
	path := &b.lay.Paths[i]
	out := map[int]int{}
	for k := range path.Fittings {
		f := &path.Fittings[k]
		if !strings.HasPrefix(f.Kind, "elbow") || f.Point < 1 || f.Point >= len(path.Points)-1 {
			continue
		}
		stop := path.Stops[f.Point]
		g, reach := b.girthOf(f.Row, path.Run.Spec, path.Run.Size), stop.TakeOffMM+stop.DepthMM
		body, centre := b.fitting(i, k), path.Points[f.Point]
		for _, to := range []graph.Vec{path.Points[f.Point-1], path.Points[f.Point+1]} {
			body.add(centre, centre.Add(to.Sub(centre).Unit().Scale(reach)), g)
		}
		body.assume(g, fmt.Sprintf("outside of %s %s", f.Kind, f.Place()))
		out[f.Point] = b.out.add(body)
	}
	return out
}

// newPipe enters the pieces of a new run with their fittings between near and far.
func (b *builder) newPipe(i, near, far int) {
	path := &b.lay.Paths[i]
	r := path.Run
	b.elbows(i)
	for k := range path.Fittings {
		if f := &path.Fittings[k]; f.Point < 0 && f.Kind == "coupling" {
			b.coupling(i, k)
		}
	}
	for _, index := range path.Pieces {
		p := &b.lay.Pieces[index]
		body := Body{ID: route.PieceBody(index), Name: fmt.Sprintf("piece %d (leg %d of %s)", p.Number, p.Leg, r.ID), New: true,
			Run: r.ID, Leg: p.Leg, Pos: r.LegPos(p.Leg), Group: b.group(r)}
		course := b.lay.Course(p)
		for k := 1; k < len(course); k++ {
			body.Likely = append(body.Likely, Cylinder(course[k-1], course[k], b.pipeOutside(p.Spec, p.Size)/2))
		}
		if p.Spec.Flexible() {
			body.Assumed = graph.Say("the way of the hose %s", r.ID)
		} else {
			body.Core = body.Likely
		}
		at := b.out.add(body)
		if p.CutMM < p.From.DepthMM+p.To.DepthMM-touchMM {
			b.out.short = append(b.out.short, at)
		}
	}
	b.joinAlong(i, near, far)
}

// joinAlong joins the pieces of a path to what of the old work they go into; what is new is
// joined by the joints of the layout.
func (b *builder) joinAlong(i, near, far int) {
	path := &b.lay.Paths[i]
	for _, index := range path.Pieces {
		p := &b.lay.Pieces[index]
		at := b.out.Index(route.PieceBody(index))
		if b.meetsOld(p.From, path.Run.From) {
			b.out.join(at, near)
		}
		if b.meetsOld(p.To, path.Run.To) {
			b.out.join(at, far)
		}
	}
}

// meetsOld reports whether an end of a piece goes into something that is there already: the tail of an old
// part that opens is one too, though the joint names it by itself, for its nut is undone.
func (b *builder) meetsOld(e route.End, at graph.PortRef) bool {
	if e.Joint < 1 || e.Joint > len(b.lay.Joints) {
		return true
	}
	old := []string{route.Existing}
	if p := b.lay.Circuit.Part(at.Part); p != nil && p.Existing {
		old = append(old, route.TailBody(p, at.Port))
	}
	j := &b.lay.Joints[e.Joint-1]
	return slices.Contains(old, j.BodyA) || slices.Contains(old, j.BodyB)
}

// coupling enters a coupling within a straight leg.
func (b *builder) coupling(i, k int) {
	path := &b.lay.Paths[i]
	f := &path.Fittings[k]
	body := b.fitting(i, k)
	for n := 1; n < len(path.Points); n++ {
		from, to := path.Points[n-1], path.Points[n]
		if segmentDistance(from, to, f.At, f.At) > 0.5 {
			continue
		}
		g := b.girthOf(f.Row, path.Run.Spec, path.Run.Size)
		half := to.Sub(from).Unit().Scale(f.Row.LengthMM/2 + f.Row.SocketMM)
		body.add(f.At.Sub(half), f.At.Add(half), g)
		body.assume(g, "outside of coupling "+f.Place())
		break
	}
	b.out.add(body)
}

// oldPipe enters the legs of old pipe with their elbows between near and far.
func (b *builder) oldPipe(i, near, far int) {
	path := &b.lay.Paths[i]
	r := path.Run
	elbows := b.elbows(i)
	at := near
	for k := 1; k < len(path.Points); k++ {
		from, to := path.Points[k-1], path.Points[k]
		way := to.Sub(from).Unit()
		start, finish := from, to
		if k-1 < len(path.Stops) {
			start = from.Add(way.Scale(path.Stops[k-1].TakeOffMM))
		}
		if k < len(path.Stops) {
			finish = to.Sub(way.Scale(path.Stops[k].TakeOffMM))
		}
		name := r.ID
		if r.RemainsOf != "" {
			name = r.RemainsOf
		}
		body := Body{ID: fmt.Sprintf("old %s/%d", r.ID, k), Name: fmt.Sprintf("leg %d of %s", k, name),
			Run: r.ID, Leg: k, Pos: r.LegPos(k), Group: b.group(r)}
		if path.Pipe.OutsideMM > 0 && finish.Sub(start).Dot(way) > 0 {
			body.Likely = []Shape{Cylinder(start, finish, path.Pipe.OutsideMM/2)}
			if r.Spec.Flexible() {
				body.Assumed = graph.Say("the way of the hose %s", r.ID)
			} else {
				body.Core = body.Likely
			}
		}
		next := b.out.add(body)
		b.out.join(at, next)
		at = next
		if elbow, ok := elbows[k]; ok {
			b.out.join(at, elbow)
			at = elbow
		}
	}
	b.out.join(at, far)
}
