package retrofit

import (
	"slices"
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/retrofit/draft"
	"dryfit/graph/settle"
)

// assembly is the string that goes into the old line: tee, nipple, bypass element, nipple,
// tee. Lengths mm.
type assembly struct {
	half       float64 // a tee's centre to the stop of its socket on the line
	endAdd     float64 // what stands between it and the old pipe adds, where the old run comes to the string: bush, nipple, barb, a check
	endDepth   float64 // how deep the old pipe goes in there
	lastAdd    float64 // the same where it goes on
	lastDepth  float64
	first      float64    // nipple before the element, or the one piece between the tees
	element    float64    // stop to stop; 0 without one
	second     float64    // nipple after the element; 0 without one
	slips      [2]float64 // pieces to the slip couplings that let the string in, at its start and its end; 0 without one
	parks      [2]float64 // bare old pipe beyond the depth there, for a slip coupling to be slid back on
	guard      float64    // from the second tee's socket to the end of a check behind it, in the way of the water; 0 without one
	guardPiece float64    // the nipple before that check
	beads      [2]float64 // room for cement where the string begins in an old adaptor, at its start and its end
	extra      float64    // asked for, in the first nipple
	longer     float64    // in the first nipple too: so that the loop round the check holds its valve
	service    *service
	hasElement bool
	terms      []Term
	doubts     []Doubt
}

// newAssembly returns the shortest string that keeps the rules, longer by what is asked for.
//
// gap = sum of stop-to-stop lengths + sum of new pieces; from face to face of the sockets
// on the old pipe it needs the gap and both depths of the old pipe's ends in the new tees.
func (w work) newAssembly(choice Choice) assembly {
	tee := w.tee()
	a := assembly{half: tee.TakeOffMM, endDepth: tee.SocketMM, extra: max(0, w.asked.ExtraMM)}
	onBarb := w.oldSpec.IsHose()
	for k := range a.beads {
		if w.kept[k] {
			a.beads[k] = settle.BeadMM
		}
	}
	old, between := w.oldEnd(w.lineTee(), graph.RunIn)
	if old.TakeOff > 0 {
		a.endAdd, a.endDepth = old.TakeOff-a.half, old.Depth
	}
	a.lastAdd, a.lastDepth = a.endAdd, a.endDepth
	plainAdd, plainDepth := a.endAdd, a.endDepth // at a tee with nothing behind it
	guard, guarded := w.guardCheck(choice)
	guardEnd, guardBetween := draft.End{}, ""
	if guarded {
		a.guardPiece = draft.Nipple(tee.SocketMM, guard.socket)
		a.guard = a.guardPiece + guard.length
		guardEnd, guardBetween = w.oldEnd(w.lineCheck(), graph.Out)
		if w.against {
			a.endAdd, a.endDepth = a.guard+guardEnd.TakeOff, guardEnd.Depth
		} else {
			a.lastAdd, a.lastDepth = a.guard+guardEnd.TakeOff, guardEnd.Depth
		}
	}
	kind, b, has := w.element(choice)
	a.hasElement = has
	w.slide(&a, guarded || has && strings.Contains(b.row.Ends, "union") && !w.serviced(choice))
	a.doubt("first tee", tee, 2*a.half, 2)
	if has {
		a.doubt(describe(kind, b), b.row, b.length, 1)
	}
	a.doubt("second tee", tee, 2*a.half, 2)
	if guarded {
		a.doubt("check behind the second tee", guard.row, guard.length, 1)
	}
	e := ends{onBarb: onBarb, between: between, plainAdd: plainAdd, plainDepth: plainDepth, guard: guard, guardEnd: guardEnd, guardBetween: guardBetween}
	a.end(e, "first", guarded && w.against, w.kept[0])
	w.middle(&a, choice, tee)
	a.end(e, "second", guarded && !w.against, w.kept[1])
	return a
}

// ends is what stands at the two ends of a string, for the words of what it needs.
type ends struct {
	onBarb       bool
	between      string  // what stands between a tee and the old pipe
	plainAdd     float64 // at a tee with nothing behind it
	plainDepth   float64
	guard        body
	guardEnd     draft.End
	guardBetween string
}

// end says what stands at one end of the string: the tee there, and what the old pipe goes into.
func (a *assembly) end(e ends, which string, guardHere, keptHere bool) {
	add := a.add
	from, k, slipDepth := len(a.terms), 0, a.endDepth
	if which == "second" {
		k, slipDepth = 1, a.lastDepth
	}
	joint, teeMM := "old pipe into the %s tee", 2*a.half
	if e.onBarb {
		joint = "hose over the barb at the %s tee"
	}
	if !e.onBarb && !guardHere {
		teeMM += e.plainAdd
	}
	add(graph.Say("%s tee, stop to stop", which), teeMM)
	switch {
	case guardHere:
		add(graph.Say("nipple, two depths and %s", quantity.Length.Of(settle.BeadMM)), a.guardPiece)
		add(graph.Say("true-union check behind the %s tee, stop to stop", which), e.guard.length)
		if e.guardEnd.TakeOff > 0 {
			add(quantity.Text(e.guardBetween), e.guardEnd.TakeOff)
		}
		joint = "old pipe into the check behind the %s tee"
		if e.onBarb {
			joint = "hose over the barb at the check behind the %s tee"
		}
	case e.onBarb:
		add(quantity.Text(e.between), e.plainAdd)
	}
	depth := e.plainDepth
	if guardHere {
		depth = e.guardEnd.Depth
	}
	if a.slips[k] > 0 {
		add(graph.Say("piece to the slip coupling, two depths, %s, and %s that it is cut short of the old pipe", quantity.Length.Of(settle.BeadMM), quantity.Length.Of(settle.SlipClearMM)), a.slips[k])
		if a.parks[k] > 0 {
			add("more bare pipe, for the slip coupling to be slid back on", a.parks[k])
		}
		joint, depth = "old pipe into the slip coupling behind the %s tee", slipDepth
	}
	said := graph.Say(joint, which)
	if keptHere {
		joint = strings.Replace(strings.Replace(joint, "old pipe", "new pipe", 1), "hose over", "new hose over", 1)
		said, depth = graph.Say(joint, which)+graph.Say(", and %s to the old adaptor", quantity.Length.Of(settle.BeadMM)), depth+settle.BeadMM
	}
	add(said, depth)
	if k == 0 {
		slices.Reverse(a.terms[from:])
	}
}

// add adds a term of what the string needs.
func (a *assembly) add(what quantity.Text, mm float64) {
	a.terms = append(a.terms, Term{What: what, MM: mm})
}

// doubt adds a part whose length is a guess, with so many ends that may be off.
func (a *assembly) doubt(what string, row catalog.Row, mm, ends float64) {
	if over := ends * row.TolPlusMM; row.Measure && over > 0 {
		a.doubts = append(a.doubts, Doubt{What: quantity.Text(what), MM: mm, OverMM: over})
	}
}

// middle says what stands between the tees: the bypass element with its pieces, or one piece.
func (w work) middle(a *assembly, choice Choice, tee catalog.Row) {
	kind, b, has := w.element(choice)
	if !has {
		a.first = draft.Nipple(tee.SocketMM, tee.SocketMM) + a.extra
		a.add(graph.Say("piece between the tees, two depths and %s", quantity.Length.Of(settle.BeadMM)), a.first)
		return
	}
	a.element = b.length
	a.first = draft.Nipple(tee.SocketMM, b.socket) + a.extra
	a.second = draft.Nipple(b.socket, tee.SocketMM)
	if w.serviced(choice) {
		w.serviceLoop(a)
		a.add(graph.Say("piece to the tee of the loop round the check, two depths and %s", quantity.Length.Of(settle.BeadMM)), a.service.outer)
		a.add("that tee, stop to stop", 2*a.half)
		a.doubt("first tee of the loop", tee, 2*a.half, 2)
	}
	a.add(graph.Say("nipple, two depths and %s", quantity.Length.Of(settle.BeadMM)), a.first-a.extra-a.longer)
	if a.longer > 0 {
		a.add("longer, for the loop to hold its valve", a.longer)
	}
	if a.extra > 0 {
		a.add("straight pipe asked for", a.extra)
	}
	a.add(graph.Say("%s, stop to stop", describe(kind, b)), a.element)
	a.add(graph.Say("nipple, two depths and %s", quantity.Length.Of(settle.BeadMM)), a.second)
	if a.service != nil {
		a.add("second tee of the loop, stop to stop", 2*a.half)
		a.add(graph.Say("piece to the second tee, two depths and %s", quantity.Length.Of(settle.BeadMM)), a.service.outer)
		a.doubt("second tee of the loop", tee, 2*a.half, 2)
	}
}

func describe(kind graph.Kind, b body) string {
	name := map[graph.Kind]string{graph.CheckValve: "spring check", graph.BallValve: "ball valve",
		graph.GateValve: "gate valve", graph.ButterflyValve: "butterfly valve"}[kind]
	if strings.Contains(b.row.Ends, "union") {
		return "true-union " + name
	}
	return name
}

// spacing is centre to centre of the tees.
func (a assembly) spacing() float64 { return 2*a.half + a.first + a.element + a.second + a.serviceMM() }

// gap is from cut line to cut line.
func (a assembly) gap() float64 { return a.spacing() + 2*a.half + a.endAdd + a.lastAdd }

// spare is the bare pipe that an end (0 the start, 1 the end) needs beyond the depth of its joint.
func (a assembly) spare(k int) float64 { return a.beads[k] + a.parks[k] }

// needed is from face to face of the old sockets.
func (a assembly) needed() float64 {
	return a.gap() + a.endDepth + a.lastDepth + a.spare(0) + a.spare(1)
}
