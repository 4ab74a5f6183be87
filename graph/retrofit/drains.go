package retrofit

import (
	"math"
	"slices"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/retrofit/draft"
	"dryfit/graph/retrofit/lead"
	"dryfit/graph/route/solid"
)

// spot is a leg where a drain or a bleed could stand, and which way its tee points.
type spot struct {
	s     *draft.Strand
	leg   int
	atEnd bool
	held  bool // at that end of the leg and no other
	turns bool // the turning point is at the end of the leg, not at its start
	way   graph.Vec
}

// drainsAndBleeds puts a drain at each low point of the unit's branch where water would be
// trapped and a bleed at each high point where air would be. Both strands and the unit are
// one line of water: its ends run out into the line.
func (l *limb) drainsAndBleeds(to, from *draft.Strand, line graph.Vec) {
	stretches := l.stretches(to, from, line)
	for _, sign := range []float64{-1, 1} { // low points, then high ones
		if !l.tapWanted(sign) {
			continue
		}
		for _, st := range stretches {
			for _, sp := range st.turning(sign) {
				if sp[0] > 0 || !st.tapped {
					l.tap(sp, st.legs, sign)
				}
			}
		}
	}
}

// tapWanted reports whether low points (sign -1) get drains, or high ones (sign 1) bleeds.
func (l *limb) tapWanted(sign float64) bool {
	drains := wanted(l.w.asked.Drains, true)
	if sign < 0 {
		return drains
	}
	return wanted(l.w.asked.Bleeds, drains) // drains alone speaks of both
}

// tapBehind stands the drain or the bleed that a check asks for between it and what is behind it in
// its leg, for once the check is there no room is left: in an upright leg, and in a level one where
// no leg behind it has the room. It returns the leg the check then goes into; ok is false where none
// is asked for, or the two have no room together.
func (l *limb) tapBehind(s *draft.Strand, check body, legs []int) (leg int, ok bool) {
	i := slices.IndexFunc(legs, func(k int) bool { return s.Free(k, check.socket) >= check.length })
	if i < 0 {
		return 0, false
	}
	k, tee := legs[i], l.tapItem()
	room := func(leg int) bool { return axial(s.Legs[leg].By) && s.Free(leg, tee.Depth) >= tee.Length }
	turn := k
	for turn < len(s.Legs) && math.Abs(s.Legs[turn].By.Z) <= graph.LevelMM {
		turn++
	}
	if turn == len(s.Legs) || turn > k && slices.ContainsFunc(s.FromStart()[k+1:turn+1], room) {
		return 0, false // level to the line, or room enough behind
	}
	sign := -math.Copysign(1, s.Legs[turn].By.Z) // it rises from there, so the water stays; it falls, so the air does
	both := tee.Length + draft.Nipple(tee.Depth, check.socket) + check.length
	if !l.tapWanted(sign) || !room(k) || s.Free(k, max(tee.Depth, check.socket)) < both {
		return 0, false
	}
	way := graph.Vec{Z: sign}
	if turn == k {
		way = graph.Vec{Y: -1}
	}
	kind, name := tapKind(sign)
	l.d.PointTo(name+"s", "from-unit", "at")
	return k, l.tapAt([]spot{{s: s, leg: k, atEnd: true, held: true, way: way}}, kind, name)
}

// stretch is what lies between two ends of the unit's branch that water and air pass of themselves: its heights,
// and the leg between each and the next, nil where nothing can stand: the unit, and the part of
// a leg beside the check that has no room left. An end at a check valve is shut.
type stretch struct {
	z               []float64
	legs            []*spot
	shutIn, shutOut bool
	tapped          bool // a drain or a bleed stands right behind the check it begins at
}

// stretches are the parts of the unit's branch between its tees and the check against a feeder.
func (l *limb) stretches(to, from *draft.Strand, line graph.Vec) []stretch {
	out := []stretch{{z: []float64{0}}}
	at := &out[0]
	add := func(s *draft.Strand, k int, rise float64) {
		at.legs, at.z = append(at.legs, &spot{s: s, leg: k}), append(at.z, at.z[len(at.z)-1]+rise)
	}
	for k := range to.Legs {
		add(to, k, to.Legs[k].By.Z)
	}
	rise := 0.0
	for _, g := range from.Legs {
		rise += g.By.Z
	}
	at.legs, at.z = append(at.legs, nil), append(at.z, line.Z-rise)
	for k := range from.Legs {
		whole := from.Legs[k].By
		i := slices.IndexFunc(from.Items, func(it draft.Item) bool {
			p := l.d.Part(it.Part)
			return it.Leg == k && p != nil && p.Kind == graph.CheckValve
		})
		if i < 0 {
			add(from, k, whole.Z)
			continue
		}
		check := from.Items[i]
		before := whole.Unit().Z * check.Pos
		add(from, k, before)
		if from.Back[k].Pos > check.Pos { // what is free of the leg lies behind the check
			at.legs[len(at.legs)-1] = nil
		}
		at.shutOut = true
		behind := slices.ContainsFunc(from.Items, func(it draft.Item) bool { return it.Tee && it.Leg == k && it.Pos > check.Pos })
		out = append(out, stretch{z: []float64{at.z[len(at.z)-1]}, shutIn: true, tapped: behind})
		at = &out[len(out)-1]
		add(from, k, whole.Z-before)
		if from.Back[k].Pos <= check.Pos { // it lies before the check
			at.legs[len(at.legs)-1] = nil
		}
	}
	return out
}

// wanted is what is said, else what goes without saying.
func wanted(said *bool, usual bool) bool {
	if said == nil {
		return usual
	}
	return *said
}

// turning returns the level stretches [first, last] of the heights that lie lower (sign -1) or
// higher (sign 1) than both neighbours; an open end is none, one that is shut is as a wall.
func (c *stretch) turning(sign float64) [][2]int {
	var out [][2]int
	z := c.z
	for i := 0; i < len(z); {
		j := i
		for j+1 < len(z) && math.Abs(z[j+1]-z[i]) <= graph.LevelMM {
			j++
		}
		first, last := i == 0, j == len(z)-1
		before := first && c.shutIn || !first && sign*(z[i]-z[max(0, i-1)]) > graph.LevelMM
		after := last && c.shutOut || !last && sign*(z[j]-z[min(j+1, len(z)-1)]) > graph.LevelMM
		if before && after && !(first && last) {
			out = append(out, [2]int{i, j})
		}
		i = j + 1
	}
	return out
}

// tap puts a drain or a bleed at a turning point: in a level leg of it, else in the leg that
// leads away from it.
func (l *limb) tap(at [2]int, legs []*spot, sign float64) {
	var spots []spot
	for seg := at[0]; seg < at[1]; seg++ {
		if sp := legs[seg]; sp != nil && axial(sp.s.Legs[sp.leg].By) {
			spots = append(spots, spot{s: sp.s, leg: sp.leg, way: graph.Vec{Z: sign}})
		}
	}
	beside := func(seg int, atEnd bool) {
		if seg < 0 || seg >= len(legs) {
			return // the check stands there
		}
		if sp := legs[seg]; sp != nil && axial(sp.s.Legs[sp.leg].By) {
			spots = append(spots, spot{s: sp.s, leg: sp.leg, atEnd: atEnd, turns: atEnd, way: graph.Vec{Y: -1}})
		}
	}
	beside(at[1], false) // the leg after the turning point begins at it
	beside(at[0]-1, true)

	kind, name := tapKind(sign)
	l.d.PointTo(name+"s", "to-unit", "at")
	if l.tapAt(spots, kind, name) {
		return
	}
	rule, what := "drain-at-low-points", "a drain at the low point"
	if kind == graph.AirBleed {
		rule, what = "bleed-at-high-points", "a bleed at the high point"
	}
	pos, hint := l.roomHint(spots, kind)
	l.findings = append(l.findings, graph.Diagnostic{Pos: pos, Rule: rule, Severity: graph.Note,
		Message: graph.Say("the legs to and from the unit have no room for %s", what), Hint: hint})
}

// tapKind is what a low point (sign -1) or a high one (sign 1) gets, and what its id begins with.
func tapKind(sign float64) (kind graph.Kind, name string) {
	if sign > 0 {
		return graph.AirBleed, "bleed"
	}
	return graph.DrainValve, "drain"
}

// tapAt stands a drain or a bleed in the first of the spots that is clear of everything; else
// anywhere. It reports whether one of them had room.
func (l *limb) tapAt(spots []spot, kind graph.Kind, name string) bool {
	for _, only := range []bool{true, false} {
		for _, sp := range l.turned(spots, only) {
			if l.tapIsNear(sp) && (!only || l.tapIsClear(sp)) && l.tapIn(sp, kind, name) {
				return true
			}
		}
	}
	return false
}

// roomHint says how a leg comes to have room for a drain or a bleed: of legs the user drew, the
// one that lacks least of it, and by how much; else where the unit stands decides.
func (l *limb) roomHint(spots []spot, kind graph.Kind) (graph.Pos, quantity.Text) {
	it := l.tapItem()
	least := func(own bool) (leg graph.Leg, lacks float64, ok bool) {
		lacks = math.Inf(1)
		for _, sp := range spots {
			g := sp.s.Legs[sp.leg]
			if own && (!g.Pos.IsValid() || g.Open) {
				continue
			}
			if mm := it.Length - sp.s.Free(sp.leg, it.Depth); mm > 0 && mm < lacks {
				leg, lacks, ok = g, mm, true
			}
		}
		return leg, lacks, ok
	}
	plug := quantity.Text("")
	if kind == graph.DrainValve {
		plug = "; a plug of the unit's own does as well if it is reached"
	}
	if leg, lacks, ok := least(true); ok {
		return leg.Pos, graph.Say("make your leg %s \"%s\" or longer, and the pipe beside it too", leg.Quoted(), leg.Longer(lacks, l.d.Job.Units).Words()) + plug
	}
	hint := quantity.Text("set the unit higher, lower or a little aside, give branch another way, or lead its pipes yourself with to-unit and from-unit")
	if leg, lacks, ok := least(false); ok {
		hint = graph.Say("the leg %s is %s too short for it: ", leg.Words(), quantity.Length.Of(math.Ceil(lacks))) + hint
	}
	return l.d.Pos, hint + plug
}

// axial reports whether a leg runs along one axis.
func axial(v graph.Vec) bool {
	u := v.Unit()
	return max(math.Abs(u.X), math.Abs(u.Y), math.Abs(u.Z)) > 0.9999
}

// turned returns the spots for a drain or a bleed, and behind them, where they are to be clear
// and the way of the pipe is known, the same ones at the other end of their leg and with their
// tees turned other ways square to it.
func (l *limb) turned(spots []spot, free bool) []spot {
	if !free || l.surveyed() == nil {
		return spots
	}
	out := append([]spot(nil), spots...)
	for _, sp := range spots {
		leg := sp.s.Legs[sp.leg].By.Unit()
		for _, way := range []graph.Vec{sp.way, {Y: -1}, {Y: 1}, {X: 1}, {X: -1}} {
			if math.Abs(way.Dot(leg)) > 0.02 {
				continue
			}
			ends := []bool{sp.atEnd, !sp.atEnd}
			if sp.held {
				ends = ends[:1]
			}
			for _, atEnd := range ends {
				if other := (spot{s: sp.s, leg: sp.leg, atEnd: atEnd, held: sp.held, turns: sp.turns, way: way}); !slices.Contains(out, other) {
					out = append(out, other)
				}
			}
		}
	}
	return out
}

// tapIsNear reports whether a tee in an upright leg would stand near enough the turning point it
// is for, the end of the leg or the check in it: what stands there already may be in between.
func (l *limb) tapIsNear(sp spot) bool {
	leg, it := sp.s.Legs[sp.leg], l.tapItem()
	centre := sp.s.SpotOf(it, sp.atEnd, sp.leg) + it.Length/2
	from, to := 0.0, leg.LengthMM()
	for _, i := range sp.s.Items {
		if p := l.d.Part(i.Part); i.Leg != sp.leg || p == nil || p.Kind != graph.CheckValve {
			continue
		}
		if i.Pos > centre {
			to = i.Pos
		} else {
			from = i.Pos + i.Length
		}
	}
	off := centre - from
	if sp.turns {
		off = to - centre
	}
	return sp.held || off*math.Abs(leg.By.Unit().Z) <= graph.TapNearMM
}

// surveyed is what is known of the room round the unit's two pipes; nil where nothing is, for the
// place of the cut is not.
func (l *limb) surveyed() *survey {
	if l.survey != nil {
		return l.survey
	}
	return l.drawn
}

// standing are the boxes of everything described that a drain or a bleed is turned clear of. Round
// pipes that the user leads it is what is there and the string: where the unit stands follows from
// their legs, and is in nobody's way.
func (l *limb) standing() []lead.Box {
	if l.survey != nil {
		return l.survey.known.around
	}
	if l.drawn.known.around == nil {
		l.drawn.known.around = l.drawn.there(true)
	}
	return l.drawn.known.around
}

// tapIsClear reports whether a tee with its drain or bleed would stand clear of everything that
// is described, and of the unit's two pipes; where the place of the cut is not known nothing is.
func (l *limb) tapIsClear(sp spot) bool {
	if l.surveyed() == nil || !sp.s.Located {
		return true
	}
	it, reach := l.tapItem(), l.tapReach()
	if sp.s.Free(sp.leg, it.Depth) < it.Length {
		return false
	}
	centre := sp.s.At(sp.leg, sp.s.SpotOf(it, sp.atEnd, sp.leg)+it.Length/2)
	along := sp.s.Legs[sp.leg].By.Unit().Scale(it.Length/2 + it.Depth)
	r := l.girth("tee", catalog.Row{})
	branch := solid.Capsule(centre, centre.Add(sp.way.Scale(reach)), r)
	for _, shape := range []solid.Shape{branch, solid.Cylinder(centre.Sub(along), centre.Add(along), r)} {
		for _, b := range l.standing() {
			if solid.Distance(shape, solid.Box(b.Low, b.High)) <= 0 {
				return false
			}
		}
	}
	for _, s := range l.pipes {
		for k := range s.Legs {
			if own := s == sp.s && k == sp.leg; !own && solid.Distance(branch, solid.Capsule(s.At(k, 0), s.At(k, s.Legs[k].LengthMM()), l.girth("elbow-90", catalog.Row{}))) <= 0 {
				return false
			}
		}
	}
	return true
}

// tapItem is the tee a drain or a bleed stands on.
func (l *limb) tapItem() draft.Item {
	tee, _ := l.w.cat.Fitting("tee", draft.Rigid(l.w.branchSpec), l.w.branchSize)
	return draft.Item{In: graph.RunIn, Out: graph.RunOut, Length: 2 * tee.TakeOffMM, Depth: tee.SocketMM, Tee: true}
}

// valveMM is how far a drain valve or a bleed is taken to reach beyond its pipe, with the hand
// that opens it, mm. Common practice, no source.
const valveMM = 60

// tapReach is how far a drain or a bleed reaches from the middle of its tee, mm.
func (l *limb) tapReach() float64 {
	w := l.w
	tee := &graph.Part{ID: "tap tee", Kind: graph.Tee, Spec: w.branchSpec, Size: w.branchSize, Surroundings: graph.NothingSaid()}
	for _, name := range graph.Tee.PortNames() {
		tee.Ports = append(tee.Ports, graph.Port{Name: name})
	}
	pipe, size := draft.Rigid(w.branchSpec), w.tapSize()
	off := w.stop(tee, graph.Branch, pipe, size)
	return off.TakeOff + draft.Nipple(off.Depth, w.depth(pipe, size)) + valveMM
}

// tapIn stands a tee in a leg with a drain valve or air bleed on its branch.
func (l *limb) tapIn(sp spot, kind graph.Kind, name string) bool {
	w := l.w
	id := l.d.Names.Numbered(name)
	teeID := l.d.Names.Fresh(id + "-tee")
	it := l.tapItem()
	it.Part = teeID
	if _, _, ok := sp.s.Put(it, sp.atEnd, sp.leg); !ok {
		l.d.Names.Release(id)
		l.d.Names.Release(teeID)
		return false
	}
	size := w.tapSize()
	l.d.AddPart(teeID, graph.Tee, w.branchSpec, w.branchSize)
	valve := l.d.AddPart(id, kind, draft.Rigid(w.branchSpec), size)
	pipe := draft.Rigid(w.branchSpec)
	off, far := w.stop(l.d.Part(teeID), graph.Branch, pipe, size), w.stop(valve, graph.In, pipe, size)
	way := sp.way.Scale(math.Ceil(off.TakeOff + draft.Nipple(off.Depth, far.Depth) + far.TakeOff))
	pipeID := l.d.AddRun(draft.At(teeID, graph.Branch), draft.At(valve.ID, graph.In), pipe, size, []graph.Leg{draft.Leg(way)})
	sp.s.IDs = append(sp.s.IDs, teeID, id, pipeID)
	return true
}
