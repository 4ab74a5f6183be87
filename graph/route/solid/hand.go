package solid

import (
	"fmt"
	"math"
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/settle"
)

// The hand goes a straight way out from the pipe, in one of so many directions square to it.
const handWays = 12

// What is thick where a hand works, mm, half: a strap, a blade or a brush beside the pipe, and
// a handle with the fingers round it. Common practice, no source.
const (
	toolHalfMM   = 8
	handleHalfMM = 14
	stemMM       = 25 // from the body of a valve to the middle of its handle
)

// task is one thing a hand must do at one place, and how many of the ways next to each other
// it needs free for it.
type task struct {
	what   string // of catalog.HandRoom
	does   string // in words
	nuts   string // both nuts of the part it is one of, in words; ""
	at     graph.Vec
	axis   graph.Vec
	radius float64 // of what is in the hand's middle
	size   catalog.Size
	ways   int
	body   int            // whose task it is; -1
	skip   map[int]bool   // bodies that are no obstacle to it
	inLine bool           // nor is what lies on its axis: it is drawn back, or primed before it goes in
	only   func(int) bool // of the others, those that stand there at the time; nil: all
	pos    graph.Pos
}

// CheckHands finds where the new work leaves a hand less room than it needs: at the nuts of
// unions, the handles of valves, both cut lines and the joints that are not made on the bench.
// Each is a warning and no more: sizes are assumed, and hands find a way.
func (s *Bodies) CheckHands() []graph.Diagnostic {
	h := &hands{s: s, solids: s.obstacles()}
	type place struct{ what, by string }
	at := map[place]int{} // where in out
	tighter := map[int]*obstacle{}
	var out []graph.Diagnostic
	var lacks []float64
	for _, t := range h.tasks() {
		need, assumed, ok := s.lay.Stage.HandRoom(t.what, t.size)
		if !ok || need <= 0 {
			continue
		}
		there, by := h.room(&t, need)
		if there >= need-touchMM {
			continue
		}
		d := lacking(&t, by, there, need, assumed)
		if key := (place{t.what, t.nuts}); t.nuts != "" { // of the two nuts of a part the tighter
			if i, said := at[key]; said {
				if need-there > lacks[i] {
					lacks[i] = need - there
				} else {
					there, by = need-lacks[i], tighter[i]
				}
				t.does = t.nuts
				out[i], tighter[i] = lacking(&t, by, there, need, assumed), by
				continue
			}
			at[key], tighter[len(out)] = len(out), by
		}
		if t.what == "brush" && by != nil { // of many joints along one obstacle the tightest
			key := place{t.what, by.name}
			if i, said := at[key]; said {
				if need-there > lacks[i] {
					out[i], lacks[i] = d, need-there
				}
				continue
			}
			at[key] = len(out)
		}
		out, lacks = append(out, d), append(lacks, need-there)
	}
	return graph.SortDiagnostics(out)
}

// lacking words a task that has too little room.
func lacking(t *task, by *obstacle, there, need float64, assumed bool) graph.Diagnostic {
	d := graph.Diagnostic{Pos: t.pos, Rule: "hand-room", Severity: graph.Warning,
		Message: graph.Say("%s has %s of room, and needs %s", t.does, quantity.Closely(math.Max(0, math.Round(there))), quantity.Closely(need)),
		Hint:    hintOf[t.what]}
	if by != nil {
		d.Message += graph.Say(": in the way is %s", by.name)
		if by.pos.IsValid() {
			d.Related = []graph.Related{{Pos: by.pos, Message: graph.Say("%s is here", by.name)}}
		}
	}
	if assumed {
		d.Hint += graph.Say("; the %s is assumed: where yours needs less write [[catalog.hand-room]] name = \"%s %s\", room and source", quantity.Closely(need), t.what, t.size)
	}
	return d
}

// hintOf says what helps where a task lacks room.
var hintOf = map[string]quantity.Text{
	"spanner": "move it along its leg, or lead what is in the way farther off",
	"handle":  "turn the valve to another side or move it along its leg, or fit one whose handle is shorter",
	"wheel":   "turn the valve to another side or move it along its leg",
	"saw":     "cut elsewhere on the leg, or with a wire saw or a cutter that has room there",
	"brush":   "prime it before what is in the way stands there, or lead that farther off",
}

// obstacle is one solid a hand may run into.
type obstacle struct {
	shape     Shape
	low, high graph.Vec
	name      string
	pos       graph.Pos
	body      int // -1: a wall
	group     int
}

// obstacles are all bodies as they are taken to be, and the walls of the cabinet but for its
// front, which is open while somebody works.
func (s *Bodies) obstacles() []obstacle {
	var out []obstacle
	for i := range s.All {
		b := &s.All[i]
		name := b.Name
		if b.Guess {
			name += " as large as it is taken to be"
		}
		for _, shape := range b.Likely {
			low, high := shape.Bounds()
			out = append(out, obstacle{shape, low, high, name, b.Pos, i, b.Group})
		}
	}
	c := s.lay.Circuit.Cabinet
	if c == nil {
		return out
	}
	origin, ok := s.lay.Positions[c.From.String()]
	group, tied := s.lay.Groups[c.From.String()]
	if !ok || !tied {
		return out
	}
	low, high := least(c.Corner, c.Far).Add(origin), most(c.Corner, c.Far).Add(origin)
	for _, w := range walls {
		if w.name == "front" {
			continue
		}
		from, to := low, high
		for _, axis := range [][3]*float64{{&from.X, &to.X, &w.way.X}, {&from.Y, &to.Y, &w.way.Y}, {&from.Z, &to.Z, &w.way.Z}} {
			switch {
			case *axis[2] > 0:
				*axis[0], *axis[1] = *axis[1], *axis[1]+wallThickMM
			case *axis[2] < 0:
				*axis[0], *axis[1] = *axis[0]-wallThickMM, *axis[0]
			}
		}
		shape := Box(from, to)
		l, h := shape.Bounds()
		out = append(out, obstacle{shape, l, h, "the " + w.name + " of the cabinet", c.Pos, -1, group})
	}
	return out
}

// wallThickMM is how thick a wall of the cabinet is taken to be, mm. Common practice, no source.
const wallThickMM = 20

// hands is one call of CheckHands at work.
type hands struct {
	s      *Bodies
	solids []obstacle
}

// tasks are all there is to do by hand, in the order of the parts and the joints.
func (h *hands) tasks() []task {
	var out []task
	for _, p := range h.s.lay.Circuit.Parts {
		if p.New() && settle.InLine(p.Kind) {
			out = append(out, h.ofPart(p)...)
		}
	}
	return append(out, h.ofJoints()...)
}

// ofPart are the nuts and the handle of one part in line.
func (h *hands) ofPart(p *graph.Part) []task {
	lay := h.s.lay
	in, ok := lay.Positions[p.ID+"."+graph.In]
	outlet, okOut := lay.Positions[p.ID+"."+graph.Out]
	if !ok || !okOut || outlet == in {
		return nil
	}
	b := &builder{lay: lay, out: h.s}
	g := b.girthOfPart(p)
	t := task{at: in.Add(outlet).Scale(0.5), axis: outlet.Sub(in).Unit(), radius: g.likely / 2, size: lay.Stage.Part(p.ID).Size.V,
		body: h.s.Index("part " + p.ID), skip: map[int]bool{}, pos: p.Pos}
	for i := range h.s.All {
		if h.s.All[i].Part == p.ID {
			t.skip[i] = true
			t.body = i
		}
	}
	var out []task
	if p.Kind == graph.Union {
		t.what, t.ways = "spanner", handWays/4+1
		t.does = fmt.Sprintf("the spanner at the nut of union %q", p.ID)
		return append(out, t)
	}
	for _, port := range []string{graph.In, graph.Out} {
		if lay.Stage.Part(p.ID).OpensAt(port) {
			nut := t
			nut.what, nut.ways, nut.at = "spanner", handWays/4+1, lay.Positions[p.ID+"."+port]
			nut.nuts = fmt.Sprintf("the spanner at both nuts of %s %q", p.Kind, p.ID)
			nut.does = fmt.Sprintf("the spanner at the nut of %s %q towards %s.%s", p.Kind, p.ID, p.ID, port)
			out = append(out, nut)
		}
	}
	switch p.Kind {
	case graph.BallValve, graph.ButterflyValve:
		t.what, t.ways = "handle", 0
		t.does = fmt.Sprintf("the handle of %s %q in its quarter turn", p.Kind, p.ID)
		out = append(out, t)
	case graph.GateValve:
		t.what, t.ways = "wheel", 1
		t.does = fmt.Sprintf("the wheel of gate-valve %q", p.ID)
		out = append(out, t)
	}
	return out
}

// ofJoints are the saw at each end of cut pipe and the brush at each socket that is not glued
// on the bench.
func (h *hands) ofJoints() []task {
	lay := h.s.lay
	phase := map[int]route.Phase{}
	for _, step := range route.Assemble(lay).Steps {
		for _, n := range step.Joints {
			phase[n] = step.Phase
		}
	}
	r := newReplay(h.s)
	var out []task
	for n := range lay.Joints {
		j := &lay.Joints[n]
		a, b := r.root(j.BodyA), r.root(j.BodyB)
		if j.Located && j.Into != (graph.Vec{}) && j.Kind != "union" && !j.Spec.Flexible() {
			own := map[int]bool{}
			for _, id := range []string{j.BodyA, j.BodyB} {
				if i := h.s.Index(id); i >= 0 {
					own[i] = true
				}
			}
			if old := lay.Circuit.Run(j.Run); old != nil && old.Existing && old.RemainsOf != "" && (j.BodyA == route.Existing || j.BodyB == route.Existing) {
				out = append(out, h.saw(j, old))
			}
			if at, ok := phase[j.Number]; ok && !at.OnBench() && j.Kind == "cement" {
				out = append(out, h.brush(j, own, h.standing(r, a, b)))
			}
		}
		if a != b {
			r.merge(a, b)
		}
	}
	return out
}

// saw is the cut of old pipe whose end goes into a joint: nothing new stands there yet.
func (h *hands) saw(j *route.Joint, old *graph.Run) task {
	t := task{what: "saw", at: j.At, axis: j.Into, radius: h.s.lay.Stage.SizeOutside(j.Spec, j.Size) / 2, size: j.Size,
		ways: handWays/2 + 1, body: -1, skip: map[int]bool{}, pos: old.Pos,
		does: fmt.Sprintf("the saw at the cut of %s beside %s", old.RemainsOf, strings.TrimSuffix(j.A, "."+graph.RunIn))}
	t.only = func(i int) bool { return !h.s.All[i].New }
	for i := range h.s.All {
		if b := &h.s.All[i]; b.Run == old.ID && h.holds(b, j.At, j.Into) {
			t.skip[i] = true
		}
		if b := &h.s.All[i]; t.body < 0 && b.Run == old.ID {
			t.body = i
		}
	}
	return t
}

// holds reports whether a body is the straight pipe that ends at a place.
func (h *hands) holds(b *Body, at, along graph.Vec) bool {
	for _, s := range b.Likely {
		if p, q := s.Axis(); s.form == cylinder && (p.Sub(at).Len() < 1 || q.Sub(at).Len() < 1) && math.Abs(q.Sub(p).Unit().Dot(along)) > 0.999 {
			return true
		}
	}
	return false
}

// standing tells which bodies are there when two are joined: what was there before, and what
// is on either by then.
func (h *hands) standing(r *replay, roots ...string) func(int) bool {
	there := map[int]bool{}
	for _, root := range append(roots, r.root(route.Existing)) {
		for _, i := range r.members[root] {
			there[i] = true
		}
	}
	return func(i int) bool { return there[i] }
}

// brush is the primer's brush round the end of the pipe, just outside the socket it goes into.
func (h *hands) brush(j *route.Joint, own map[int]bool, standing func(int) bool) task {
	out := j.Into.Scale(-(j.DepthMM + toolHalfMM))
	t := task{what: "brush", at: j.At.Add(out), axis: j.Into, radius: h.s.lay.Stage.SizeOutside(j.Spec, j.Size) / 2, size: j.Size,
		ways: handWays, body: -1, skip: own, inLine: true, only: standing}
	spigot, into := j.A, j.B
	if j.Spigot == 'b' {
		spigot, into = into, spigot
	}
	t.does = fmt.Sprintf("the primer's brush at joint %d (%s into %s)", j.Number, spigot, into)
	for _, id := range []string{j.BodyA, j.BodyB} { // the first that is new, else the first
		if i := h.s.Index(id); i >= 0 && (t.body < 0 || h.s.All[i].New && !h.s.All[t.body].New) {
			t.body, t.pos = i, h.s.All[i].Pos
		}
	}
	return t
}

// room is how much of the room a task needs there is, at its best place round the pipe, and
// what is in the way there.
func (h *hands) room(t *task, need float64) (float64, *obstacle) {
	near := h.near(t, need)
	u := graph.Vec{Z: 1}
	if math.Abs(t.axis.Z) > 0.9 {
		u = graph.Vec{X: 1}
	}
	u = u.Across(t.axis).Unit()
	v := t.axis.Cross(u)
	if t.ways == 0 {
		return h.handle(t, u, v, need, near)
	}
	var free [handWays]float64
	var by [handWays]*obstacle
	for k := range free {
		angle := 2 * math.Pi * float64(k) / handWays
		way := u.Scale(math.Cos(angle)).Add(v.Scale(math.Sin(angle)))
		free[k], by[k] = h.ray(t.at.Add(way.Scale(t.radius)), way, toolHalfMM, need, near)
	}
	best, best2 := -1.0, (*obstacle)(nil)
	for k := range free {
		worst, what := math.Inf(1), (*obstacle)(nil)
		for i := range t.ways {
			if m := (k + i) % handWays; free[m] < worst {
				worst, what = free[m], by[m]
			}
		}
		if worst > best {
			best, best2 = worst, what
		}
	}
	return best, best2
}

// handle is the room of a lever that turns from along the pipe to across it, its stem on the
// best side of the four.
func (h *hands) handle(t *task, u, v graph.Vec, need float64, near []*obstacle) (float64, *obstacle) {
	best, best2 := -1.0, (*obstacle)(nil)
	for _, stem := range []graph.Vec{u, v, u.Scale(-1), v.Scale(-1)} {
		pivot := t.at.Add(stem.Scale(t.radius + stemMM))
		if free, by := h.ray(t.at.Add(stem.Scale(t.radius)), stem, toolHalfMM, stemMM+handleHalfMM, near); free < stemMM+handleHalfMM-touchMM {
			if best < 0 {
				best, best2 = 0, by
			}
			continue
		}
		across := t.axis.Cross(stem)
		for _, along := range []graph.Vec{t.axis, t.axis.Scale(-1)} {
			for _, side := range []graph.Vec{across, across.Scale(-1)} {
				worst, what := need, (*obstacle)(nil)
				for k := range 4 {
					angle := math.Pi / 2 * float64(k) / 3
					way := along.Scale(math.Cos(angle)).Add(side.Scale(math.Sin(angle)))
					if free, by := h.ray(pivot, way, handleHalfMM, need, near); free < worst {
						worst, what = free, by
					}
				}
				if worst > best {
					best, best2 = worst, what
				}
			}
		}
	}
	return best, best2
}

// near are the solids a task's hand can come to.
func (h *hands) near(t *task, need float64) []*obstacle {
	group := -1
	if t.body >= 0 {
		group = h.s.All[t.body].Group
	}
	reach := t.radius + stemMM + need + 2*handleHalfMM
	wide := graph.Vec{X: reach, Y: reach, Z: reach}
	low, high := t.at.Sub(wide), t.at.Add(wide)
	var out []*obstacle
	for k := range h.solids {
		o := &h.solids[k]
		if group < 0 || o.group != group || o.body >= 0 && (t.skip[o.body] || t.only != nil && !t.only(o.body)) {
			continue
		}
		if o.high.X < low.X || o.low.X > high.X || o.high.Y < low.Y || o.low.Y > high.Y || o.high.Z < low.Z || o.low.Z > high.Z {
			continue
		}
		if t.inLine && o.body >= 0 && Distance(o.shape, Capsule(t.at.Sub(t.axis.Scale(reach)), t.at.Add(t.axis.Scale(reach)), 1)) <= 0 {
			continue
		}
		out = append(out, o)
	}
	return out
}

// ray is how far a bar of a thickness reaches a way from a place before it runs into
// something, at most so far, and into what.
func (h *hands) ray(from, way graph.Vec, half, most float64, near []*obstacle) (float64, *obstacle) {
	free, by := most, (*obstacle)(nil)
	for _, o := range near {
		if !hits(o.shape, from, way, half, free) {
			continue
		}
		in, out := free, 0.0
		for in-out > 0.05 {
			mid := (in + out) / 2
			if hits(o.shape, from, way, half, mid) {
				in = mid
			} else {
				out = mid
			}
		}
		free, by = out, o
	}
	return free, by
}

// hits reports whether a bar of a length runs into a shape.
func hits(s Shape, from, way graph.Vec, half, length float64) bool {
	if length <= 0 {
		return false
	}
	half = math.Min(half, length/2)
	bar := Capsule(from.Add(way.Scale(half)), from.Add(way.Scale(length-half)), half)
	return boxesApart(bar, s) <= 0 && Distance(bar, s) <= 0
}
