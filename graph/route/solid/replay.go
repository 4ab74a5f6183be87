package solid

import (
	"fmt"
	"math"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/settle"
)

// waySteps is at how many places of a joint's way in the moving bodies are held against
// those that stand: a joint is some 20 to 50 mm deep, and nothing here is thinner than that
// over this number.
const waySteps = 4

// Block is a joint that can't be made when its turn comes: on the straight way in something
// stands that is there already.
type Block struct {
	Joint         int    // number in Layout.Joints
	Moving, Stand int    // indexes into Bodies.All; Stand -1: a wall of the cabinet
	Wall          string // that wall; ""
	Sideways      bool   // the body of a part that comes out between its nuts has no way in between its tails
	movingOwn     int    // body of the joint on the side that moves; -1
	standOwn      int    // and on the side that stands
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
		if j.Nut {
			if block, ok := r.sideways(j); ok {
				out = append(out, block)
			}
		}
		if !r.free[n+1] && !j.Nut && j.DepthMM > 0 && j.Into != (graph.Vec{}) && j.Located && !j.Spec.Flexible() {
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
		case loop.How == "slip coupling": // all there are on the loop slide together
			for _, n := range loop.Joints {
				r.free[n] = r.free[n] || s.lay.Joints[n-1].Kind == "slip"
			}
		case loop.How == "play" || loop.How == "flexible hose":
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
		if j.PlayMM >= j.DepthMM-0.05 && j.PlayMM > 0 {
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
			if r.clear(f, low, high) {
				continue
			}
			if r.meets(x, y, out) {
				block := Block{Joint: j.Number, Moving: m, Stand: f, movingOwn: own[0], standOwn: own[1]}
				if socket == a {
					block.movingOwn, block.standOwn = own[1], own[0]
				}
				return block, true
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

// sidewaysSteps is at how many places on its way the body of a true union is looked at.
const sidewaysSteps = 8

// sideways looks whether the body of a part that comes out between two nuts can go in between
// its tails, which stand by then: square to the pipe, some way round it. Where the tails are
// not tied to each other yet, one of them comes to the body instead.
func (r *replay) sideways(j *route.Joint) (Block, bool) {
	body := r.s.Index(j.BodyA)
	if body < 0 || r.s.All[body].Part == "" || len(r.s.All[body].Core) == 0 || j.BodyA != "part "+r.s.All[body].Part || j.Into == (graph.Vec{}) {
		return Block{}, false
	}
	b := &r.s.All[body]
	if p := r.s.lay.Circuit.Part(b.Part); p == nil || !settle.InLine(p.Kind) {
		return Block{}, false
	}
	var tails []string
	for n := range r.s.lay.Joints {
		if o := &r.s.lay.Joints[n]; o.Nut && o.BodyA == j.BodyA {
			tails = append(tails, r.root(o.BodyB))
		}
	}
	moving := r.root(j.BodyA)
	if len(tails) != 2 || tails[0] != tails[1] || tails[0] == moving || moving == route.Existing {
		return Block{}, false
	}
	standing := r.members[tails[0]]
	if old := r.root(route.Existing); old != tails[0] {
		standing = append(standing[:len(standing):len(standing)], r.members[old]...)
	}
	reach := 2 * b.Core[0].Radius()
	if len(b.Likely) > 0 {
		reach = 2 * b.Likely[0].Radius()
	}
	u := graph.Vec{Z: 1}
	if math.Abs(j.Into.Z) > 0.9 {
		u = graph.Vec{X: 1}
	}
	v := j.Into.Cross(u)
	stand, side := -1, ""
	for k := range handWays {
		angle := 2 * math.Pi * float64(k) / handWays
		way := u.Scale(math.Cos(angle)).Add(v.Scale(math.Sin(angle))).Scale(reach)
		met := r.meetsOnWay(r.members[moving], standing, way)
		if met < 0 {
			wall := r.wallOnWay(r.members[moving], way)
			if wall == "" {
				return Block{}, false
			}
			side = wall
			continue
		}
		if stand < 0 || !r.s.All[stand].New && r.s.All[met].New {
			stand = met
		}
	}
	return Block{Joint: j.Number, Moving: body, Stand: stand, Wall: side, Sideways: true, movingOwn: body, standOwn: r.s.Index(j.BodyB)}, true
}

// wallOnWay is the wall of the cabinet that some bodies run into on a way out of their place; ""
// for none, or where they stand in it already, which is said as a clash.
func (r *replay) wallOnWay(moving []int, way graph.Vec) string {
	low, high, group, ok := room(r.s.lay)
	if !ok {
		return ""
	}
	for _, m := range moving {
		b := &r.s.All[m]
		if b.Group != group || len(b.Core) == 0 {
			continue
		}
		for _, w := range walls {
			if depth, _ := b.inWall(w, low, high); depth > touchMM {
				continue
			}
			for k := 1; k <= sidewaysSteps; k++ {
				moved := Body{Part: "moved"} // nothing goes through a wall sideways, pipe neither
				for _, shape := range b.Core {
					moved.Core = append(moved.Core, shape.Move(way.Scale(float64(k)/sidewaysSteps)))
				}
				if depth, _ := moved.inWall(w, low, high); depth > touchMM {
					return w.name
				}
			}
		}
	}
	return ""
}

// meetsOnWay is the first of some standing bodies that some moving ones run into on a way out
// of their place; -1 for none.
func (r *replay) meetsOnWay(moving, standing []int, way graph.Vec) int {
	for _, f := range standing {
		for _, m := range moving {
			x, y := &r.s.All[m], &r.s.All[f]
			if len(x.Core) == 0 || len(y.Core) == 0 || x.Group != y.Group || x.Group < 0 || x.Part != "" && x.Part == y.Part {
				continue
			}
			low, high := least(r.low[m], r.low[m].Add(way)), most(r.high[m], r.high[m].Add(way))
			if r.clear(f, low, high) {
				continue
			}
			if _, d := through(x.Core, y.Core); d > touchMM {
				continue
			}
			for k := 1; k <= sidewaysSteps; k++ {
				moved := make([]Shape, len(x.Core))
				for i, shape := range x.Core {
					moved[i] = shape.Move(way.Scale(float64(k) / sidewaysSteps))
				}
				if _, d := through(moved, y.Core); d > touchMM {
					return f
				}
			}
		}
	}
	return -1
}

// mostOrders bounds how many orders of assembly are tried where the first is blocked.
const mostOrders = 24

// Unblocked returns the layout in an order of assembly in which fewer joints are blocked, the
// fewest that were found, with its bodies and what is left of the blocks; the same where
// another order helps nothing. It puts off, one after the other, the joints by which what
// stands in the way came there, until after the joint it stands in the way of.
func (s *Bodies) Unblocked() (*route.Layout, *Bodies, []Block) {
	best, blocks := s, s.Replay()
	tried := 0
	for len(blocks) > 0 {
		next, left := (*Bodies)(nil), blocks
		for _, b := range blocks {
			for _, joint := range best.broughtBy(b) {
				if tried++; tried > mostOrders {
					break
				}
				lay := best.lay.Postponed(joint, b.Joint)
				if lay == nil {
					continue
				}
				other := *best
				other.lay = lay
				if some := other.Replay(); len(some) < len(left) {
					next, left = &other, some
				}
			}
			if next != nil {
				break
			}
		}
		if next == nil {
			break
		}
		best, blocks = next, left
	}
	return best.lay, best, blocks
}

// broughtBy are the joints by which the two bodies of a block hang on the joint that is blocked,
// those nearest to them first: had one of them not been made yet, they would not meet.
func (s *Bodies) broughtBy(b Block) []int {
	var out []int
	for _, end := range [][2]int{{b.Stand, b.standOwn}, {b.Moving, b.movingOwn}} {
		if end[0] == end[1] || end[0] < 0 || end[1] < 0 {
			continue
		}
		out = append(out, s.between(end[0], end[1], b.Joint)...)
	}
	return out
}

// between are the joints made before a given one on the way from one body to another, in order.
func (s *Bodies) between(from, to, before int) []int {
	at := func(i int) string {
		if !s.All[i].New {
			return route.Existing
		}
		return s.All[i].ID
	}
	type step struct {
		id    string
		joint int
		last  int // index of the step before
	}
	steps := []step{{at(from), 0, -1}}
	seen := map[string]bool{at(from): true}
	for i := 0; i < len(steps); i++ {
		if steps[i].id == at(to) {
			var out []int
			for k := i; steps[k].last >= 0; k = steps[k].last {
				out = append([]int{steps[k].joint}, out...)
			}
			return out
		}
		for n := range s.lay.Joints[:before-1] {
			j := &s.lay.Joints[n]
			for _, e := range [][2]string{{j.BodyA, j.BodyB}, {j.BodyB, j.BodyA}} {
				if e[0] == steps[i].id && !seen[e[1]] {
					seen[e[1]] = true
					steps = append(steps, step{e[1], j.Number, i})
				}
			}
		}
	}
	return nil
}

// CheckUnblocked words what stands in the way when the work is put together in the best order
// of assembly that is found, which it returns with its bodies.
func (s *Bodies) CheckUnblocked() (*route.Layout, *Bodies, []graph.Diagnostic) {
	lay, bodies, blocks := s.Unblocked()
	return lay, bodies, bodies.wordBlocks(blocks)
}

// orWall names the wall that stands in the way besides a body.
func orWall(wall string) string {
	if wall == "" {
		return ""
	}
	return " or the " + wall + " of the cabinet"
}

func (s *Bodies) wordBlocks(blocks []Block) []graph.Diagnostic {
	var out []graph.Diagnostic
	for _, b := range blocks {
		j := &s.lay.Joints[b.Joint-1]
		moving := &s.All[b.Moving]
		if b.Stand < 0 {
			out = append(out, graph.Diagnostic{Pos: moving.Pos, Rule: "assembly", Severity: graph.Error,
				Message: graph.Say("joint %d: the body of %s can't go in between its nuts: square to the pipe the walls of the cabinet are in its way on every side, one of them the %s", j.Number, moving.Name, b.Wall),
				Hint:    "move the valve along its leg, away from the wall, or lead that leg farther inside",
				Related: []graph.Related{{Pos: s.lay.Circuit.Cabinet.Pos, Message: "the cabinet is described here"}}})
			continue
		}
		stand := &s.All[b.Stand]
		spigot, socket := j.A, j.B
		if j.Spigot == 'b' {
			spigot, socket = socket, spigot
		}
		pos := moving.Pos
		if !pos.IsValid() {
			pos = stand.Pos
		}
		if b.Sideways {
			out = append(out, graph.Diagnostic{Pos: pos, Rule: "assembly", Severity: graph.Error,
				Message: graph.Say("joint %d: the body of %s can't go in between its nuts: square to the pipe it runs into %s%s on every side, which stands there by then", j.Number, moving.Name, stand.Name, orWall(b.Wall)),
				Hint:    "lead what stands beside it farther off, or move the valve along its leg",
				Related: []graph.Related{{Pos: stand.Pos, Message: graph.Say("%s is here", stand.Name)}}})
			continue
		}
		out = append(out, graph.Diagnostic{Pos: pos, Rule: "assembly", Severity: graph.Error,
			Message: graph.Say("joint %d (%s into %s) can't be made in its turn: on its way in, %s, %s runs into %s, which stands there by then",
				j.Number, spigot, socket, quantity.Closely(j.DepthMM), moving.Name, stand.Name),
			Hint:    "say how far the old end can be drawn back (play), or draw two unions on the loop: what is between them goes in sideways, last",
			Related: []graph.Related{{Pos: stand.Pos, Message: graph.Say("%s is here", stand.Name)}}})
	}
	return graph.SortDiagnostics(out)
}

// clear reports whether a box about a body's way, from its least to its most corner, stands clear of the box about
// another body.
func (r *replay) clear(f int, low, high graph.Vec) bool {
	return high.X < r.low[f].X || low.X > r.high[f].X || high.Y < r.low[f].Y || low.Y > r.high[f].Y || high.Z < r.low[f].Z || low.Z > r.high[f].Z
}
