package retrofit

import (
	"fmt"
	"strings"

	"dryfit/graph"
)

// assembly is the string that goes into the old line: tee, nipple, bypass element, nipple,
// tee. Lengths mm.
type assembly struct {
	half       float64 // a tee's centre to the stop of its socket on the line
	endAdd     float64 // what a bush for the old, smaller pipe adds to it
	endDepth   float64 // how deep the old pipe goes in
	first      float64 // nipple before the element, or the one piece between the tees
	element    float64 // stop to stop; 0 without one
	second     float64 // nipple after the element; 0 without one
	extra      float64 // asked for, in the first nipple
	hasElement bool
	terms      []Term
}

// newAssembly returns the shortest string that keeps the rules, longer by what is asked for.
//
// gap = sum of stop-to-stop lengths + sum of new pieces; from face to face of the sockets
// on the old pipe it needs the gap and both depths of the old pipe's ends in the new tees.
func (w work) newAssembly(choice Choice) assembly {
	tee := w.tee()
	a := assembly{half: tee.TakeOffMM, endDepth: tee.SocketMM, extra: max(0, w.asked.ExtraMM)}
	old := w.oldRigid()
	barb, onBarb := w.barb()
	switch {
	case onBarb:
		a.endAdd, a.endDepth = barb.takeOff, barb.depth
	case old != w.lineSize:
		a.endAdd = w.bushMM(w.lineSpec, w.lineSize, old)
		a.endDepth = w.depth(w.lineSpec, old)
	}
	kind, b, has := w.element(choice)
	a.hasElement = has
	add := func(what string, mm float64) { a.terms = append(a.terms, Term{What: what, MM: mm}) }

	joint, teeMM := "old pipe into the %s tee", 2*a.half+a.endAdd
	if onBarb {
		joint, teeMM = "hose over the barb at the %s tee", 2*a.half
	}
	add(fmt.Sprintf(joint, "first"), a.endDepth)
	if onBarb {
		add("barb, with the nipple it stands on", a.endAdd)
	}
	add("first tee, stop to stop", teeMM)
	if has {
		a.element = b.length
		a.first = nipple(tee.SocketMM, b.socket) + a.extra
		a.second = nipple(b.socket, tee.SocketMM)
		add(fmt.Sprintf("nipple, two depths and %d mm", BeadMM), a.first-a.extra)
		if a.extra > 0 {
			add("straight pipe asked for", a.extra)
		}
		add(describe(kind, b)+", stop to stop", a.element)
		add(fmt.Sprintf("nipple, two depths and %d mm", BeadMM), a.second)
	} else {
		a.first = nipple(tee.SocketMM, tee.SocketMM) + a.extra
		add(fmt.Sprintf("piece between the tees, two depths and %d mm", BeadMM), a.first)
	}
	add("second tee, stop to stop", teeMM)
	if onBarb {
		add("barb, with the nipple it stands on", a.endAdd)
	}
	add(fmt.Sprintf(joint, "second"), a.endDepth)
	return a
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
func (a assembly) spacing() float64 { return 2*a.half + a.first + a.element + a.second }

// gap is from cut line to cut line.
func (a assembly) gap() float64 { return a.spacing() + 2*(a.half+a.endAdd) }

// needed is from face to face of the old sockets.
func (a assembly) needed() float64 { return a.gap() + 2*a.endDepth }
