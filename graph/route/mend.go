package route

import (
	"fmt"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// judgeClosing finds a joint that cannot be made, with the cheapest change that mends it,
// and the ones that are made but only just.
func (o *sequence) judgeClosing(a *Assembly, c closing) {
	n := &o.lay.links[c.link]
	find := func(severity graph.Severity, message, hint quantity.Text, alters ...string) {
		a.Findings = append(a.Findings, graph.Diagnostic{Pos: o.pos(c), Rule: "assembly", Severity: severity, Message: message, Hint: hint, Alters: alters})
	}
	name := fmt.Sprintf("joint %d (%s)", c.link+1, o.meeting(c.link))
	switch {
	case c.how == "":
		a.OK = false
		has := quantity.Text("no union, slip coupling or hose lies on its loop")
		if n.Old {
			has += graph.Say(", and the old end can be drawn back %s where %s are needed (%s if it can be sprung aside)", mm(n.Play), mm(2*n.Depth), mm(n.Depth))
		}
		severity := graph.Error
		if n.Old && n.Depth == 0 { // of no known size: the pipe was described for its flow alone
			severity = graph.Warning
		}
		hint, alters := o.cheapest(c)
		find(severity, graph.Say("%s cannot be made: both its sides are fixed by then; %s", name, has), hint, alters...)
	case c.tight:
		hint := quantity.Text("say pushes-aside on the run if it can be pushed sideways, or use a union")
		if n.Aside != nil {
			hint = "hold it aside while the string is offered up, or use a union"
		}
		find(graph.Warning, graph.Say("%s needs the old end sprung aside: it can be drawn back %s, one depth is %s and two are %s", name, mm(n.Play), mm(n.Depth), mm(2*n.Depth)), hint)
	case c.with >= 0:
		find(graph.Warning, graph.Say("%s and joint %d must be glued at the same moment: together they close a rigid loop", name, c.with+1),
			"have a second pair of hands, or put a union or a true-union valve on the loop")
	}
	for _, k := range append(slices.Clone(c.cycle), c.link) {
		m := &o.lay.links[k]
		if m.Part != "" && o.lay.Joints[k].Kind == "slip" && !m.Slip && c.how == "" {
			find(graph.Note, graph.Say("slip coupling %s has no bare pipe as long as itself beside it to be parked on", m.Part), "make one of the pieces beside it longer")
			return
		}
	}
}

// pos is where in the description a closing is best pointed at: a new part or run on it.
func (o *sequence) pos(c closing) graph.Pos {
	if n := &o.lay.links[c.link]; n.Run >= 0 && o.lay.Circuit.Runs[n.Run].New() {
		return o.lay.Circuit.Runs[n.Run].Pos
	}
	for _, k := range append([]int{c.link}, c.cycle...) {
		n := &o.lay.links[k]
		for _, id := range []string{n.Part, partOf(n.A), partOf(n.B)} {
			if p := o.part(id); p != nil && p.Pos.IsValid() {
				return p.Pos
			}
		}
	}
	return graph.Pos{File: o.lay.Circuit.File}
}

// cheapest words the cheapest change that lets a loop be closed: a valve that is there
// anyway with unions of its own, else a union where it has room, else play. Package plan tries
// what drawn work can be given, and says that instead. The ids are those of the part or run to change.
func (o *sequence) cheapest(c closing) (hint quantity.Text, alters []string) {
	links := append(slices.Clone(c.cycle), c.link)
	var draw quantity.Text
	if n := &o.lay.links[c.link]; n.Old {
		draw = graph.Say(", or draw the old end back %s", mm(n.Depth))
	}
	for _, kinds := range [][]graph.Kind{{graph.BallValve}, {graph.CheckValve}, {graph.GateValve, graph.ButterflyValve}} {
		for _, k := range links {
			n := &o.lay.links[k]
			for _, id := range []string{partOf(n.A), partOf(n.B)} {
				if p := o.part(id); p != nil && slices.Contains(kinds, p.Kind) {
					if p.Kind == graph.GateValve || p.Kind == graph.ButterflyValve {
						return graph.Say("swap %s for a true-union ball valve%s", id, draw), []string{id}
					}
					return graph.Say("make %s a true-union valve%s", id, draw), []string{id}
				}
			}
		}
	}
	best, bare := -1, 0.0
	for _, k := range links {
		i := o.lay.links[k].Piece
		if i < 0 || o.lay.Pieces[i].Spec.Flexible() {
			continue
		}
		p := &o.lay.Pieces[i]
		if b := p.CutMM - p.From.DepthMM - p.To.DepthMM; b > bare {
			best, bare = i, b
		}
	}
	if best >= 0 {
		p := &o.lay.Pieces[best]
		return graph.Say("put a union into %s (piece %d)%s", LegWords(p.Run, p.Leg), p.Number, draw), []string{p.Run.ID}
	}
	if draw != "" {
		return draw[len(", or "):], nil
	}
	return "put a union on the loop", nil
}
