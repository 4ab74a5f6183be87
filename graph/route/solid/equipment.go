package solid

import (
	"fmt"
	"math"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/settle"
)

// mouth is a port of equipment: where it is, the way it looks, and its socket.
type mouth struct {
	place, way graph.Vec // way zero: nobody says how it looks
	socket     []Shape
}

// equipment is a part of which nobody gave the box: a box as large as the catalogue takes its kind
// to be, about the ports that are tied to each other, and their sockets. Where legs don't tie its
// ports together it stands at each of them. All of it is assumed.
func (b *builder) equipment(p *graph.Part) {
	body := b.bodyOf(p, "")
	var order []int
	mouths := map[int][]mouth{}
	for _, q := range p.Ports {
		group, tied := b.lay.Groups[p.ID+"."+q.Name]
		place, way, ok := b.at(p, q.Name)
		if !ok || !tied {
			continue
		}
		if len(mouths[group]) == 0 {
			order = append(order, group)
		}
		mouths[group] = append(mouths[group], mouth{place, way, b.socketAt(p, q.Name, place, way)})
	}
	whole := -1
	for k, group := range order {
		own := body
		own.Group = group
		b.guess(&own, p, mouths[group])
		if k > 0 {
			own.ID += fmt.Sprintf("/%d", k)
			b.out.join(whole, b.out.add(own))
			continue
		}
		whole = b.out.add(own)
	}
	if whole < 0 {
		b.out.add(body)
	}
	if !p.New() {
		return
	}
	ends := []string{body.ID}
	for _, q := range p.Ports {
		tail := body
		tail.ID = b.lay.BodyAt(p, q.Name)
		b.out.add(tail)
		ends = append(ends, tail.ID)
	}
	b.joinTails(ends)
}

// socketAt is the socket of a port: as wide and as deep as one is, and a quarter of its width
// behind its stop.
func (b *builder) socketAt(p *graph.Part, port string, place, way graph.Vec) []Shape {
	if way == (graph.Vec{}) {
		return nil
	}
	fit := b.lay.Stage.Part(p.ID)
	spec, size := fit.Spec.V, fit.Size.V
	if r := b.lay.Stage.RunAt(p.ID, port); size.IsZero() && r != nil {
		spec, size = r.Spec, r.Size
	}
	g := b.girthOf(fit.Row.V, spec, size)
	depth := max(b.lay.Stage.Depth(spec, size), fit.Row.V.SocketMM)
	return []Shape{Cylinder(place.Add(way.Scale(depth)), place.Sub(way.Scale(g.likely/4)), g.likely/2)}
}

// guess gives a body the box its kind usually fills about its ports, less what lies where old work
// is described to be, and its sockets.
func (b *builder) guess(body *Body, p *graph.Part, ports []mouth) {
	body.Guess = true
	if low, high, ok := caseOf(b.lay.Stage.Part(p.ID).Body, ports); ok {
		if p.Existing {
			low, high, ok = b.room(low, high, body, ports)
		}
		if ok {
			body.Likely = []Shape{Box(low, high)}
			size := high.Sub(low)
			body.Assumed = graph.Say("the size of %s %s (taken as %s)", p.Kind, p.ID, threeSides(size))
		}
	}
	for _, m := range ports {
		body.Likely = append(body.Likely, m.socket...)
	}
	if body.Assumed == "" && len(body.Likely) > 0 {
		body.Assumed = graph.Say("the size of %s %s (its sockets taken as %s wide)", p.Kind, p.ID, quantity.Closely(2*body.Likely[0].Radius()))
	}
}

// threeSides words the size of a box.
func threeSides(v graph.Vec) quantity.Text {
	return graph.Say("%s wide, %s deep and %s high", quantity.Closely(math.Round(v.X)), quantity.Closely(math.Round(v.Y)), quantity.Closely(math.Round(v.Z)))
}

// caseOf is the box equipment usually fills: what its ports span, half its thickness and height
// beyond them, and its length behind those that look the way the first does; upright it is as long
// as it is high. Nothing of it stands before a port. ok is false where no port looks along an axis,
// where its size is not known, or where its ports contradict each other.
func caseOf(body settle.Body, ports []mouth) (low, high graph.Vec, ok bool) {
	half := graph.Vec{X: body.ThickMM / 2, Y: body.ThickMM / 2, Z: body.HighMM / 2}
	if len(ports) == 0 {
		return low, high, false
	}
	low, high = ports[0].place, ports[0].place
	for _, m := range ports {
		low, high = least(low, m.place), most(high, m.place)
	}
	low, high = low.Sub(half), high.Add(half)
	var looks graph.Vec
	for _, m := range ports {
		if !along(m.way) || looks != (graph.Vec{}) && m.way.Dot(looks) < 0.99 {
			continue
		}
		looks = m.way
		long := body.LongMM
		if math.Abs(looks.Z) > 0.99 {
			long = max(long, body.HighMM)
		}
		behind := m.place.Sub(looks.Scale(long))
		low, high = least(low, behind), most(high, behind)
	}
	for _, m := range ports {
		before(m, &low, &high)
	}
	ok = body.LongMM > 0 && half.X > 0 && looks != (graph.Vec{})
	return low, high, ok && low.X < high.X && low.Y < high.Y && low.Z < high.Z
}

// along reports whether a way lies along an axis.
func along(v graph.Vec) bool {
	return math.Abs(v.X) > 0.99 || math.Abs(v.Y) > 0.99 || math.Abs(v.Z) > 0.99
}

// before takes off a box what stands before the face of a port.
func before(m mouth, low, high *graph.Vec) {
	for _, a := range [][4]*float64{{&m.way.X, &m.place.X, &low.X, &high.X}, {&m.way.Y, &m.place.Y, &low.Y, &high.Y}, {&m.way.Z, &m.place.Z, &low.Z, &high.Z}} {
		switch {
		case *a[0] > 0.99:
			*a[3] = min(*a[3], *a[1])
		case *a[0] < -0.99:
			*a[2] = max(*a[2], *a[1])
		}
	}
}

// room takes off the box a part is taken to fill what the description says is elsewhere: pipe of
// the old work and parts whose box is given would have to stand in it, and what is described beats
// what is taken. Of the ways to be clear of a thing the one that leaves most of the box is taken;
// the ports stay in it.
func (b *builder) room(low, high graph.Vec, body *Body, ports []mouth) (graph.Vec, graph.Vec, bool) {
	for _, o := range b.described(body.Group, body.Part, ports) {
		low, high = clearOf(low, high, o[0], o[1], ports)
	}
	return low, high, low.X < high.X && low.Y < high.Y && low.Z < high.Z
}

// besideMM is what old pipe is taken to have free beside it where a body is only taken to be there,
// mm: its joints were primed and its fittings are thicker than it. Common practice, no source.
const besideMM = 40

// described are the corners of what stands in a group by the description, but for a part and the
// first leg of its pipes: old pipe, a slant in short lengths, the gap where old pipe was cut, and
// boxes.
func (b *builder) described(group int, but string, ports []mouth) [][2]graph.Vec {
	var out [][2]graph.Vec
	put := func(from, to graph.Vec, r float64) {
		for _, m := range ports {
			if from == m.place || to == m.place {
				return
			}
		}
		pieces := 1
		if way := to.Sub(from); !along(way.Unit()) && r > 0 {
			pieces = max(1, min(100, int(math.Ceil(way.Len()/(2*r)))))
		}
		wide := graph.Vec{X: r, Y: r, Z: r}
		for k := range pieces {
			p := from.Add(to.Sub(from).Scale(float64(k) / float64(pieces)))
			q := from.Add(to.Sub(from).Scale(float64(k+1) / float64(pieces)))
			out = append(out, [2]graph.Vec{least(p, q).Sub(wide), most(p, q).Add(wide)})
		}
	}
	ended := map[string]graph.Vec{} // where the last of what remains of a cut run ends
	for i := range b.lay.Paths {
		path := &b.lay.Paths[i]
		if !path.Run.Existing || !path.Located || b.group(path.Run) != group || len(path.Points) < 2 {
			continue
		}
		r := path.Pipe.OutsideMM/2 + besideMM
		for k := 1; k < len(path.Points); k++ {
			put(path.Points[k-1], path.Points[k], r)
		}
		if id := path.Run.RemainsOf; id != "" {
			if at, ok := ended[id]; ok && along(path.Points[0].Sub(at).Unit()) {
				put(at, path.Points[0], r)
			}
			ended[id] = path.Points[len(path.Points)-1]
		}
	}
	for _, p := range b.lay.Circuit.Parts {
		if p.Box == nil || !p.Existing || p.ID == but || len(p.Ports) == 0 {
			continue
		}
		first := p.Ports[0]
		origin, ok := b.lay.Positions[p.ID+"."+first.Name]
		if g, tied := b.lay.Groups[p.ID+"."+first.Name]; !ok || !tied || g != group {
			continue
		}
		if first.At != nil {
			origin = origin.Sub(*first.At)
		}
		l, h := Box(origin.Add(p.Box[0]), origin.Add(p.Box[1])).Bounds()
		out = append(out, [2]graph.Vec{l, h})
	}
	return out
}

// clearOf is a box less what lies beside another on the side that leaves most of it, with the ports
// still in it; the box as it is where that can't be.
func clearOf(low, high, l, h graph.Vec, ports []mouth) (graph.Vec, graph.Vec) {
	if l.X >= high.X-touchMM || h.X <= low.X+touchMM || l.Y >= high.Y-touchMM || h.Y <= low.Y+touchMM || l.Z >= high.Z-touchMM || h.Z <= low.Z+touchMM {
		return low, high
	}
	bestLow, bestHigh, best := low, high, 0.0
	for side := range 6 {
		p, q := low, high
		switch side {
		case 0:
			q.X = l.X
		case 1:
			p.X = h.X
		case 2:
			q.Y = l.Y
		case 3:
			p.Y = h.Y
		case 4:
			q.Z = l.Z
		case 5:
			p.Z = h.Z
		}
		size := q.Sub(p)
		if size.X <= 0 || size.Y <= 0 || size.Z <= 0 || !holds(p, q, ports) {
			continue
		}
		if volume := size.X * size.Y * size.Z; volume > best {
			bestLow, bestHigh, best = p, q, volume
		}
	}
	return bestLow, bestHigh
}

// holds reports whether all ports are in a box or on it.
func holds(low, high graph.Vec, ports []mouth) bool {
	for _, m := range ports {
		if v := m.place; v.X < low.X-touchMM || v.X > high.X+touchMM || v.Y < low.Y-touchMM || v.Y > high.Y+touchMM || v.Z < low.Z-touchMM || v.Z > high.Z+touchMM {
			return false
		}
	}
	return true
}
