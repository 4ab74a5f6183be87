package solid

import (
	"fmt"
	"strings"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/route"
)

// waySteps is at how many places of a joint's way in the moving bodies are held against
// those that stand: a joint is some 20 to 50 mm deep, and nothing here is thinner than that
// over this number.
const waySteps = 4

// Block is a joint that can't be made when its turn comes: on the straight way in something
// stands that is there already.
type Block struct {
	Joint         int // number in Layout.Joints
	Moving, Stand int // indexes into Bodies.All
}

// Replay makes the joints of a layout in their order, each by a straight way as long as the
// joint is deep, and returns those on whose way something stands: a plain union gives no
// more than the lift of its face, and its own tails stand in the way of what must slide past
// them. Only what is certainly there stands in the way (see Body.Core). Hose bends aside, a
// slip coupling is parked, an old end with play is drawn back, and two joints made at the
// same moment are one move: those are judged with the order of assembly.
func (s *Bodies) Replay() []Block {
	r := newReplay(s)
	var out []Block
	for n := range s.lay.Joints {
		j := &s.lay.Joints[n]
		a, b := r.root(j.BodyA), r.root(j.BodyB)
		if a == b {
			continue
		}
		if !r.free[n+1] && !j.Nut && j.DepthMM > 0 && j.Into != (graph.Vec{}) && j.Located && j.Spec != catalog.HosePipe && !j.Spec.Flexible() {
			if block, ok := r.way(j, a, b); ok {
				out = append(out, block)
			}
		}
		r.merge(a, b)
	}
	return out
}

// replay is one call of Replay at work: which bodies are one by now.
type replay struct {
	s       *Bodies
	parent  map[string]string
	members map[string][]int // root -> bodies
	free    map[int]bool     // joints judged elsewhere
	low     []graph.Vec      // box round each body's core
	high    []graph.Vec
}

func newReplay(s *Bodies) *replay {
	r := &replay{s: s, parent: map[string]string{}, members: map[string][]int{}, free: map[int]bool{},
		low: make([]graph.Vec, len(s.All)), high: make([]graph.Vec, len(s.All))}
	for i := range s.All {
		b := &s.All[i]
		id := b.ID
		if !b.New {
			id = route.Existing
		}
		r.members[id] = append(r.members[id], i)
		for k, shape := range b.Core {
			low, high := shape.Bounds()
			if k == 0 {
				r.low[i], r.high[i] = low, high
			}
			r.low[i], r.high[i] = least(r.low[i], low), most(r.high[i], high)
		}
	}
	for _, loop := range route.Assemble(s.lay).Loops {
		switch {
		case loop.How == "play" || loop.How == "flexible hose" || loop.How == "slip coupling":
			r.free[loop.Closing] = true
		case strings.HasPrefix(loop.How, "together"):
			r.free[loop.Closing] = true
			var with int
			if _, err := fmt.Sscanf(loop.How, "together with joint %d", &with); err == nil {
				r.free[with] = true
			}
		}
	}
	for n, j := range s.lay.Joints {
		if j.Kind == "slip" || j.PlayMM >= j.DepthMM-0.05 && j.PlayMM > 0 {
			r.free[n+1] = true
		}
	}
	return r
}

func (r *replay) root(id string) string {
	for {
		p, ok := r.parent[id]
		if !ok {
			return id
		}
		id = p
	}
}

func (r *replay) merge(a, b string) {
	if b == route.Existing {
		a, b = b, a
	}
	r.parent[b] = a
	r.members[a] = append(r.members[a], r.members[b]...)
	delete(r.members, b)
}

// way looks whether the side of a joint that is free comes in without a block.
func (r *replay) way(j *route.Joint, a, b string) (Block, bool) {
	out := j.Into.Scale(-j.DepthMM) // from its place, for the spigot's side
	spigot, socket := a, b
	if j.Spigot == 'b' {
		spigot, socket = b, a
	}
	if spigot == route.Existing { // then the socket's side moves, the other way
		spigot, socket, out = socket, spigot, out.Scale(-1)
	}
	own := [2]int{r.s.Index(j.BodyA), r.s.Index(j.BodyB)}
	for _, m := range r.members[spigot] {
		low, high := least(r.low[m], r.low[m].Add(out)), most(r.high[m], r.high[m].Add(out))
		for _, f := range r.members[socket] {
			x, y := &r.s.All[m], &r.s.All[f]
			if len(x.Core) == 0 || len(y.Core) == 0 || x.Group != y.Group || x.Group < 0 || m == own[0] && f == own[1] || m == own[1] && f == own[0] {
				continue
			}
			if high.X < r.low[f].X || low.X > r.high[f].X || high.Y < r.low[f].Y || low.Y > r.high[f].Y || high.Z < r.low[f].Z || low.Z > r.high[f].Z {
				continue
			}
			if r.meets(x, y, out) {
				return Block{Joint: j.Number, Moving: m, Stand: f}, true
			}
		}
	}
	return Block{}, false
}

// meets reports whether a body on its way out of its place runs into another that it does
// not run into where it belongs.
func (r *replay) meets(x, y *Body, out graph.Vec) bool {
	if _, d := through(x.Core, y.Core); d > touchMM {
		return false // a clash, and said as one
	}
	for k := 1; k <= waySteps; k++ {
		by := out.Scale(float64(k) / waySteps)
		moved := make([]Shape, len(x.Core))
		for i, shape := range x.Core {
			moved[i] = shape.Move(by)
		}
		if _, d := through(moved, y.Core); d > touchMM {
			return true
		}
	}
	return false
}

// CheckReplay words what stands in the way when the work is put together in its order.
func (s *Bodies) CheckReplay() []graph.Diagnostic {
	var out []graph.Diagnostic
	for _, b := range s.Replay() {
		j := &s.lay.Joints[b.Joint-1]
		moving, stand := &s.All[b.Moving], &s.All[b.Stand]
		spigot, socket := j.A, j.B
		if j.Spigot == 'b' {
			spigot, socket = socket, spigot
		}
		pos := moving.Pos
		if !pos.IsValid() {
			pos = stand.Pos
		}
		out = append(out, graph.Diagnostic{Pos: pos, Rule: "assembly", Severity: graph.Error,
			Message: graph.Say("joint %d (%s into %s) can't be made in its turn: on its way in, %s, %s runs into %s, which stands there by then",
				j.Number, spigot, socket, millimetres(j.DepthMM), moving.Name, stand.Name),
			Hint:    "put a true-union valve, whose body comes out, or a slip coupling in place of what stands there, or say how far the old end can be drawn back (play)",
			Related: []graph.Related{{Pos: stand.Pos, Message: graph.Say("%s is here", stand.Name)}}})
	}
	return graph.SortDiagnostics(out)
}
