package retrofit

import (
	"math"

	"dryfit/graph"
)

// branchNotKept says that the tees' branches do not point the way asked for: where the line
// runs that way itself, or where the first leg to the unit leaves another way. first is
// that leg.
func (l *limb) branchNotKept(line, first graph.Vec) (graph.Diagnostic, bool) {
	l.d.PointTo("branch")
	asked := l.w.asked.Branch
	if asked.Len() == 0 {
		return graph.Diagnostic{}, false
	}
	cosLine, cosFirst := math.Abs(asked.Unit().Dot(line.Unit())), asked.Unit().Dot(first.Unit())
	d := graph.Diagnostic{Pos: l.d.Pos, Rule: "retrofit", Severity: graph.Warning}
	switch {
	case cosLine > 0.02:
		d.Message = graph.Say("branch = %q is not kept: the line runs that way here, and the tees' branches stand square to it", wayWord(asked))
		d.Hint = "name a way square to the pipe that is cut, or leave branch out"
	case cosFirst < 0.99 && math.Abs(first.Unit().Dot(line.Unit())) <= 0.02:
		d.Message = graph.Say("branch = %q is not kept: the first leg to the unit goes %s, and the branch points that way", wayWord(asked), wayWord(first))
		d.Hint = graph.Say("begin to-unit with a leg %s, or leave branch out", wayWord(asked))
	default:
		return graph.Diagnostic{}, false
	}
	return d, true
}

// wayWord names the direction nearest to a vector.
func wayWord(v graph.Vec) string {
	best, word := -1.0, ""
	for _, w := range []struct {
		by   graph.Vec
		word string
	}{{graph.Vec{X: 1}, "right"}, {graph.Vec{X: -1}, "left"}, {graph.Vec{Y: 1}, "back"}, {graph.Vec{Y: -1}, "front"}, {graph.Vec{Z: 1}, "up"}, {graph.Vec{Z: -1}, "down"}} {
		if c := v.Dot(w.by); c > best {
			best, word = c, w.word
		}
	}
	return word
}
