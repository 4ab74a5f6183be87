package members

import (
	"math"

	"dryfit/graph"
	"dryfit/render/isometric/space"
	"dryfit/render/scene"
)

// clearMM is what lines that do not meet keep apart on the page, mm.
const clearMM = 8.0

// Apart works out the display of the members, widening single gaps until no two lines that
// have nothing to do with each other lie in line or close together on the page.
func (d *Drawing) Apart(ms []Member, scale float64) *space.Space {
	var grow [3]map[int]float64
	for i := range grow {
		grow[i] = map[int]float64{}
	}
	plain := d.displayOf(ms, scale)
	best := plain.grown(grow)
	high := d.reach(ms)
	fault := faultOf(ms, high, d.Room(), best)
	for range 14 {
		if fault.worst == 0 {
			break
		}
		moved := false
		m, n := &ms[fault.m], &ms[fault.n]
		keepAxis, keepGap, keepBy := 0, 0, 0.0
		for a := range grow {
			for _, gap := range gapsBetween(best[a], space.Axis(a), m, n) {
				old := grow[a][gap]
				for _, by := range []float64{1.3, 1.8, 2.6, 4} {
					grow[a][gap] = math.Max(old, 1) * by
					try := plain.grown(grow)
					if f := faultOf(ms, high, d.Room(), try); f.sum < fault.sum-0.05 {
						fault, best, moved = f, try, true
						keepAxis, keepGap, keepBy = a, gap, grow[a][gap]
					}
				}
				grow[a][gap] = old
			}
		}
		if !moved {
			break
		}
		grow[keepAxis][keepGap] = keepBy
	}
	return best
}

// gapsBetween lists the gaps on an axis within what two members take up, a few at most.
func gapsBetween(l space.Levels, a space.Axis, m, n *Member) []int {
	lo, hi := len(l.Real), 0
	for _, v := range []float64{a.Of(m.A), a.Of(m.B), a.Of(n.A), a.Of(n.B)} {
		lo, hi = min(lo, l.Index(v)), max(hi, l.Index(v))
	}
	step := max(1, (hi-lo)/6)
	var out []int
	for i := lo; i < hi; i += step {
		out = append(out, i)
	}
	return out
}

// reach is how far each member's sign stands out from its line, mm.
func (d *Drawing) reach(ms []Member) []float64 {
	out := make([]float64, len(ms))
	for i := range ms {
		if ms[i].Run == nil {
			s, _ := d.Sign(ms[i].Part)
			out[i] = s.Box.H() / 2
		}
	}
	return out
}

// sizeCost and overCost weigh the size of the drawing, and what of it is too large for the
// page, against lines in each other's way, per mm.
const (
	sizeCost = 0.03
	overCost = 1.0
)

// fault is how badly lines crowd each other, and the worst pair.
type fault struct {
	sum, worst float64
	m, n       int
}

func faultOf(ms []Member, high []float64, room scene.Box, sp *space.Space) fault {
	a, b := Show(ms, sp)
	pa, pb := make([]scene.Point, len(ms)), make([]scene.Point, len(ms))
	box := make([]scene.Box, len(ms))
	for i := range ms {
		pa[i], pb[i] = space.Project(a[i]), space.Project(b[i])
		box[i] = scene.Empty().Add(pa[i]).Add(pb[i]).Grow(clearMM / 2)
	}
	var f fault
	all := scene.Empty()
	for i := range box {
		all = all.Union(box[i])
		box[i] = box[i].Grow(high[i])
	}
	f.sum = sizeCost*(all.W()+all.H()) + overCost*(math.Max(0, all.W()-room.W())+math.Max(0, all.H()-room.H()))
	note := func(i, j int, c float64) {
		f.sum += c
		if c > f.worst {
			f.worst, f.m, f.n = c, i, j
		}
	}
	for i := range ms {
		if l := space.Length(space.Sub(pb[i], pa[i])); l < 0.6*leastNew && ms[i].Run != nil {
			note(i, i, 2*(0.6*leastNew-l)) // a slant seen nearly end on
		}
		for j := range i {
			if box[i].Overlaps(box[j]) {
				if c := crowding(&ms[i], &ms[j], high[i]+high[j], pa[i], pb[i], pa[j], pb[j]); c > 0 {
					note(i, j, c)
				}
			}
		}
	}
	return f
}

// crowding says how badly two members are in each other's way on the page; 0: not at all.
func crowding(m, n *Member, high float64, a, b, c, e scene.Point) float64 {
	if Meet(m, n) {
		return folding(m, n, space.Sub(b, a), space.Sub(e, c))
	}
	if s, t, ok := Crossing(a, b, c, e); ok {
		// a crossing is well read unless it is close to an end, or on a sign
		room := math.Min(math.Min(s, 1-s)*space.Length(space.Sub(b, a)), math.Min(t, 1-t)*space.Length(space.Sub(e, c)))
		if m.Run == nil || n.Run == nil {
			return clearMM + high
		}
		return 0.2 + math.Max(0, clearMM*0.75-room)
	}
	return math.Max(0, clearMM+high-distance(a, b, c, e))
}

// folding says how badly two members that meet at a corner seem to lie in one line on the page,
// as a slanting leg does that is seen along its plane.
func folding(m, n *Member, u, v scene.Point) float64 {
	const least = 0.3 // sine of the angle that is read as a corner
	if math.Abs(m.Way().Unit().Dot(n.Way().Unit())) > 0.999 {
		return 0
	}
	return 20 * math.Max(0, least-math.Abs(space.Cross(space.Unit(u), space.Unit(v))))
}

// Meet reports whether members share an end, or follow a third on one line at once.
func Meet(m, n *Member) bool {
	same := func(a, b graph.Vec) bool { return a.Sub(b).Len() < 2*space.SameLevel }
	return same(m.A, n.A) || same(m.A, n.B) || same(m.B, n.A) || same(m.B, n.B)
}

// Crossing returns where, as shares of the lines, two lines cross.
func Crossing(a, b, c, d scene.Point) (s, t float64, ok bool) {
	u, v := space.Sub(b, a), space.Sub(d, c)
	k := space.Cross(u, v)
	if math.Abs(k) < 1e-9*(space.Length(u)*space.Length(v)+1e-9) || k == 0 {
		return 0, 0, false
	}
	w := space.Sub(c, a)
	s, t = space.Cross(w, v)/k, space.Cross(w, u)/k
	return s, t, s > 0 && s < 1 && t > 0 && t < 1
}

// distance is that between two lines that do not cross.
func distance(a, b, c, d scene.Point) float64 {
	return math.Min(math.Min(ToLine(a, c, d), ToLine(b, c, d)), math.Min(ToLine(c, a, b), ToLine(d, a, b)))
}

// ToLine is the distance of p from the line a to b.
func ToLine(p, a, b scene.Point) float64 {
	v := space.Sub(b, a)
	l := space.Dot(v, v)
	if l == 0 {
		return space.Length(space.Sub(p, a))
	}
	t := math.Min(1, math.Max(0, space.Dot(space.Sub(p, a), v)/l))
	return space.Length(space.Sub(p, space.Along(a, b, t)))
}

// Show returns where the ends of members are drawn.
func Show(ms []Member, sp *space.Space) (a, b []graph.Vec) {
	a, b = make([]graph.Vec, len(ms)), make([]graph.Vec, len(ms))
	for i := range ms {
		a[i], b[i] = sp.Show(ms[i].A), sp.Show(ms[i].B)
	}
	return a, b
}
